"""Vectors of the catalogue: its figures as they stand, places in exact fractions, products by their exact moments."""

from fractions import Fraction
from statistics import NormalDist
from typing import Any

import numpy as np
from vectors.frame import SELF, case, function, ours, refused

# code -> from, to at 3.2 m, in metres: the table of position codes (from memory)
CODES = {
    "F": ("-0.9", "-0.5"), "E": ("-0.3", "0.3"), "C1": ("1.3", "1.6"), "C2": ("2.1", "2.5"),
    "M": ("1.5", "2.7"), "T1": ("2.5", "3.0"), "A": ("3.0", "3.4"), "T2": ("3.5", "4.3"), "R": ("4.4", "4.8"),
}  # fmt: skip
WHEELBASES = ("3.2", "2.6", "3.85")
Z_95 = NormalDist().inv_cdf(0.95)


def moved(x: Fraction, wheelbase: Fraction) -> Fraction:
    """Ahead of the front axle fixed to it, behind the rear axle fixed to that, between them in proportion."""
    behind = x - Fraction("3.2")
    return x if x < 0 else wheelbase + behind if behind > 0 else x * wheelbase / Fraction("3.2")


def place(code: str, wheelbase: str) -> float:
    ends = [moved(Fraction(one), Fraction(wheelbase)) for one in CODES[code]]
    return float(sum(ends) / 2)


def spread(low: float, high: float) -> float:
    return (high - low) / Z_95 / 2


def shares(kerb: tuple[float, ...], front: tuple[float, ...]) -> dict[str, float]:
    """Two masses of one kerb mass and one share, by the moments of a product of independent factors."""
    m, s = kerb[1], front[1]
    m2, s2 = m**2 + spread(kerb[0], kerb[2]) ** 2, s**2 + spread(front[0], front[2]) ** 2
    r2 = 1 - 2 * s + s2  # second moment of 1 - s
    front_var, rear_var = s2 * m2 - (s * m) ** 2, r2 * m2 - ((1 - s) * m) ** 2
    cov = (s - s2) * m2 - s * (1 - s) * m**2
    return {
        "base_front_kg": s * m, "base_front_u_kg": front_var**0.5, "base_rear_kg": (1 - s) * m,
        "base_rear_u_kg": rear_var**0.5, "base_correlation": cov / (front_var * rear_var) ** 0.5,
    }  # fmt: skip


def figures() -> list[dict[str, Any]]:
    return [
        function("articles", SELF, ours("catalogue", "as they stand", "articles")),
        function("kits", SELF, ours("catalogue", "as they stand", "kits")),
        function("base_vehicles", SELF, ours("catalogue", "as they stand", "base_vehicles")),
        function(
            "range_u",
            "middle 90 % of a normal distribution, quantile of Python's statistics.NormalDist",
            case("a steel bar", spread(40, 95), low=40, high=95),
            case("nothing", 0.0, low=3.0, high=3.0),
            case("may begin at nothing", spread(0, 40), low=0, high=40),
            refused("the wrong way round", "DomainError", "high", low=5.0, high=4.0),
            refused("blank", "DomainError", "low", low=None, high=4.0),
        ),
    ]


def places() -> dict[str, Any]:
    return function(
        "place_x_m",
        "the table of position codes (from memory), moved in exact fractions",
        *(
            case(f"{code} at {length} m", place(code, length), place=code, wheelbase_m=float(length))
            for code in CODES
            for length in WHEELBASES
        ),
        case("over both axles", 1.425, place="W", wheelbase_m=2.85),
        refused("no such code", "Unknown", "place", place="Z", wheelbase_m=3.2),
        refused("a name that every object has", "Unknown", "place", place="constructor", wheelbase_m=3.2),
        refused("no wheelbase", "DomainError", "wheelbase_m", place="F", wheelbase_m=None),
        refused("a wheelbase in mm", "OutOfRange", "wheelbase_m", place="F", wheelbase_m=3200.0),
    )


def proposals() -> list[dict[str, Any]]:
    described = {"x_u_m": 0.15, "known_by": "estimate", "position_by": "described"}
    rack = {"mass_kg": 28.0, "mass_u_kg": spread(18, 40), "x_m": 1.9, "z_m": 2.05, "z_u_m": spread(1.9, 2.2)}
    recovery = {"mass_kg": 35.0, "mass_u_kg": spread(20, 60), "keep_aboard": True, "nature": "load"}
    return [
        function(
            "proposal",
            "the table of accessories and load (from memory), the range as the middle 90 % of a normal",
            case(
                "on the roof",
                {**described, **rack, "roof": True, "nature": "part", "keep_aboard": False, "count": 1},
                article="rack_alloy",
                wheelbase_m=3.2,
            ),
            case(
                "stays aboard",
                {
                    **recovery,
                    "roof": False,
                    "x_m": float((Fraction("2.5") * Fraction("2.8") / Fraction("3.2") + Fraction("3.9")) / 2),
                },
                article="recovery",
                wheelbase_m=2.8,
            ),
            case(
                "at another of its places",
                {**recovery, "roof": True, "z_m": 2.05},
                article="recovery",
                place="roof",
            ),
            case("four of it", {"count": 4, "mass_kg": 6.0, "x_m": 1.6}, article="tyres", wheelbase_m=3.2),
            case("two of it", {"count": 2, "mass_kg": 12.0, "x_m": None}, article="battery_lfp", count=2),
            case("taken off", {"taken_off": True, "mass_kg": 115.0}, article="tub_off", wheelbase_m=3.2),
            refused("no such article", "Unknown", "article", article="anchor"),
            refused("a place that is none of its own", "Unknown", "place", article="rack_alloy", place="F"),
            refused("none of it", "OutOfRange", "count", article="rack_alloy", count=0),
        ),
        function(
            "kit_proposals",
            SELF,
            *(
                ours("catalogue", kit, "kit_proposals", kit=kit, wheelbase_m=3.05)
                for kit in ("canopy", "help", "family")
            ),
            refused("no such kit", "Unknown", "kit", kit="orchestra"),
        ),
        function(
            "typical_vehicle",
            "the table of the base vehicle (from memory), exact moments of a product",
            case(
                "utility",
                {
                    **shares((1950, 2150, 2400), (0.53, 0.56, 0.60)),
                    **{"wheelbase_m": 3.2, "front_overhang_m": 0.9, "coupling_x_m": 4.55},
                    **{"base_fuel_l": 80.0, "base_driver_kg": 0.0, "base_known_by": "estimate"},
                },
                base="utility",
            ),
            case("wagon", shares((2000, 2250, 2500), (0.50, 0.52, 0.55)), base="wagon"),
            case("van", shares((1900, 2150, 2450), (0.54, 0.58, 0.64)), base="van"),
            refused("no such vehicle", "Unknown", "base", base="sled"),
        ),
    ]


def functions(rng: np.random.Generator) -> list[dict[str, Any]]:
    return [*figures(), places(), *proposals()]
