"""Vectors of a way cut into pieces: by hand."""

from typing import Any

import numpy as np
from vectors.frame import case, function, refused

Json = Any
BY_HAND = "by hand"
WAY = [
    {"distance_km": 100.0, "way": {"sealed": 100.0}, "points": 4},
    {"distance_km": 0.0, "way": {"sealed": 2.0}},
    {"distance_km": 60.0, "way": {"gravel": 45.0, "sand": 15.0}, "points": 3},
]
FIRST = {"from_km": 0.0, "to_km": 100.0, "way": {"sealed": 100.0}, "points": 4}
STAY = {"from_km": 100.0, "to_km": 100.0, "way": {"sealed": 2.0}, "points": 1}
LAST = {"from_km": 100.0, "to_km": 160.0, "way": {"gravel": 45.0, "sand": 15.0}, "points": 3}


def functions(rng: np.random.Generator) -> list[Json]:
    return [
        function(
            "cut_way",
            BY_HAND,
            case("not cut", {"behind": [], "ahead": [FIRST, STAY, LAST], "at_km": []}, stretches=WAY, at_km=[]),
            case("cut twice", CUT, stretches=WAY, at_km=[120.0, 40.0, 100.0000004], from_km=40.0),
            case(
                "a stay where the vehicle is lies ahead",
                {"behind": [FIRST], "ahead": [STAY, LAST]},
                stretches=WAY,
                at_km=[],
                from_km=100.0,
            ),
            case("at the end", {"behind": [FIRST, STAY, LAST], "ahead": []}, stretches=WAY, at_km=[], from_km=160.0),
            case("as good as the way's ends, and as a place asked before",
                 {"at_km": [160.0, 40.0, 40.0, 0.0]}, stretches=WAY,
                 at_km=[159.9999995, 40.0, 40.0000009, 1e-7]),
            refused("beyond the way", "OutOfRange", "at_km", stretches=WAY, at_km=[161.0]),
            refused("before it", "OutOfRange", "from_km", stretches=WAY, at_km=[], from_km=-1.0),
            refused(
                "a length below 0",
                "OutOfRange",
                "distance_km",
                stretches=[{"distance_km": -1.0, "way": {}}],
                at_km=[],
            ),
            refused(
                "an amount below 0",
                "OutOfRange",
                "amount",
                stretches=[{"distance_km": 1.0, "way": {"sand": -1.0}}],
                at_km=[],
            ),
        ),
        function(
            "part_of",
            BY_HAND,
            case("a third", {**LAST, "to_km": 120.0, "way": {"gravel": 15.0, "sand": 5.0}, "points": 1}, piece=LAST,
                 share=1 / 3),
            case("half a stay", {**STAY, "way": {"sealed": 1.0}}, piece=STAY, share=0.5),
            refused("more than all", "OutOfRange", "share", piece=LAST, share=1.1),
        ),
        function(
            "way_back",
            BY_HAND,
            case("to the beginning", [LAST["way"], FIRST["way"]], pieces=[FIRST, STAY, LAST], to_km=0.0),
            case("part of the way", [LAST["way"], {"sealed": 25.0}], pieces=[FIRST, STAY, LAST], to_km=75.0),
            case("no way", [], pieces=[FIRST, STAY], to_km=100.0),
        ),
    ]  # fmt: skip


CUT = {
    "behind": [{"from_km": 0.0, "to_km": 40.0, "way": {"sealed": 40.0}, "points": 2}],
    "ahead": [
        {"from_km": 40.0, "to_km": 100.0, "way": {"sealed": 60.0}, "points": 3},
        STAY,
        {"from_km": 100.0, "to_km": 120.0, "way": {"gravel": 15.0, "sand": 5.0}, "points": 1},
        {"from_km": 120.0, "to_km": 160.0, "way": {"gravel": 30.0, "sand": 10.0}, "points": 2},
    ],
    "at_km": [120.0, 40.0, 100.0],
}
