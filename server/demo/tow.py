"""A trailer in truth: a beam on its coupling and its axles, the coupling standing on the tail of another beam."""

from collections.abc import Mapping
from dataclasses import dataclass

from .chance import Chance
from .figures import base_of
from .tables import TrailerSheet
from .truth import Loads, Mass, TrueTank, axle_loads, true_item, true_tank

_COUPLING_Z_M = 0.45  # where a coupling sits above the ground; common practice, no source
_TOWING_SD = 0.03  # sd of what a trailer does to consumption, as a share; assumed


@dataclass(frozen=True, slots=True)
class TrueTrailer:
    """One trailer as it is, whatever its sheet says. Its places count rearwards from the coupling."""

    coupling_x_m: float  # on the vehicle
    coupling_to_axle_m: float
    base: tuple[Mass, ...]
    items: Mapping[str, Mass]
    tanks: Mapping[str, TrueTank]
    towing: float


@dataclass(frozen=True, slots=True)
class Towed:
    """The vehicle `alone`, the vehicle with the coupling's load on its tail, and what the trailer carries where."""

    alone: Loads
    vehicle: Loads
    coupling_kg: float
    axles_kg: float

    @property
    def trailer_kg(self) -> float:
        """All of the trailer, as it would weigh uncoupled."""
        return self.coupling_kg + self.axles_kg

    @property
    def combination_kg(self) -> float:
        """What all wheels carry: the coupling's load is in the vehicle's, and counts once."""
        return self.vehicle.total_kg + self.axles_kg


@dataclass(slots=True)
class Tow:
    """The moving part of a trailer's truth."""

    sheet: TrailerSheet
    truth: TrueTrailer
    litres: dict[str, float]
    coupled: bool = False

    def loads(self) -> Loads:
        """What it rests on with these litres in its tanks: `front_kg` on the coupling, `rear_kg` on its axles."""
        masses = [*self.truth.base, *self.truth.items.values()]
        masses += [self.truth.tanks[key].mass(content) for key, content in self.litres.items()]
        return axle_loads(masses, self.truth.coupling_to_axle_m)


def draw_trailer(sheet: TrailerSheet, *, coupling_x_m: float, chance: Chance) -> TrueTrailer:
    """Draw each true figure from what the sheet says and how well it is known."""
    to_axle_m = base_of(sheet.figures["coupling_to_axle_m"])
    base: list[Mass] = []
    for end, x_m in (("coupling", 0.0), ("axles", to_axle_m)):
        kg = base_of(sheet.figures[f"base_{end}_kg"])
        kg += chance.noise(base_of(sheet.figures[f"base_{end}_u_kg"]))
        base.append(Mass(kg, x_m, sheet.z_base_m))
    return TrueTrailer(
        coupling_x_m=coupling_x_m,
        coupling_to_axle_m=to_axle_m,
        base=tuple(base),
        items={line.name: true_item(line, sheet.forgotten_share, chance) for line in sheet.lines},
        tanks={row.key: true_tank(row, chance) for row in sheet.tanks},
        towing=sheet.towing * (1 + chance.noise(_TOWING_SD)),
    )


def towed(alone: Loads, trailer: Loads, truth: TrueTrailer, wheelbase_m: float) -> Towed:
    """The coupling's load is one more mass on the vehicle, behind its rear axle: it lifts the front."""
    centre_m = alone.rear_kg * wheelbase_m / alone.total_kg
    whole = Mass(alone.total_kg, centre_m, alone.cg_height_m)
    on_tail = Mass(trailer.front_kg, truth.coupling_x_m, _COUPLING_Z_M)
    return Towed(alone, axle_loads([whole, on_tail], wheelbase_m), trailer.front_kg, trailer.rear_kg)
