"""What the reading of a fuel or water log takes for granted: each figure, whose it is, and where it can be said.

The figures are applied elsewhere (`supplies`, `fuel`, `water`, `journal`, `notice`); here they are only told, but for
those of the filter, which a vehicle's record may replace.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from .book import Body, Book, Row
from .errors import Unknown
from .events import CHANGE_U, OVERFILL
from .filter import Settings
from .fuel import (
    BASE_RATE,
    DIP_U,
    FUEL,
    FUEL_KAPPAS,
    SURFACES,
    TOWING,
    TankSpec,
    own_rates,
    usual_reserve,
)
from .fullfull import FACTOR, FACTOR_U, STEP_KM
from .grey import GREY_FRACTION
from .journal import BEYOND, HOLD, OVERFULL
from .limits import CONFIDENCE
from .log_rows import ABOUT_U, tanks_of
from .notice import ALARM, SINGLE, SKIP, SLACK
from .water import DRINKING_RATE, EARLY, WATER, WATER_CHANGE_U, WATER_KAPPAS, WATER_RATE, uncounted_water

# setting of the filter -> field of the vehicle that replaces it
FUEL_FIELDS: Mapping[str, str] = {
    "u_common": "fuel_guess_u",
    "u_class": "fuel_surface_u",
    "walk": "fuel_drift",
    "walk_class": "fuel_surface_drift",
    "ell": "fuel_unsteady_km",
    "fill_u": "pump_u",
}
WATER_FIELDS: Mapping[str, str] = {
    "u_common": "water_guess_u",
    "walk": "water_drift",
    "fill_u": "water_fill_u",
}


@dataclass(frozen=True, slots=True)
class LogDefault:
    """One figure. `group`: the first guesses, how exact readings are, or when is asked.

    `own`: a record says it. Record, kind and field say where it is or can be said; None where only each entry can,
    or nobody.
    """

    code: str
    value: float
    group: str
    own: bool = False
    record_id: str | None = None
    kind: str | None = None
    field: str | None = None


def fuel_settings(*, vehicle: Body) -> Settings:
    """What the filter assumes of fuel, with what the vehicle's record says instead."""
    return _with_own(FUEL, FUEL_FIELDS, vehicle)


def water_settings(*, vehicle: Body) -> Settings:
    """What the filter assumes of water, with what the vehicle's record says instead."""
    return _with_own(WATER, WATER_FIELDS, vehicle)


def log_defaults(*, book: Book, holds: str, trailers_on: Sequence[str] = ()) -> tuple[LogDefault, ...]:
    """The figures that the log of one kind rests on besides its entries; nothing without a vehicle.

    `holds`: fuel or water, else refused. `trailers_on`: whose tanks of water are drawn from too.
    Sources stand beside each constant; what has none is assumed.
    """
    if holds not in ("fuel", "water"):
        raise Unknown("holds", holds, ["fuel", "water"])
    if book.vehicle is None:
        return ()
    tanks = tanks_of(book=book, holds=holds, trailers_on=trailers_on if holds == "water" else ())
    of = _of_fuel if holds == "fuel" else _of_water
    return (*of(book, book.vehicle, tanks), *_asked(holds))


def _with_own(usual: Settings, fields: Mapping[str, str], vehicle: Body) -> Settings:
    told = {name: float(vehicle[field]) for name, field in fields.items() if vehicle.get(field) is not None}
    return replace(usual, **told)


def _said(code: str, usual: float, group: str, row: Row, field: str) -> LogDefault:
    """A figure that a field of a record holds, or would."""
    own = row.body.get(field)
    return LogDefault(
        code, usual if own is None else float(own), group, own is not None, row.id, row.kind, field
    )


def _of_fuel(book: Book, vehicle: Row, tanks: Sequence[TankSpec]) -> Iterator[LogDefault]:
    names = {name: f"{name}_l_per_100km" for name in SURFACES}
    surfaces = {
        name: float(vehicle.body[of]) for name, of in names.items() if vehicle.body.get(of) is not None
    }
    base = surfaces.get("sealed", BASE_RATE)
    rates = own_rates(surfaces=surfaces) or {name: base * times for name, times in SURFACES.items()}
    for name, field in names.items():
        yield _said(f"{name}_rate", rates[name], "guess", vehicle, field)
    yield _said("towing_ratio", TOWING, "guess", vehicle, "towing_ratio")
    for name, field in FUEL_FIELDS.items():
        if name != "fill_u":
            yield _said(field, getattr(FUEL, name), "guess", vehicle, field)
    yield LogDefault("fuel_steadiest", min(FUEL_KAPPAS), "guess")
    yield LogDefault("fuel_unsteadiest", max(FUEL_KAPPAS), "guess")
    yield _said("pump_u", FUEL.fill_u, "reading", vehicle, "pump_u")
    yield from _of_readings(book, tanks, FUEL)
    yield _said("odometer_factor", FACTOR, "reading", vehicle, "odometer_factor")
    yield _said("odometer_factor_u", FACTOR_U, "reading", vehicle, "odometer_factor_u")
    yield _said("odometer_step_km", STEP_KM, "reading", vehicle, "odometer_step_km")
    yield _said("fuel_reserve_l", usual_reserve(tanks=tanks), "guess", vehicle, "fuel_reserve_l")
    yield _said("confidence", CONFIDENCE, "guess", vehicle, "confidence")


def _of_water(book: Book, vehicle: Row, tanks: Sequence[TankSpec]) -> Iterator[LogDefault]:
    yield _said("water_rate", WATER_RATE, "guess", vehicle, "water_l_per_day")
    yield LogDefault("drinking_floor", DRINKING_RATE, "guess")
    for name, field in WATER_FIELDS.items():
        if name != "fill_u":
            yield _said(field, getattr(WATER, name), "guess", vehicle, field)
    yield LogDefault("water_steadiest", min(WATER_KAPPAS), "guess")
    yield LogDefault("water_unsteadiest", max(WATER_KAPPAS), "guess")
    yield LogDefault("early", float(EARLY), "guess")
    yield _said("water_fill_u", WATER.fill_u, "reading", vehicle, "water_fill_u")
    yield from _of_readings(book, tanks, WATER)
    for row in book.tanks:
        if row.body["holds"] == "water" and row.body.get("grey_tank_id"):
            yield _said("grey_fraction", GREY_FRACTION, "guess", row, "grey_fraction")
    yield _said("water_reserve_l", uncounted_water(tanks=tanks), "guess", vehicle, "water_reserve_l")
    yield _said("confidence", CONFIDENCE, "guess", vehicle, "confidence")


def _of_readings(book: Book, tanks: Sequence[TankSpec], settings: Settings) -> Iterator[LogDefault]:
    """How exact a full tank, its gauge, a dip and an amount told are."""
    drawn = {tank.id for tank in tanks if tank.drawn}
    for row in book.tanks:
        if row.id in drawn:
            yield _said("full_u_l", settings.full_u_l, "reading", row, "full_u_l")
            yield _said("gauge_u", settings.gauge_u, "reading", row, "gauge_u")
    for how, u in DIP_U.items():
        if how != "gauge":
            yield LogDefault(f"dip_{how}", u, "reading")
    yield LogDefault("about_u", ABOUT_U, "reading")


def _asked(holds: str) -> Iterator[LogDefault]:
    """From where on an entry is asked about, and a change is noticed."""
    yield LogDefault("hold", HOLD, "asked")
    yield LogDefault("overfull", OVERFULL, "asked")
    yield LogDefault("overfill", OVERFILL, "asked")
    yield LogDefault("change_u", CHANGE_U if holds == "fuel" else WATER_CHANGE_U, "asked")
    if holds == "fuel":
        yield LogDefault("beyond", BEYOND, "asked")
        yield LogDefault("skip", float(SKIP), "asked")
        yield LogDefault("slack", SLACK, "asked")
        yield LogDefault("alarm", ALARM, "asked")
        yield LogDefault("single", SINGLE, "asked")
