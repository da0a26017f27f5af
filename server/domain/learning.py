"""What all weighings of a book teach about its plan.

Each weighing is first read by itself (`weighed_days`), then all are put together (`learn`). The first is the costly
part and does not depend on the others, so that a caller can keep it while a new weighing grows.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import sqrt

from .axles import Geometry, rows_of
from .book import Book, Row
from .day import revisions_of
from .plan import Plan, base_correlation_of, geometry_of, lasting_of, plan_in, planned_loads, reckoned
from .posterior import Reconciled
from .reconcile import Session, reconcile
from .statics import Loads, Part
from .visit import Visit, read_visit


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
class WeighedDay:
    """One weighing read: the visit, the plan in the state of that day, what it says, and the differences.

    Without a plan that reaches the state only the visit is there.
    """

    visit: Visit
    plan: Plan | None
    geometry: Geometry | None
    expected: Loads | None
    gaps: tuple[Gap, ...]
    session: Session | None

    @property
    def teaches(self) -> bool:
        """Whether its readings agree and the plan reaches it."""
        return self.session is not None and self.visit.agree and bool(self.session.readings)


@dataclass(frozen=True, slots=True)
class Learning:
    """The reconciled plan, with the parts that stand for what is not on the list."""

    posterior: Reconciled
    unlisted: tuple[Part, ...]

    def loads(self, plan: Plan, rows: Sequence[str], geometry: Geometry, session: str | None = None) -> Loads:
        """Loads of a plan in its state, or in that of a weighing; what is not on the list stays aboard."""
        towed = geometry.trailer.id if geometry.trailer else None
        lasting = (*plan.lasting, *(part for part in self.unlisted if part.on in ("vehicle", towed)))
        return self.posterior.loads(
            lasting=lasting, passing=plan.passing, rows=rows, geometry=geometry, session=session
        )


def weighed_day(*, book: Book, weighing: Row) -> WeighedDay:
    """One weighing read by itself, with the plan of its day in its own state."""
    visit = read_visit(book=book, weighing=weighing)
    if not reckoned(book=book, state=visit.state):
        return WeighedDay(visit, None, None, None, (), None)
    plan = plan_in(book=book, state=visit.state, revisions=revisions_of(weighing=weighing))
    expected = planned_loads(book=book, plan=plan, state=visit.state)
    geometry = geometry_of(book=book, state=visit.state)
    session = _session(visit, plan, geometry)
    return WeighedDay(visit, plan, geometry, expected, gaps_of(visit=visit, expected=expected), session)


def weighed_days(*, book: Book, known: Sequence[WeighedDay] = ()) -> tuple[WeighedDay, ...]:
    """All weighings of a book read by themselves; those that are `known` from this very book are taken over."""
    kept = {day.visit.id: day for day in known}
    return tuple(kept.get(one.id) or weighed_day(book=book, weighing=one) for one in book.weighings)


def learn(*, book: Book, days: Sequence[WeighedDay]) -> Learning:
    """The present plan updated with every weighing that teaches."""
    taught = [day for day in days if day.teaches]
    geometry = geometry_of(book=book)
    unlisted = _unlisted(taught, geometry)
    posterior = reconcile(
        lasting=lasting_of(book=book),
        geometry=geometry,
        sessions=[day.session for day in taught if day.session],
        unlisted=unlisted,
        base_correlation=base_correlation_of(book=book),
    )
    return Learning(posterior, unlisted)


def gaps_of(*, visit: Visit, expected: Loads) -> tuple[Gap, ...]:
    """Every measured row that the plan knows, planned and weighed."""
    out: list[Gap] = []
    for measured in visit.measured:
        if measured.row not in expected.rows:
            continue
        planned_kg, planned_u = expected.value_kg(measured.row), expected.u_kg(measured.row)
        u = sqrt(planned_u**2 + measured.u_kg**2)
        gap_kg = measured.value_kg - planned_kg
        out.append(Gap(measured.row, planned_kg, planned_u, measured.value_kg, measured.u_kg, gap_kg, u))
    return tuple(out)


def _session(visit: Visit, plan: Plan, geometry: Geometry) -> Session:
    """The weighing as the plan is held against it: readings of rows and people that the plan knows."""
    rows, known = set(rows_of(geometry)), {part.id for part in plan.passing}
    readings = tuple(one for one in visit.readings if set(one.axles) <= rows and set(one.without) <= known)
    return Session(visit.id, plan.lasting, plan.passing, readings, visit.bridge, visit.setup, geometry)


def _unlisted(taught: Sequence[WeighedDay], geometry: Geometry) -> tuple[Part, ...]:
    """What is not on the list: mean 0, with the variance that the gaps have beyond their own.

    A plan that leaves things out is surer than it is right, and an update of it alone would forecast too little.
    Per axle the variance is max(0, mean of gap^2 - u^2) over the weighings (method of moments): 0, and no part at
    all, while plan and weighings agree. With totals alone it stands over the cargo, its place as good as unknown
    (assumed). A trailer's own stands on its coupling and over its axles; what it puts on the coupling shows in the
    vehicle's gross, against its weighings without a trailer, where nobody has weighed it uncoupled.
    """
    solo = [gap for day in taught for gap in day.gaps if day.visit.trailer_id is None]
    own = solo or [gap for day in taught for gap in day.gaps]
    places = {"front": (0.0, 0.0), "rear": (geometry.wheelbase_m, 0.0)}
    if not any(gap.row in places for gap in own):
        places = {"gross": (0.75 * geometry.wheelbase_m, 0.35 * geometry.wheelbase_m)}
    out = [
        _excess(f"unlisted_{row}", row, own, x_m, x_u_m, "vehicle") for row, (x_m, x_u_m) in places.items()
    ]
    levers = {
        day.geometry.trailer.id: day.geometry.trailer
        for day in taught
        if day.geometry and day.geometry.trailer
    }
    for lever in levers.values():
        towed = [gap for day in taught for gap in day.gaps if day.visit.trailer_id == lever.id]
        towed += _on_coupling(towed, solo)
        for row, x_m in (("coupling", 0.0), ("trailer_axles", lever.coupling_to_axle_m)):
            out.append(_excess(f"unlisted_{row}:{lever.id}", row, towed, x_m, 0.0, lever.id))
    return tuple(part for part in out if part is not None)


def _on_coupling(towed: Sequence[Gap], solo: Sequence[Gap]) -> list[Gap]:
    """Differences of the coupling load from gross alone: those with the trailer less the mean of those without."""
    alone = [gap for gap in solo if gap.row == "gross"]
    if not alone or any(gap.row == "coupling" for gap in towed):
        return []
    mean = sum(gap.gap_kg for gap in alone) / len(alone)
    mean_u2 = sum(gap.gap_u_kg**2 for gap in alone) / len(alone) ** 2
    return [
        replace(gap, row="coupling", gap_kg=gap.gap_kg - mean, gap_u_kg=sqrt(gap.gap_u_kg**2 + mean_u2))
        for gap in towed
        if gap.row == "gross"
    ]


def _excess(name: str, row: str, gaps: Sequence[Gap], x_m: float, x_u_m: float, on: str) -> Part | None:
    excess = [gap.gap_kg**2 - gap.gap_u_kg**2 for gap in gaps if gap.row == row]
    if not excess or sum(excess) <= 0:
        return None
    return Part(name, 0.0, sqrt(sum(excess) / len(excess)), x_m, x_u_m, on=on)
