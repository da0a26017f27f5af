"""Planned against weighed: a weighing judged, compared with the plan of its day, carried to other states."""

from collections.abc import Sequence
from dataclasses import dataclass

from .axles import rear_x_m
from .book import Book, Row
from .errors import Unknown
from .judge import Forecast, Judged, forecast, judge_day
from .learning import Gap, Learning, WeighedDay, learn, weighed_days
from .limits import CONFIDENCE, lifts
from .plan import Missing, planned, reckoned
from .plates import ratings_of
from .posterior import Learnt
from .state import State, full_state
from .statics import Loads
from .unplanned import Unplanned, unplanned_mass, unplanned_total
from .visit import Visit
from .worst import rated_rows


@dataclass(frozen=True, slots=True)
class Comparison:
    """Everything that one weighing says.

    `forecasts` are the full states: without a trailer, then with each trailer that the plan reaches. `unplanned` is
    weighed less planned on the vehicle, `unplanned_trailer` on the trailer that was on.
    """

    weighing_id: str
    at: str
    visit: Visit
    state: State
    day: tuple[Judged, ...]
    lifts: tuple[str, ...]
    forecasts: tuple[Forecast, ...]
    gaps: tuple[Gap, ...]
    unplanned: Unplanned | None
    unplanned_trailer: Unplanned | None
    items: tuple[Learnt, ...]
    missing: tuple[Missing, ...]
    planned: bool


def compare(
    *,
    book: Book,
    weighing_id: str,
    confidence: float | None = None,
    known: Sequence[WeighedDay] = (),
    learning: Learning | None = None,
) -> Comparison:
    """Judge one weighing of a book and compare it with the plan of its day.

    Verdicts on the day rest on the readings alone wherever they fix the row, else on the reconciled plan; readings that
    disagree (p < 0.01) make every row "cannot tell". The full states always come from the reconciled plan. Confidence
    is one-sided, the vehicle's own unless given. `known` are days of this book read before, and `learning`
    what all of them teach, where a caller has them. An unknown weighing is refused.
    """
    vehicle = book.vehicle
    days = weighed_days(book=book, known=known)
    day = next((one for one in days if one.visit.id == weighing_id), None)
    if day is None or vehicle is None:
        raise Unknown("weighing_id", weighing_id, [one.id for one in book.weighings])
    visit, level = day.visit, confidence or vehicle.body.get("confidence") or CONFIDENCE
    date = visit.at[:10]
    ratings = ratings_of(book=book, day=date, trailer_id=visit.trailer_id)
    if learning is None and planned(book=book):
        learning = learn(book=book, days=days)
    today = _today(day, learning)
    return Comparison(
        weighing_id=weighing_id,
        at=visit.at,
        visit=visit,
        state=visit.state,
        day=judge_day(ratings=ratings, visit=visit, today=today, confidence=level),
        lifts=lifts(loads=today or visit.loads),
        forecasts=_forecasts(book, learning, date, level),
        gaps=day.gaps,
        unplanned=_unplanned(day, vehicle),
        unplanned_trailer=_unplanned_trailer(day),
        items=_items(day, learning),
        missing=day.plan.missing if day.plan else (),
        planned=learning is not None,
    )


def extent(vehicle: Row) -> tuple[float, float]:
    """Where the vehicle begins and ends, m; 1 m before and 1.6 m behind the axles if not known (assumed)."""
    body = vehicle.body
    front, rear = body.get("front_overhang_m"), body.get("rear_overhang_m")
    return -float(1.0 if front is None else front), float(body["wheelbase_m"]) + float(
        1.6 if rear is None else rear
    )


def _today(day: WeighedDay, learning: Learning | None) -> Loads | None:
    """Every row on the day from the reconciled plan, its own readings included where they agree."""
    if learning is None or day.plan is None or day.geometry is None:
        return None
    rows = rated_rows(plan=day.plan, geometry=day.geometry)
    return learning.loads(day.plan, rows, day.geometry, session=day.visit.id if day.teaches else None)


def _forecasts(book: Book, learning: Learning | None, day: str, confidence: float) -> tuple[Forecast, ...]:
    if learning is None:
        return ()
    trailers = [
        trailer.id
        for trailer in book.trailers
        if reckoned(book=book, state=full_state(book=book, trailer_id=trailer.id))
    ]
    return tuple(
        forecast(book=book, learning=learning, day=day, confidence=confidence, trailer_id=one)
        for one in (None, *trailers)
    )


def _items(day: WeighedDay, learning: Learning | None) -> tuple[Learnt, ...]:
    if learning is None or day.plan is None:
        return ()
    return tuple(learning.posterior.learnt(part.id) for part in day.plan.lasting if not part.taken_off)


def _unplanned(day: WeighedDay, vehicle: Row) -> Unplanned | None:
    visit, expected = day.visit, day.expected
    if expected is None or day.geometry is None or not visit.agree:
        return None
    if {"front", "rear"} <= set(visit.loads.rows):
        x_m = rear_x_m(day.geometry)
        return unplanned_mass(measured=visit.loads, planned=expected, rear_x_m=x_m, ends=extent(vehicle))
    return _total(day, "gross", expected)


def _unplanned_trailer(day: WeighedDay) -> Unplanned | None:
    if day.visit.trailer_id is None or day.expected is None or not day.visit.agree:
        return None
    return _total(day, "trailer", day.expected) or _total(day, "trailer_axles", day.expected)


def _total(day: WeighedDay, row: str, expected: Loads) -> Unplanned | None:
    measured = day.visit.of(row)
    if measured is None:
        return None
    return unplanned_total(
        weighed_kg=measured.value_kg,
        weighed_u_kg=measured.u_kg,
        planned_kg=expected.value_kg(row),
        planned_u_kg=expected.u_kg(row),
    )
