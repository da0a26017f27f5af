"""What the vehicles truly weigh and burn, by simple physics: point masses on a beam with two supports."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from .chance import Chance
from .figures import base_of
from .tables import Line, Nature, PersonRow, Sheet, TankRow

# kg/L as pumped: diesel of EN 590 lies between 0.820 and 0.845 at 15 degrees
_DIESEL = (0.826, 0.839)
# sd as a share of the mass, by how the figure is known, where the sheet states none (common practice)
_SD_SHARE = {"weighed": 0.005, "data_sheet": 0.05, "similar": 0.10, "estimate": 0.15}
MEASURED_SD_M, TOLD_SD_M = 0.02, 0.15
_CLOTHES_KG = 0.7  # sd of a person's mass from day to day


@dataclass(frozen=True, slots=True)
class Mass:
    """A mass at a place."""

    kg: float
    x_m: float
    z_m: float


@dataclass(frozen=True, slots=True)
class Loads:
    """Mass-equivalent axle loads, and the height of the centre of gravity."""

    front_kg: float
    rear_kg: float
    cg_height_m: float

    @property
    def total_kg(self) -> float:
        """What all wheels carry."""
        return self.front_kg + self.rear_kg


@dataclass(frozen=True, slots=True)
class TrueTank:
    """A tank as it is. Below the outlet it always holds what cannot be reached."""

    holds: str
    capacity_l: float
    unusable_l: float
    empty_kg: float
    density_kg_per_l: float
    x_m: float
    z_bottom_m: float
    height_m: float

    def mass(self, litres: float) -> Mass:
        """Shell of a can, dead volume and content together."""
        kg = self.empty_kg + self.density_kg_per_l * (self.unusable_l + litres)
        return Mass(kg, self.x_m, self.z_bottom_m + self.height_m * min(1.0, litres / self.capacity_l) / 2)


@dataclass(frozen=True, slots=True)
class TrueVehicle:
    """One vehicle as it is, whatever its sheet says."""

    wheelbase_m: float
    base: tuple[Mass, ...]
    items: Mapping[str, Mass]
    unlisted: tuple[Mass, ...]
    people: Mapping[str, float]
    seats: Mapping[str, tuple[float, float]]
    tanks: Mapping[str, TrueTank]
    nature: Nature
    rates_l_per_100km: Mapping[str, float]


def axle_loads(masses: Iterable[Mass], wheelbase_m: float) -> Loads:
    """Moments about the front axle give the rear axle's load; the rest stands on the front."""
    kept = list(masses)
    total = sum(one.kg for one in kept)
    rear = sum(one.kg * one.x_m for one in kept) / wheelbase_m
    height = sum(one.kg * one.z_m for one in kept) / total
    return Loads(total - rear, rear, height)


def standing(
    vehicle: TrueVehicle,
    *,
    items: Iterable[str],
    seated: Mapping[str, str],
    litres: Mapping[str, float],
    chance: Chance | None = None,
) -> Loads:
    """The loads with these items aboard, these people in these seats and these litres in the tanks."""
    masses = [*vehicle.base, *vehicle.unlisted, *(vehicle.items[key] for key in items)]
    masses += [vehicle.tanks[key].mass(content) for key, content in litres.items()]
    for person, seat in seated.items():
        kg = vehicle.people[person] + (chance.noise(_CLOTHES_KG) if chance else 0.0)
        masses.append(Mass(kg, *vehicle.seats[seat]))
    return axle_loads(masses, vehicle.wheelbase_m)


def draw_truth(sheet: Sheet, chance: Chance) -> TrueVehicle:
    """Draw each true figure from what the sheet says and how well it is known."""
    wheelbase_m = base_of(sheet.figures["wheelbase_m"])
    tanks = {row.key: true_tank(row, chance) for row in sheet.tanks}
    nature = sheet.nature
    sealed = nature.rate_l_per_100km * (1 + chance.noise(0.03))
    return TrueVehicle(
        wheelbase_m=wheelbase_m,
        base=tuple(_base(sheet, tanks, wheelbase_m, chance)),
        items={line.name: true_item(line, nature.forgotten_share, chance) for line in sheet.lines},
        unlisted=tuple(Mass(chance.uniform(*one.mass_kg), one.x_m, one.z_m) for one in sheet.unlisted),
        people={row.key: _person(row, chance) for row in sheet.people},
        seats={row.key: (row.at[0] / 1000, row.at[2] / 1000) for row in sheet.seats},
        tanks=tanks,
        nature=nature,
        rates_l_per_100km={
            "sealed": sealed,
            "gravel": sealed * nature.gravel * (1 + chance.noise(0.03)),
            "sand": sealed * nature.sand * (1 + chance.noise(0.05)),
        },
    )


def sd_of(line: Line) -> float:
    """One standard deviation of a line's mass in kg: as stated, else by how it is known."""
    return base_of(line.u) if line.u else _SD_SHARE[line.known_by] * base_of(line.mass)


def true_item(line: Line, forgotten_share: float, chance: Chance) -> Mass:
    """What a line truly weighs and where it truly sits."""
    each = base_of(line.mass)
    forgotten = 0.0 if line.load or line.taken_off else forgotten_share * each
    gap = chance.uniform(*line.truly_more_kg) if line.truly_more_kg else forgotten + chance.noise(sd_of(line))
    kg = max(0.0, each + gap) * line.count
    sd_m = TOLD_SD_M if line.told else MEASURED_SD_M
    x_m = line.at[0] / 1000 + chance.noise(base_of(line.x_u) if line.x_u else sd_m)
    z_m = line.at[2] / 1000 + chance.noise(sd_m)
    return Mass(-kg if line.taken_off else kg, x_m, max(0.0, z_m))


def _person(row: PersonRow, chance: Chance) -> float:
    return base_of(row.mass) + chance.noise(base_of(row.u))


def true_tank(row: TankRow, chance: Chance) -> TrueTank:
    """A tank as it truly is."""
    capacity_sd = base_of(row.capacity_u) if row.capacity_u else 0.0
    return TrueTank(
        holds=row.holds,
        capacity_l=base_of(row.capacity) + chance.noise(capacity_sd),
        unusable_l=base_of(row.unusable) if row.unusable else 0.0,
        empty_kg=base_of(row.empty) if row.empty else 0.0,
        density_kg_per_l=chance.uniform(*_DIESEL) if row.holds == "fuel" else 1.0,
        x_m=row.at[0] / 1000,
        z_bottom_m=row.at[2] / 1000,
        height_m=base_of(row.height),
    )


def _base(sheet: Sheet, tanks: Mapping[str, TrueTank], wheelbase_m: float, chance: Chance) -> Iterable[Mass]:
    """The delivered vehicle, less the fuel and the driver that its country counts into "empty"."""
    for end, x_m in (("front", 0.0), ("rear", wheelbase_m)):
        kg = base_of(sheet.figures[f"base_{end}_kg"])
        kg += chance.noise(base_of(sheet.figures[f"base_{end}_u_kg"]))
        yield Mass(kg, x_m, sheet.nature.z_base_m)
    first = next(row for row in sheet.tanks if row.holds == "fuel")
    tank = tanks[first.key]
    yield Mass(-tank.density_kg_per_l * base_of(sheet.figures["base_fuel_l"]), tank.x_m, tank.z_bottom_m)
    if "base_driver_kg" in sheet.figures:
        seat = sheet.seats[0]
        yield Mass(-base_of(sheet.figures["base_driver_kg"]), seat.at[0] / 1000, seat.at[2] / 1000)
