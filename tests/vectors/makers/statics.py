"""Vectors of statics: worked examples, and double sums in rational arithmetic."""

from fractions import Fraction
from typing import Any

import numpy as np
from vectors.frame import by_order, case, function, refused
from vectors.makers.axles import BARS, PAIR, SPRINGS, TOW, TRACKS, L

Part = dict[str, Any]
MATHS = "worked example A, printed to six figures"
PRINTED = {"rel": 5e-6, "abs": 5e-5}
BASE = [
    {"id": "base_front", "mass_kg": 1300.0, "mass_u_kg": 10.0, "x_m": 0.0},
    {"id": "base_rear", "mass_kg": 1100.0, "mass_u_kg": 10.0, "x_m": 3.2},
]
WATER = {"id": "water", "mass_kg": 25.0, "mass_u_kg": 5.0, "x_m": 2.0}
BOX = {"id": "box", "mass_kg": 80.0, "mass_u_kg": 8.0, "x_m": 3.0, "x_u_m": 0.2}
CARRIER = {"id": "carrier", "mass_kg": 40.0, "mass_u_kg": 2.0, "x_m": 4.4}
EXAMPLE_A = [*BASE, BOX, CARRIER, WATER]
TRAILER = [
    {"id": "ball", "mass_kg": 100.0, "mass_u_kg": 0.0, "x_m": 0.0, "on": "t"},
    {"id": "axle", "mass_kg": 900.0, "mass_u_kg": 0.0, "x_m": 3.5, "on": "t"},
    {"id": "gear", "mass_kg": 35.0, "mass_u_kg": 0.0, "x_m": 0.7, "on": "t"},
]


def slow(parts: list[Part], rows: list[list[tuple[float, float, float]]], rho: float = 0.0) -> dict[str, Any]:
    """Means and covariance by the double sum over all pairs of parts, exactly.

    `rows` has (l, g, h) per part: load per kg, and its slopes in x and y.
    """
    sign = [-1 if one.get("taken_off") else 1 for one in parts]
    mass, u = ([Fraction(one[name]) for one in parts] for name in ("mass_kg", "mass_u_kg"))

    def cov(i: int, j: int) -> Fraction:
        alike = parts[i].get("article") is not None and parts[i]["article"] == parts[j].get("article")
        based = {parts[i]["id"], parts[j]["id"]} == {"base_front", "base_rear"}
        return u[i] * u[j] * (1 if i == j or alike else Fraction(rho) if based else 0)

    def entry(k: int, m: int) -> Fraction:
        pairs = sum(
            sign[i] * sign[j] * Fraction(rows[k][i][0]) * Fraction(rows[m][j][0]) * cov(i, j)
            for i in range(len(parts))
            for j in range(len(parts))
        )
        places = sum(
            (mass[i] ** 2 + u[i] ** 2)
            * (
                Fraction(rows[k][i][1]) * Fraction(rows[m][i][1]) * Fraction(one.get("x_u_m", 0.0)) ** 2
                + Fraction(rows[k][i][2]) * Fraction(rows[m][i][2]) * Fraction(one.get("y_u_m", 0.0)) ** 2
            )
            for i, one in enumerate(parts)
        )
        return pairs + places

    mean = [
        float(sum(s * Fraction(c[0]) * m for s, c, m in zip(sign, row, mass, strict=True))) for row in rows
    ]
    return {
        "mean_kg": mean,
        "cov_kg2": [[float(entry(k, m)) for m in range(len(rows))] for k in range(len(rows))],
    }


def on_two_axles(parts: list[Part], wheelbase: float) -> list[list[tuple[float, float, float]]]:
    """(l, g, h) of front and rear."""
    per_m = 1 / Fraction(wheelbase)
    rear = [Fraction(one["x_m"]) * per_m for one in parts]
    return [[(1 - one, -per_m, 0) for one in rear], [(one, per_m, 0) for one in rear]]  # type: ignore[list-item]


def on_wheels(parts: list[Part]) -> list[list[tuple[float, float, float]]]:
    """(l, g, h) of the left and the right front wheel of TRACKS, flexible frame."""
    per_m, track = 1 / Fraction(TRACKS["wheelbase_m"]), Fraction(TRACKS["front_track_m"])
    out = []
    for side in (-1, 1):
        row = []
        for one in parts:
            front, half = (
                1 - Fraction(one["x_m"]) * per_m,
                Fraction(1, 2) + side * Fraction(one.get("y_m", 0.0)) / track,
            )
            row.append((front * half, -per_m * half, side * front / track))
        out.append(row)
    return out  # type: ignore[return-value]


def random_parts(rng: np.random.Generator, count: int) -> list[Part]:
    return [
        {
            "id": f"p{i}",
            "mass_kg": round(float(rng.uniform(0, 120)), 3),
            "mass_u_kg": round(float(rng.uniform(0, 20)), 3),
            "x_m": round(float(rng.uniform(-1, 5)), 3),
            "x_u_m": round(float(rng.uniform(0, 0.4)), 3),
            "y_m": round(float(rng.uniform(-0.8, 0.8)), 3),
            "y_u_m": round(float(rng.uniform(0, 0.2)), 3),
            "article": [None, "a", "b"][int(rng.integers(3))],
            "taken_off": bool(rng.random() < 0.2),
        }
        for i in range(count)
    ]


def printed() -> list[dict[str, Any]]:
    rows = ["front", "rear", "gross"]
    cov = [[11.3832**2, -17.7031, 129.5781 - 17.7031], [-17.7031, 14.1006**2, None], [None, None, 17.1172**2]]
    partly = [
        [one if one is not None else 181.1250 if i != j else 0.0 for j, one in enumerate(row)]
        for i, row in enumerate(cov)
    ]
    partly[2][0] = partly[0][2]
    out = {"mean_kg": [1299.375, 1245.625, 2545.0], "cov_kg2": partly}
    tow = {"mean_kg": [128.0, 907.0, 1256.0, 1272.0, 3435.0]}
    tow_rows = ["coupling", "trailer_axles", "front", "rear", "combination"]
    return [
        case("example A", out, parts=EXAMPLE_A, geometry=L, rel=1.5e-5, abs=1e-3),
        case("example A with its trailer", tow, parts=[*BASE, *TRAILER], geometry=TOW, rows=tow_rows),
        case(
            "nothing aboard",
            {"rows": rows, "mean_kg": [0.0] * 3, "cov_kg2": [[0.0] * 3] * 3},
            parts=[],
            geometry=L,
        ),
    ]


def exact(rng: np.random.Generator) -> list[dict[str, Any]]:
    many = random_parts(rng, 12)
    wheels = ["front_left", "front_right"]
    return [
        case(
            "twelve parts",
            slow(many, on_two_axles(many, 3.2)),
            parts=many,
            geometry=L,
            rows=["front", "rear"],
        ),
        case("on wheels", slow(many, on_wheels(many)), parts=many, geometry=TRACKS, rows=wheels),
        case(
            "base masses of one ticket",
            slow(EXAMPLE_A, on_two_axles(EXAMPLE_A, 3.2), 0.5),
            parts=EXAMPLE_A,
            geometry=L,
            rows=["front", "rear"],
            base_correlation=0.5,
        ),
    ]


def sums() -> list[dict[str, Any]]:
    rows = ["front", "rear", "trailer_axles", "combination"]
    delivered = [
        {"id": "a", "mass_kg": 1500.0, "mass_u_kg": 0.0, "x_m": 0.0, "axle": "front"},
        {"id": "b", "mass_kg": 900.0, "mass_u_kg": 0.0, "x_m": 3.0, "axle": "rear_1"},
        {"id": "c", "mass_kg": 700.0, "mass_u_kg": 0.0, "x_m": 4.2, "axle": "rear_2"},
    ]
    hitch_rear = 1272.0 - (40 * 4.3 + 140) / 3.2
    singles = ["front", "rear_1", "rear_2"]
    return [
        case(
            "a levelling hitch shifts, and adds nothing",
            {"mean_kg": [2400 + 128 - 40 - hitch_rear, hitch_rear, 947.0, 3435.0]},
            parts=[*BASE, *TRAILER],
            geometry=BARS,
            rows=rows,
        ),
        case(
            "delivered per axle",
            {"mean_kg": [1500.0, 900.0, 700.0]},
            parts=delivered,
            geometry=SPRINGS,
            rows=singles,
        ),
        case(
            "a pair shares",
            {"mean_kg": [0.0, 60.0, 40.0]},
            parts=[{**WATER, "mass_kg": 100.0, "x_m": 3.48}],
            geometry=PAIR,
            rows=singles,
        ),
    ]


def refusals() -> list[dict[str, Any]]:
    wrong = [
        ("mass_kg", "OutOfRange", {"mass_kg": -1.0}),
        ("mass_u_kg", "OutOfRange", {"mass_u_kg": -1.0}),
        ("x_u_m", "OutOfRange", {"x_u_m": -0.1}),
        ("mass_kg", "DomainError", {"mass_kg": "40"}),
        ("on", "Unknown", {"on": "t"}),
    ]
    return [
        *(
            refused(f"{field} {fault}", error, field, parts=[{**BOX, **fault}], geometry=L)
            for field, error, fault in wrong
        ),
        refused("one id twice", "Duplicate", "id", parts=[BOX, BOX], geometry=L),
        refused("correlation", "OutOfRange", "base_correlation", parts=[], geometry=L, base_correlation=1.5),
    ]


def tank(rng: np.random.Generator) -> list[dict[str, Any]]:
    factors = [(0.832, 0.007), (80.0, 1.5), (0.4, 0.08)]
    mean = square = Fraction(1)
    whole = Fraction(1)
    for value, u in factors:
        mean *= Fraction(value)
        square *= Fraction(value) ** 2
        whole *= Fraction(value) ** 2 + Fraction(u) ** 2
    names = ("density_kg_per_l", "density_u_kg_per_l", "capacity_l", "capacity_u_l", "level", "level_u")
    given = dict(zip(names, (number for pair in factors for number in pair), strict=True))
    out = {"id": "w", "mass_kg": float(mean), "mass_u_kg": float(whole - square) ** 0.5, "x_m": 2.0}
    fault = {**given, "id": "w", "x_m": 2.0}
    return [
        case("product of three", out, id="w", x_m=2.0, **given),
        case(
            "example A's water",
            {"mass_kg": 25.0, "mass_u_kg": 5.0},
            id="w",
            x_m=2.0,
            density_kg_per_l=1.0,
            capacity_l=50.0,
            level=0.5,
            level_u=0.1,
        ),
        case(
            "empty is nothing",
            {"mass_kg": 0.0, "mass_u_kg": 0.0},
            id="w",
            x_m=2.0,
            density_kg_per_l=1.0,
            capacity_l=50.0,
            level=0.0,
        ),
        refused("overfull", "OutOfRange", "level", **{**fault, "level": 1.01}),
        refused("no capacity", "OutOfRange", "capacity_l", **{**fault, "capacity_l": 0.0}),
    ]


def functions(rng: np.random.Generator) -> list[dict[str, Any]]:
    return [
        function("loads", MATHS, *printed()),
        function("loads", "double sum over all pairs of parts in rational arithmetic", *exact(rng)),
        function("loads", "balance of moments, by hand", *sums(), *refusals()),
        function("tank_content", "exact second moment of a product, rational arithmetic", *tank(rng)),
        function(
            "product_moments",
            "one factor is itself; a sure factor scales",
            by_order("one", [[4.0, 0.5]], [4.0, 0.5]),
            by_order("scaled", [[4.0, 0.5], [3.0, 0.0]], [12.0, 1.5]),
            by_order("tiny u", [[1e6, 1e-6], [1e6, 1e-6]], [1e12, 2**0.5]),
        ),
        function(
            "copies_u",
            "n u for one article, sqrt(n) u for copies weighed one by one",
            case("one article", 8.0, count=4, unit_u_kg=2.0),
            case("weighed singly", 4.0, count=4, unit_u_kg=2.0, weighed_singly=True),
            refused("none", "OutOfRange", "count", count=0, unit_u_kg=2.0),
        ),
        function(
            "base_parts",
            "by hand",
            case(
                "a pair",
                [{"id": "base_front", "axle": "front"}, {"id": "base_rear", "x_m": 3.48}],
                geometry=PAIR,
                front_kg=1200.0,
                rear_kg=1500.0,
            ),
        ),
    ]
