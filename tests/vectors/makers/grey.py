"""Vectors of grey water: a log that holds nothing but its start, so that the rate is the prior's."""

from math import sqrt
from typing import Any

import numpy as np
from vectors.frame import case, function, refused
from vectors.logs import BY_HAND, DAY, called, watered
from vectors.makers.water import KAPPAS
from vectors.makers.water_log import SETUP

Json = Any
RATE, RATE_U = 6.0, 3.0  # the planning figure and half of it


def functions(rng: np.random.Generator) -> list[Json]:
    log = called(
        "water_log", "read_water_log", setup=SETUP, entries=[watered(0, 50.0, full=True, drinkable="yes")]
    )
    unsteady = sum((kappa * RATE) ** 2 for kappa in KAPPAS) / len(KAPPAS)

    def ran(amount: float, fraction: float) -> Json:
        u = fraction * sqrt((amount * RATE_U) ** 2 + amount * unsteady)
        return {"mean": fraction * amount * RATE, "u": u}

    given = {"log": log, "from_s": 0.0, "until_s": 1.5 * DAY}
    return [
        function(
            "grey_filled",
            BY_HAND,
            case("two people, a day and a half", ran(3.0, 0.8), rel=1e-9, **given, fraction=0.8),
            case("nothing drains into it", {"mean": 0.0, "u": 0.0}, **given, fraction=0.0),
            case("no time", {"mean": 0.0, "u": 0.0}, **{**given, "until_s": 0.0}, fraction=0.5),
            refused("more than all", "OutOfRange", "fraction", **given, fraction=1.1),
            refused("back in time", "OutOfRange", "until_s", **{**given, "until_s": -1.0}, fraction=0.5),
        )
    ]
