"""Two plans of one book side by side: as it stood on two days, with what is on order or without, towing or not."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from .axles import ROWS, Geometry, hitch_offset_kg
from .book import Book, Row, day_of
from .errors import DomainError
from .limits import CONFIDENCE, Verdict, verdict
from .linalg import Array
from .plan import Missing, base_correlation_of, geometry_of, plan_in, planned_loads, reckoned
from .plates import ratings_of
from .stability import Centre, centre_of_gravity
from .state import State, full_state
from .statics import Loads, Part, as_tuple, design

TOWED = ("coupling", "trailer_axles")
STANDING = ("base_front", "base_rear", "base_coupling", "base_axles")
DAY_LETTERS = 10  # of a day like 2026-03-04


@dataclass(frozen=True, slots=True)
class Version:
    """Which plan: as it stood at the end of a day (blank: now), with what is on order too, and which trailer is on."""

    day: str | None = None
    ordered: bool = False
    trailer_id: str | None = None


@dataclass(frozen=True, slots=True)
class Side:
    """One plan in its state; without loads where there was no plan then, or none that reaches the trailer."""

    loads: Loads | None
    verdicts: tuple[Verdict, ...]
    centre: Centre | None
    missing: tuple[Missing, ...]


@dataclass(frozen=True, slots=True)
class Difference:
    """One record that differs, and what it does to each row, kg, second less first.

    `how`: added or removed; fitted (on order in the other) or ordered (in both, counted in one); coupled or uncoupled
    with its trailer; mass, moved, known (only its u); axles, where the supports are elsewhere or of another model. Mass
    and place are those of its parts together.
    """

    record_id: str
    kind: str
    how: tuple[str, ...]
    kg: tuple[float, ...]
    was_kg: float | None
    now_kg: float | None
    was_x_m: float | None
    now_x_m: float | None


@dataclass(frozen=True, slots=True)
class TwoPlans:
    """Both plans, and the records between them, whose kg add up to the difference row by row."""

    rows: tuple[str, ...]
    first: Side
    second: Side
    differences: tuple[Difference, ...]
    total_kg: tuple[float, ...]


def book_on(*, book: Book, day: str) -> Book:
    """The plan records of a book as they stood at the end of a day, with the log as it is.

    A record stood as its last edit made by then, in the order of recording, and was not there before its first; one of
    which no edit is known stood as it does. A day that is not like 2026-03-04 is refused.
    """
    if len(day) != DAY_LETTERS or not day.replace("-", "").isdigit():
        raise DomainError("day", day, "a day like 2026-03-04")
    latest = {one.record_id: one for one in book.edits if day_of(edit=one) <= day}
    known = {one.record_id for one in book.edits}

    def stood(rows: Iterable[Row], kind: str) -> tuple[Row, ...]:
        out = []
        for row in (*rows, *(one for one in book.gone if one.kind == kind)):
            edit = latest.get(row.id)
            body = edit.body if edit else row.body
            if not body.get("deleted") and (edit or row.id not in known):
                out.append(replace(row, rev=edit.rev, body=body) if edit else row)
        return tuple(sorted(out, key=lambda row: (row.order, row.id)))

    vehicle = stood([book.vehicle] if book.vehicle else [], "vehicle")
    return replace(
        book,
        vehicle=vehicle[0] if vehicle else None,
        trailers=stood(book.trailers, "trailer"),
        plates=stood(book.plates, "plate"),
        items=stood(book.items, "item"),
        tanks=stood(book.tanks, "tank"),
        seats=stood(book.seats, "seat"),
        people=stood(book.people, "person"),
        gone=(),
    )


def two_plans(
    *,
    book: Book,
    first: Version,
    second: Version,
    today: str,
    state: State | None = None,
    confidence: float = CONFIDENCE,
) -> TwoPlans:
    """Two versions of one plan in the same state, each judged by the ratings of its day, and what lies between them.

    Without a `state` each has all its tanks full and everyone and everything of its day aboard; with one, both have
    its levels, people and what is left behind. A version's own trailer is on in either case. The loads are those of
    the plan alone. Rows of the differences are the axles and gross, and with a trailer the coupling and the trailer's
    axles, which carry nothing on a plan without one. A record's kg are what it carries at the second's axles less what
    its former self would carry there; what the axles' own change does to everything is the vehicle's line (or the
    trailer's), so that all lines together are the difference of the loads.
    """
    sides = [_taken(book, one, today, state) for one in (first, second)]
    towed = any(one.geometry and one.geometry.trailer for one in sides)
    rows = (*ROWS, *(TOWED if towed else ()))
    told = [_side(one, confidence) for one in sides]
    if sides[0].geometry is None or sides[1].geometry is None:
        return TwoPlans(rows, told[0], told[1], (), ())
    lines = _differences(sides[0], sides[1], rows)
    total = sum((np.array(one.kg) for one in lines), np.zeros(len(rows)))
    return TwoPlans(rows, told[0], told[1], lines, as_tuple(total))


# --- one side -----------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Thing:
    """A part with the record that it belongs to."""

    kind: str
    record_id: str
    part: Part


@dataclass(frozen=True, slots=True)
class _Taken:
    """One version: its book, its day and state, and where the plan reaches it, its axles and its things by name."""

    book: Book
    day: str
    state: State
    geometry: Geometry | None
    loads: Loads | None
    missing: tuple[Missing, ...]
    things: dict[str, _Thing]

    @property
    def parts(self) -> list[Part]:
        """All parts, in the order of the plan."""
        return [one.part for one in self.things.values()]


def _taken(book: Book, version: Version, today: str, state: State | None) -> _Taken:
    stood = book if version.day is None else book_on(book=book, day=version.day)
    on = tuple(one.id for one in stood.trailers if one.id == version.trailer_id)
    there = replace(full_state(book=stood) if state is None else state, trailers_on=on)
    day = version.day or today
    lost = version.trailer_id is not None and not on
    if lost or not reckoned(book=stood, state=there):
        return _Taken(stood, day, there, None, None, (), {})
    plan = plan_in(stood, there, ordered=version.ordered)
    geometry = geometry_of(book=stood, state=there)
    found = planned_loads(book=stood, plan=plan, state=there)
    return _Taken(stood, day, there, geometry, found, plan.missing, _things(stood, there, plan.parts))


def _things(book: Book, state: State, parts: Iterable[Part]) -> dict[str, _Thing]:
    """Each part by a name that stays with the thing, whatever seat a person takes."""
    vehicle_id = book.vehicle.id if book.vehicle else ""
    who = {f"{one.seat_id}:occupant": one for one in state.seats}
    trailers = {one.id for one in book.trailers}
    out: dict[str, _Thing] = {}
    for part in parts:
        record_id, _, what = part.id.partition(":")
        if part.id in who:
            person = who[part.id].person_id
            out[f"occupant:{person or record_id}"] = _Thing(
                "person" if person else "seat", person or record_id, part
            )
        elif part.id.startswith("base_"):
            out[part.id] = _Thing("vehicle", vehicle_id, part)
        elif what:
            out[part.id] = _Thing("trailer" if record_id in trailers else "tank", record_id, part)
        else:
            out[part.id] = _Thing("item", part.id, part)
    return out


def _side(taken: _Taken, confidence: float) -> Side:
    found = taken.loads
    if found is None:
        return Side(None, (), None, taken.missing)
    trailer = taken.geometry.trailer if taken.geometry else None
    ratings = ratings_of(book=taken.book, day=taken.day, trailer_id=trailer.id if trailer else None)
    verdicts = tuple(
        verdict(
            rating=one.rating,
            value_kg=found.value_kg(one.rating),
            u_kg=found.u_kg(one.rating),
            limit_kg=one.limit_kg,
            confidence=confidence,
        )
        for one in ratings
        if one.rating in found.rows
    )
    centre = centre_of_gravity(parts=taken.parts, base_correlation=base_correlation_of(book=taken.book))
    return Side(found, verdicts, centre, taken.missing)


# --- what lies between --------------------------------------------------------------------------------------


def _differences(first: _Taken, second: _Taken, rows: Sequence[str]) -> tuple[Difference, ...]:
    """One line per record that differs, in the order of the second plan and then of the first."""
    moved = _supports_moved(first, second, rows)
    groups: dict[tuple[str, str], list[str]] = {}
    for name, thing in {**second.things, **first.things}.items():
        groups.setdefault((thing.kind, thing.record_id), []).append(name)
    before = _carried(first, second, rows)
    after = _carried(second, second, rows)
    nothing = np.zeros(len(rows))
    out = []
    for (kind, record_id), names in groups.items():
        pair = [{n: side.things[n].part for n in names if n in side.things} for side in (first, second)]
        turned = moved.get(record_id, nothing)
        kg = turned + sum((after[n] for n in pair[1]), nothing) - sum((before[n] for n in pair[0]), nothing)
        how = _how(pair[0], pair[1]) or _came(record_id, pair[1], first, second)
        if pair[0] and pair[1] and np.any(turned != 0.0):
            how = (*how, "axles")
        if how or np.any(kg != 0.0):
            was, now = (list(one.values()) for one in pair)
            stood = (_mass(was), _mass(now), _place(was), _place(now))
            out.append(Difference(record_id, kind, how or ("moved",), as_tuple(kg), *stood))
    return tuple(out)


def _carried(taken: _Taken, at: _Taken, rows: Sequence[str]) -> dict[str, Array]:
    """What each thing carries to each row at the axles of `at`, or where those do not reach it at its own."""
    reached = ("vehicle", *([at.geometry.trailer.id] if at.geometry and at.geometry.trailer else []))
    names = list(taken.things)
    here = [name for name in names if taken.things[name].part.on in reached]
    out: dict[str, Array] = {}
    for chosen, side in ((here, at), ([name for name in names if name not in here], taken)):
        parts = [taken.things[name].part for name in chosen]
        kg = _kg(parts, side.geometry, rows)
        out |= {name: kg[:, j] for j, name in enumerate(chosen)}
    return out


def _supports_moved(first: _Taken, second: _Taken, rows: Sequence[str]) -> dict[str, Array]:
    """What the axles' own change does to all that stood on the first plan, by the record that they are of.

    A trailer that is on in both first takes its new lever and hitch, then the vehicle its new axles and coupling. The
    hitch of a trailer that is on in one alone comes and goes with it.
    """
    one, other = first.geometry, second.geometry
    if one is None or other is None or second.book.vehicle is None:
        return {}
    same = one.trailer is not None and other.trailer is not None and one.trailer.id == other.trailer.id
    middle = replace(one, trailer=other.trailer) if same else one
    stays = [part for part in first.parts if part.on == "vehicle" or same]
    out: dict[str, Array] = {}

    def add(record_id: str, kg: Array) -> None:
        out[record_id] = out.get(record_id, np.zeros(len(rows))) + kg

    def carried(geometry: Geometry) -> Array:
        hitch = _hitch(geometry, rows) if same else np.zeros(len(rows))
        total: Array = _kg(stays, geometry, rows).sum(axis=1) + hitch
        return total

    if one.trailer is not None and middle != one:
        add(one.trailer.id, carried(middle) - carried(one))
    if other != middle and (_supports(other) != _supports(middle)):
        add(second.book.vehicle.id, carried(other) - carried(middle))
    if not same:
        for geometry, factor in ((one, -1.0), (other, 1.0)):
            if geometry.trailer is not None:
                add(geometry.trailer.id, factor * _hitch(geometry, rows))
    return out


def _supports(geometry: Geometry) -> Geometry:
    return replace(geometry, trailer=None)


def _kg(parts: Sequence[Part], geometry: Geometry | None, rows: Sequence[str]) -> Array:
    """Row by part; without a trailer its rows carry nothing."""
    out = np.zeros((len(rows), len(parts)))
    if geometry is None:
        return out
    there = [row for row in rows if row not in TOWED or geometry.trailer is not None]
    mass = np.array([part.mass_kg for part in parts])
    out[[rows.index(row) for row in there]] = design(parts=parts, geometry=geometry, rows=there).shares * mass
    return out


def _hitch(geometry: Geometry, rows: Sequence[str]) -> Array:
    return np.array([hitch_offset_kg(row=row, geometry=geometry) for row in rows])


def _how(was: Mapping[str, Part], now: Mapping[str, Part]) -> tuple[str, ...]:
    """What changed of a record that is in both; nothing where it is not, or is the same."""
    if not was or not now:
        return ()
    mass = _masses(was.values()) != _masses(now.values())
    moved = any(name in was and _where(name, part) != _where(name, was[name]) for name, part in now.items())
    known = not mass and [_doubts(one) for one in was.values()] != [_doubts(one) for one in now.values()]
    return tuple(word for word, so in (("mass", mass), ("moved", moved), ("known", known)) if so)


def _came(record_id: str, now: Mapping[str, Part], first: _Taken, second: _Taken) -> tuple[str, ...]:
    """Why a record is in one plan alone: with its trailer, from an order, or as something new."""
    here, there = (second, first) if now else (first, second)
    if any(record_id == one.record_id for one in there.things.values()):
        return ()
    part = next(one.part for one in here.things.values() if one.record_id == record_id)
    towed = there.geometry.trailer.id if there.geometry and there.geometry.trailer else "vehicle"
    if part.on not in ("vehicle", towed):
        return ("coupled",) if now else ("uncoupled",)
    if _stage(there, record_id) == "on_order":
        return ("ordered",) if _stage(here, record_id) == "on_order" else ("fitted",)
    return ("added",) if now else ("removed",)


def _stage(taken: _Taken, record_id: str) -> str | None:
    row = next((one for one in taken.book.items if one.id == record_id), None)
    return None if row is None else row.body.get("stage") or "fitted"


def _masses(parts: Iterable[Part]) -> list[float]:
    return [part.sign * part.mass_kg for part in parts]


def _where(name: str, part: Part) -> tuple[object, ...]:
    """What stands over an axle goes where that goes."""
    place = (part.y_m, part.z_m, part.on, part.roof)
    return place if name.endswith(STANDING) else (part.x_m, *place)


def _doubts(part: Part) -> tuple[float, ...]:
    return (part.mass_u_kg, part.x_u_m, part.y_u_m, part.z_u_m)


def _mass(parts: Sequence[Part]) -> float | None:
    return sum(_masses(parts)) if parts else None


def _place(parts: Sequence[Part]) -> float | None:
    """Where they are, if that is one place."""
    places = {part.x_m for part in parts}
    return places.pop() if len(places) == 1 else None
