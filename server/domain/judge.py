"""Ratings judged: on the day of a weighing, and in other states."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from .axles import ROWS, TRAILER_ROWS
from .book import Book
from .learning import Learning
from .limits import Verdict, any_over, lifts, verdict
from .plan import geometry_of, plan_in
from .plates import Rating, ratings_of
from .state import full_state
from .statics import Loads
from .visit import Visit
from .worst import Worst, rated_rows, worst_levels


@dataclass(frozen=True, slots=True)
class Judged:
    """A verdict with what it rests on (readings, plan, none) and, where it cannot tell, why."""

    verdict: Verdict
    source: str
    why: str | None = None


@dataclass(frozen=True, slots=True)
class Chances:
    """Between which chances any rating of a state is exceeded."""

    least: float
    greatest: float


@dataclass(frozen=True, slots=True)
class Forecast:
    """All tanks full, everyone and everything aboard: every rating there, and at its worst levels of the tanks.

    `trailer_id` is the trailer that is on, None without one; `lifts` are rows whose load is below zero.
    """

    trailer_id: str | None
    full: tuple[Judged, ...]
    worst: tuple[Worst, ...]
    any_over: Chances
    lifts: tuple[str, ...]


def judge_day(
    *, ratings: Sequence[Rating], visit: Visit, today: Loads | None, confidence: float
) -> tuple[Judged, ...]:
    """The ratings that apply on the day of a visit.

    Verdicts rest on the readings alone wherever they fix the row, else on the reconciled plan (`today`); readings
    that disagree make every row they touch "cannot tell".
    """
    rows = (*ROWS, *(TRAILER_ROWS if visit.trailer_id else ()))
    roof = ("roof",) if today is not None and "roof" in today.rows else ()
    shown = [one for one in ratings if one.rating in (*rows, *roof)]
    return tuple(_judge_row(one, visit, today, confidence) for one in shown)


def forecast(
    *, book: Book, learning: Learning, day: str, confidence: float, trailer_id: str | None
) -> Forecast:
    """Every rating in the full state, from the reconciled plan, with a trailer on or without."""
    state = full_state(book=book, trailer_id=trailer_id)
    plan, geometry = plan_in(book=book, state=state), geometry_of(book=book, state=state)
    rows = rated_rows(plan=plan, geometry=geometry)
    ratings = [one for one in ratings_of(book=book, day=day, trailer_id=trailer_id) if one.rating in rows]
    found = learning.loads(plan, rows, geometry)
    worst = worst_levels(
        book=book,
        state=state,
        ratings=ratings,
        confidence=confidence,
        loads_in=lambda plan, rows: learning.loads(plan, rows, geometry),
    )
    full = tuple(Judged(_verdict(one, found, confidence), "plan") for one in ratings)
    least, greatest = any_over(
        probabilities=[
            one.verdict.over_probability for one in full if one.verdict.over_probability is not None
        ]
    )
    return Forecast(trailer_id, full, worst, Chances(least, greatest), lifts(loads=found))


def _judge_row(rating: Rating, visit: Visit, today: Loads | None, confidence: float) -> Judged:
    row = rating.rating
    measured = visit.of(row)
    if measured is not None:
        found = verdict(
            rating=row,
            value_kg=measured.value_kg,
            u_kg=measured.u_kg,
            limit_kg=rating.limit_kg,
            confidence=confidence,
        )
        return _doubted(Judged(found, "readings"), visit.agree)
    if today is not None and row in today.rows:
        return _doubted(Judged(_verdict(rating, today, confidence), "plan"), visit.agree or row == "roof")
    blank = Verdict(row, rating.limit_kg, 0.0, 0.0, 0.0, None, None, "cannot_tell")
    return Judged(blank, "none", "not_weighed")


def _doubted(judged: Judged, agree: bool) -> Judged:
    """Readings that disagree make a row "cannot tell", unless its rating is not even known."""
    if agree or judged.verdict.word == "not_known":
        return judged
    return replace(judged, verdict=replace(judged.verdict, word="cannot_tell"), why="readings_disagree")


def _verdict(rating: Rating, found: Loads, confidence: float) -> Verdict:
    return verdict(
        rating=rating.rating,
        value_kg=found.value_kg(rating.rating),
        u_kg=found.u_kg(rating.rating),
        limit_kg=rating.limit_kg,
        confidence=confidence,
    )
