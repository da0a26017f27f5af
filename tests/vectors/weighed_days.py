"""An invented vehicle with a history, in figures that can be added up by hand, for what is said of a weighed day."""

from math import sqrt
from typing import Any

from vectors.decode import plain

from server.domain.book import Book, Edit, Row, open_book

Json = Any

VEHICLE = {"name": "Vehicle", "wheelbase_m": 3.2, "base_front_kg": 1200.0, "base_front_u_kg": 6.0,
           "base_rear_kg": 900.0, "base_rear_u_kg": 8.0, "fuel_kind": "diesel"}  # fmt: skip
BAR = {"name": "Bar", "nature": "part", "mass_kg": 60.0, "mass_u_kg": 4.0, "x_m": 0.0, "x_u_m": 0.0}
BAG = {"name": "Bag", "nature": "load", "mass_kg": 10.0, "mass_u_kg": 2.0, "x_m": 3.2, "x_u_m": 0.0}
BOX = {"name": "Box", "nature": "load", "mass_kg": 20.0, "mass_u_kg": 3.0, "x_m": 1.6, "x_u_m": 0.0}
RACK = {"name": "Rack", "nature": "part", "mass_kg": 30.0, "mass_u_kg": 5.0, "x_m": 1.6, "x_u_m": 0.0}
# id, kind, revision, author, day of March, body: who entered what
EDITS = (
    ("v", "vehicle", "v1", "fitter", 1, VEHICLE),
    ("bar", "item", "bar1", "fitter", 1, BAR),
    ("bag", "item", "bag1", "fitter", 1, BAG),
    ("box", "item", "box1", "owner", 5, BOX),
    ("bar", "item", "bar2", "fitter", 7, {**BAR, "mass_kg": 66.0, "mass_u_kg": 1.0}),
    ("rack", "item", "rack1", "fitter", 8, RACK),
    ("rack", "item", "rack2", "owner", 9, {**RACK, "deleted": True}),
    ("v", "vehicle", "v2", "owner", 10, {**VEHICLE, "base_rear_kg": 905.0}),
)
OTHERS = (
    ("water", "tank", {"name": "Water", "holds": "water", "capacity_l": 50.0, "x_m": 3.2, "x_u_m": 0.0}),
    ("s1", "seat", {"name": "Left", "x_m": 1.6, "x_u_m": 0.0}),
    ("s2", "seat", {"name": "Right", "x_m": 1.6, "x_u_m": 0.0}),
    ("ann", "person", {"name": "A", "mass_kg": 80.0, "usual_seat_id": "s1"}),
)
ANN = {"seat_id": "s1", "mass_kg": 80.0, "mass_u_kg": 3.0, "person_id": "ann"}
BEN = {"seat_id": "s2", "mass_kg": 70.0, "mass_u_kg": 1.0, "person_id": "ben"}
PLAN = {
    "v": "v2",
    "bar": "bar2",
    "bag": "bag1",
    "box": "box1",
    "water": "water-1",
    "s1": "s1-1",
    "s2": "s2-1",
}
# e = d = 10 kg, Max 40 t: below 500 e the permissible error in service is 10 kg, uniform; rounding d^2/12
READING_U2 = 100 / 3 + 100 / 12
DECK = {"interval_kg": 10.0, "max_kg": 40_000.0, "name": "Deck One"}


def state(
    *, level: float = 1.0, seats: Json = (ANN,), away: Json = ("bag",), plan: Json = PLAN, **more: Any
) -> Json:
    """The copy that a weighing keeps."""
    tank = {"tank_id": "water", "level": level, "level_u": 0.0, "known_from": "typed"}
    return {
        "settled_by": "confirmed",
        "tanks": [tank],
        "seats": list(seats),
        "items": [{"item_id": one, "aboard": False} for one in away],
        "trailers": [],
        "plan": [{"id": id, "rev": rev} for id, rev in plan.items()],
        **more,
    }


def weighing(
    id: str, month: int, readings: Json, copy: Json | None = None, bridge: Json = DECK
) -> tuple[str, Json]:
    """A visit on the first of a month; `readings` are (axles, kg)."""
    taken = [{"id": f"{id}{i}", "on_deck": deck, "value_kg": kg} for i, (deck, kg) in enumerate(readings)]
    at = f"2026-{month:02d}-01T08:00:00Z"
    return id, {"at": at, "zone": "Etc/UTC", "bridge": bridge, "readings": taken, "state": copy or state()}


def book(*weighings: tuple[str, Json], edits: Json = EDITS) -> Book:
    """The vehicle with its history and these weighings."""
    latest: dict[str, Row] = {}
    for n, (id, kind, rev, author, _, body) in enumerate(edits):
        latest[id] = Row(id, kind, rev, body, latest[id].order if id in latest else n, author)
    rows = [*latest.values(), *(Row(id, kind, f"{id}-1", body, 50) for id, kind, body in OTHERS)]
    rows += [Row(id, "weighing", f"{id}-1", body, 90) for id, body in weighings]
    made = [
        Edit(id, kind, rev, author, f"2026-03-{day:02d}T10:00:00Z", body)
        for id, kind, rev, author, day, body in edits
    ]
    return open_book(rows=rows, revisions={rev: body for _, _, rev, _, _, body in EDITS}, edits=made)


def given(*weighings: tuple[str, Json], **more: Any) -> Json:
    """A book as a case's input."""
    return {"book": plain(book(*weighings)), **more}


def root(*variances: float) -> float:
    """One standard uncertainty of a sum of independent ones."""
    return sqrt(sum(variances))
