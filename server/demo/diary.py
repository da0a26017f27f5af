"""The rows of a diary: what happens to a vehicle on the road. Days count back from today, hours are local."""

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """Something that happens at an hour of a day; `by` enters it, the owner unless said."""

    day: int
    at: str
    by: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand(Moment):
    """How things stand after days that nobody logged: true levels as shares of each tank, the trailer's if told."""

    odometer_km: int
    levels: Mapping[str, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Drive(Moment):
    """True kilometres driven up to this hour, and the shares of gravel and sand."""

    km: float
    gravel: float = 0.0
    sand: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Fill(Moment):
    """A stop at a pump; a tank with None is filled to the click, else with so many litres."""

    into: tuple[tuple[str, float | None], ...]
    place: str
    unlogged: bool = False
    missed_before: bool = False
    late_days: int = 0
    odometer_slip_km: int = 0  # what a slip of the thumb adds to the odometer as entered
    again_by: str | None = None  # a second phone logs the same stop


@dataclass(frozen=True, slots=True, kw_only=True)
class Dip(Moment):
    """A level read off; `struck_out` says why it was withdrawn the next morning."""

    tank: str
    struck_out: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Pour(Moment):
    """All that a can holds, into a tank."""

    out_of: str
    to: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Water(Moment):
    """Water in or out; a fill with no litres is a full one, a dump with none empties the tank."""

    tank: str
    action: str = "fill"
    litres: float | None = None
    source: str = "mains"
    drinkable: str = "yes"
    place: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Board(Moment):
    """Somebody joins or leaves, a load goes in or out, a trailer is coupled or uncoupled."""

    subject: str
    key: str
    aboard: bool
    seat: str | None = None
    why: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Visit(Moment):
    """A visit to a bridge: the stops on the deck in their order.

    Stops: "front", "rear", "whole" (all of the vehicle, its trailer off the deck but coupled), "everything",
    "alone" (the vehicle, its trailer uncoupled and off the deck).
    """

    bridge: str
    stops: tuple[str, ...]
    unit: str = "kg"
    mistyped: str | None = None  # two digits of this stop were swapped, and corrected that evening
    struck_out: Mapping[str, str] = field(default_factory=dict)  # stop -> reason; it is then weighed again
