"""From the book's records to parts: what the vehicle was planned to weigh, in any state.

Lasting parts (base and items) stay the same things from weighing to weighing; passing parts (contents of
tanks, people) belong to one state. What is blank is not guessed: it is named in `missing`, and what needs
it is left out.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from .axles import Geometry
from .book import Body, Book, Row, body_of_day, rows_of_day
from .errors import NotKnown
from .state import SeatLoad, State, TankLevel
from .statics import Loads, Part, copies_u, loads, tank_content

# One standard uncertainty as a share of the mass, by how it is known (assumed; a record's own u replaces it)
MASS_SHARE = {"weighed": 0.005, "data_sheet": 0.05, "similar": 0.10, "estimate": 0.15}
MEASURED_U_M, DESCRIBED_U_M = 0.02, 0.15  # position taken with a tape, or told in words (assumed)

# kg/L and its u. Diesel: EN 590 at 15 C, 0.820-0.845, uniform. Petrol: EN 228, 0.720-0.775, uniform.
# Liquefied gas: 0.51 from memory. Stores are counted in kg, so a litre stands for a kilogram.
DENSITY = {
    "diesel": (0.8325, 0.0072),
    "petrol": (0.7475, 0.0159),
    "water": (1.0, 0.002),
    "gas": (0.51, 0.02),
    "stores": (1.0, 0.0),
}


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
    what is on order too.
    """
    missing: list[Missing] = []
    lasting = [*_base(book, revisions, missing), *_items(book, state, revisions, ordered, missing)]
    passing = [*_contents(book, state, revisions, missing), *_people(book, state, revisions, missing)]
    return Plan(tuple(lasting), tuple(passing), tuple(missing))


def geometry_of(*, book: Book) -> Geometry:
    """Where the axles of a planned vehicle are; refused without a wheelbase."""
    body = book.vehicle.body if book.vehicle else {}
    if body.get("wheelbase_m") is None:
        raise NotKnown("wheelbase_m", "axle loads")
    return Geometry(float(body["wheelbase_m"]))


def base_correlation_of(*, book: Book) -> float:
    """How the errors of the two base masses are linked: 0 unless the vehicle's record says otherwise."""
    body = book.vehicle.body if book.vehicle else {}
    return float(body.get("base_correlation") or 0.0)


def planned_loads(*, book: Book, plan: Plan) -> Loads:
    """What the plan alone says of front, rear and gross."""
    rho = base_correlation_of(book=book)
    return loads(parts=plan.parts, geometry=geometry_of(book=book), base_correlation=rho)


def mass_u_kg(body: Body, mass_kg: float) -> float:
    """One standard uncertainty of a mass: the record's own, else the share for how it is known."""
    if body.get("mass_u_kg") is not None:
        return float(body["mass_u_kg"])
    return MASS_SHARE[body.get("known_by") or "estimate"] * mass_kg


def position_u_m(body: Body, field: str = "x_u_m") -> float:
    """One standard uncertainty of a place: the record's own, else by how it was found."""
    if body.get(field) is not None:
        return float(body[field])
    return MEASURED_U_M if body.get("position_by") == "measured" else DESCRIBED_U_M


def density_of(tank: Body, fuel_kind: str | None) -> tuple[float, float]:
    """Density of a tank's content and its u, kg/L: the tank's own, else by what it holds."""
    content = tank["holds"]
    if content == "fuel":
        content = "petrol" if fuel_kind == "petrol" else "diesel"
    elif content in ("grey", "waste"):
        content = "water"
    usual, usual_u = DENSITY[content]
    own, own_u = tank.get("density_kg_per_l"), tank.get("density_u_kg_per_l")
    if own is None:
        return usual, usual_u if own_u is None else float(own_u)
    return float(own), 0.0 if own_u is None else float(own_u)


def _base(book: Book, revisions: dict[str, str] | None, missing: list[Missing]) -> Iterator[Part]:
    vehicle = book.vehicle
    if vehicle is None:
        return
    body = _of_day(book, vehicle, revisions)
    wheelbase_m = body.get("wheelbase_m")
    if wheelbase_m is None:
        missing.append(Missing(vehicle.id, "vehicle", "wheelbase_m"))
        return
    for end, x_m in (("front", 0.0), ("rear", float(wheelbase_m))):
        mass_kg = body.get(f"base_{end}_kg")
        if mass_kg is None:
            missing.append(Missing(vehicle.id, "vehicle", f"base_{end}_kg"))
            continue
        own_u = body.get(f"base_{end}_u_kg")
        share = MASS_SHARE[body.get("base_known_by") or "estimate"]
        u_kg = share * float(mass_kg) if own_u is None else float(own_u)
        z_m, z_u_m = body.get("cg_height_m"), body.get("cg_height_u_m") or 0.0
        yield Part(f"base_{end}", float(mass_kg), u_kg, x_m, z_m=z_m, z_u_m=z_u_m)
    yield from _included_in_base(book, body)


def _included_in_base(book: Book, body: Body) -> Iterator[Part]:
    """Fuel and driver that the "empty" mass already holds come off again, since the state counts them."""
    tanks = sorted(
        (tank for tank in book.tanks if tank.body["holds"] == "fuel" and not tank.body.get("can")),
        key=lambda tank: tank.body.get("drain_order") or 99,
    )
    if body.get("base_fuel_l") and tanks and tanks[0].body.get("x_m") is not None:
        density, density_u = density_of(tanks[0].body, body.get("fuel_kind"))
        litres, x_m = float(body["base_fuel_l"]), float(tanks[0].body["x_m"])
        yield Part("base_fuel", density * litres, density_u * litres, x_m, taken_off=True)
    if body.get("base_driver_kg") and book.seats and book.seats[0].body.get("x_m") is not None:
        x_m = float(book.seats[0].body["x_m"])
        yield Part("base_driver", float(body["base_driver_kg"]), 0.0, x_m, taken_off=True)


def _items(
    book: Book, state: State, revisions: dict[str, str] | None, ordered: bool, missing: list[Missing]
) -> Iterator[Part]:
    away = set(state.items_away)
    for row in rows_of_day(book, "item", book.items, revisions):
        if row.id in away:
            continue
        body = _of_day(book, row, revisions)
        stage = body.get("stage") or "fitted"
        if stage == "removed" or (stage == "on_order" and not ordered) or body.get("trailer_id"):
            continue
        blanks = [name for name in ("mass_kg", "x_m") if body.get(name) is None]
        missing.extend(Missing(row.id, "item", name) for name in blanks)
        if not blanks:
            yield item_part(row.id, body)


def item_part(part_id: str, body: Body) -> Part:
    """One line of the build: count copies at one place."""
    mass_kg, count = float(body["mass_kg"]), int(body.get("count") or 1)
    z_m = body.get("z_m")
    return Part(
        part_id,
        mass_kg * count,
        copies_u(
            count=count, unit_u_kg=mass_u_kg(body, mass_kg), weighed_singly=bool(body.get("weighed_singly"))
        ),
        float(body["x_m"]),
        position_u_m(body),
        y_m=float(body.get("y_m") or 0.0),
        y_u_m=position_u_m(body, "y_u_m") if body.get("y_m") is not None else 0.0,
        z_m=None if z_m is None else float(z_m),
        z_u_m=position_u_m(body, "z_u_m") if z_m is not None else 0.0,
        roof=bool(body.get("roof")),
        article=body.get("article_id"),
        taken_off=bool(body.get("taken_off")),
    )


def _contents(
    book: Book, state: State, revisions: dict[str, str] | None, missing: list[Missing]
) -> Iterator[Part]:
    fuel_kind = book.vehicle.body.get("fuel_kind") if book.vehicle else None
    for row in rows_of_day(book, "tank", book.tanks, revisions):
        body = _of_day(book, row, revisions)
        level = state.level_of(row.id)
        if body.get("trailer_id") or level is None:
            continue
        blanks = [name for name in ("capacity_l", "x_m") if body.get(name) is None]
        missing.extend(Missing(row.id, "tank", name) for name in blanks)
        if not blanks:
            yield from tank_parts(row.id, body, level, fuel_kind)


def tank_parts(tank_id: str, body: Body, level: TankLevel, fuel_kind: str | None) -> Iterator[Part]:
    """What a tank weighs at a level: its content, what the outlet cannot reach, and a can's own mass."""
    density, density_u = density_of(body, fuel_kind)
    x_m, x_u_m = float(body["x_m"]), position_u_m(body)
    bottom_m, height_m = body.get("z_bottom_m"), float(body.get("height_m") or 0.0)
    z_m = None if bottom_m is None else float(bottom_m) + level.level * height_m / 2
    yield tank_content(
        id=f"{tank_id}:content",
        density_kg_per_l=density,
        density_u_kg_per_l=density_u,
        capacity_l=float(body["capacity_l"]),
        capacity_u_l=float(body.get("capacity_u_l") or 0.0),
        level=level.level,
        level_u=level.level_u,
        x_m=x_m,
        x_u_m=x_u_m,
        y_m=float(body.get("y_m") or 0.0),
        z_m=z_m,
    )
    if body.get("unusable_l"):
        litres = float(body["unusable_l"])
        yield Part(f"{tank_id}:unusable", density * litres, density_u * litres, x_m, x_u_m, z_m=bottom_m)
    if body.get("empty_mass_kg"):
        own_kg = float(body["empty_mass_kg"])
        yield Part(f"{tank_id}:empty", own_kg, MASS_SHARE["data_sheet"] * own_kg, x_m, x_u_m, z_m=z_m)


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


def seat_part(load: SeatLoad, seat: Body) -> Part:
    """A person or an animal in a seat."""
    z_m = seat.get("z_m")
    return Part(
        f"{load.seat_id}:occupant",
        load.mass_kg,
        load.mass_u_kg,
        float(seat["x_m"]),
        position_u_m(seat),
        y_m=float(seat.get("y_m") or 0.0),
        z_m=None if z_m is None else float(z_m),
    )


def _of_day(book: Book, row: Row, revisions: dict[str, str] | None) -> Body:
    return body_of_day(book, row, revisions.get(row.id) if revisions else None)
