"""From a book's log to fuel and water: what the estimators are given, and the levels that a state takes from them."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot

from .alike import alike
from .book import Body, Book
from .entries import ChangeEntry
from .fuel import drawn_tanks
from .fuel_log import FuelLog, FuelSetup, read_fuel_log
from .journal import levels_now
from .log_rows import fuel_entries, rows_until, seconds, tanks_of, water_entries
from .state import TankLevel
from .water import Presence
from .water_answer import water_answer
from .water_log import WaterLog, WaterSetup, read_water_log

SURFACES_AHEAD = ("sealed", "gravel", "sand")
ANIMAL_SHARE = 0.25  # of an adult's water, where the record leaves it blank (assumed)
APART_U = 0.05  # of a can or reserve that only its entries tell of, as a share of it (assumed)
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
    ahead: Sequence[str] = SURFACES_AHEAD,
    previous: FuelLog | None = None,
) -> FuelLog | None:
    """The fuel log of a book, up to an instant; None without a tank that fuel is drawn from.

    `ahead`: the classes that will be asked about. With `previous`, the log of nearly the same book, only what is new is
    run again.
    """
    tanks = tanks_of(book=book, holds="fuel")
    if book.vehicle is None or not drawn_tanks(tanks=tanks):
        return None
    body = book.vehicle.body
    setup = FuelSetup(
        tanks=tanks,
        factor=float(body.get("odometer_factor") or 1.0),
        factor_u=float(body.get("odometer_factor_u") or 0.0),
        ahead=tuple(ahead),
        confirmed=_confirmed(book),
        alike=_alike(book),
    )
    return read_fuel_log(setup=setup, entries=fuel_entries(book=book, until=until), previous=previous)


def water_log_of(*, book: Book, until: str) -> WaterLog | None:
    """The water log of a book, up to an instant; None without a tank that water is drawn from."""
    tanks = tanks_of(book=book, holds="water")
    if not drawn_tanks(tanks=tanks):
        return None
    entries = water_entries(book=book, until=until)
    from_s = min((entry.at_s for entry in entries), default=seconds(until))
    setup = WaterSetup(
        tanks=tanks,
        presences=presences(book=book, from_s=from_s),
        confirmed=_confirmed(book),
        alike=_alike(book),
    )
    return read_water_log(setup=setup, entries=entries, now_s=seconds(until))


def presences(*, book: Book, from_s: float) -> tuple[Presence, ...]:
    """Who drinks, and when: aboard from the beginning of the log for whoever has a usual seat, then by the entries."""
    out: list[Presence] = []
    for person in book.people:
        usual = person.body.get("usual_seat_id") or any(
            seat.body.get("usual_person_id") == person.id for seat in book.seats
        )
        changes = [_Change(from_s, bool(usual)), *_changes(book, person.id)]
        changes.sort(key=lambda one: one.at_s)
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


def levels_at(*, book: Book, at: str, previous: FuelLog | None = None) -> tuple[TankLevel, ...]:
    """Levels of the fuel and water tanks at an instant, by the log until then; tanks nobody logged are left out.

    `previous` as in `fuel_log_of`.
    """
    levels: list[TankLevel] = []
    logged = _logged(book, at)
    capacities = {
        tank.id: tank.capacity_l for holds in ("fuel", "water") for tank in tanks_of(book=book, holds=holds)
    }
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
    water = water_log_of(book=book, until=at)
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
    return tuple(levels)


def _logged(book: Book, until: str) -> set[str]:
    """Tanks that some entry names: of the others nothing is known, which is not the same as empty."""
    named: set[str] = set()
    for row in rows_until(rows=(*book.fills, *book.dips, *book.transfers, *book.waters), until=until):
        body = row.body
        named.update(line["tank_id"] for line in body.get("lines", ()))
        named.update(body[name] for name in ("tank_id", "from_tank_id", "to_tank_id") if body.get(name))
    return named


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
