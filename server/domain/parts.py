"""From one record to parts: what an item, a tank's content, an occupant or an empty trailer weighs, and where."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from .book import Body
from .state import SeatLoad, State, TankLevel
from .statics import Part, copies_u, product_moments, tank_content
from .volume import DENSITIES, fuel_factor

# One standard uncertainty as a share of the mass, by how it is known (assumed; a record's own u replaces it)
MASS_SHARE = {"weighed": 0.005, "data_sheet": 0.05, "similar": 0.10, "estimate": 0.15}
MEASURED_U_M, DESCRIBED_U_M = 0.02, 0.15  # position taken with a tape, or told in words (assumed)

# kg/L and its u, of fuel at 15 C. Diesel: EN 590 at 15 C, 0.820-0.845, uniform. Petrol: EN 228, 0.720-0.775, uniform.
# Liquefied gas: 0.51 from memory. Stores are counted in kg, so a litre stands for a kilogram.
DENSITY = {
    "diesel": (0.8325, 0.0072),
    "petrol": (0.7475, 0.0159),
    "water": (1.0, 0.002),
    "gas": (0.51, 0.02),
    "stores": (1.0, 0.0),
}

# What a record leaves blank beside it: u of a density and of a capacity that it states, litres that the outlet does not
# reach, and how far from the middle with its u (assumed)
STATED_DENSITY_U, CAPACITY_U_L, UNUSABLE_L = 0.0, 0.0, 0.0
MIDDLE_M, MIDDLE_U_M = 0.0, 0.0

# Fuel where nobody says how warm it is, and the u of a temperature that somebody told (assumed)
FUEL_C, FUEL_U_C, TOLD_U_C = 15.0, 10.0, 5.0


@dataclass(frozen=True, slots=True)
class Fuel:
    """What is in the fuel tanks on a day: its kind, and how warm it is with u, C."""

    kind: str | None = None
    temperature_c: float = FUEL_C
    temperature_u_c: float = FUEL_U_C


def fuel_of(vehicle: Body | None, state: State | None = None) -> Fuel:
    """The fuel of a day: as warm as the state tells, else as the vehicle's record, else `FUEL_C` with `FUEL_U_C`."""
    body = vehicle or {}
    if state is not None and state.fuel_temperature_c is not None:
        u = state.fuel_temperature_u_c
        return Fuel(body.get("fuel_kind"), state.fuel_temperature_c, TOLD_U_C if u is None else u)
    usual, usual_u = body.get("fuel_temperature_c"), body.get("fuel_temperature_u_c")
    return Fuel(
        body.get("fuel_kind"),
        FUEL_C if usual is None else float(usual),
        FUEL_U_C if usual_u is None else float(usual_u),
    )


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


def placed_u_m(body: Body, place: str) -> float:
    """One standard uncertainty of a place across or in height, m; none where the place itself is blank."""
    return MIDDLE_U_M if body.get(place) is None else position_u_m(body, f"{place[0]}_u_m")


def cg_height_u_m(vehicle: Body) -> float:
    """One standard uncertainty of the delivered vehicle's height: its own, else that of a place told in words."""
    own = vehicle.get("cg_height_u_m")
    return DESCRIBED_U_M if own is None else float(own)


def height_in_tank_m(body: Body, level: float) -> float | None:
    """Where the centre of a tank's content is in height, m; None unless its bottom and its own height are known."""
    if body.get("z_bottom_m") is None or body.get("height_m") is None:
        return None
    return float(body["z_bottom_m"]) + level * float(body["height_m"]) / 2


def content_of(tank: Body, fuel_kind: str | None) -> str:
    """What a tank holds by the names of `DENSITY`: fuel as the vehicle's kind, used water as water."""
    content = str(tank["holds"])
    if content == "fuel":
        return "petrol" if fuel_kind == "petrol" else "diesel"
    return "water" if content in ("grey", "waste") else content


def density_of(tank: Body, fuel: Fuel) -> tuple[float, float]:
    """Density of a tank's content and its u, kg/L, on a day.

    That of fuel is its density at 15 C times `fuel_factor` at its temperature, two independent factors; one that the
    table does not reach stands as it is. Water is not corrected: 0.3 % from 15 to 30 C, within its u.
    """
    density, u = stated_density(tank, fuel.kind)
    low, high = DENSITIES
    if tank["holds"] != "fuel" or not low <= 1000 * density <= high:
        return density, u
    factor = fuel_factor(
        temperature_c=fuel.temperature_c,
        temperature_u_c=fuel.temperature_u_c,
        density_15_kg_per_m3=1000 * density,
    )
    return product_moments((density, u), factor)


def stated_density(tank: Body, fuel_kind: str | None) -> tuple[float, float]:
    """Density of a tank's content and its u, kg/L, of fuel at 15 C: the tank's own, else by what it holds."""
    usual, usual_u = DENSITY[content_of(tank, fuel_kind)]
    own, own_u = tank.get("density_kg_per_l"), tank.get("density_u_kg_per_l")
    if own is None:
        return usual, usual_u if own_u is None else float(own_u)
    return float(own), STATED_DENSITY_U if own_u is None else float(own_u)


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
        y_m=float(body.get("y_m") or MIDDLE_M),
        y_u_m=placed_u_m(body, "y_m"),
        z_m=None if z_m is None else float(z_m),
        z_u_m=placed_u_m(body, "z_m"),
        roof=bool(body.get("roof")),
        article=body.get("article_id"),
        taken_off=bool(body.get("taken_off")),
        on=body.get("trailer_id") or "vehicle",
        copies=count,
    )


def tank_parts(tank_id: str, body: Body, level: TankLevel, fuel: Fuel) -> Iterator[Part]:
    """What a tank weighs at a level: its content, what the outlet cannot reach, and a can's own mass."""
    density, density_u = density_of(body, fuel)
    x_m, x_u_m = float(body["x_m"]), position_u_m(body)
    y_m, y_u_m = float(body.get("y_m") or MIDDLE_M), placed_u_m(body, "y_m")
    bottom_m, z_u_m = body.get("z_bottom_m"), placed_u_m(body, "z_bottom_m")
    on = body.get("trailer_id") or "vehicle"
    held = tank_content(
        id=f"{tank_id}:content",
        density_kg_per_l=density,
        density_u_kg_per_l=density_u,
        capacity_l=float(body["capacity_l"]),
        capacity_u_l=float(body.get("capacity_u_l") or CAPACITY_U_L),
        level=level.level,
        level_u=level.level_u,
        x_m=x_m,
        x_u_m=x_u_m,
        y_m=y_m,
        z_m=height_in_tank_m(body, level.level),
        on=on,
    )
    yield replace(held, y_u_m=y_u_m, z_u_m=z_u_m)

    def alongside(what: str, mass_kg: float, mass_u_kg: float, z_m: float | None) -> Part:
        part_id = f"{tank_id}:{what}"
        return Part(part_id, mass_kg, mass_u_kg, x_m, x_u_m, y_m, y_u_m, z_m, z_u_m, on=on)

    litres = float(body.get("unusable_l") or UNUSABLE_L)
    if litres:
        yield alongside("unusable", density * litres, density_u * litres, bottom_m)
    if body.get("empty_mass_kg"):
        own_kg, own_u = float(body["empty_mass_kg"]), body.get("empty_mass_u_kg")
        u_kg = MASS_SHARE["data_sheet"] * own_kg if own_u is None else float(own_u)
        yield alongside("empty", own_kg, u_kg, height_in_tank_m(body, 1.0))


def seat_part(load: SeatLoad, seat: Body) -> Part:
    """A person or an animal in a seat."""
    z_m = seat.get("z_m")
    return Part(
        f"{load.seat_id}:occupant",
        load.mass_kg,
        load.mass_u_kg,
        float(seat["x_m"]),
        position_u_m(seat),
        y_m=float(seat.get("y_m") or MIDDLE_M),
        y_u_m=placed_u_m(seat, "y_m"),
        z_m=None if z_m is None else float(z_m),
        z_u_m=placed_u_m(seat, "z_m"),
    )


def trailer_parts(trailer_id: str, body: Body) -> Iterator[Part]:
    """The empty trailer as two parts, on its coupling and over its axles."""
    for end, x_m in (("coupling", 0.0), ("axles", float(body["coupling_to_axle_m"]))):
        mass_kg = float(body[f"base_{end}_kg"])
        own_u = body.get(f"base_{end}_u_kg")
        share = MASS_SHARE[body.get("base_known_by") or "estimate"]
        u_kg = share * mass_kg if own_u is None else float(own_u)
        yield Part(f"{trailer_id}:base_{end}", mass_kg, u_kg, x_m, on=trailer_id)
