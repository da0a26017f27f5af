"""From a book's log to fuel and water: what the estimators are given, and the levels that a state takes from them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import hypot

from .alike import alike
from .book import Body, Book
from .entries import ChangeEntry
from .fuel import DIP_U, class_of, drawn_tanks, own_rates
from .fuel_log import FuelLog, FuelSetup, read_fuel_log
from .fullfull import FACTOR, FACTOR_U, STEP_KM
from .grey import GREY_FRACTION, grey_filled
from .journal import levels_now
from .log_defaults import fuel_settings, water_settings
from .log_rows import fuel_entries, rows_until, seconds, tanks_of, water_entries
from .state import TankLevel, logged_state
from .water import WATER_RATE, Presence
from .water_answer import APART_U, water_answer
from .water_log import WaterLog, WaterSetup, read_water_log

SURFACES_AHEAD = ("sealed", "gravel", "sand")
ANIMAL_SHARE = 0.25  # of an adult's water, where the record leaves it blank (assumed)
# Nobody logs each kilometre: a fuel level that is older than so many hours is known less well (assumed, shares)
STALE_U = ((1.0, 0.02), (12.0, 0.05), (float("inf"), 0.15))


@dataclass(frozen=True, slots=True)
class _Change:
    at_s: float
    aboard: bool


def fuel_log_of(
    *,
    book: Book,
    until: str | None = None,
    ahead: Sequence[str] | None = None,
    previous: FuelLog | None = None,
) -> FuelLog | None:
    """The fuel log of a book, up to an instant; None without a tank that fuel is drawn from.

    `ahead`: classes that will be asked about, before the usual ones: the surfaces, and with a trailer in the book also
    towing. With `previous`, the log of nearly the same book, only what is new is run again.
    """
    tanks = tanks_of(book=book, holds="fuel")
    if book.vehicle is None or not drawn_tanks(tanks=tanks):
        return None
    body = book.vehicle.body
    setup = FuelSetup(
        tanks=tanks,
        factor=float(body.get("odometer_factor") or FACTOR),
        factor_u=float(body.get("odometer_factor_u") or FACTOR_U),
        rates=_own_rates(body),
        settings=fuel_settings(vehicle=body),
        step_km=float(body.get("odometer_step_km") or STEP_KM),
        ahead=tuple(dict.fromkeys([*(ahead or ()), *_ahead(book)])),
        reserve_l=body.get("fuel_reserve_l"),
        confirmed=_confirmed(book),
        alike=_alike(book),
    )
    return read_fuel_log(setup=setup, entries=fuel_entries(book=book, until=until), previous=previous)


def water_log_of(
    *,
    book: Book,
    until: str,
    trailers_on: Sequence[str] | None = None,
    previous: WaterLog | None = None,
) -> WaterLog | None:
    """The water log of a book, up to an instant; None without a tank that water is drawn from.

    The tanks of a trailer that is on then are drawn from like the others, in their turn, and count as aboard all along
    (assumed); those of one that is not are left out. `trailers_on` says which is on instead of the log.
    With `previous`, the log of nearly the same book, only what is new is run again.
    """
    on = logged_state(book=book, at=until).trailers_on if trailers_on is None else trailers_on
    tanks = tanks_of(book=book, holds="water", trailers_on=on)
    if not drawn_tanks(tanks=tanks):
        return None
    entries = water_entries(book=book, until=until, trailers_on=on)
    from_s = min((entry.at_s for entry in entries), default=seconds(until))
    body = book.vehicle.body if book.vehicle else {}
    rate = body.get("water_l_per_day")
    setup = WaterSetup(
        tanks=tanks,
        presences=presences(book=book, from_s=from_s),
        rate=WATER_RATE if rate is None else float(rate),
        settings=water_settings(vehicle=body),
        reserve_l=body.get("water_reserve_l"),
        confirmed=_confirmed(book),
        alike=_alike(book),
    )
    return read_water_log(setup=setup, entries=entries, now_s=seconds(until), previous=previous)


def presences(*, book: Book, from_s: float) -> tuple[Presence, ...]:
    """Who drinks, and when: aboard from the beginning of the log for whoever has a usual seat, then by the entries."""
    out: list[Presence] = []
    for person in book.people:
        usual = person.body.get("usual_seat_id") or any(
            seat.body.get("usual_person_id") == person.id for seat in book.seats
        )
        told = sorted(_changes(book, person.id), key=lambda one: one.at_s)
        # what was entered before the log began holds when it begins
        start = min([from_s, *(one.at_s for one in told)])
        changes = [_Change(start, bool(usual)), *told]
        ends: list[float | None] = [*(one.at_s for one in changes[1:]), None]
        share = water_share(person=person.body)
        out.extend(
            Presence(share, change.at_s, end)
            for change, end in zip(changes, ends, strict=True)
            if change.aboard and end != change.at_s
        )
    return tuple(out)


def water_share(*, person: Body) -> float:
    """A person's share of an adult's water; an animal's where the record leaves it blank is a quarter (assumed)."""
    if person.get("water_share") is not None:
        return float(person["water_share"])
    return ANIMAL_SHARE if person.get("nature") == "animal" else 1.0


def levels_at(
    *, book: Book, at: str, previous: FuelLog | None = None, water: WaterLog | None = None
) -> tuple[TankLevel, ...]:
    """Levels of the fuel and water tanks at an instant, by the log until then; tanks nobody logged are left out.

    `previous` as in `fuel_log_of`; `water` is the water log at that instant, where it has been read already.
    """
    levels: list[TankLevel] = []
    logged = _logged(book, at)
    capacities = {row.id: float(row.body["capacity_l"]) for row in book.tanks if row.body.get("capacity_l")}
    fuel = fuel_log_of(book=book, until=at, previous=previous)
    if fuel is not None and fuel.journal.steps:
        told = [one.at_s for one in fuel_entries(book=book, until=at) if not isinstance(one, ChangeEntry)]
        stale = _stale((seconds(at) - max(told, default=0.0)) / 3600)
        for one in levels_now(state=fuel.journal.state):
            if one.tank_id not in logged:
                continue
            levels.append(TankLevel(one.tank_id, one.level, hypot(one.level_u, stale), "estimate"))
        apart = [one for one in fuel.apart if one.tank_id in logged]
        levels += [_apart(one.tank_id, one.litres_l, capacities) for one in apart]
    water = water or water_log_of(book=book, until=at)
    if water is not None and water.journal.steps:
        drawn = {tank.id for tank in drawn_tanks(tanks=water.setup.tanks)}
        for tank in water_answer(log=water, now_s=seconds(at)).tanks:
            if tank.tank_id not in logged:
                continue
            if tank.tank_id not in drawn:
                levels.append(_apart(tank.tank_id, tank.litres.mean, capacities))
                continue
            capacity = capacities[tank.tank_id]
            share = min(max(tank.litres.mean / capacity, 0.0), 1.0)
            levels.append(TankLevel(tank.tank_id, share, min(tank.litres.u / capacity, 1.0), "estimate"))
    return (*levels, *_grey_levels(book, at, water))


def _grey_levels(book: Book, at: str, log: WaterLog | None) -> list[TankLevel]:
    """Grey tanks of the vehicle since each was last emptied or read; one that never was is left out."""
    out: list[TankLevel] = []
    rows = rows_until(rows=(*book.waters, *book.dips), until=at)
    for tank in tanks_of(book=book, holds="grey"):
        own = [row for row in rows if row.body["tank_id"] == tank.id]
        known = [n for n, row in enumerate(own) if row.kind == "dip" or row.body.get("everything")]
        if not known:
            continue
        last = own[known[-1]]
        litres, u = _grey_read(last.body, tank.capacity_l) if last.kind == "dip" else (0.0, 0.0)
        litres -= sum(float(row.body["litres_l"]) for row in own[known[-1] + 1 :])
        if log is not None:
            ran = grey_filled(
                log=log,
                from_s=seconds(last.body["at"]),
                until_s=seconds(at),
                fraction=_grey_fraction(book, tank.id),
            )
            litres, u = litres + ran.mean, hypot(u, ran.u)
        level = min(max(litres / tank.capacity_l, 0.0), 1.0)
        out.append(TankLevel(tank.id, level, min(u / tank.capacity_l, 1.0), "estimate"))
    return out


def _grey_read(body: Body, capacity_l: float) -> tuple[float, float]:
    """A level read as litres with u; a blank u is that of how it was read."""
    usual = DIP_U[body["how"]] * capacity_l
    if body.get("litres_l") is not None:
        stated = body.get("litres_u_l")
        return float(body["litres_l"]), usual if stated is None else float(stated)
    stated = body.get("level_u")
    return float(body.get("level") or 0.0) * capacity_l, usual if stated is None else float(
        stated
    ) * capacity_l


def _grey_fraction(book: Book, grey_id: str) -> float:
    """Share of all water used that reaches a grey tank: by the tanks that drain into it, by their capacity."""
    drawn = {tank.id: tank.capacity_l for tank in drawn_tanks(tanks=tanks_of(book=book, holds="water"))}
    into = 0.0
    for row in book.tanks:
        if row.id in drawn and row.body.get("grey_tank_id") == grey_id:
            share = row.body.get("grey_fraction")
            into += drawn[row.id] * (GREY_FRACTION if share is None else float(share))
    return into / sum(drawn.values()) if drawn else 0.0


def _logged(book: Book, until: str) -> set[str]:
    """Tanks that some entry names: of the others nothing is known, which is not the same as empty."""
    named: set[str] = set()
    for row in rows_until(rows=(*book.fills, *book.dips, *book.transfers, *book.waters), until=until):
        body = row.body
        named.update(line["tank_id"] for line in body.get("lines", ()))
        named.update(body[name] for name in ("tank_id", "from_tank_id", "to_tank_id") if body.get(name))
    return named


def _ahead(book: Book) -> tuple[str, ...]:
    towed = tuple(class_of(surface=name, towing=True) for name in SURFACES_AHEAD) if book.trailers else ()
    return (*SURFACES_AHEAD, *towed)


def _own_rates(vehicle: Body) -> Mapping[str, float]:
    """The rates that a vehicle's record begins with, by class; nothing where it says nothing."""
    told = {name: vehicle.get(f"{name}_l_per_100km") for name in SURFACES_AHEAD}
    surfaces = {name: float(rate) for name, rate in told.items() if rate is not None}
    return own_rates(surfaces=surfaces, towing=vehicle.get("towing_ratio"))


def _confirmed(book: Book) -> tuple[str, ...]:
    """Entries that somebody has looked at and found right."""
    return tuple(row.body["of_id"] for row in book.kept)


def _alike(book: Book) -> dict[str, str]:
    return {one.second_id: one.first_id for one in alike(book=book)}


def _changes(book: Book, person_id: str) -> list[_Change]:
    out: list[_Change] = []
    for entry in book.aboard:
        body = entry.body
        if body["subject_id"] != person_id:
            continue
        out.append(_Change(seconds(body["at"]), bool(body["aboard"])))
        if body.get("until"):
            out.append(_Change(seconds(body["until"]), not body["aboard"]))
    return out


def _stale(hours: float) -> float:
    return next(u for end, u in STALE_U if hours <= end)


def _apart(tank_id: str, litres_l: float, capacities: dict[str, float]) -> TankLevel:
    return TankLevel(tank_id, min(max(litres_l / capacities[tank_id], 0.0), 1.0), APART_U, "estimate")
