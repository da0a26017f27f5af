"""Vectors of envelope: enumeration of states, and the quadratic for the lowest centre of gravity."""

from itertools import product
from typing import Any

import numpy as np
from scipy import stats
from vectors.frame import case, function, refused
from vectors.makers.axles import TOW, L

BASE = [
    {"id": "base_front", "mass_kg": 1300.0, "mass_u_kg": 10.0, "x_m": 0.0, "z_m": 0.75},
    {"id": "base_rear", "mass_kg": 1100.0, "mass_u_kg": 10.0, "x_m": 3.2, "z_m": 0.75},
]
WATER = {"id": "water", "capacity_l": 80.0, "x_m": 2.5, "level_u": 0.05, "bottom_m": 0.4, "height_m": 0.5}
FUEL = {
    "id": "fuel",
    "capacity_l": 120.0,
    "x_m": 3.9,
    "density_kg_per_l": 0.8,
    "bottom_m": 0.5,
    "height_m": 0.4,
    "least_level": 0.1,
}
ROOF = {"id": "roof", "capacity_l": 40.0, "x_m": 2.0, "bottom_m": 1.8, "height_m": 0.2}
TANKS = [WATER, FUEL, ROOF]


def contents(level: float, tank: dict[str, Any]) -> tuple[float, float, float]:
    """Mass, its u and height of the centre of a content."""
    full = tank["capacity_l"] * tank.get("density_kg_per_l", 1.0)
    return full * level, full * tank.get("level_u", 0.0), tank["bottom_m"] + level * tank["height_m"] / 2


def ends(tank: dict[str, Any]) -> tuple[float, float]:
    return tank.get("least_level", 0.0), 1.0


def rear(levels: tuple[float, ...]) -> tuple[float, float]:
    """Mean and u of the rear axle at some levels."""
    mean, variance = 1100.0, 100.0
    for level, tank in zip(levels, TANKS, strict=True):
        mass, u, _ = contents(level, tank)
        mean += mass * tank["x_m"] / 3.2
        variance += (u * tank["x_m"] / 3.2) ** 2
    return mean, variance**0.5


def spans() -> list[dict[str, Any]]:
    states = list(product(*(ends(tank) for tank in TANKS)))
    front = {
        state: 2400.0 + sum(contents(f, t)[0] for f, t in zip(state, TANKS, strict=True)) - rear(state)[0]
        for state in states
    }
    out = []
    for name, value in (("front", front), ("rear", {state: rear(state)[0] for state in states})):
        low, high = min(states, key=value.__getitem__), max(states, key=value.__getitem__)
        out.append(
            {
                "row": name,
                "least_kg": value[low],
                "greatest_kg": value[high],
                "least_at": list(low),
                "greatest_at": list(high),
            }
        )
    tail = {**WATER, "on": "t", "x_m": 4.2}
    coupling = {
        "row": "coupling",
        "least_kg": 100.0 - 16.0,
        "greatest_kg": 100.0,
        "least_at": [1.0],
        "greatest_at": [0.0],
    }
    ball = [{"id": "ball", "mass_kg": 100.0, "mass_u_kg": 0.0, "x_m": 0.0, "on": "t"}]
    return [
        case(
            "three tanks, one behind the rear axle",
            out,
            parts=BASE,
            tanks=TANKS,
            geometry=L,
            rows=["front", "rear"],
        ),
        case(
            "a tank on the trailer's tail",
            [coupling],
            parts=ball,
            tanks=[tail],
            geometry=TOW,
            rows=["coupling"],
        ),
        refused(
            "ends the wrong way round",
            "OutOfRange",
            "least_level",
            parts=[],
            tanks=[{**WATER, "least_level": 0.5, "greatest_level": 0.2}],
            geometry=L,
            rows=["rear"],
        ),
        refused(
            "more than full",
            "OutOfRange",
            "greatest_level",
            parts=[],
            tanks=[{**WATER, "greatest_level": 1.5}],
            geometry=L,
            rows=["rear"],
        ),
        refused("one id twice", "Duplicate", "id", parts=[], tanks=[WATER, WATER], geometry=L, rows=["rear"]),
    ]


def chances() -> list[dict[str, Any]]:
    states = list(product(*(ends(tank) for tank in TANKS)))

    def chance(state: tuple[float, ...], limit: float) -> float:
        mean, u = rear(state)
        return float(stats.norm.cdf((mean - limit) / u))

    def worst(limit: float, found: str) -> dict[str, Any]:
        state = max(states, key=lambda one: chance(one, limit))
        mean, u = rear(state)
        return {
            "chance": chance(state, limit),
            "value_kg": mean,
            "u_kg": u,
            "levels": list(state),
            "found": found,
        }

    many = [
        {"id": str(i), "capacity_l": 10.0, "x_m": 3.2, "level_u": 0.1 * (i % 2), "bottom_m": 0.0}
        for i in range(12)
    ]
    bound = {"value_kg": 1220.0, "u_kg": (100.0 + 6.0) ** 0.5, "levels": [1.0] * 12, "found": "bound"}
    bound["chance"] = float(stats.norm.cdf((1220.0 - 1240.0) / bound["u_kg"]))
    given = {"parts": BASE, "tanks": TANKS, "geometry": L, "row": "rear"}
    return [
        case("under at every end", worst(1320.0, "vertex"), **given, limit_kg=1320.0),
        case("over when full", worst(1300.0, "over"), **given, limit_kg=1300.0),
        case("twelve tanks", bound, parts=BASE, tanks=many, geometry=L, row="rear", limit_kg=1240.0),
        case(
            "no tanks",
            {"chance": 0.5, "value_kg": 1100.0, "levels": [], "found": "over"},
            parts=BASE,
            tanks=[],
            geometry=L,
            row="rear",
            limit_kg=1100.0,
        ),
    ]


def ends_alone() -> list[dict[str, Any]]:
    contents = [[[0.0, 0.0], [60.0, 4.0]], [[0.0, 0.0], [-30.0, 9.0]], [[5.0, 1.0], [5.0, 16.0]]]

    def tried(limit: float) -> dict[str, Any]:
        """All eight combinations; the last content changes nothing but the doubt."""
        best: dict[str, Any] = {}
        greatest = -float("inf")
        for state in product((0, 1), repeat=3):
            picked = [pair[end] for pair, end in zip(contents, state, strict=True)]
            value = 1000.0 + sum(one[0] for one in picked)
            u = (25.0 + sum(one[1] for one in picked)) ** 0.5
            log_chance = float(stats.norm.logcdf((value - limit) / u))  # far below, the chance itself is 0
            if log_chance > greatest:
                greatest = log_chance
                best = {
                    "chance": float(stats.norm.cdf((value - limit) / u)),
                    "value_kg": value,
                    "u_kg": u,
                    "ends": list(state),
                    "found": "vertex",
                }
        return best

    over = {"value_kg": 1065.0, "u_kg": 45.0**0.5, "ends": [1, 0, 1], "found": "over"}
    given = {"fixed_kg": 1000.0, "fixed_kg2": 25.0, "contents": contents}
    return [
        case("below at every end", tried(1090.0), **given, limit_kg=1090.0),
        case("far below, where no chance differs from 0", tried(2000.0), **given, limit_kg=2000.0),
        case("the greatest mean settles it", over, **given, limit_kg=1060.0),
        refused("no limit", "OutOfRange", "limit_kg", **given, limit_kg=0.0),
    ]


def heights() -> list[dict[str, Any]]:
    # one tank: (M h/2) f^2 + m0 h f + m0 (a - z0) = 0
    m0, z0, full, a, h = 2400.0, 0.75, 80.0, 0.4, 0.5
    f = (-m0 * h + ((m0 * h) ** 2 - 2 * full * h * m0 * (a - z0)) ** 0.5) / (full * h)
    lowest = (m0 * z0 + full * f * (a + f * h / 2)) / (m0 + full * f)
    one = {"least_m": lowest, "least_at": [f], "greatest_m": z0, "greatest_at": [0.0]}
    full_roof = (m0 * z0 + 40.0 * 1.9) / (m0 + 40.0)
    above = {"least_m": z0, "least_at": [0.0], "greatest_m": full_roof, "greatest_at": [1.0]}
    shallow = {**WATER, "height_m": 0.0}
    flat = {"least_m": (m0 * z0 + 80 * 0.4) / 2480, "least_at": [1.0], "greatest_m": z0, "greatest_at": [0.0]}
    return [
        case("lowest at a part-full level", one, parts=BASE, tanks=[WATER]),
        case("a tank above the centre", above, parts=BASE, tanks=[ROOF]),
        case("a tank of no height", flat, parts=BASE, tanks=[shallow]),
        refused(
            "a height that is not known", "NotKnown", "z_m", parts=BASE, tanks=[{**WATER, "bottom_m": None}]
        ),
        refused("no mass", "OutOfRange", "mass_kg", parts=[], tanks=[WATER]),
    ]


def functions(rng: np.random.Generator) -> list[dict[str, Any]]:
    return [
        function("envelope", "every combination of ends tried", *spans()),
        function("worst_chance", "every combination of ends tried, scipy.stats.norm", *chances()),
        function("worst_ends", "every combination of ends tried, scipy.stats.norm", *ends_alone()),
        function("height_span", "the quadratic of one tank solved by hand", *heights()),
    ]
