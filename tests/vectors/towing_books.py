"""A book with a trailer, and weighings of it coupled and uncoupled: records that `books` makes vectors of."""

from typing import Any

from server.domain.book import Row, open_book
from tests.vectors.decode import plain

Json = Any


def row(id: str, kind: str, order: int = 0, **body: Any) -> Json:
    return {"id": id, "kind": kind, "rev": f"{id}-1", "body": body, "order": order, "author": "a"}


VEHICLE = row("v", "vehicle", name="Vehicle", wheelbase_m=3.2, base_front_kg=1250.0, base_rear_kg=1350.0,
              base_known_by="weighed", fuel_kind="diesel", coupling_x_m=4.4)  # fmt: skip
TRAILER = row("t", "trailer", 1, name="Box", coupling_to_axle_m=3.0, axles=1, base_coupling_kg=70.0,
              base_axles_kg=630.0, base_known_by="weighed")  # fmt: skip
PLAN = [
    VEHICLE,
    TRAILER,
    row("u", "trailer", 2, name="Other", coupling_to_axle_m=4.0),
    row("p1", "plate", 1, of="vehicle", gross_kg=3300.0, front_axle_kg=1500.0, rear_axle_kg=1850.0,
        combination_kg=4500.0),
    row("p2", "plate", 2, of="towbar", coupling_kg=150.0),
    row("p3", "plate", 3, of="trailer", trailer_id="t", trailer_kg=1000.0, trailer_axles_kg=900.0),
    row("p4", "plate", 4, of="trailer", trailer_id="u", trailer_kg=500.0),
    row("main", "tank", 1, name="Main", holds="fuel", capacity_l=80.0, x_m=2.4, x_u_m=0.0),
    row("drum", "tank", 2, name="Drum", holds="water", capacity_l=60.0, x_m=2.1, x_u_m=0.0, trailer_id="t"),
    row("s1", "seat", 1, name="Driver", x_m=1.2, x_u_m=0.0),
    row("ann", "person", 1, name="A", nature="person", mass_kg=80.0, usual_seat_id="s1"),
    row("box", "item", 1, name="Box", nature="load", mass_kg=60.0, mass_u_kg=5.0, x_m=3.0, x_u_m=0.1),
    row("rear", "item", 2, name="Bench", nature="part", mass_kg=100.0, mass_u_kg=8.0, x_m=3.6, x_u_m=0.1,
        trailer_id="t"),
]  # fmt: skip


def state(*, on: bool) -> Json:
    return {
        "settled_by": "confirmed",
        "tanks": [
            {"tank_id": "main", "level": 0.5, "level_u": 0.05, "known_from": "typed"},
            {"tank_id": "drum", "level": 1.0, "level_u": 0.02, "known_from": "dip"},
        ],
        "seats": [{"seat_id": "s1", "mass_kg": 80.0, "mass_u_kg": 3.0, "person_id": "ann"}],
        "items": [{"item_id": "box", "aboard": True}, {"item_id": "rear", "aboard": True}],
        "trailers": [{"trailer_id": "t", "coupled": on}, {"trailer_id": "u", "coupled": False}],
        "plan": [{"id": one["id"], "rev": one["rev"]} for one in PLAN],
    }


APART, OUT = {"differs": {"uncoupled": True}}, {"differs": {"seats_empty": ["s1"]}}
Stop = tuple[str, float] | tuple[str, float, Json]


def weighing(id: str, *stops: Stop, day: int = 1, on: bool = True, **bridge: Any) -> Json:
    readings = []
    for i, (deck, value_kg, *more) in enumerate(stops):
        reading = {"id": f"{id}{i}", "on_deck": deck.split("+"), "value_kg": value_kg}
        readings.append({**reading, **(more[0] if more else {})})
    scale = {"interval_kg": 10.0, "max_kg": 40_000.0, "name": "Deck One", **bridge}
    body = {"at": f"2026-05-{day:02d}T08:00:00Z", "zone": "Etc/UTC", "bridge": scale, "readings": readings}
    return row(id, "weighing", day, **body, state=state(on=on))


SOLO = weighing("s", ("front", 1320.0), ("front+rear", 2850.0), ("rear", 1530.0), on=False)
THREE = (("front", 1240.0), ("front+rear", 3010.0), ("front+rear+trailer", 3730.0))
LATER = {
    "three coupled stops": weighing("w", *THREE, day=5),
    "and one uncoupled": weighing("w", *THREE, ("front+rear", 2860.0, APART), day=5),
    "trailer alone, and standing": weighing(
        "w", *THREE, ("trailer", 720.0), ("trailer", 870.0, APART), ("rear", 1650.0, APART), day=5
    ),
    "one combination alone": weighing("w", ("front+rear+trailer", 3730.0), day=5),
    "the driver out": weighing("w", ("front", 1190.0, OUT), ("front+rear", 2930.0, OUT), day=5),
    "uncoupled and mistyped": weighing("w", *THREE, ("rear", 1970.0), day=5),
}
GROUP = {
    "rear_axles": "load_sharing_pair",
    "rear_spread_m": 1.2,
    "track_front_m": 1.6,
    "track_rear_m": 1.5,
    "rear_share": 0.45,
}
SPRINGS = {**GROUP, "rear_axles": "independent_pair", "stiffness_rear_2": 1.4}
SINGLY = weighing("w", ("front", 1330.0), ("rear_1", 900.0), ("rear_2", 640.0), day=5, on=False, form="pads")


def book_of(weighings: list[Json], vehicle: Json | None = None, trailer: Json | None = None) -> Json:
    """A book with other fields of its vehicle or its trailer."""
    changed = [
        {**VEHICLE, "body": {**VEHICLE["body"], **(vehicle or {})}},
        {**TRAILER, "body": {**TRAILER["body"], **(trailer or {})}},
    ]
    return open_book(rows=[Row(**one) for one in (*changed, *PLAN[2:], *weighings)])


def books() -> dict[str, Json]:
    """Name -> a book, opened, whose weighing `w` is asked about."""
    out = {name: book_of([SOLO, one]) for name, one in LATER.items()}
    towed = LATER["and one uncoupled"]
    out["bars of a levelling hitch"] = book_of(
        [SOLO, towed], trailer={"levelling_hitch": True, "hitch_moment_kgm": 60.0}
    )
    out["no place of the coupling"] = book_of([SOLO, towed], vehicle={"coupling_x_m": None})
    out["a pair that shares its load"] = book_of([SINGLY], vehicle=GROUP)
    out["two axles on springs of their own"] = book_of([SINGLY], vehicle=SPRINGS)
    return {name: plain(one) for name, one in out.items()}
