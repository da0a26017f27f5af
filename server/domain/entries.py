"""The entries of a log as plain numbers, and what is refused of one entry before anything is computed."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from .errors import DomainError, NotKnown, OutOfRange, Unknown, check_finite, check_range
from .events import CHANGE_U, OVERFILL
from .fuel import DIP_U, TankSpec, mix_of


@dataclass(frozen=True, slots=True)
class FillLine:
    """Litres into one tank or can, as typed; a blank u is the pump's."""

    tank_id: str
    litres_l: float
    full: bool = False
    litres_u_l: float | None = None


@dataclass(frozen=True, slots=True)
class FillEntry:
    """One stop. `surface` and `towing` tell the way since the entry before; blank is as before."""

    id: str
    at_s: float
    sequence: int
    odometer_km: float | None
    lines: tuple[FillLine, ...]
    missed_before: bool = False
    surface: Mapping[str, float] | None = None
    towing: bool | None = None
    kind: str = "fill"


@dataclass(frozen=True, slots=True)
class DipEntry:
    """A level read, as a fraction or in litres; a blank u is that of how it was read."""

    id: str
    at_s: float
    sequence: int
    odometer_km: float | None
    tank_id: str
    how: str = "gauge"
    level: float | None = None
    level_u: float | None = None
    litres_l: float | None = None
    litres_u_l: float | None = None
    surface: Mapping[str, float] | None = None
    towing: bool | None = None
    kind: str = "dip"


@dataclass(frozen=True, slots=True)
class TransferEntry:
    """Litres from one tank or can to another, or out (no `to_tank_id`); or everything."""

    id: str
    at_s: float
    sequence: int
    odometer_km: float | None
    from_tank_id: str
    to_tank_id: str | None = None
    litres_l: float | None = None
    litres_u_l: float | None = None
    everything: bool = False
    surface: Mapping[str, float] | None = None
    towing: bool | None = None
    kind: str = "transfer"


@dataclass(frozen=True, slots=True)
class ChangeEntry:
    """Something that changes the rates; `ratio` is k_new / k_old if other tyres change the odometer.

    With a `rate_u` of 0 it only tells of the way since the entry before.
    """

    id: str
    at_s: float
    sequence: int
    odometer_km: float | None
    rate_u: float = CHANGE_U
    ratio: float = 1.0
    surface: Mapping[str, float] | None = None
    towing: bool | None = None
    kind: str = "change"


@dataclass(frozen=True, slots=True)
class WaterEntry:
    """Water put in, drawn off for something else than the day's use, or dumped; or all of it."""

    id: str
    at_s: float
    sequence: int
    tank_id: str
    action: str
    litres_l: float
    litres_u_l: float | None = None
    full: bool = False
    drinkable: str = "unknown"
    everything: bool = False
    odometer_km: float | None = None
    kind: str = "water"


Entry = FillEntry | DipEntry | TransferEntry | ChangeEntry | WaterEntry
ACTIONS = ("fill", "draw", "dump")
DRINKABLE = ("yes", "unknown", "no")  # from the best to the worst


class TooMuch(OutOfRange):
    """More than 1.1 capacities in one fill or transfer."""

    code = "fill_too_large"


def check_place(*, entry: Entry, latest_s: float | None = None) -> None:
    """Refuse an entry that cannot be placed: an instant that is no number or too late, an odometer below 0."""
    latest = None if latest_s is None else check_finite("latest_s", latest_s)
    check_range("at_s", entry.at_s, high=latest, unit="s")
    check_finite("sequence", entry.sequence)
    if entry.odometer_km is not None:
        check_range("odometer_km", entry.odometer_km, low=0.0, unit="km")


def check_entry(*, entry: Entry, tanks: Sequence[TankSpec]) -> None:
    """Refuse what an entry says if it cannot be: unknown tanks, litres below 0 or above 1.1 capacities, shares.

    Litres above 1.1 capacities are `TooMuch`; a level from 0 to 1; surface shares from 0 to 1 with
    the sum 1 to 1e-6; a transfer needs litres or `everything`, and either tank must be able to hold them.
    """
    if isinstance(entry, FillEntry | DipEntry | TransferEntry | ChangeEntry):
        _check_surface(entry.surface)
    if isinstance(entry, FillEntry):
        if not entry.lines:
            raise NotKnown("lines", "a fill")
        for line in entry.lines:
            _check_fill(line.tank_id, line.litres_l, line.litres_u_l, tanks)
    elif isinstance(entry, DipEntry):
        _check_dip(entry, tanks)
    elif isinstance(entry, TransferEntry):
        _check_transfer(entry, tanks)
    elif isinstance(entry, ChangeEntry):
        check_range("rate_u", entry.rate_u, low=0.0)
        check_range("ratio", entry.ratio, above=0.0)
    else:
        _check_water(entry, tanks)


def tank_of(*, tanks: Sequence[TankSpec], tank_id: str) -> TankSpec:
    """The tank with this id; refuses one that is not there, and a capacity that is not above 0 L."""
    for tank in tanks:
        if tank.id == tank_id:
            check_range("capacity_l", tank.capacity_l, above=0.0, unit="L")
            return tank
    raise Unknown("tank_id", tank_id, [tank.id for tank in tanks])


def check_fits(*, litres_l: float, tank: TankSpec) -> None:
    """Refuse litres that no tank of this capacity takes or gives at once: more than 1.1 of it are `TooMuch`."""
    if litres_l > OVERFILL * tank.capacity_l:
        raise TooMuch("litres_l", litres_l, 0.0, OVERFILL * tank.capacity_l, "L")


def _check_fill(tank_id: str, litres: float, u: float | None, tanks: Sequence[TankSpec]) -> None:
    tank = tank_of(tanks=tanks, tank_id=tank_id)
    check_range("litres_l", litres, low=0.0, unit="L")
    _check_u("litres_u_l", u)
    check_fits(litres_l=litres, tank=tank)


def _check_dip(entry: DipEntry, tanks: Sequence[TankSpec]) -> None:
    capacity = tank_of(tanks=tanks, tank_id=entry.tank_id).capacity_l
    if entry.how not in DIP_U:
        raise Unknown("how", entry.how, list(DIP_U))
    if entry.level is None and entry.litres_l is None:
        raise NotKnown("level", "a level read")
    if entry.level is not None:
        check_range("level", entry.level, low=0.0, high=1.0)
    if entry.litres_l is not None:
        check_range("litres_l", entry.litres_l, low=0.0, high=OVERFILL * capacity, unit="L")
    _check_u("level_u", entry.level_u)
    _check_u("litres_u_l", entry.litres_u_l)


def _check_transfer(entry: TransferEntry, tanks: Sequence[TankSpec]) -> None:
    source = tank_of(tanks=tanks, tank_id=entry.from_tank_id)
    into = None if entry.to_tank_id is None else tank_of(tanks=tanks, tank_id=entry.to_tank_id)
    if into is source:
        raise DomainError("to_tank_id", entry.to_tank_id, "another tank")
    # what a can holds is counted: from a drawn tank it must be said how much
    open_amount = source.drawn and into is not None and not into.drawn
    if entry.litres_l is None and (open_amount or not entry.everything):
        raise NotKnown("litres_l", "a transfer")
    if entry.litres_l is not None:
        check_range("litres_l", entry.litres_l, low=0.0, unit="L")
        for tank in (source, into):
            if tank is not None:
                check_fits(litres_l=entry.litres_l, tank=tank)
    _check_u("litres_u_l", entry.litres_u_l)


def _check_water(entry: WaterEntry, tanks: Sequence[TankSpec]) -> None:
    for field, value, known in (
        ("action", entry.action, ACTIONS),
        ("drinkable", entry.drinkable, DRINKABLE),
    ):
        if value not in known:
            raise Unknown(field, value, known)
    _check_fill(entry.tank_id, entry.litres_l, entry.litres_u_l, tanks)


def _check_surface(surface: Mapping[str, float] | None) -> None:
    if surface is not None:
        mix_of(surface=surface)


def _check_u(field: str, value: float | None) -> None:
    if value is not None:
        check_range(field, value, low=0.0)
