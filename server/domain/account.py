"""Where the kilograms are: one column whose lines add up to the weighed mass."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import floor, sqrt

from .book import Book
from .errors import check_finite
from .forgotten import FORGOTTEN
from .history import Change, first_day, history, mass_of
from .plan import plan_in
from .statics import Loads, Part, loads
from .visit import Measured, Visit
from .weighed import PlannedDay, planned_day

WHOLE = ("gross", "combination")  # the rows that a column can add up to, the first that was weighed


@dataclass(frozen=True, slots=True)
class Line:
    """One line. `code` says what: plan, base, new, changed, removed, left, forgotten, people, what a tank holds,
    trailer, coupling, unplanned or bridge; `record_ids` and `author` say whose. `u_kg` is one standard uncertainty.
    """

    code: str
    mass_kg: float
    u_kg: float
    record_ids: tuple[str, ...] = ()
    author: str | None = None


@dataclass(frozen=True, slots=True)
class Account:
    """The column of one weighing, with the plan as it stood at the end of `day`."""

    weighing_id: str
    row: str
    day: str
    lines: tuple[Line, ...]
    weighed_kg: float
    weighed_u_kg: float


def account(*, book: Book, weighing_id: str, day: str | None = None) -> Account | None:
    """From the plan on a day to the mass on the bridge, in lines that add up to it.

    The plan (base and items, all aboard) as it stood at the end of `day` (without one, the first day with an item on
    the list); what each author entered until the weighing; loads left behind; the day's people and tanks;
    of a coupled trailer its mass in the combination, or what presses on the coupling in the gross; what nobody
    planned, which is the rest; and the bridge, 0 kg with its u. The u of a changed mass is that of the later figure
    (assumed). None without a plan, with readings that disagree, or where they fix neither gross nor combination. An
    unknown weighing and a day that is none are refused.
    """
    weighed = planned_day(book=book, weighing_id=weighing_id)
    measured = None if weighed is None else _whole(weighed.visit)
    if weighed is None or measured is None:
        return None
    since = day or first_day(book=book, until=weighed.visit.at)
    lines = [*_lasting(book, weighed, since), *_passing(book, weighed), *_trailer(weighed, measured.row)]
    rest_kg = measured.value_kg
    for line in lines:
        rest_kg -= line.mass_kg
    u_kg = sqrt(_planned(weighed, measured.row).u_kg(measured.row) ** 2 + measured.u_kg**2)
    lines += [Line("unplanned", rest_kg, u_kg), Line("bridge", 0.0, measured.u_kg)]
    return Account(weighing_id, measured.row, since, tuple(lines), measured.value_kg, measured.u_kg)


def whole_kg(*, masses_kg: Sequence[float]) -> tuple[int, ...]:
    """Whole kilograms that add up exactly to the rounded total, each less than 1 kg from its mass.

    Largest remainder: all are rounded down, and the kilograms that the total then lacks go to the greatest
    remainders, the earlier first (common practice of apportioning). Half a kilogram rounds up. Finite, else refused.
    """
    total = 0.0
    for mass_kg in masses_kg:
        total += check_finite("mass_kg", mass_kg)
    low = [floor(mass_kg) for mass_kg in masses_kg]
    lacking = floor(total + 0.5) - sum(low)
    order = sorted(range(len(low)), key=lambda i: low[i] - masses_kg[i])
    for i in order[:lacking]:
        low[i] += 1
    return tuple(low)


def _whole(visit: Visit) -> Measured | None:
    found = (visit.of(row) for row in WHOLE)
    return next((one for one in found if one is not None), None) if visit.agree else None


def _planned(weighed: PlannedDay, row: str) -> Loads:
    return loads(
        parts=weighed.plan.parts,
        geometry=weighed.geometry,
        rows=(row,),
        base_correlation=weighed.base_correlation,
    )


def _u_kg(weighed: PlannedDay, parts: Sequence[Part]) -> float:
    """Of a sum of masses, wherever they are."""
    found = loads(
        parts=parts, geometry=weighed.geometry, rows=("gross",), base_correlation=weighed.base_correlation
    )
    return found.u_kg("gross")


def _lasting(book: Book, weighed: PlannedDay, day: str) -> Iterator[Line]:
    """The plan of the day, what was entered since, and what stayed behind."""
    past = history(book=book, weighed=weighed, day=day)
    yield Line("plan", mass_of(parts=past.parts), _u_kg(weighed, past.parts))
    for author in dict.fromkeys(one.author for one in past.base):
        yield _entered(weighed, "base", [one for one in past.base if one.author == author])
    for author in dict.fromkeys(one.author for one in past.items):
        for how in ("new", "changed", "removed"):
            of = [one for one in past.items if one.author == author and one.how == how]
            if of:
                yield _entered(weighed, how, of)
    aboard = replace(weighed.state, items_away=())
    there = {part.id for part in weighed.plan.lasting}
    everything = plan_in(book=book, state=aboard, revisions=weighed.revisions).lasting
    left = [part for part in everything if part.id not in there and part.on == "vehicle"]
    if left:
        yield Line("left", -mass_of(parts=left), _u_kg(weighed, left), tuple(part.id for part in left))
    forgotten = [part for part in weighed.plan.lasting if part.id == FORGOTTEN]
    if forgotten:
        yield Line("forgotten", mass_of(parts=forgotten), _u_kg(weighed, forgotten))


def _entered(weighed: PlannedDay, code: str, changes: Sequence[Change]) -> Line:
    mass_kg, parts = 0.0, [part for one in changes for part in (one.after or one.before)]
    for one in changes:
        mass_kg += one.mass_kg
    return Line(
        code, mass_kg, _u_kg(weighed, parts), tuple(one.record_id for one in changes), changes[0].author
    )


def _passing(book: Book, weighed: PlannedDay) -> Iterator[Line]:
    """The day's people, then one line per tank with its content, its remainder and a can's own mass."""
    parts = [part for part in weighed.plan.passing if part.on == "vehicle"]
    people = [part for part in parts if part.id.endswith(":occupant")]
    if people:
        seats = {f"{one.seat_id}:occupant": one.person_id or one.seat_id for one in weighed.state.seats}
        yield Line(
            "people", mass_of(parts=people), _u_kg(weighed, people), tuple(seats[one.id] for one in people)
        )
    holds = {row.id: row.body["holds"] for row in (*book.tanks, *book.gone) if row.kind == "tank"}
    tanks: dict[str, list[Part]] = {}
    for part in parts:
        if not part.id.endswith(":occupant"):
            tanks.setdefault(part.id.rsplit(":", 1)[0], []).append(part)
    for tank, of in tanks.items():
        yield Line(holds[tank], mass_of(parts=of), _u_kg(weighed, of), (tank,))


def _trailer(weighed: PlannedDay, row: str) -> Iterator[Line]:
    parts = [part for part in weighed.plan.parts if part.on != "vehicle"]
    if not parts:
        return
    found = loads(parts=parts, geometry=weighed.geometry, rows=(row,))
    ids = tuple(dict.fromkeys(part.on for part in parts))
    yield Line("coupling" if row == "gross" else "trailer", found.value_kg(row), found.u_kg(row), ids)
