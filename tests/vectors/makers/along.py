"""Vectors of loads along a way: by hand on a wheelbase of 2 m, where a tank at 3 m weighs -0.5 and +1.5."""

from typing import Any

import numpy as np
from vectors.frame import case, function, ours, refused

Json = Any
BY_HAND = "by hand: front 1 - x/2, rear x/2 of each litre of 1 kg"
GEOMETRY = {"wheelbase_m": 2.0}
FIXED = {"rows": ["front", "rear"], "mean_kg": [1000.0, 900.0], "cov_kg2": [[16.0, 0.0], [0.0, 9.0]]}
TAIL = {"id": "tail", "holds": "fuel", "capacity_l": 40.0, "litres_l": 20.0, "x_m": 3.0, "drain_order": 1}
MAIN = {"id": "main", "holds": "fuel", "capacity_l": 80.0, "litres_l": 60.0, "x_m": 1.0, "drain_order": 2}
FRESH = {"id": "fresh", "holds": "water", "capacity_l": 50.0, "litres_l": 30.0, "x_m": 2.0, "grey_id": "grey",
         "grey_fraction": 0.5}  # fmt: skip
GREY = {"id": "grey", "holds": "grey", "capacity_l": 12.0, "litres_l": 2.0, "x_m": 4.0}
VESSELS = [MAIN, TAIL, FRESH, GREY]


def functions(rng: np.random.Generator) -> list[Json]:
    return [
        function("loads_along", BY_HAND, *_by_hand(), *_refused()),
        function("loads_along", "our own arithmetic, checked in tests/reference/test_along.py", *_ours()),
    ]


def _ask(*events: Json, vessels: list[Json] | None = None, **more: Json) -> Json:
    given = VESSELS if vessels is None else vessels
    return {"fixed": FIXED, "vessels": given, "events": list(events), "geometry": GEOMETRY, **more}


def _way(distance: float, left_u: Json | None = None, **used: float) -> Json:
    return {"kind": "way", "distance_km": distance, "used_l": used, "left_u_l": left_u or {}}


def _mark(at: float, event: int, cause: str, value: list[float], u: list[float], *empty: str) -> Json:
    return {"at_km": at, "event": event, "cause": cause, "value_kg": value, "u_kg": u, "empty": list(empty)}


def _by_hand() -> list[Json]:
    # at the start: tail 20 L (-10, +30), main 60 L (+30, +30), fresh 30 L (0, +30), grey 2 L (-2, +4)
    burning = [
        _mark(0.0, -1, "start", [1018.0, 994.0], [4.0, 3.0]),
        _mark(100.0, 0, "ran_empty", [1028.0, 964.0], [4.0, 3.0], "tail"),
        _mark(200.0, 0, "way", [1018.0, 954.0], [4.0, 3.0], "tail"),
    ]
    front = {"row": "front", "least_at": 0, "greatest_at": 1}
    near = {
        "rating": "front",
        "limit_kg": 1028.0,
        "chance": 0.5,
        "chance_at": 1,
        "margin_kg": 0.0,
        "margin_at": 1,
    }
    fuel = {"rows": ["front", "rear"], "marks": burning, "ranges": [front, {"row": "rear", "least_at": 2,
            "greatest_at": 0}], "nearest": [near]}  # fmt: skip
    # 8 L of water: 4 L into the grey tank
    water = [[1018.0, 994.0], [1014.0, 994.0], [1020.0, 982.0]]
    let_out = {"marks": [{"value_kg": value} for value in water]}
    people = {"rows": FIXED["rows"], "mean_kg": [1080.0, 900.0], "cov_kg2": [[25.0, 0.0], [0.0, 9.0]]}
    rest = [
        _mark(0.0, -1, "start", [1018.0, 994.0], [4.0, 3.0]),
        _mark(0.0, 0, "rest", [1098.0, 994.0], [5.0, 3.0]),
    ]
    return [
        case("the front rises while the tail tank empties", fuel, **_ask(_way(200.0, fuel=40.0),
             limits={"front": 1028.0})),
        case("grey water, let out", let_out, **_ask(_way(100.0, water=8.0), {"kind": "empty", "tank_id": "grey"})),
        case("somebody comes aboard", {"marks": rest}, **_ask({"kind": "rest", "loads": people})),
        # 10 L (u 3) used out of the tail tank weigh 15 kg less on the rear, u sqrt(9 + (1.5 x 3)^2)
        case("litres used that are known with a u", {"marks": [{"u_kg": [4.0, 3.0]}, {"value_kg": [1023.0, 979.0],
             "u_kg": [(16 + 1.5**2) ** 0.5, (9 + 4.5**2) ** 0.5]}]}, **_ask(_way(50.0, {"fuel": 3.0}, fuel=10.0))),
        case("filled up from half way", {"marks": [{"at_km": 70.0}, {"at_km": 70.0, "value_kg": [1018.0, 1034.0]}]},
             from_km=70.0, **_ask({"kind": "take", "holds": "fuel"})),
        # the tail's own u 2 (rear 1.5 kg a litre), the main's 1 of the event (0.5)
        case("filled up, one with a shut-off of its own", {"marks": [{}, {"u_kg": [
             (16 + 1.0 + 0.25) ** 0.5, (9 + 9.0 + 0.25) ** 0.5]}]},
             **_ask({"kind": "take", "holds": "fuel", "litres_u_l": 1.0}, vessels=[MAIN, {**TAIL, "full_u_l": 2.0}])),
        case("30 L, of which 20 fill the tank that is drawn last", {"marks": [{}, {"value_kg": [1023.0, 1019.0]}]},
             **_ask({"kind": "take", "holds": "fuel", "litres_l": 30.0})),
        case("all of it used to the last drop", {"marks": [{}, {}, {"empty": ["main", "tail"]}]},
             **_ask(_way(100.0, fuel=80.0))),
        case("a stay", {"marks": [{}, {"at_km": 0.0, "value_kg": [1014.0, 994.0]}]}, **_ask(_way(0.0, water=8.0))),
        case("no event", {"marks": [{"cause": "start"}], "nearest": []}, **_ask()),
    ]  # fmt: skip


def _refused() -> list[Json]:
    return [
        refused("runs dry", "OnTheWay", "litres_l", **_ask(_way(100.0, fuel=80.1))),
        refused(
            "overfilled",
            "OnTheWay",
            "litres_l",
            **_ask({"kind": "take", "holds": "fuel", "litres_l": 40.1}),
        ),
        refused("the grey tank overflows", "OnTheWay", "litres_l", **_ask(_way(100.0, water=20.1))),
        refused("a limit of a row that is not there", "Unknown", "row", **_ask(limits={"gross": 3000.0})),
        refused("a limit of 0", "OutOfRange", "limit_kg", **_ask(limits={"front": 0.0})),
        refused("no wheelbase", "OutOfRange", "wheelbase_m", **{**_ask(), "geometry": {"wheelbase_m": 0.0}}),
    ]


def _ours() -> list[Json]:
    unsure = [
        {**one, "litres_u_l": 1.0 + n, "density_kg_per_l": 0.9, "density_u_kg_per_l": 0.01, "x_u_m": 0.05}
        for n, one in enumerate(VESSELS)
    ]
    events = [
        _way(150.0, {"fuel": 5.0, "water": 3.0}, fuel=30.0, water=10.0),
        {"kind": "take", "holds": "fuel", "litres_l": 15.0, "litres_u_l": 0.5},
        _way(150.0, {"fuel": 7.0, "water": 4.0}, fuel=30.0, water=4.0),
        {"kind": "empty", "tank_id": "grey"},
        {"kind": "take", "holds": "fuel", "litres_u_l": 1.0},
        _way(100.0, {"fuel": 3.0, "water": 5.0}, fuel=50.0, water=6.0),
    ]
    given = _ask(*events, vessels=unsure, limits={"front": 1050.0, "rear": 1050.0})
    return [ours("along", "two refills", "loads_along", **given)]
