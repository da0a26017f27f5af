"""The worked example of load advice as a book, and a tank: vectors of the least change, by levers alone."""

from typing import Any

Json = Any
DAY = "2026-05-01"
EXACT = {"mass_u_kg": 0.0, "x_u_m": 0.0}
VEHICLE = {
    "name": "V", "wheelbase_m": 3.0, "base_front_kg": 1000.0, "base_front_u_kg": 0.0, "base_rear_kg": 930.0,
    "base_rear_u_kg": 0.0, "confidence": 0.5, "coupling_x_m": 4.0,
}  # fmt: skip
HEAVY = {"name": "P", "nature": "part", "mass_kg": 60.0, "x_m": 3.6, "may_stay_behind": True, **EXACT,
         "may_move_to": [{"label": "middle", "x_m": 1.5}]}  # fmt: skip
LIGHT = {"name": "Q", "nature": "load", "mass_kg": 20.0, "x_m": 3.0, **EXACT}
TANK = {
    "name": "Water",
    "holds": "water",
    "capacity_l": 100.0,
    "density_kg_per_l": 1.0,
    "x_m": 3.0,
    "x_u_m": 0.0,
}
CAN = {**TANK, "name": "Front tank", "capacity_l": 30.0, "x_m": 0.0}
TRAILER = {"name": "T", "coupling_to_axle_m": 3.0, "base_coupling_kg": 60.0, "base_coupling_u_kg": 0.0,
           "base_axles_kg": 500.0, "base_axles_u_kg": 0.0}  # fmt: skip


def book(*records: tuple[str, str, Json], rear_kg: float = 1000.0, **vehicle: Any) -> Json:
    """A vehicle whose rear axle is rated, with these records: id, kind, body."""
    rows = [
        _row("v", "vehicle", {**VEHICLE, **vehicle}),
        _row("p", "plate", {"of": "vehicle", "rear_axle_kg": rear_kg}, 1),
        *(_row(id, kind, body, n) for n, (id, kind, body) in enumerate(records)),
    ]
    return {"$call": {"module": "book", "function": "open_book", "in": {"rows": rows}}}


def _row(id: str, kind: str, body: Json, order: int = 0) -> Json:
    return {"id": id, "kind": kind, "rev": f"{id}-1", "body": body, "order": order, "author": ""}


def items(**changed: Json) -> list[tuple[str, str, Json]]:
    """The two loads of the example."""
    bodies = {"P": HEAVY, "Q": LIGHT}
    return [(id, "item", {**body, **changed.get(id, {})}) for id, body in bodies.items()]


def state(
    levels: dict[str, float] | None = None, *, seats: Json = (), away: Json = (), on: Json = ()
) -> Json:
    """Levels that are known exactly."""
    tanks = [
        {"tank_id": id, "level": level, "level_u": 0.0, "known_from": "typed"}
        for id, level in (levels or {}).items()
    ]
    return {"tanks": tanks, "seats": list(seats), "items_away": list(away), "trailers_on": list(on)}


def asked(book: Json, state: Json, **wishes: Any) -> Json:
    """The input of a least change: no weighings."""
    learning = {"$call": {"module": "learning", "function": "learn", "in": {"book": book, "days": []}}}
    return {"book": book, "state": state, "learning": learning, "day": DAY, "wishes": wishes}
