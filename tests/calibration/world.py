"""What is true: vehicle, tanks, people and scale, drawn by physics of its own.

Nothing here comes from the domain, and the truth is not what the domain believes: errors are uniform where it takes
them for normal, places err as such and not as moments, and the scale has one error that is uniform within what its
class permits. Only the standard deviations are those that the sheet states.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from math import erf, sqrt

import numpy as np

from tests.calibration.sheet import (
    BASE,
    CG_HEIGHT_M,
    ITEMS,
    PERSON_U_KG,
    SEAT_U_M,
    SEATS_M,
    TANKS,
    WHEELBASE_M,
    Day,
    Level,
    Stated,
    StatedTank,
)

Chance = np.random.Generator
Error = Callable[[Chance], float]  # one error of sd 1

# OIML R 76-1 table 6, class III (from memory); 2014/31/EU annex I: in service twice as much
BANDS = ((500, 0.5), (2_000, 1.0), (10_000, 1.5))
DECK_SD_M, FRICTION_SD = 0.02, 0.003  # assumed


def uniform(chance: Chance) -> float:
    """One error of sd 1 that never exceeds sqrt 3."""
    return sqrt(3.0) * float(chance.uniform(-1.0, 1.0))


def normal(chance: Chance) -> float:
    """One normal error of sd 1."""
    return float(chance.normal())


@dataclass(frozen=True)
class Mass:
    """A true mass at its true place."""

    kg: float
    x_m: float


@dataclass(frozen=True)
class Loads:
    """True loads, kg."""

    front: float
    rear: float

    @property
    def total(self) -> float:
        """What both axles carry."""
        return self.front + self.rear

    def on(self, axles: Sequence[str]) -> float:
        """The load of a set of axles."""
        return sum(getattr(self, axle) for axle in axles)


@dataclass(frozen=True)
class Vehicle:
    """The lasting masses as they are, by name, and how the tanks truly are."""

    masses: Mapping[str, Mass]
    tanks: Mapping[str, tuple[float, float]]  # density in kg/L, capacity in L
    cg_height_m: float


def draw_vehicle(
    chance: Chance, error: Error = uniform, more_kg: Mapping[str, float] | None = None
) -> Vehicle:
    """A vehicle that the sheet could describe; `more_kg` is what an entry truly has beyond its own error."""
    more = more_kg or {}
    masses = {one.name: draw_mass(chance, one, error, more.get(one.name, 0.0)) for one in (*BASE, *ITEMS)}
    tanks = {
        one.name: (
            one.density_kg_per_l + one.density_u_kg_per_l * uniform(chance),
            one.capacity_l + one.capacity_u_l * uniform(chance),
        )
        for one in TANKS
    }
    return Vehicle(masses, tanks, CG_HEIGHT_M + 0.05 * uniform(chance))


def draw_mass(chance: Chance, stated: Stated, error: Error, more_kg: float = 0.0) -> Mass:
    """One mass and its place, each with its own error."""
    kg = max(0.0, stated.mass_kg + stated.mass_u_kg * error(chance) + more_kg)
    return Mass(kg, stated.x_m + stated.x_u_m * error(chance))


def draw_day(chance: Chance, *, full: bool = False) -> Day:
    """What is said of a day: people and levels as they come, or tanks full.

    Each day is another, so that the plan falls anywhere between two steps of the display.
    """
    levels = {
        one.name: Level(1.0, 0.01) if full else Level(float(chance.uniform(0.2, 0.8)), 0.03) for one in TANKS
    }
    people = tuple(
        Stated(name, float(chance.uniform(55.0, 95.0)), PERSON_U_KG, x_m, SEAT_U_M)
        for name, x_m in SEATS_M.items()
    )
    return Day(levels, people)


def draw_contents(chance: Chance, vehicle: Vehicle, day: Day, error: Error = uniform) -> list[Mass]:
    """What is in the tanks and on the seats that day; people differ from one day to the next."""
    held = [_content(chance, one, vehicle, day.levels[one.name], error) for one in TANKS]
    return [*held, *(draw_mass(chance, one, error) for one in day.people)]


def _content(chance: Chance, tank: StatedTank, vehicle: Vehicle, said: Level, error: Error) -> Mass:
    density, capacity = vehicle.tanks[tank.name]
    return Mass(density * capacity * max(0.0, said.level + said.u * error(chance)), tank.x_m)


def standing(masses: Sequence[Mass]) -> Loads:
    """Moments about the front axle give the rear load; the front carries the rest."""
    rear = sum(one.kg * one.x_m for one in masses) / WHEELBASE_M
    return Loads(sum(one.kg for one in masses) - rear, rear)


class Scale:
    """One scale with its errors, for as long as it stands there.

    The error of a reading is permitted x (2 Phi(s) - 1): uniform within what the class permits in service, whatever
    the load. s is a standard normal mix of what all readings share (in proportion to the load), what one visit
    shares, and what belongs to the axles on the deck, of which `steady` comes again at the next visit. Pads with
    `percent` have one relative error and no other.
    """

    def __init__(
        self,
        chance: Chance,
        *,
        interval_kg: float = 20.0,
        max_kg: float = 60_000.0,
        percent: float | None = None,
        steady: float = 0.5,
    ) -> None:
        self._chance, self._steady = chance, steady
        self.interval_kg, self.max_kg, self.percent = interval_kg, max_kg, percent
        self._gain = float(chance.normal())
        self._again = {axles: float(chance.normal()) for axles in (("front",), ("rear",), ("front", "rear"))}
        self._zero = 0.0

    def new_visit(self) -> None:
        """The zero is set afresh."""
        self._zero = float(self._chance.normal())

    def figure(self, axles: tuple[str, ...], loads: Loads, cg_height_m: float) -> float:
        """What the display shows with these axles on the deck."""
        load = loads.on(axles)
        shown = load + self._error(axles, load)
        if len(axles) == 1:
            step_m = DECK_SD_M * uniform(self._chance)  # each side of the deck has an approach of its own
            shown += loads.total * cg_height_m * step_m / WHEELBASE_M**2
            shown += FRICTION_SD * load * uniform(self._chance)
        return round(shown / self.interval_kg) * self.interval_kg

    def _error(self, axles: tuple[str, ...], load: float) -> float:
        if self.percent is not None:
            return load * self.percent / 100 * erf(self._gain / sqrt(2))
        permitted = self._permitted(load)
        gain = (self._largest_gain() * load / permitted) ** 2
        zero = (0.25 * self.interval_kg / permitted) ** 2
        own = 1.0 - gain - zero
        mixed = sqrt(gain) * self._gain + sqrt(zero) * self._zero
        mixed += sqrt(own * self._steady) * self._again[axles]
        mixed += sqrt(own * (1.0 - self._steady)) * float(self._chance.normal())
        return permitted * erf(mixed / sqrt(2))

    def _permitted(self, load: float) -> float:
        return next(2 * share * self.interval_kg for most, share in BANDS if load <= most * self.interval_kg)

    def _largest_gain(self) -> float:
        ends = [min(most * self.interval_kg, self.max_kg) for most, _ in BANDS]
        return min(self._permitted(end) / end for end in ends)
