"""Planned against weighed: a weighing judged, compared with the plan of its day, carried to other states."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import sqrt

from .axles import ROWS, Geometry, rear_x_m
from .book import Book, Row
from .errors import Unknown
from .limits import CONFIDENCE, Verdict, verdict
from .plan import Missing, Plan, base_correlation_of, geometry_of, plan_in, planned, planned_loads
from .plates import Rating, ratings_on
from .posterior import Learnt, Reconciled
from .reconcile import Session, reconcile
from .state import State, full_state, logged_state, state_of_copy
from .statics import Loads, Part
from .supplies import levels_at
from .unplanned import Unplanned, unplanned_mass, unplanned_total
from .visit import Visit, read_visit


@dataclass(frozen=True, slots=True)
class Judged:
    """A verdict with what it rests on (readings, plan, none) and, where it cannot tell, why."""

    verdict: Verdict
    source: str
    why: str | None = None


@dataclass(frozen=True, slots=True)
class Gap:
    """One row planned and weighed, in the state of the day; u are standard uncertainties."""

    row: str
    planned_kg: float
    planned_u_kg: float
    weighed_kg: float
    weighed_u_kg: float
    gap_kg: float
    gap_u_kg: float


@dataclass(frozen=True, slots=True)
class Comparison:
    """Everything that one weighing says."""

    weighing_id: str
    at: str
    visit: Visit
    state: State
    day: tuple[Judged, ...]
    full: tuple[Judged, ...]
    gaps: tuple[Gap, ...]
    unplanned: Unplanned | None
    items: tuple[Learnt, ...]
    missing: tuple[Missing, ...]
    planned: bool


def compare(*, book: Book, weighing_id: str, confidence: float | None = None) -> Comparison:
    """Judge one weighing of a book and compare it with the plan of its day.

    Verdicts on the day rest on the readings alone wherever they fix the row, else on the reconciled plan;
    readings that disagree (p < 0.01) make every row they touch "cannot tell". The full state always comes
    from the reconciled plan. Confidence is one-sided, the vehicle's own unless given. An unknown weighing is
    refused.
    """
    row = next((one for one in book.weighings if one.id == weighing_id), None)
    vehicle = book.vehicle
    if row is None or vehicle is None:
        raise Unknown("weighing_id", weighing_id, [one.id for one in book.weighings])
    visit = read_visit(weighing=row, vehicle=vehicle.body)
    state = state_of(book, row)
    ratings = ratings_on(plates=book.plates, day=row.body["at"][:10])
    level = confidence or vehicle.body.get("confidence") or CONFIDENCE
    if not planned(book=book):
        day = tuple(_judge_day(one, visit, None, level) for one in ratings if one.rating in ROWS)
        return Comparison(weighing_id, visit.at, visit, state, day, (), (), None, (), (), False)
    plan = plan_in(book=book, state=state, revisions=revisions_of(row))
    expected = planned_loads(book=book, plan=plan)
    learning = reconciled(book=book)
    counted = visit.agree and bool(visit.readings)
    today = learning.loads(plan, ROWS, session=weighing_id if counted else None)
    return Comparison(
        weighing_id=weighing_id,
        at=visit.at,
        visit=visit,
        state=state,
        day=tuple(_judge_day(one, visit, today, level) for one in ratings if one.rating in ROWS),
        full=judge_state(
            book=book, learning=learning, state=full_state(book=book), ratings=ratings, confidence=level
        ),
        gaps=_gaps(visit, expected),
        unplanned=_unplanned(visit, expected, geometry_of(book=book), extent(vehicle)),
        items=tuple(learning.posterior.learnt(part.id) for part in plan.lasting if not part.taken_off),
        missing=plan.missing,
        planned=True,
    )


def state_of(book: Book, weighing: Row) -> State:
    """The state that a weighing was made in: its own copy, or the log's where it has none."""
    copy = weighing.body.get("state")
    if copy:
        return state_of_copy(copy=copy)
    at = weighing.body["at"]
    return logged_state(book=book, at=at, levels=levels_at(book=book, at=at))


def revisions_of(weighing: Row) -> dict[str, str] | None:
    """The plan records that took part, by id; None where the weighing names none."""
    copy = weighing.body.get("state")
    return {one["id"]: one["rev"] for one in copy["plan"]} if copy and copy["plan"] else None


@dataclass(frozen=True, slots=True)
class Learning:
    """The reconciled plan, with the parts that stand for what is not on the list."""

    posterior: Reconciled
    unlisted: tuple[Part, ...]

    def loads(self, plan: Plan, rows: Sequence[str], session: str | None = None) -> Loads:
        """Loads of a plan in its state, or in that of a weighing; what is not on the list stays aboard."""
        lasting = (*plan.lasting, *self.unlisted)
        return self.posterior.loads(lasting=lasting, passing=plan.passing, rows=rows, session=session)


def reconciled(*, book: Book) -> Learning:
    """The present plan updated with every weighing of the book whose readings agree."""
    geometry = geometry_of(book=book)
    lasting = plan_in(book=book, state=full_state(book=book)).lasting
    vehicle = book.vehicle.body if book.vehicle else {}
    weighed: list[tuple[Visit, Plan]] = []
    for weighing in book.weighings:
        visit = read_visit(weighing=weighing, vehicle=vehicle)
        if visit.agree and visit.readings:
            plan = plan_in(book=book, state=state_of(book, weighing), revisions=revisions_of(weighing))
            weighed.append((visit, plan))
    gaps = [gap for visit, plan in weighed for gap in _gaps(visit, planned_loads(book=book, plan=plan))]
    unlisted = _unlisted(gaps, geometry)
    sessions = [
        Session(v.id, (*plan.lasting, *unlisted), plan.passing, v.readings, v.bridge, v.setup)
        for v, plan in weighed
    ]
    posterior = reconcile(
        lasting=(*lasting, *unlisted),
        geometry=geometry,
        sessions=sessions,
        base_correlation=base_correlation_of(book=book),
    )
    return Learning(posterior, unlisted)


def _unlisted(gaps: Sequence[Gap], geometry: Geometry) -> tuple[Part, ...]:
    """What is not on the list: mean 0, with the variance that the gaps have beyond their own.

    A plan that leaves things out is surer than it is right, and an update of it alone would forecast too little.
    Per axle the variance is max(0, mean of gap^2 - u^2) over the weighings (method of moments): 0, and no part at
    all, while plan and weighings agree. With totals alone it stands over the cargo, its place as good as unknown
    (assumed).
    """
    places = {"front": (0.0, 0.0), "rear": (geometry.wheelbase_m, 0.0)}
    if not any(gap.row in places for gap in gaps):
        places = {"gross": (0.75 * geometry.wheelbase_m, 0.35 * geometry.wheelbase_m)}
    out: list[Part] = []
    for row, (x_m, x_u_m) in places.items():
        excess = [gap.gap_kg**2 - gap.gap_u_kg**2 for gap in gaps if gap.row == row]
        if excess and sum(excess) > 0:
            out.append(Part(f"unlisted_{row}", 0.0, sqrt(sum(excess) / len(excess)), x_m, x_u_m))
    return tuple(out)


def judge_state(
    *, book: Book, learning: Learning, state: State, ratings: Sequence[Rating], confidence: float
) -> tuple[Judged, ...]:
    """Every rating in another state, from the reconciled plan."""
    plan = plan_in(book=book, state=state)
    rows = (*ROWS, "roof") if any(part.roof for part in plan.lasting) else ROWS
    found = learning.loads(plan, rows)
    return tuple(
        Judged(_verdict(one, found.value_kg(one.rating), found.u_kg(one.rating), confidence), "plan")
        for one in ratings
        if one.rating in rows
    )


def extent(vehicle: Row) -> tuple[float, float]:
    """Where the vehicle begins and ends, m; 1 m before and 1.6 m behind the axles if not known (assumed)."""
    body = vehicle.body
    front, rear = body.get("front_overhang_m"), body.get("rear_overhang_m")
    return -float(1.0 if front is None else front), float(body["wheelbase_m"]) + float(
        1.6 if rear is None else rear
    )


def _judge_day(rating: Rating, visit: Visit, today: Loads | None, confidence: float) -> Judged:
    row = rating.rating
    touched = any(set(reading.axles) & _axles(row) for reading in visit.readings)
    measured = visit.of(row)
    if measured is not None:
        found = _verdict(rating, measured.value_kg, measured.u_kg, confidence)
        if visit.agree or found.word == "not_known":
            return Judged(found, "readings")
        return Judged(replace(found, word="cannot_tell"), "readings", "readings_disagree")
    if today is not None:
        found = _verdict(rating, today.value_kg(row), today.u_kg(row), confidence)
        if touched and not visit.agree and found.word != "not_known":
            return Judged(replace(found, word="cannot_tell"), "plan", "readings_disagree")
        return Judged(found, "plan")
    blank = Verdict(rating.rating, rating.limit_kg, 0.0, 0.0, 0.0, None, None, "cannot_tell")
    return Judged(blank, "none", "not_weighed")


def _verdict(rating: Rating, value_kg: float, u_kg: float, confidence: float) -> Verdict:
    return verdict(
        rating=rating.rating,
        value_kg=value_kg,
        u_kg=u_kg,
        limit_kg=rating.limit_kg,
        confidence=confidence,
    )


def _axles(row: str) -> set[str]:
    return {"front", "rear"} if row == "gross" else {row}


def _gaps(visit: Visit, plan: Loads) -> tuple[Gap, ...]:
    out: list[Gap] = []
    for measured in visit.measured:
        planned_kg, planned_u = plan.value_kg(measured.row), plan.u_kg(measured.row)
        out.append(
            Gap(
                measured.row,
                planned_kg,
                planned_u,
                measured.value_kg,
                measured.u_kg,
                measured.value_kg - planned_kg,
                sqrt(planned_u**2 + measured.u_kg**2),
            )
        )
    return tuple(out)


def _unplanned(
    visit: Visit, expected: Loads, geometry: Geometry, ends: tuple[float, float]
) -> Unplanned | None:
    if not visit.agree:
        return None
    if visit.axles is not None:
        measured = Loads(visit.axles.axles, visit.axles.mean_kg, visit.axles.cov_kg2)
        return unplanned_mass(measured=measured, planned=expected, rear_x_m=rear_x_m(geometry), ends=ends)
    total = visit.of("gross")
    if total is None:
        return None
    return unplanned_total(
        weighed_kg=total.value_kg,
        weighed_u_kg=total.u_kg,
        planned_kg=expected.value_kg("gross"),
        planned_u_kg=expected.u_kg("gross"),
    )
