"""A visit to a bridge: true loads, printed figures, and the state of the day as the owner confirmed it."""

from collections.abc import Iterator, Mapping
from datetime import timedelta
from typing import Any

from .bridges import Bridge, OnDeck, axles_of, read
from .diary import Dip, Moment, Visit
from .figures import base_of, typed
from .journey import Journey
from .log import dip, level_told
from .tables import TankRow
from .tow import Towed, towed
from .truth import Loads

_CAN_SD = 0.02  # a can stood full or empty: told, not measured
_LEFT_SD = 0.05  # what was left in a trailer's tank when it was parked: remembered, not measured


def visit(journey: Journey, row: Visit, *, in_log: bool) -> None:
    """Weigh, and write the visit down; a mistyped figure is corrected in the evening by a second entry."""
    stood = _stand(journey, row)
    readings = list(_readings(journey, row, stood))
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
        _remember(journey, wrong, stood)
    _remember(journey, weighing, stood)


def _stand(journey: Journey, row: Visit) -> Loads | Towed:
    """True loads at this visit, with the trailer if it is coupled."""
    alone, tow = journey.loads(row.day), journey.coupled
    return towed(alone, tow.loads(), tow.truth, journey.truth.wheelbase_m) if tow else alone


def _remember(journey: Journey, weighing: str, stood: Loads | Towed) -> None:
    if isinstance(stood, Towed):
        journey.true_towed[weighing] = stood
        stood = stood.vehicle
    journey.true_loads[weighing] = stood


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


def _readings(journey: Journey, row: Visit, stood: Loads | Towed) -> Iterator[dict[str, Any]]:
    for stop in row.stops:
        on_deck = deck_of(stop, stood, journey.truth.wheelbase_m)
        first = _reading(journey, row, on_deck)
        if stop == "alone":
            first["differs"] = {"uncoupled": True}
        if stop in row.struck_out:
            # it rolled on while the figure was read: one wheel's worth of it was already beside the deck
            rolled = {**first, **_figure(first["value_kg"] - 160.0, row.unit)}
            yield rolled | {"struck_out": row.struck_out[stop]}
            first = _reading(journey, row, on_deck) | {"repeat_of": first["id"]}
        yield first


def deck_of(stop: str, stood: Loads | Towed, wheelbase_m: float) -> OnDeck:
    """What stands on the deck at a stop.

    A vehicle on a proud deck lifts its trailer's coupling, which takes off less than a kilogram: left out.
    """
    loads = stood if isinstance(stood, Loads) else stood.alone if stop == "alone" else stood.vehicle
    load_kg = {"front": loads.front_kg, "rear": loads.rear_kg}.get(stop, loads.total_kg)
    if isinstance(stood, Towed) and stop == "everything":
        load_kg = stood.combination_kg
    axles = axles_of(stop)
    return OnDeck(axles, load_kg, len(axles) == 1, loads.total_kg, loads.cg_height_m, wheelbase_m)


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
    of, aboard = journey.entered.of, {*journey.items_aboard(row.day), *journey.trailer_items}
    return {
        "settled_by": "confirmed",
        "tanks": [_tank_state(journey, row, tank, in_log=in_log) for tank in _tanks_at(journey, plan)],
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
            {"item_id": of("item", name), "aboard": name in aboard}
            for name in journey.line_names
            if of("item", name) in plan
        ],
        "trailers": _trailers(journey, plan),
        "plan": [{"id": record, "rev": rev} for record, rev in plan.items()],
    }


def _tanks_at(journey: Journey, plan: Mapping[str, str]) -> list[TankRow]:
    return [row for row in journey.tank_rows if journey.entered.of("tank", row.key) in plan]


def _trailers(journey: Journey, plan: Mapping[str, str]) -> list[dict[str, Any]]:
    if journey.tow is None or (trailer := journey.entered.of("trailer", journey.tow.sheet.key)) not in plan:
        return []
    return [{"trailer_id": trailer, "coupled": journey.coupled is not None}]


def _tank_state(journey: Journey, row: Moment, tank: TankRow, *, in_log: bool) -> dict[str, Any]:
    tank_id = journey.entered.of("tank", tank.key)
    trailers_own = journey.tow is not None and tank.key in journey.tow.litres
    if tank.empty is not None or (trailers_own and not journey.coupled):
        true, litres = journey.holding(tank.key)
        level, u = litres[tank.key] / true.capacity_l, _LEFT_SD if trailers_own else _CAN_SD
        told, source = min(1.0, round(level, 1)), "typed"
    elif in_log:
        entry = dip(journey, Dip(day=row.day, at=row.at, by=row.by, tank=tank.key))
        told, u, source = entry["level"], entry["level_u"], "dip"
    else:
        figures = level_told(journey, tank)
        told, u, source = base_of(figures[0]), base_of(figures[1]), "typed"
    return {"tank_id": tank_id, "level": told, "level_u": u, "known_from": source}
