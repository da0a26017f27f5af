"""Vectors of volume and density with temperature."""

import math
from typing import Any

import numpy as np
from vectors.frame import case, function, refused

ROWS = (
    (740, 30, 0.98152),
    (740, 0, 1.01828),
    (750, 30, 0.98189),
    (830, 25, 0.99135),
    (835, 30, 0.98716),
    (835, 40, 0.97855),
    (840, 30, 0.98730),
    (840, 0, 1.01261),
    (845, 40, 0.97894),
)
TANAKA = (
    (4, 999.9749),
    (10, 999.7027),
    (15, 999.1026),
    (20, 998.2067),
    (25, 997.0470),
    (30, 995.6488),
    (40, 992.2152),
)


def by_hand(rho: float, t: float) -> float:
    """Table 54B for the three groups that the cases need."""
    a = 346.4228 / rho**2 + 0.4388 / rho if rho < 770 else 594.5418 / rho**2 if 788 < rho < 838.5 else None
    if a is None:
        a = -0.00336312 + 2680.3206 / rho**2 if rho < 788 else 186.9696 / rho**2 + 0.4862 / rho
    return math.exp(-a * (t - 15) * (1 + 0.8 * a * (t - 15)))


def functions(rng: np.random.Generator) -> list[dict[str, Any]]:
    return [
        function(
            "expansion",
            "API 2540 table 54B constants, by hand",
            case("jet side of 838.75", 594.5418 / 838.0**2, density_15_kg_per_m3=838.0),
            case("fuel oil side", 186.9696 / 839.0**2 + 0.4862 / 839.0, density_15_kg_per_m3=839.0),
            case("transition", -0.00336312 + 2680.3206 / 780.0**2, density_15_kg_per_m3=780.0),
            case("gasoline", 346.4228 / 770.0**2 + 0.4388 / 770.0, density_15_kg_per_m3=770.0),
            refused("too light", "OutOfRange", "density_15_kg_per_m3", density_15_kg_per_m3=600.0),
            refused("kg/L typed", "OutOfRange", "density_15_kg_per_m3", density_15_kg_per_m3=0.84),
        ),
        function(
            "volume_factor",
            "API 2540 table 54B formula, own arithmetic at five decimals",
            *(
                case(
                    f"{rho} kg/m3 at {t} C",
                    value,
                    rel=0.0,
                    abs=2e-5,
                    temperature_c=t,
                    density_15_kg_per_m3=rho,
                )
                for rho, t, value in ROWS
            ),
            case("at 15 C", 1.0, temperature_c=15.0, density_15_kg_per_m3=835.0),
            refused("too hot", "OutOfRange", "temperature_c", temperature_c=91.0, density_15_kg_per_m3=835.0),
        ),
        function(
            "fuel_factor",
            "as volume_factor; u by the difference of the formula at t + 0.005 and t - 0.005 C, per C",
            *(
                case(
                    f"{rho} kg/m3 at {t} C",
                    [by_hand(rho, t), u_t * 100 * (by_hand(rho, t - 0.005) - by_hand(rho, t + 0.005))],
                    rel=1e-7,
                    temperature_c=t,
                    temperature_u_c=u_t,
                    density_15_kg_per_m3=rho,
                )
                for rho, t, u_t in (
                    (835.0, 15.0, 10.0),
                    (740.0, 38.0, 5.0),
                    (845.0, -10.0, 2.0),
                    (780.0, 15.0, 0.0),
                )
            ),
            refused(
                "u too great",
                "OutOfRange",
                "temperature_u_c",
                temperature_c=15.0,
                temperature_u_c=51.0,
                density_15_kg_per_m3=835.0,
            ),
            refused(
                "too hot",
                "OutOfRange",
                "temperature_c",
                temperature_c=91.0,
                temperature_u_c=1.0,
                density_15_kg_per_m3=835.0,
            ),
        ),
        function(
            "water_density",
            "CIPM 2001 (Tanaka et al.), table in kg/m3 to four decimals",
            *(case(f"{t} C", value / 1000, rel=0.0, abs=6e-8, temperature_c=t) for t, value in TANAKA),
            refused("ice", "OutOfRange", "temperature_c", temperature_c=-1.0),
        ),
    ]
