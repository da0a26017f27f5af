"""The fuel log, with the faults that fuel logs have: partial, late, doubled, missed and mistyped entries."""

from datetime import timedelta
from typing import Any

from .clock import moment
from .diary import Dip, Fill, Pour
from .figures import typed
from .journey import Journey, ScenarioError, write
from .tables import TankRow

CURRENCY = "XTS"  # the code that ISO 4217 reserves for tests
_PUMP = 0.0025  # sd of a pump, as a share; class 0.5 of Directive 2014/32/EU allows 0.005
_CLICK_L = 0.8  # sd of where the nozzle shuts off; common practice, no source
_AT_ONCE_L = 0.2  # what goes into a tank that was full already
_PER_LITRE = (1.95, 3.1)

# how a level is read -> (sd of the reading, the steps it is told in, the ± that a person states)
READINGS = {
    "gauge": (0.04, 0.125, "6 %"),
    "tube": (0.02, 0.05, "3 %"),
    "stick": (0.01, 0.02, "2 %"),
    "lamps": (0.05, 0.25, "10 %"),
}


def fill(journey: Journey, row: Fill) -> None:
    """Fuel goes in; an entry follows unless somebody forgot."""
    lines = [_pump(journey, key, litres) for key, litres in row.into]
    if row.unlogged:
        return
    per_litre = journey.chance.uniform(*_PER_LITRE)
    body: dict[str, Any] = {
        **typed(odometer_km=f"{journey.odometer_km + row.odometer_slip_km} km"),
        "lines": lines,
        "missed_before": row.missed_before,
        **journey.road(),
        "price": {"amount": f"{sum(one['litres_l'] for one in lines) * per_litre:.2f}", "currency": CURRENCY},
        "place": {"name": row.place},
    }
    made = journey.when(row) + timedelta(days=row.late_days, seconds=journey.chance.randint(60, 500))
    journal, book, at = journey.journal, journey.entered.book, journey.when(row)
    journal.log(book=book, kind="fill", body=body, at=at, made=made, by=journey.writer(row))
    if row.again_by:
        _log_again(journey, row, body)


def _log_again(journey: Journey, row: Fill, body: dict[str, Any]) -> None:
    """The other phone logs the same stop a little later, from memory."""
    about = [
        {"tank_id": one["tank_id"], "measured": False, "full": one["full"]}
        | typed(litres_l=f"{one['litres_l']:.0f} L", litres_u_l="1 L")
        for one in body["lines"]
    ]
    # no price and no surface: from memory, only what it remembers
    twin = {**typed(odometer_km=f"{journey.odometer_km} km"), "lines": about, "place": body["place"]}
    later = journey.when(row) + timedelta(minutes=11)
    journey.journal.log(
        book=journey.entered.book,
        kind="fill",
        body=twin,
        at=later,
        made=later + timedelta(minutes=2),
        by=row.again_by or journey.sheet.owner,
    )


def _pump(journey: Journey, key: str, litres: float | None) -> dict[str, Any]:
    tank, chance = journey.truth.tanks[key], journey.chance
    room = tank.capacity_l + chance.noise(_CLICK_L) - journey.litres[key]
    into = max(room, _AT_ONCE_L) if litres is None else litres
    if not 0 < into <= max(room, 0) + 2:
        raise ScenarioError(f"{journey.sheet.key}: {into:.1f} L do not go into {key}, which has {room:.1f}")
    journey.litres[key] += into
    shown = f"{into * (1 + chance.noise(_PUMP)):.2f} L"
    line = {"tank_id": journey.entered.of("tank", key), "full": litres is None, "measured": True}
    return line | typed(litres_l=shown)


def level_told(journey: Journey, row: TankRow) -> tuple[str, str]:
    """A level as somebody reads it, and the ± that goes with the way of reading, both as typed."""
    sd, step, u = READINGS[row.how]
    tank, litres = journey.holding(row.key)
    level = min(1.0, litres[row.key] / tank.capacity_l)
    bent = level + 4 * row.gauge_bend * level * (1 - level) + journey.chance.noise(sd)
    told = min(1.0, max(0.0, round(bent / step) * step))
    return f"{100 * told:g} %", u


def dip(journey: Journey, row: Dip) -> dict[str, Any]:
    """A level is read and logged; a reading that was withdrawn stays visible with the reason."""
    tank = next(one for one in journey.tank_rows if one.key == row.tank)
    told, u = level_told(journey, tank)
    body: dict[str, Any] = {"tank_id": journey.entered.of("tank", row.tank), "how": tank.how}
    figures = {"level": told, "level_u": u}
    if tank.holds == "fuel":
        figures["odometer_km"] = f"{journey.odometer_km} km"
        if not row.struck_out:  # the road told by an entry that goes would go with it
            body |= journey.road()
    body |= typed(**figures)
    entry = write(journey, "dip", body, row)
    if row.struck_out:
        _strike_out(journey, row, entry)
    return body


def _strike_out(journey: Journey, row: Dip, entry: str) -> None:
    at = moment(journey.today, row.day - 1, "07:05")
    body = {"of_id": entry, "what": "struck_out", "reason": row.struck_out}
    journey.journal.log(
        book=journey.entered.book, kind="correction", body=body, at=at, made=at, by=journey.writer(row)
    )


def pour(journey: Journey, row: Pour) -> None:
    """A can is emptied into a tank."""
    litres, tank = journey.litres[row.out_of], journey.truth.tanks[row.to]
    if journey.litres[row.to] + litres > tank.capacity_l:
        raise ScenarioError(f"{journey.sheet.key}: the can does not go into {row.to} on day {row.day}")
    journey.litres[row.out_of] = 0.0
    journey.litres[row.to] += litres
    ids = {name: journey.entered.of("tank", key) for name, key in (("from", row.out_of), ("to", row.to))}
    body = {f"{name}_tank_id": value for name, value in ids.items()} | {"everything": True}
    write(journey, "transfer", body | typed(odometer_km=f"{journey.odometer_km} km"), row)
