"""A visit to a bridge: true loads, printed figures, and the state of the day as the owner confirmed it."""

from collections.abc import Iterator
from datetime import timedelta
from typing import Any

from .bridges import Bridge, OnDeck, axles_of, read
from .diary import Dip, Moment, Visit
from .figures import base_of, typed
from .journey import Journey
from .log import dip, level_told
from .tables import TankRow
from .truth import Loads

_CAN_SD = 0.02  # a can stood full or empty: told, not measured


def visit(journey: Journey, row: Visit, *, in_log: bool) -> None:
    """Weigh, and write the visit down; a mistyped figure is corrected in the evening by a second entry."""
    loads = journey.loads(row.day)
    readings = list(_readings(journey, row, loads))
    state = _state(journey, row, in_log=in_log)
    bridge = journey.bridges[row.bridge]
    body = {
        "bridge": _described(bridge),
        "readings": readings,
        "state": state,
        "place": {"name": bridge.name},
        "ticket_number": f"{bridge.site_number}-{journey.chance.randint(10_000, 99_999)}",
        **typed(odometer_km=f"{journey.odometer_km} km"),
    }
    if row.mistyped is None:
        weighing = _enter(journey, row, body, minutes=4)
    else:
        wrong = _enter(journey, row, {**body, "readings": list(_swapped(readings, row.mistyped))}, minutes=4)
        reason = "Two digits swapped; the ticket shows the figure as it is here."
        weighing = _enter(journey, row, {**body, "corrects": wrong, "reason": reason}, minutes=500)
        journey.true_loads[wrong] = loads
    journey.true_loads[weighing] = loads


def _enter(journey: Journey, row: Visit, body: dict[str, Any], *, minutes: int) -> str:
    at = journey.when(row)
    made, by = at + timedelta(minutes=minutes), journey.writer(row)
    return journey.journal.log(book=journey.entered.book, kind="weighing", body=body, at=at, made=made, by=by)


def _described(bridge: Bridge) -> dict[str, Any]:
    return {
        "key": bridge.site_number.lower(),
        "name": bridge.name,
        "site_number": bridge.site_number,
        "form": "single_deck",
        "interval_kg": bridge.interval_kg,
        "displayed_interval_kg": bridge.interval_kg,
        "accuracy_class": "III",
        "max_kg": bridge.max_kg,
        "settled_by": "confirmed",
    }


def _readings(journey: Journey, row: Visit, loads: Loads) -> Iterator[dict[str, Any]]:
    for stop in row.stops:
        on_deck = deck_of(stop, loads, journey.truth.wheelbase_m)
        first = _reading(journey, row, on_deck)
        if stop in row.struck_out:
            # it rolled on while the figure was read: one wheel's worth of it was already beside the deck
            rolled = {**first, **_figure(first["value_kg"] - 160.0, row.unit)}
            yield rolled | {"struck_out": row.struck_out[stop]}
            first = _reading(journey, row, on_deck) | {"repeat_of": first["id"]}
        yield first


def deck_of(stop: str, loads: Loads, wheelbase_m: float) -> OnDeck:
    """What stands on the deck at a stop."""
    load_kg = {"front": loads.front_kg, "rear": loads.rear_kg, "whole": loads.total_kg}[stop]
    return OnDeck(axles_of(stop), load_kg, stop != "whole", loads.total_kg, loads.cg_height_m, wheelbase_m)


def _reading(journey: Journey, row: Visit, on_deck: OnDeck) -> dict[str, Any]:
    printed = read(journey.bridges[row.bridge], on_deck, journey.chance)
    head = {"id": journey.journal.new_id(journey.when(row)), "on_deck": list(on_deck.axles)}
    return {**head, "split": on_deck.split, **_figure(printed, row.unit)}


def _figure(kg: float, unit: str) -> dict[str, Any]:
    return typed(value_kg=f"{kg / 1000:.2f} t" if unit == "t" else f"{kg:.0f} kg")


def _swapped(readings: list[dict[str, Any]], stop: str) -> Iterator[dict[str, Any]]:
    """The readings with two unlike digits of one stop the wrong way round."""
    for reading in readings:
        if tuple(reading["on_deck"]) != axles_of(stop):
            yield reading
            continue
        digits = reading["as_typed"]["value_kg"][0]
        at = next(place for place in range(1, len(digits) - 1) if digits[place] != digits[place + 1])
        wrong = digits[:at] + digits[at + 1] + digits[at] + digits[at + 2 :]
        yield reading | typed(value_kg=f"{wrong} kg")


def _state(journey: Journey, row: Visit, *, in_log: bool) -> dict[str, Any]:
    """The copy that the weighing keeps; fuel that was read off at the bridge is in the log too."""
    plan = journey.journal.plan_at(journey.entered.book, journey.when(row))
    people = {one.key: one for one in journey.sheet.people}
    of, aboard = journey.entered.of, set(journey.items_aboard(row.day))
    return {
        "settled_by": "confirmed",
        "tanks": [_tank_state(journey, row, tank, in_log=in_log) for tank in journey.sheet.tanks],
        "seats": [
            {
                "seat_id": of("seat", seat),
                "person_id": of("person", person),
                "mass_kg": base_of(people[person].mass),
                "mass_u_kg": base_of(people[person].u),
            }
            for person, seat in journey.seated.items()
        ],
        "items": [
            {"item_id": of("item", line.name), "aboard": line.name in aboard}
            for line in journey.sheet.lines
            if of("item", line.name) in plan
        ],
        "trailers": [],
        "plan": [{"id": record, "rev": rev} for record, rev in plan.items()],
    }


def _tank_state(journey: Journey, row: Moment, tank: TankRow, *, in_log: bool) -> dict[str, Any]:
    tank_id = journey.entered.of("tank", tank.key)
    if tank.empty is not None:
        level = journey.litres[tank.key] / journey.truth.tanks[tank.key].capacity_l
        told, u, source = min(1.0, round(level, 1)), _CAN_SD, "typed"
    elif in_log:
        entry = dip(journey, Dip(day=row.day, at=row.at, by=row.by, tank=tank.key))
        told, u, source = entry["level"], entry["level_u"], "dip"
    else:
        figures = level_told(journey, tank)
        told, u, source = base_of(figures[0]), base_of(figures[1]), "typed"
    return {"tank_id": tank_id, "level": told, "level_u": u, "known_from": source}
