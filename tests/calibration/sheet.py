"""The invented touring vehicle of the campaigns, as its sheet states it: figures and how well each is known.

It is set up as the vehicle behind the printed figures was: base masses, ten items, tanks and people, and a plan that
is unsure of its rear load by some 26 kg and of its total by some 30 kg at full tanks. All figures are assumed.
"""

from collections.abc import Mapping
from dataclasses import dataclass

WHEELBASE_M = 3.2
CG_HEIGHT_M = 0.8
ENDS_M = (-0.8, 4.6)  # foremost and hindmost point of the vehicle


@dataclass(frozen=True)
class Stated:
    """A mass at a place, with one standard uncertainty of each."""

    name: str
    mass_kg: float
    mass_u_kg: float
    x_m: float
    x_u_m: float = 0.0


@dataclass(frozen=True)
class StatedTank:
    """A tank, with what the sheet knows of its content's density and its capacity."""

    name: str
    density_kg_per_l: float
    density_u_kg_per_l: float
    capacity_l: float
    capacity_u_l: float
    x_m: float


@dataclass(frozen=True)
class Level:
    """What is said of a level on a day."""

    level: float
    u: float


BASE = (Stated("base_front", 1180.0, 16.0, 0.0), Stated("base_rear", 930.0, 13.0, WHEELBASE_M))

ITEMS = (
    Stated("front bar", 60.0, 3.0, -0.6, 0.02),
    Stated("winch", 38.0, 1.9, -0.55, 0.02),
    Stated("second battery", 28.0, 0.5, 0.4, 0.02),
    Stated("roof rack", 45.0, 2.3, 1.7, 0.05),
    Stated("roof tent", 62.0, 3.1, 1.9, 0.15),
    Stated("fridge", 44.0, 6.6, 2.5, 0.05),
    Stated("canopy", 150.0, 11.0, 3.0, 0.10),
    Stated("drawers", 72.0, 10.0, 3.1, 0.05),
    Stated("luggage", 105.0, 13.0, 3.3, 0.15),
    Stated("spare wheels", 70.0, 3.5, 4.2, 0.05),
)

# diesel 0.820 to 0.845 kg/L at 15 degrees: EN 590, as in the defaults of a new tank
TANKS = (
    StatedTank("fuel", 0.8325, 0.00722, 90.0, 1.5, 2.2),
    StatedTank("water", 1.0, 0.0, 80.0, 1.0, 2.6),
)

SEATS_M = {"driver": 1.3, "passenger": 2.1}
PERSON_U_KG, SEAT_U_M = 3.0, 0.02


@dataclass(frozen=True)
class Day:
    """What is said of tanks and people on a day."""

    levels: Mapping[str, Level]
    people: tuple[Stated, ...]
