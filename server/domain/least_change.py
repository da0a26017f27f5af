"""The least change of a book in a state: what to move, leave or let out so that every rating is under.

Masses are those that plan and weighings together say, with their whole covariance, so that what is said of the change
is what the plan would say once it is made.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from .advice import Advice, Held, Item, Limit, Option, Slot, advise
from .axles import Geometry
from .book import Book, Row
from .change_options import (
    Choice,
    Refused,
    Subject,
    Unrated,
    content_l,
    item_subjects,
    room_l,
    tank_subjects,
    usual_water_reserve,
    without_refused,
)
from .change_sums import Liquid, Sum, Sums
from .errors import Unknown, check_range
from .fuel import TankSpec, usual_reserve
from .learning import Learning
from .limits import CONFIDENCE, Verdict, verdict
from .normal import z_at
from .parts import fuel_of
from .plan import Missing, Plan, geometry_of, plan_in
from .plates import ratings_of
from .state import State, TankLevel
from .statics import Part
from .worst import rated_rows

LEAST, SHARE, CONTENT = ":least", ":share", ":content"
TANKS = ("as_is", "worst")


@dataclass(frozen=True, slots=True)
class Wishes:
    """What the owner wants of the answer.

    `tanks` takes the levels as they are, and then liquids may be let out, of the kinds in `let_out`, or poured over; or
    it takes each limit at the levels that are `worst` for it. Confidence is one-sided, the vehicle's own unless given.
    Blank reserves are the usual ones: water 6 L a day and adult for 4 days, fuel 8 L or 10 %.
    """

    tanks: str = "as_is"
    objective: str = "moves"
    confidence: float | None = None
    refused: tuple[Refused, ...] = ()
    let_out: tuple[str, ...] = ("water",)
    water_reserve_l: float | None = None
    fuel_reserve_l: float | None = None
    least_coupling_kg: float = 0.0
    least_coupling_share: float | None = None


@dataclass(frozen=True, slots=True)
class Problem:
    """What the solver is asked; see `advise`."""

    limits: tuple[Limit, ...]
    items: tuple[Item, ...]
    slots: tuple[Slot, ...]
    errors: tuple[tuple[float, ...], ...]
    confidence: float
    objective: str


@dataclass(frozen=True, slots=True)
class Posed:
    """The problem of a book, with what its items and options stand for: `subjects` in the order of the items."""

    problem: Problem
    subjects: tuple[Subject, ...]
    unrated: tuple[Unrated, ...]
    missing: tuple[Missing, ...]


@dataclass(frozen=True, slots=True)
class Effect:
    """What a move does to the load of a rating, kg."""

    rating: str
    kg: float


@dataclass(frozen=True, slots=True)
class Move:
    """One thing to do, with what leaves the vehicle and what it does to each rating."""

    subject_id: str
    kind: str
    choice: Choice
    off_kg: float
    effects: tuple[Effect, ...]


@dataclass(frozen=True, slots=True)
class Floor:
    """What must not be less: the load of the front axle and of the coupling, kg, and what is kept of a liquid, L."""

    id: str
    least: float
    before: Held
    after: Held
    met_before: bool
    met_after: bool


@dataclass(frozen=True, slots=True)
class LeastChange:
    """The moves with every rating before and after them; `advice` says how good and how sure the answer is."""

    advice: Advice
    moves: tuple[Move, ...]
    before: tuple[Verdict, ...]
    after: tuple[Verdict, ...]
    floors: tuple[Floor, ...]


def least_change(
    *,
    book: Book,
    state: State,
    learning: Learning,
    day: str,
    session: str | None = None,
    wishes: Wishes | None = None,
) -> LeastChange:
    """The least change that brings every known rating of a state under: `pose_change`, `advise`, `read_change`."""
    posed = pose_change(book=book, state=state, learning=learning, day=day, session=session, wishes=wishes)
    asked = posed.problem
    advice = advise(
        limits=asked.limits,
        items=asked.items,
        slots=asked.slots,
        errors=asked.errors,
        confidence=asked.confidence,
        objective=asked.objective,
    )
    return read_change(posed=posed, advice=advice)


def pose_change(
    *,
    book: Book,
    state: State,
    learning: Learning,
    day: str,
    session: str | None = None,
    wishes: Wishes | None = None,
) -> Posed:
    """The book's problem for `advise`.

    Loads are those of plan and weighings in the state or, with `session`, in the very state of that weighing. Beside
    the ratings in force on `day`, the front axle and the coupling are not to lift; the coupling load is at least
    `least_coupling_kg` and the share `least_coupling_share` of the trailer's mass where these are given; all at the
    confidence. Water and fuel are not let out below their reserves, by their levels. A rating that is not known is no
    limit here, but nothing is moved onto a roof or a trailer without one. A plan without wheelbase is refused.
    """
    wish = wishes or Wishes()
    if wish.tanks not in TANKS:
        raise Unknown("tanks", wish.tanks, TANKS)
    level = wish.confidence or (book.vehicle.body.get("confidence") if book.vehicle else None) or CONFIDENCE
    plan, geometry = plan_in(book, state), geometry_of(book=book, state=state)
    trailer_id = geometry.trailer.id if geometry.trailer else None
    ratings = {one.rating: one.limit_kg for one in ratings_of(book=book, day=day, trailer_id=trailer_id)}
    known = {rating: kg for rating, kg in ratings.items() if kg is not None}
    items, unrated = item_subjects(book=book, state=state, plan=plan, rated=tuple(known))
    liquids = tank_subjects(book=book, state=state, let_out=wish.let_out) if wish.tanks == "as_is" else ()
    subjects = without_refused(subjects=(*items, *liquids), refused=wish.refused)
    rows = list(rated_rows(plan=plan, geometry=geometry))
    if "roof" not in rows and any(way.part and way.part.roof for one in subjects for way in one.choices):
        rows.append("roof")
    asked = [Sum(row, {row: 1.0}, known[row]) for row in rows if row in known]
    sums = Sums(posterior=learning.posterior, geometry=geometry, sums=[*asked, *_floors(geometry, wish)])
    worst_z = z_at(level) if wish.tanks == "worst" else None
    _fix(sums, book, state, learning, geometry, plan, subjects, session, worst_z)
    made = _items(sums, book, state, plan, subjects, session)
    limits, errors = sums.finish()
    stores = _stores(book, state, subjects, wish)
    problem = Problem(
        (*limits, *(limit for limit, _ in stores)),
        tuple(_counted(item, one, stores) for item, one in zip(made, subjects, strict=True)),
        _rooms(book, state, subjects),
        errors,
        level,
        wish.objective,
    )
    return Posed(problem, subjects, unrated, plan.missing)


def read_change(*, posed: Posed, advice: Advice) -> LeastChange:
    """The solver's answer as moves and verdicts. With no answer there are no moves, and after is as before."""
    problem = posed.problem
    upper = [k for k, one in enumerate(problem.limits) if not one.least]
    moves = []
    for subject, item, pick in zip(posed.subjects, problem.items, advice.picks, strict=False):
        if pick == 0:
            continue
        here, there = item.options[0], item.options[pick]
        effects = tuple(Effect(problem.limits[k].id, there.loads_kg[k] - here.loads_kg[k]) for k in upper)
        moves.append(Move(subject.id, subject.kind, subject.choices[pick - 1], there.off_kg, effects))
    z = z_at(problem.confidence)
    floors = [
        Floor(one.id, one.limit_kg, before, after, *(_is_met(held, one, z) for held in (before, after)))
        for one, before, after in zip(problem.limits, advice.before, advice.after, strict=True)
        if one.least
    ]
    judged = [
        tuple(_judge(held[k], problem.limits[k], problem.confidence) for k in upper)
        for held in (advice.before, advice.after)
    ]
    return LeastChange(advice, tuple(moves), judged[0], judged[1], tuple(floors))


def _judge(held: Held, limit: Limit, confidence: float) -> Verdict:
    return verdict(
        rating=held.id,
        value_kg=held.value_kg,
        u_kg=held.u_kg,
        limit_kg=limit.limit_kg,
        confidence=confidence,
    )


def _is_met(held: Held, limit: Limit, z: float) -> bool:
    return held.value_kg - z * held.u_kg >= limit.limit_kg - 1e-9


def _floors(geometry: Geometry, wish: Wishes) -> list[Sum]:
    check_range("least_coupling_kg", wish.least_coupling_kg, low=0.0, unit="kg")
    out = [Sum("front" + LEAST, {"front": 1.0}, 0.0, True)]
    if geometry.trailer is None:
        return out
    out.append(Sum("coupling" + LEAST, {"coupling": 1.0}, wish.least_coupling_kg, True))
    if wish.least_coupling_share is not None:
        share = check_range("least_coupling_share", wish.least_coupling_share, low=0.0, high=1.0)
        out.append(Sum("coupling" + SHARE, {"coupling": 1.0, "trailer": -share}, 0.0, True))
    return out


def _fix(
    sums: Sums,
    book: Book,
    state: State,
    learning: Learning,
    geometry: Geometry,
    plan: Plan,
    subjects: Sequence[Subject],
    session: str | None,
    worst_z: float | None,
) -> None:
    """Everything that does not move, contents as they are or each at its worst end."""
    moving = {one.id for one in subjects if one.kind == "item"}
    towed = geometry.trailer.id if geometry.trailer else None
    unlisted = [part for part in learning.unlisted if part.on in ("vehicle", towed)]
    for part in (*(one for one in plan.lasting if one.id not in moving), *unlisted):
        sums.fix(part)
    if worst_z is None:
        for part in plan.passing:
            sums.fix(part, session or "")
        return
    brim = replace(state, tanks=tuple(TankLevel(tank.id, 1.0, 0.0, "typed") for tank in book.tanks))
    for part in plan_in(book, brim).passing:
        if part.id.endswith(CONTENT):
            sums.fix_worst(part, worst_z)
        else:
            sums.fix(part, session or "")


def _items(
    sums: Sums, book: Book, state: State, plan: Plan, subjects: Sequence[Subject], session: str | None
) -> list[Item]:
    """Each subject with its options, staying first."""
    parts = {part.id: part for part in (*plan.lasting, *plan.passing)}
    weighed_singly = {row.id for row in book.items if row.body.get("weighed_singly")}
    liquids = _liquids(sums, book, state, plan, subjects, session)
    out = []
    for one in subjects:
        if one.kind == "tank":
            options = [
                sums.nothing("stay"),
                *(_pour(sums, book, one.id, way, liquids) for way in one.choices),
            ]
            out.append(Item(one.id, parts[one.id + CONTENT].mass_kg, tuple(options)))
            continue
        here = parts[one.id]
        singly = one.id in weighed_singly
        ways = [_way(sums, here, way, singly) for way in one.choices]
        out.append(Item(one.id, sums.mass_kg(here), (sums.option("stay", here), *ways)))
    return out


def _way(sums: Sums, here: Part, way: Choice, singly: bool) -> Option:
    """An item put elsewhere or left, whole or so many copies of it, whose masses apart are known by the plan alone."""
    if way.copies < here.copies:
        rest = here.copies - way.copies
        apart_kg2 = way.copies * rest / here.copies**2 * here.mass_u_kg**2 if singly else 0.0
        return sums.divided(way.id, here, way.part, way.copies, apart_kg2)
    whole = sums.option(way.id, way.part) if way.part else sums.nothing(way.id, sums.mass_kg(here))
    return replace(whole, moves=way.copies)


def _liquids(
    sums: Sums, book: Book, state: State, plan: Plan, subjects: Sequence[Subject], session: str | None
) -> dict[str, Liquid]:
    """The tanks that something is poured from or into."""
    tanks = [one for one in subjects if one.kind == "tank"]
    into = {way.to_tank_id for one in tanks for way in one.choices}
    touched = [row for row in book.tanks if row.id in into or any(one.id == row.id for one in tanks)]
    fuel = fuel_of(book.vehicle.body if book.vehicle else None, state)
    contents = {part.id: part for part in plan.passing}
    out = {}
    for row in touched:
        held, level = contents[row.id + CONTENT], state.level_of(row.id)
        known = sums.knows(f"{session}:{held.id}")
        out[row.id] = sums.liquid(row, fuel, held, level.level if level else 0.0, known)
    return out


def _pour(sums: Sums, book: Book, tank_id: str, way: Choice, liquids: dict[str, Liquid]) -> Option:
    capacities = {row.id: float(row.body["capacity_l"]) for row in book.tanks if row.id in liquids}
    into = way.to_tank_id
    other = None if into is None else (liquids[into], way.litres_l / capacities[into])
    option = sums.poured(way.id, way.litres_l / capacities[tank_id], liquids[tank_id], other)
    return option if into is None else replace(option, slot=into, slot_kg=way.litres_l)


def _rooms(book: Book, state: State, subjects: Sequence[Subject]) -> tuple[Slot, ...]:
    """The room in each tank that something may be poured into, in litres."""
    into = {way.to_tank_id for one in subjects for way in one.choices if way.to_tank_id}
    return tuple(Slot(row.id, room_l(tank=row, state=state)) for row in book.tanks if row.id in into)


def _stores(
    book: Book, state: State, subjects: Sequence[Subject], wish: Wishes
) -> list[tuple[Limit, frozenset[str]]]:
    """What is kept of water and of fuel, in litres, with the tanks that it is in; what is short already may stay so."""
    poured = {one.id for one in subjects if any(way.kind == "out" for way in one.choices)}
    out = []
    for holds in ("water", "fuel"):
        rows = [row for row in book.tanks if row.body["holds"] == holds and _counts(row, state)]
        if not any(row.id in poured for row in rows):
            continue
        kept = wish.water_reserve_l if holds == "water" else wish.fuel_reserve_l
        reserve = _usual(holds, rows, book, state) if kept is None else kept
        check_range(f"{holds}_reserve_l", reserve, low=0.0, unit="L")
        held = sum(content_l(tank=row, state=state) for row in rows)
        limit = Limit(holds + LEAST, min(reserve, held), held, least=True)
        out.append((limit, frozenset(row.id for row in rows)))
    return out


def _usual(holds: str, rows: Sequence[Row], book: Book, state: State) -> float:
    if holds == "water":
        return usual_water_reserve(book=book, state=state)
    tanks = [TankSpec(row.id, float(row.body["capacity_l"]), drawn=not row.body.get("can")) for row in rows]
    return usual_reserve(tanks=tanks)


def _counts(row: Row, state: State) -> bool:
    """A tank that is there, whose level is known, and that is no emergency reserve."""
    level = state.level_of(row.id)
    here = not row.body.get("trailer_id") or row.body["trailer_id"] in state.trailers_on
    stated = level is not None and level.known_from != "prior" and row.body.get("capacity_l") is not None
    return here and stated and not row.body.get("emergency_reserve")


def _counted(item: Item, subject: Subject, stores: Sequence[tuple[Limit, frozenset[str]]]) -> Item:
    """An item that counts against the stores too: what is let out of a tank of theirs."""
    if not stores:
        return item
    litres = (0.0, *(way.litres_l if way.kind == "out" else 0.0 for way in subject.choices))
    options = []
    for option, poured in zip(item.options, litres, strict=True):
        out = tuple(-poured if subject.id in ids else 0.0 for _, ids in stores)
        shares = tuple(replace(one, per_unit=(*one.per_unit, *(0.0 for _ in out))) for one in option.shares)
        options.append(
            replace(
                option,
                loads_kg=(*option.loads_kg, *out),
                variances_kg2=(*option.variances_kg2, *(0.0 for _ in out)),
                shares=shares,
            )
        )
    return replace(item, options=tuple(options))
