"""Vectors of the odometer measured, by hand."""

from math import sqrt
from typing import Any

import numpy as np
from vectors.frame import case, function, refused
from vectors.logs import BY_HAND

Json = Any


def functions(rng: np.random.Generator) -> list[Json]:
    steps = 2 / 12 / 100.0**2
    given = {"indicated_km": 100.0, "true_km": 103.0}
    return [
        function(
            "measured_factor",
            BY_HAND,
            case("two posts", {"factor": 1.03, "factor_u": 1.03 * sqrt((0.05 / 103) ** 2 + steps)}, **given),
            case("a track", {"factor": 1.03, "factor_u": 1.03 * sqrt(1e-4 + steps)}, **given, how="track"),
            case(
                "a u of one's own",
                {"factor_u": 1.03 * sqrt((0.5 / 103) ** 2 + steps)},
                **given,
                true_u_km=0.5,
            ),
            case("exact on both sides", {"factor_u": 0.0}, **given, true_u_km=0.0, step_km=0.0),
            refused("no distance", "OutOfRange", "indicated_km", indicated_km=0.0, true_km=10.0),
            refused("no true distance", "OutOfRange", "true_km", indicated_km=10.0, true_km=0.0),
            refused("miles against km", "OutOfRange", "factor", indicated_km=100.0, true_km=40.0),
            refused("by guess", "Unknown", "how", **given, how="guess"),
        )
    ]
