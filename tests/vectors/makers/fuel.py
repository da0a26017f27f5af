"""Vectors of fuel: classes, prior rates and the model by hand."""

from typing import Any

import numpy as np
from vectors.frame import case, function, refused
from vectors.logs import BY_HAND, TANK
from vectors.tanks import FUEL

Json = Any
MULTIPLIERS = "sealed 1, gravel 1.15, sand 1.6, with a trailer x 1.4 (assumed)"
SUB = {"id": "sub", "capacity_l": 65.0, "drain_order": 1}
CAN = {"id": "can", "capacity_l": 20.0, "drawn": False}


def functions(rng: np.random.Generator) -> list[Json]:
    both = {"tank_ids": ["sub", "main"], "capacity_l": [65.0, 80.0], "class_ids": ["sealed", "sand+trailer"]}
    return [
        function(
            "class_of",
            BY_HAND,
            case("alone", "gravel", surface="gravel"),
            case("with a trailer", "sand+trailer", surface="sand", towing=True),
            refused("no such surface", "Unknown", "surface", surface="mud"),
        ),
        function("mix_of", BY_HAND, *_mixes()),
        function(
            "rate_guess",
            MULTIPLIERS,
            case("sealed", 12.0, class_id="sealed"),
            case("gravel", 11.5, class_id="gravel", base_rate=10.0),
            case("sand with a trailer", 22.4, class_id="sand+trailer", base_rate=10.0),
            refused("no such class", "Unknown", "class_id", class_id="mud"),
            refused("no rate", "OutOfRange", "base_rate", class_id="sealed", base_rate=0.0),
        ),
        function(
            "own_rates",
            MULTIPLIERS,
            case("nothing said", {}, surfaces={}),
            case(
                "the sealed road alone",
                {"sealed": 10.0, "gravel": 11.5, "sand": 16.0, "sealed+trailer": 14.0, "sand+trailer": 22.4},
                surfaces={"sealed": 10.0},
            ),
            case(
                "sand and towing",
                {"sealed": 12.0, "sand": 20.0, "sealed+trailer": 18.0, "sand+trailer": 30.0},
                surfaces={"sand": 20.0},
                towing=1.5,
            ),
            case("towing alone", {"sealed": 12.0, "gravel+trailer": 13.8 * 1.2}, surfaces={}, towing=1.2),
            refused("no such surface", "Unknown", "surface", surfaces={"mud": 9.0}),
            refused("no rate", "OutOfRange", "surfaces", surfaces={"sand": 0.0}),
            refused("a trailer that pushes", "OutOfRange", "towing", surfaces={}, towing=0.9),
        ),
        function(
            "fuel_model",
            MULTIPLIERS,
            case(
                "two tanks in their turn, a can apart",
                {**both, "rate0": [10.34, 23.1616], "settings": FUEL},
                tanks=[TANK, SUB, CAN],
                class_ids=["sand+trailer", "sealed"],
                base_rate=10.0,
                factor=1.034,
            ),
            case(
                "the user's own rate, per 100 true km",
                {"rate0": [14.0, 13.0]},
                tanks=[TANK],
                class_ids=["sealed", "gravel"],
                rates={"gravel": 13.0},
                base_rate=14.0,
            ),
            case(
                "a shut-off of its own",
                {"full_u_l": [3.0, 1.0]},
                tanks=[TANK, {**SUB, "full_u_l": 3.0}],
                class_ids=["sealed"],
            ),
            refused("factor 0", "OutOfRange", "factor", tanks=[TANK], class_ids=["sealed"], factor=0.0),
            refused("no such class", "Unknown", "class_id", tanks=[TANK], class_ids=["mud"]),
        ),
        function(
            "shut_offs",
            BY_HAND,
            case(
                "its own, or the usual",
                [3.0, 1.0, 0.0],
                tanks=[{**SUB, "full_u_l": 3.0}, TANK, {**CAN, "full_u_l": 0.0}],
                settings=FUEL,
            ),
        ),
        function(
            "reserve_floors",
            BY_HAND,
            case(
                "in the tank that is drawn last",
                {"main": 12.0, "sub": 0.0},
                tanks=[TANK, SUB, CAN],
                reserve_l=12.0,
            ),
            case(
                "more than that tank holds", {"main": 80.0, "sub": 20.0}, tanks=[TANK, SUB], reserve_l=100.0
            ),
            case("more than all hold", {"sub": 65.0}, tanks=[SUB], reserve_l=100.0),
            case("none", {"main": 0.0}, tanks=[TANK], reserve_l=0.0),
            refused("below 0", "OutOfRange", "reserve_l", tanks=[TANK], reserve_l=-1.0),
        ),
        function("drawn_tanks", BY_HAND, case("by turn", [SUB, TANK], tanks=[TANK, SUB, CAN])),
        function(
            "all_classes",
            BY_HAND,
            case("six", ["sealed", "gravel", "sand", "sealed+trailer", "gravel+trailer", "sand+trailer"]),
        ),
        function(
            "usual_reserve",
            "8 L or 10 %, the greater (common practice, no source)",
            case("small tank", 8.0, tanks=[{"id": "main", "capacity_l": 50.0}, CAN]),
            case("two tanks", 14.5, tanks=[TANK, SUB]),
        ),
    ]


def _mixes() -> list[Json]:
    third = 0.3333333  # three of them add up to 1 but for 1e-7
    return [
        case("one surface", {"gravel": 1.0}, surface={"sealed": 0.0, "gravel": 1.0}),
        case("two, with a trailer", {"sealed+trailer": 0.25, "sand+trailer": 0.75}, towing=True,
             surface={"sealed": 0.25, "sand": 0.75}),
        case("typed to seven digits", {"sealed": 1 / 3, "gravel": 1 / 3, "sand": 1 / 3},
             surface={"sealed": third, "gravel": third, "sand": third}),
        refused("no such surface", "Unknown", "surface", surface={"mud": 1.0}),
        refused("a share below 0", "OutOfRange", "surface", surface={"sealed": 1.2, "sand": -0.2}),
        refused("shares of 0.9", "OutOfRange", "surface", surface={"sealed": 0.9}),
    ]  # fmt: skip
