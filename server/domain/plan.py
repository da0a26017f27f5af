"""From the book's records to parts: what the vehicle was planned to weigh, in any state.

Lasting parts (base and items) stay the same things from weighing to weighing; passing parts (contents of
tanks, people) belong to one state. What is blank is not guessed: it is named in `missing`, and what needs
it is left out.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from .axles import FRONT_ROLL_SHARE, REARMOST_SHARE, STIFFNESS, Geometry, rear_x_m, rows_of
from .axles import Trailer as Lever
from .book import Body, Book, Row, body_of_day, rows_of_day
from .errors import NotKnown
from .forgotten import NOTHING, forgotten_part
from .parts import (
    MASS_SHARE,
    cg_height_u_m,
    density_of,
    fuel_of,
    height_in_tank_m,
    item_part,
    seat_part,
    tank_parts,
    trailer_parts,
)
from .state import State, unknown_level
from .statics import Loads, Part, loads

BASE_CORRELATION = 0.0  # of the errors of the two base masses (assumed)


@dataclass(frozen=True, slots=True)
class Missing:
    """A blank that something needs."""

    record_id: str
    kind: str
    field: str


@dataclass(frozen=True, slots=True)
class Plan:
    """All parts of a vehicle in one state, and what could not be counted."""

    lasting: tuple[Part, ...]
    passing: tuple[Part, ...]
    missing: tuple[Missing, ...]

    @property
    def parts(self) -> tuple[Part, ...]:
        """Lasting and passing parts together."""
        return self.lasting + self.passing


def planned(*, book: Book) -> bool:
    """Whether there is a plan at all: base masses and a wheelbase, without which nothing can be compared."""
    body = book.vehicle.body if book.vehicle else {}
    return all(body.get(name) is not None for name in ("base_front_kg", "base_rear_kg", "wheelbase_m"))


def plan_in(
    book: Book, state: State, *, revisions: dict[str, str] | None = None, ordered: bool = False
) -> Plan:
    """The parts of a book in a state.

    `revisions` names the revision of each plan record that took part (a weighing keeps them), so that
    "planned" means the plan of that day; an item that is not among them was not there yet. `ordered` counts
    what is on order too. Where the vehicle says so, the mass that a plan forgets is one more part.
    """
    missing: list[Missing] = []
    lasting = [
        *_base(book, revisions, missing),
        *_trailer_base(book, state, revisions, missing),
        *_items(book, state, revisions, ordered, missing),
        *_forgotten(book, revisions, ordered),
    ]
    passing = [*_contents(book, state, revisions, missing), *_people(book, state, revisions, missing)]
    return Plan(tuple(lasting), tuple(passing), tuple(missing))


def forgotten_of(
    *, book: Book, share: float, revisions: dict[str, str] | None = None, ordered: bool = False
) -> Part | None:
    """The mass that a plan forgets, at a share of what was added: of every item, left behind today or not.

    Loads left behind leave their brackets; so the part is the same in every state (assumed). None without items.
    """
    added = [*_items(book, State(), revisions, ordered, [])]
    return forgotten_part(added=added, share=share)


def lasting_of(*, book: Book) -> tuple[Part, ...]:
    """Every lasting part of the book as it is now, those of all its trailers too."""
    trailers = tuple(trailer.id for trailer in book.trailers)
    return plan_in(book, State(trailers_on=trailers)).lasting


def towed_trailer(*, book: Book, state: State) -> Row | None:
    """The trailer that is on; of several the first."""
    known = (*book.trailers, *(row for row in book.gone if row.kind == "trailer"))
    return next((row for row in known if row.id in state.trailers_on), None)


def reckoned(*, book: Book, state: State) -> bool:
    """Whether the plan reaches a state: a trailer that is on needs its lever and the place of the coupling."""
    trailer = towed_trailer(book=book, state=state)
    if trailer is None or not planned(book=book):
        return planned(book=book)
    needed = ("coupling_to_axle_m", "base_coupling_kg", "base_axles_kg")
    vehicle = book.vehicle.body if book.vehicle else {}
    return vehicle.get("coupling_x_m") is not None and all(
        trailer.body.get(name) is not None for name in needed
    )


def geometry_of(*, book: Book, state: State | None = None) -> Geometry:
    """Where the axles of a planned vehicle are, and of the trailer that is on; refused without a wheelbase.

    Blanks take the usual model: one rear axle, or a pair that shares its load evenly; springs of equal stiffness and a
    flexible frame (assumed). A trailer whose lever is not known is left out.
    """
    body = book.vehicle.body if book.vehicle else {}
    if body.get("wheelbase_m") is None:
        raise NotKnown("wheelbase_m", "axle loads")
    group = body.get("rear_axles") in ("load_sharing_pair", "independent_pair") and body.get("rear_spread_m")
    trailer = towed_trailer(book=book, state=state) if state else None
    coupling_x_m = body.get("coupling_x_m")
    return Geometry(
        float(body["wheelbase_m"]),
        spread_m=float(body["rear_spread_m"]) if group else None,
        second_axle="springs" if body.get("rear_axles") == "independent_pair" else "pair",
        rearmost_share=_or(body.get("rear_share"), REARMOST_SHARE),
        stiffness=(
            _or(body.get("stiffness_front"), STIFFNESS),
            _or(body.get("stiffness_rear_1"), STIFFNESS),
            _or(body.get("stiffness_rear_2"), STIFFNESS),
        ),
        front_track_m=body.get("track_front_m"),
        rear_track_m=body.get("track_rear_m"),
        frame=body.get("frame") or "flexible",
        front_roll_share=_or(body.get("front_roll_share"), FRONT_ROLL_SHARE),
        coupling_x_m=coupling_x_m,
        trailer=None if trailer is None or coupling_x_m is None else _lever(trailer),
    )


def _lever(trailer: Row) -> Lever | None:
    body = trailer.body
    if body.get("coupling_to_axle_m") is None:
        return None
    moment = body.get("hitch_moment_kgm") if body.get("levelling_hitch") is not False else None
    return Lever(trailer.id, float(body["coupling_to_axle_m"]), float(moment or 0.0))


def _or(value: float | None, otherwise: float) -> float:
    return otherwise if value is None else float(value)


def main_tank(*, book: Book) -> Row | None:
    """The fuel tank that the empty mass's fuel is in: the first to be drawn from, no can."""
    tanks = [tank for tank in book.tanks if tank.body["holds"] == "fuel" and not tank.body.get("can")]
    return min(tanks, key=lambda tank: tank.body.get("drain_order") or 99, default=None)


def base_correlation_of(*, book: Book) -> float:
    """How the errors of the two base masses are linked: 0 unless the vehicle's record says otherwise."""
    body = book.vehicle.body if book.vehicle else {}
    return float(body.get("base_correlation") or BASE_CORRELATION)


def planned_loads(*, book: Book, plan: Plan, state: State | None = None) -> Loads:
    """What the plan alone says of every row in its state."""
    geometry = geometry_of(book=book, state=state)
    rho = base_correlation_of(book=book)
    roof = ("roof",) if any(part.roof for part in plan.lasting) else ()
    return loads(parts=plan.parts, geometry=geometry, rows=(*rows_of(geometry), *roof), base_correlation=rho)


def _base(book: Book, revisions: dict[str, str] | None, missing: list[Missing]) -> Iterator[Part]:
    vehicle = book.vehicle
    if vehicle is None:
        return
    body = _of_day(book, vehicle, revisions)
    wheelbase_m = body.get("wheelbase_m")
    if wheelbase_m is None:
        missing.append(Missing(vehicle.id, "vehicle", "wheelbase_m"))
        return
    geometry = geometry_of(book=book)
    axles = {"front": 0.0, "rear": _base_rear_x_m(geometry)}
    for end, x_m in axles.items():
        mass_kg = body.get(f"base_{end}_kg")
        if mass_kg is None:
            missing.append(Missing(vehicle.id, "vehicle", f"base_{end}_kg"))
            continue
        own_u = body.get(f"base_{end}_u_kg")
        share = MASS_SHARE[body.get("base_known_by") or "estimate"]
        u_kg = share * float(mass_kg) if own_u is None else float(own_u)
        z_m, z_u_m = body.get("cg_height_m"), cg_height_u_m(body)
        axle = end if geometry.spread_m is not None else None
        yield Part(f"base_{end}", float(mass_kg), u_kg, x_m, z_m=z_m, z_u_m=z_u_m, axle=axle)
    yield from _included_in_base(book, body)


def _base_rear_x_m(geometry: Geometry) -> float:
    """Where the delivered rear load stands: between two axles by its share, under either model."""
    return rear_x_m(replace(geometry, second_axle="pair"))


def _trailer_base(
    book: Book, state: State, revisions: dict[str, str] | None, missing: list[Missing]
) -> Iterator[Part]:
    """The delivered trailer: what stands on the coupling, and what on its axles."""
    if state.trailers_on and book.vehicle and book.vehicle.body.get("coupling_x_m") is None:
        missing.append(Missing(book.vehicle.id, "vehicle", "coupling_x_m"))
    for row in rows_of_day(book, "trailer", book.trailers, revisions):
        if row.id not in state.trailers_on:
            continue
        body = _of_day(book, row, revisions)
        if body.get("levelling_hitch") and body.get("hitch_moment_kgm") is None:
            missing.append(Missing(row.id, "trailer", "hitch_moment_kgm"))
        needed = ("coupling_to_axle_m", "base_coupling_kg", "base_axles_kg")
        blanks = [name for name in needed if body.get(name) is None]
        missing.extend(Missing(row.id, "trailer", name) for name in blanks)
        if not blanks:
            yield from trailer_parts(row.id, body)


def _included_in_base(book: Book, body: Body) -> Iterator[Part]:
    """Fuel and driver that the "empty" mass already holds come off again, since the state counts them.

    They come off in the middle across, so that the empty vehicle alone is taken as even (assumed).
    """
    tank = main_tank(book=book)
    if body.get("base_fuel_l") and tank and tank.body.get("x_m") is not None:
        density, density_u = density_of(tank.body, fuel_of(body))
        litres, x_m = float(body["base_fuel_l"]), float(tank.body["x_m"])
        capacity_l = tank.body.get("capacity_l")
        z_m = height_in_tank_m(tank.body, min(1.0, litres / capacity_l)) if capacity_l else None
        yield Part("base_fuel", density * litres, density_u * litres, x_m, z_m=z_m, taken_off=True)
    if body.get("base_driver_kg") and book.seats and book.seats[0].body.get("x_m") is not None:
        seat = book.seats[0].body
        mass_kg, x_m, z_m = float(body["base_driver_kg"]), float(seat["x_m"]), seat.get("z_m")
        yield Part("base_driver", mass_kg, 0.0, x_m, z_m=z_m, taken_off=True)


def _items(
    book: Book, state: State, revisions: dict[str, str] | None, ordered: bool, missing: list[Missing]
) -> Iterator[Part]:
    away = set(state.items_away)
    for row in rows_of_day(book, "item", book.items, revisions):
        if row.id in away:
            continue
        body = _of_day(book, row, revisions)
        stage = body.get("stage") or "fitted"
        if stage == "removed" or (stage == "on_order" and not ordered) or not _there(body, state):
            continue
        blanks = [name for name in ("mass_kg", "x_m") if body.get(name) is None]
        missing.extend(Missing(row.id, "item", name) for name in blanks)
        if not blanks:
            yield item_part(row.id, body)


def _forgotten(book: Book, revisions: dict[str, str] | None, ordered: bool) -> Iterator[Part]:
    body = _of_day(book, book.vehicle, revisions) if book.vehicle else {}
    share = float(body.get("forgotten_share") or NOTHING)
    part = forgotten_of(book=book, share=share, revisions=revisions, ordered=ordered) if share else None
    if part is not None:
        yield part


def _there(body: Body, state: State) -> bool:
    """Whether what a record is on is there: the vehicle, or a trailer that is on."""
    return not body.get("trailer_id") or body["trailer_id"] in state.trailers_on


def _contents(
    book: Book, state: State, revisions: dict[str, str] | None, missing: list[Missing]
) -> Iterator[Part]:
    fuel = fuel_of(book.vehicle.body if book.vehicle else None, state)
    for row in rows_of_day(book, "tank", book.tanks, revisions):
        body = _of_day(book, row, revisions)
        if not _there(body, state):
            continue
        level = state.level_of(row.id)
        if level is None:  # named, and counted as anything between empty and full
            missing.append(Missing(row.id, "tank", "level"))
            level = unknown_level(row.id)
        blanks = [name for name in ("capacity_l", "x_m") if body.get(name) is None]
        missing.extend(Missing(row.id, "tank", name) for name in blanks)
        if not blanks:
            yield from tank_parts(row.id, body, level, fuel)


def _people(
    book: Book, state: State, revisions: dict[str, str] | None, missing: list[Missing]
) -> Iterator[Part]:
    loads = {load.seat_id: load for load in state.seats}
    for row in rows_of_day(book, "seat", book.seats, revisions):
        load = loads.get(row.id)
        if load is None:
            continue
        body = _of_day(book, row, revisions)
        if body.get("x_m") is None:
            missing.append(Missing(row.id, "seat", "x_m"))
            continue
        yield seat_part(load, body)


def _of_day(book: Book, row: Row, revisions: dict[str, str] | None) -> Body:
    return body_of_day(book, row, revisions.get(row.id) if revisions else None)
