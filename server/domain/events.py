"""What happens to tanks and to the rates at which they empty: the events that the filter knows.

An amount is a distance in *indicated* km for fuel and person-days for water. A rate is litres per `per` of it.
"""

from dataclasses import dataclass
from typing import TypeGuard

from .errors import DomainError, Duplicate, NotKnown, OutOfRange, check_range

OVERFILL = 1.1  # more than this share of the capacity in one fill is refused (assumed)
CHANGE_U = 0.15  # how far a new tyre or roof load may move the rates, relative (assumed)


@dataclass(frozen=True, slots=True)
class Start:
    """The level is known from outside; what was known of it before is dropped."""

    tank_id: str
    litres_l: float
    litres_u_l: float
    kind: str = "start"


@dataclass(frozen=True, slots=True)
class Use:
    """An amount in one class; `shares` of the draw per tank in the model's order add up to 1.

    Without `shares` the only tank gives all.
    """

    amount: float
    class_id: str
    shares: tuple[float, ...] = ()
    kind: str = "use"


@dataclass(frozen=True, slots=True)
class Fill:
    """Litres put in; without a u the pump's share of them."""

    tank_id: str
    litres_l: float
    litres_u_l: float | None = None
    kind: str = "fill"


@dataclass(frozen=True, slots=True)
class Full:
    """These tanks are filled to the shut-off: together they hold the sum of their capacities.

    Without a u that of each one's shut-off.
    """

    tank_ids: tuple[str, ...]
    litres_u_l: float | None = None
    kind: str = "full"


@dataclass(frozen=True, slots=True)
class Missed:
    """A fill was not entered: the level is anything, the rates stay."""

    tank_id: str
    kind: str = "missed"


@dataclass(frozen=True, slots=True)
class Gauge:
    """A level read as a fraction of the capacity; without a u the gauge's share of it."""

    tank_id: str
    fraction: float
    fraction_u: float | None = None
    kind: str = "gauge"


@dataclass(frozen=True, slots=True)
class Level:
    """A level read in litres."""

    tank_id: str
    litres_l: float
    litres_u_l: float
    kind: str = "level"


@dataclass(frozen=True, slots=True)
class Transfer:
    """Litres from one tank into another, or out of the vehicle."""

    tank_id: str
    into_id: str | None
    litres_l: float
    litres_u_l: float = 0.0
    kind: str = "transfer"


@dataclass(frozen=True, slots=True)
class Pour:
    """All that is in one tank, into another or out of the vehicle."""

    tank_id: str
    into_id: str | None
    kind: str = "pour"


@dataclass(frozen=True, slots=True)
class Change:
    """Something that may have moved all rates by `rate_u`, relative: tyres, a roof load."""

    rate_u: float = CHANGE_U
    kind: str = "change"


@dataclass(frozen=True, slots=True)
class Rescale:
    """The amounts are counted differently from now on: rates times `ratio`, k_new / k_old of the odometer."""

    ratio: float
    kind: str = "rescale"


Observation = Full | Gauge | Level
Event = Start | Use | Fill | Full | Missed | Gauge | Level | Transfer | Pour | Change | Rescale


def is_observation(event: Event) -> TypeGuard[Observation]:
    """Whether an event is something read, which can agree or not with what was expected."""
    return isinstance(event, Full | Gauge | Level)


def check_event(*, event: Event, tanks: int, capacity_l: float | None = None) -> None:
    """Refuse what cannot be computed with; `capacity_l` is that of the event's tank, `tanks` their number.

    Amounts, litres and u >= 0; a fraction from 0 to 1; one fill <= 1.1 capacities; shares of a draw from 0 to
    1 with the sum 1 to 1e-9; a ratio > 0. A fill of 0 L and a use of 0 are allowed and change nothing.
    """
    if isinstance(event, Use):
        check_range("amount", event.amount, low=0.0)
        check_shares(shares=event.shares, tanks=tanks)
    elif isinstance(event, Fill):
        capacity = None if capacity_l is None else check_range("capacity_l", capacity_l, above=0.0, unit="L")
        high = None if capacity is None else OVERFILL * capacity
        check_range("litres_l", event.litres_l, low=0.0, high=high, unit="L")
        check_range("litres_u_l", event.litres_u_l or 0.0, low=0.0, unit="L")
    elif isinstance(event, Start | Level | Transfer):
        check_range("litres_l", event.litres_l, low=0.0, unit="L")
        check_range("litres_u_l", event.litres_u_l, low=0.0, unit="L")
    elif isinstance(event, Gauge):
        check_range("fraction", event.fraction, low=0.0, high=1.0)
        check_range("fraction_u", event.fraction_u or 0.0, low=0.0)
    elif isinstance(event, Full):
        if not event.tank_ids:
            raise NotKnown("tank_ids", "a full tank")
        if len(set(event.tank_ids)) != len(event.tank_ids):
            raise Duplicate("tank_ids", list(event.tank_ids))
        check_range("litres_u_l", event.litres_u_l or 0.0, low=0.0, unit="L")
    elif isinstance(event, Change):
        check_range("rate_u", event.rate_u, low=0.0)
    elif isinstance(event, Rescale):
        check_range("ratio", event.ratio, above=0.0)


def check_shares(*, shares: tuple[float, ...], tanks: int) -> None:
    """Refuse shares of a draw that are negative, do not fit the tanks, or do not add up to 1 within 1e-9."""
    if not shares and tanks == 1:
        return
    if len(shares) != tanks:
        raise DomainError("shares", list(shares), f"{tanks} numbers, one for each tank")
    for share in shares:
        check_range("shares", share, low=0.0, high=1.0)
    if abs(sum(shares) - 1.0) > 1e-9:
        raise OutOfRange("shares", sum(shares), 1.0, 1.0)
