"""Vectors of axles: moments about supports by hand and in rational arithmetic."""

from fractions import Fraction
from typing import Any

import numpy as np
from vectors.exact import column, inverse, times
from vectors.frame import by_order, case, function, refused, refused_by_order

L = {"wheelbase_m": 3.2}
PAIR = {"wheelbase_m": 3.0, "spread_m": 1.2, "rearmost_share": 0.4}
SPRINGS = {"wheelbase_m": 3.0, "spread_m": 1.2, "second_axle": "springs", "stiffness": [2.0, 1.5, 1.0]}
TOW = {**L, "coupling_x_m": 4.3, "trailer": {"id": "t", "coupling_to_axle_m": 3.5}}
BARS = {
    **L,
    "coupling_x_m": 4.3,
    "trailer": {"id": "t", "coupling_to_axle_m": 3.5, "hitch_moment_kgm": 140.0},
}
TRACKS = {**L, "front_track_m": 1.5, "rear_track_m": 1.6}
RIGID = {**TRACKS, "frame": "rigid", "front_roll_share": 0.6}


def on_springs(x: float) -> tuple[list[float], list[float]]:
    """Loads of three springs under a rigid body per kg at x, and their slopes, from its two balances.

    The body sinks by a + b p, so w_j = k_j (a + b p_j) with sum w = 1 and sum w p = x: a 2 x 2 system.
    """
    stiffness, places = [Fraction(k) for k in SPRINGS["stiffness"]], [Fraction(p) for p in (0.0, 3.0, 4.2)]
    s = [sum(k * p**n for k, p in zip(stiffness, places, strict=True)) for n in range(3)]
    turn = inverse([[s[0], s[1]], [s[1], s[2]]])
    sinks, tilts = times(turn, column([1.0, x])), times(turn, column([0.0, 1.0]))
    return tuple(  # type: ignore[return-value]
        [float(k * (one[0][0] + one[1][0] * p)) for k, p in zip(stiffness, places, strict=True)]
        for one in (sinks, tilts)
    )


def row(share: float, per_m: float, right: float = 0.0) -> dict[str, float]:
    return {"share": share, "per_m": per_m, "per_m_right": right}


def two_axles() -> list[dict[str, Any]]:
    return [
        case("rear in between", row(0.9375, 0.3125), row="rear", geometry=L, x_m=3.0),
        case("front in between", row(0.0625, -0.3125), row="front", geometry=L, x_m=3.0),
        case("behind the rear axle the front lifts", row(-0.375, -0.3125), row="front", geometry=L, x_m=4.4),
        case("ahead of the front axle", row(-0.25, 0.3125), row="rear", geometry=L, x_m=-0.8),
        case("all of it", row(1.0, 0.0), row="gross", geometry=L, x_m=9.0),
        case("on the roof", row(1.0, 0.0), row="roof", geometry=L, x_m=1.0, roof=True),
        case("not on the roof", row(0.0, 0.0), row="roof", geometry=L, x_m=1.0),
        case(
            "a delivered load stays on its axle", row(1.0, 0.0), row="rear", geometry=L, x_m=1.0, axle="rear"
        ),
        case("and on no other", row(0.0, 0.0), row="front", geometry=L, x_m=1.0, axle="rear"),
    ]


def groups() -> list[dict[str, Any]]:
    loads, slopes = on_springs(2.5)
    names = ("front", "rear_1", "rear_2")
    return [
        case("pair: front", row(1 - 2.5 / 3.48, -1 / 3.48), row="front", geometry=PAIR, x_m=2.5),
        case("pair: rear", row(2.5 / 3.48, 1 / 3.48), row="rear", geometry=PAIR, x_m=2.5),
        case("pair: first", row(0.6 * 2.5 / 3.48, 0.6 / 3.48), row="rear_1", geometry=PAIR, x_m=2.5),
        case("pair: second", row(0.4 * 2.5 / 3.48, 0.4 / 3.48), row="rear_2", geometry=PAIR, x_m=2.5),
        case("pair: delivered", row(0.4, 0.0), row="rear_2", geometry=PAIR, x_m=3.0, axle="rear"),
        *(
            case(f"springs: {name}", row(loads[i], slopes[i]), row=name, geometry=SPRINGS, x_m=2.5)
            for i, name in enumerate(names)
        ),
        case(
            "springs: group",
            row(loads[1] + loads[2], slopes[1] + slopes[2]),
            row="rear",
            geometry=SPRINGS,
            x_m=2.5,
        ),
        case(
            "springs: delivered on one", row(1.0, 0.0), row="rear_1", geometry=SPRINGS, x_m=3.0, axle="rear_1"
        ),
    ]


def towing() -> list[dict[str, Any]]:
    at = {"geometry": TOW, "x_m": 0.7, "on": "t"}
    behind = {"geometry": TOW, "x_m": 4.2, "on": "t"}
    return [
        case("coupling", row(0.8, -1 / 3.5), row="coupling", **at),
        case("trailer axles", row(0.2, 1 / 3.5), row="trailer_axles", **at),
        case("trailer", row(1.0, 0.0), row="trailer", **at),
        case("combination", row(1.0, 0.0), row="combination", **at),
        case("rear through the coupling", row(0.8 * 4.3 / 3.2, -4.3 / 3.2 / 3.5), row="rear", **at),
        case(
            "front through the coupling", row(0.8 * (1 - 4.3 / 3.2), (4.3 / 3.2 - 1) / 3.5), row="front", **at
        ),
        case("gross has the coupling load", row(0.8, -1 / 3.5), row="gross", **at),
        case("tail lifts the coupling", row(-0.2, -1 / 3.5), row="coupling", **behind),
        case("the vehicle is not on the trailer", row(0.0, 0.0), row="trailer", geometry=TOW, x_m=1.0),
        case("but in the combination", row(1.0, 0.0), row="combination", geometry=TOW, x_m=1.0),
    ]


def wheels() -> list[dict[str, Any]]:
    at = {"x_m": 2.0, "y_m": 0.3}
    return [
        case(
            "flexible",
            row(0.625 * (0.5 + 0.3 / 1.6), 0.3125 * (0.5 + 0.3 / 1.6), 0.625 / 1.6),
            row="rear_right",
            geometry=TRACKS,
            **at,
        ),
        case(
            "flexible, left",
            row(0.375 * (0.5 - 0.3 / 1.5), -0.3125 * (0.5 - 0.3 / 1.5), -0.375 / 1.5),
            row="front_left",
            geometry=TRACKS,
            **at,
        ),
        case("rigid", row(0.1875 + 0.6 * 0.3 / 1.5, -0.15625, 0.4), row="front_right", geometry=RIGID, **at),
        case(
            "rigid, left",
            row(0.3125 - 0.4 * 0.3 / 1.6, 0.15625, -0.25),
            row="rear_left",
            geometry=RIGID,
            **at,
        ),
        refused("without a track", "NotKnown", "rear_track_m", row="rear_left", geometry=L, x_m=1.0),
    ]


def refusals() -> list[dict[str, Any]]:
    return [
        refused("an unknown row", "Unknown", "row", row="middle", geometry=L, x_m=1.0),
        refused("a single axle of none", "Unknown", "row", row="rear_2", geometry=L, x_m=1.0),
        refused("a trailer that is not there", "Unknown", "on", row="front", geometry=L, x_m=1.0, on="t"),
        refused("a row of no trailer", "NotKnown", "trailer", row="coupling", geometry=L, x_m=1.0),
        refused("an unknown axle", "Unknown", "axle", row="front", geometry=L, x_m=1.0, axle="rear_1"),
    ]


def functions(rng: np.random.Generator) -> list[dict[str, Any]]:
    hitch = {"trailer_axles": 40.0, "coupling": -40.0, "gross": -40.0, "rear": (-40 * 4.3 - 140) / 3.2}
    hitch |= {"front": -40.0 - hitch["rear"], "trailer": 0.0, "combination": 0.0}
    geometry_errors = [
        ("wheelbase_m", "OutOfRange", {"wheelbase_m": 0.0}),
        ("spread_m", "OutOfRange", {**L, "spread_m": -1.0}),
        ("rearmost_share", "OutOfRange", {**L, "rearmost_share": 1.2}),
        ("second_axle", "Unknown", {**L, "second_axle": "rocker"}),
        ("coupling_x_m", "NotKnown", {**L, "trailer": {"id": "t", "coupling_to_axle_m": 3.0}}),
        ("coupling_to_axle_m", "OutOfRange", {**TOW, "trailer": {"id": "t", "coupling_to_axle_m": 0.0}}),
    ]
    return [
        function(
            "coefficient", "balance of moments, by hand", *two_axles(), *towing(), *wheels(), *refusals()
        ),
        function("coefficient", "rational arithmetic: rigid body on springs", *groups()),
        function(
            "hitch_offset_kg",
            "balance of moments, by hand",
            *(case(name, value, row=name, geometry=BARS) for name, value in hitch.items()),
            case("no bars", 0.0, row="rear", geometry=TOW),
        ),
        function("rear_x_m", "by hand", by_order("pair", [PAIR], 3.48), by_order("springs", [SPRINGS], 3.0)),
        function(
            "rows_of",
            "by hand",
            by_order("two axles", [L], ["front", "rear", "gross"]),
            by_order("a pair", [PAIR], ["front", "rear", "gross", "rear_1", "rear_2"]),
        ),
        function(
            "check_geometry",
            "by hand",
            by_order("all well", [TOW], None),
            *(refused_by_order(field, [one], error, field) for field, error, one in geometry_errors),
        ),
    ]
