"""The rows of the scenario's tables. Places are in millimetres, as a fitter's tape gives them."""

from collections.abc import Mapping
from dataclasses import dataclass

Place = tuple[int, int, int]  # x rearwards from the front axle, y to the right, z up


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a build sheet; `truly_more_kg` is what the fitter did not know (lowest and highest)."""

    name: str
    mass: str
    known_by: str
    at: Place
    u: str | None = None
    x_u: str | None = None
    load: bool = False
    count: int = 1
    weighed_singly: bool = False
    roof: bool = False
    taken_off: bool = False
    on_order: bool = False
    told: bool = False  # the place was described, not measured
    stays: bool = False  # may stay behind
    comes: bool = False  # must come along, though it may lie elsewhere
    keep: bool = False  # not to be touched
    slots: tuple[tuple[str, Place], ...] = ()
    trailer_slots: tuple[tuple[str, Place], ...] = ()  # places on the trailer, once there is one
    fitted_day: int | None = None
    truly_more_kg: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class Unlisted:
    """Something aboard that no sheet mentions."""

    name: str
    mass_kg: tuple[float, float]
    x_m: float
    z_m: float


@dataclass(frozen=True, slots=True)
class TankRow:
    """One tank or can; `gauge` is how far its reading bends away from the truth at half full."""

    key: str
    name: str
    holds: str
    capacity: str
    at: Place
    height: str
    how: str = "gauge"
    gauge_bend: float = 0.0
    capacity_u: str | None = None
    unusable: str | None = None
    empty: str | None = None
    order: int | None = None
    grey: str | None = None
    reserve: bool = False
    breadth: str | None = None


@dataclass(frozen=True, slots=True)
class SeatRow:
    """One seat."""

    key: str
    name: str
    at: Place


@dataclass(frozen=True, slots=True)
class PersonRow:
    """One traveller, two-legged or four-legged."""

    key: str
    name: str
    mass: str
    seat: str
    u: str = "2 kg"
    animal: bool = False
    child: bool = False
    water_share: str = "1 1"


@dataclass(frozen=True, slots=True)
class PlateRow:
    """One plate with the ratings that it states; `day` counts back from today."""

    of: str
    issuer: str
    day: int
    ratings: Mapping[str, str]
    conditions: str = ""
    tyre_size: str = ""
    tyre_load_index: int | None = None


@dataclass(frozen=True, slots=True)
class TrailerSheet:
    """A trailer's own sheet. Places on it count rearwards from the coupling; `day` is when it was entered."""

    key: str
    day: int
    trailer: Mapping[str, object]
    figures: Mapping[str, str]
    lines: tuple[Line, ...]
    tanks: tuple[TankRow, ...]
    plates: tuple[PlateRow, ...]
    forgotten_share: float  # as for the vehicle
    z_base_m: float
    towing: float  # what it does to consumption, as a factor


@dataclass(frozen=True, slots=True)
class Edit:
    """A line of the sheet put on the workshop's scale later: its mass is then known to half a kilogram."""

    day: int
    at: str
    line: str
    note: str


@dataclass(frozen=True, slots=True)
class Nature:
    """What the vehicle is in truth beyond its sheet: (mean, sd) for what is drawn."""

    forgotten_share: float  # brackets, wiring and bolts that no line mentions, as a share of each part
    rate_l_per_100km: float
    gravel: float
    sand: float
    odometer_factor: float
    water_l_per_person_day: float
    z_base_m: float


@dataclass(frozen=True, slots=True)
class Sheet:
    """All that is written down about one vehicle, and what it is in truth."""

    key: str
    owner: str
    co_driver: str | None
    begun_day: int
    vehicle: Mapping[str, object]
    figures: Mapping[str, str]
    lines: tuple[Line, ...]
    unlisted: tuple[Unlisted, ...]
    tanks: tuple[TankRow, ...]
    seats: tuple[SeatRow, ...]
    people: tuple[PersonRow, ...]
    plates: tuple[PlateRow, ...]
    edits: tuple[Edit, ...]
    nature: Nature
    trailer: TrailerSheet | None = None
