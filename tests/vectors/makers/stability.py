"""Vectors of stability: the worked example, a published factor, and round trips by hand."""

from typing import Any

import numpy as np
from vectors.frame import case, function, refused
from vectors.makers.statics import BASE, BOX, CARRIER, WATER

HEIGHTS = [
    *({**one, "z_m": 0.75, "z_u_m": 0.03} for one in BASE),
    {**BOX, "z_m": 1.0},
    {**CARRIER, "z_m": 1.0},
    {**WATER, "z_m": 0.6},
]
PAIR = [
    {"id": "a", "mass_kg": 300.0, "mass_u_kg": 6.0, "x_m": 1.0, "y_m": -0.5, "x_u_m": 0.1, "y_u_m": 0.2},
    {"id": "b", "mass_kg": 100.0, "mass_u_kg": 4.0, "x_m": 5.0, "y_m": 0.7},
]


def functions(rng: np.random.Generator) -> list[dict[str, Any]]:
    # x_c = 2, y_c = -0.2; d_x = (-1, 3)/400, d_y = (-0.3, 0.9)/400; both by hand
    hand = {
        "mass_kg": 400.0,
        "x_m": 2.0,
        "x_u_m": ((6 / 400) ** 2 + (3 * 4 / 400) ** 2 + (0.75 * 0.1) ** 2) ** 0.5,
        "y_m": -0.2,
        "y_u_m": ((0.3 * 6 / 400) ** 2 + (0.9 * 4 / 400) ** 2 + (0.75 * 0.2) ** 2) ** 0.5,
        "z_m": None,
        "z_u_m": None,
    }
    alone = [{**PAIR[0], "on": "t"}]
    return [
        function(
            "centre_of_gravity",
            "worked example A, printed to six figures; two masses by hand",
            case("example A", {"z_m": 0.760314, "z_u_m": 0.028303}, parts=HEIGHTS, rel=0.0, abs=5e-7),
            case("two masses", hand, parts=PAIR),
            case("nothing", None, parts=[]),
            case(
                "a trailer is not on the vehicle",
                {"mass_kg": 400.0, "x_m": 2.0},
                parts=[*PAIR, {**PAIR[0], "id": "c", "on": "t"}],
            ),
            case("only a trailer", None, parts=alone),
            refused("tied beyond one", "OutOfRange", "base_correlation", parts=PAIR, base_correlation=1.01),
            refused(
                "tied below minus one", "OutOfRange", "base_correlation", parts=PAIR, base_correlation=-1.01
            ),
            refused("text for a height", "DomainError", "z_m", parts=[{**PAIR[0], "z_m": "0.7"}]),
            case(
                "taken off", {"mass_kg": 200.0, "x_m": -1.0}, parts=[PAIR[0], {**PAIR[1], "taken_off": True}]
            ),
        ),
        function(
            "static_stability",
            "worked example A; NHTSA rollover notice, section V (numbers our own)",
            case(
                "example A",
                {"factor": 1.052196, "u": 0.039169},
                track_m=1.6,
                height_m=0.760314,
                height_u_m=0.028303,
                rel=0.0,
                abs=1e-6,
            ),
            case(
                "half track over height", {"factor": 1.0666666666666667, "u": 0.0}, track_m=1.6, height_m=0.75
            ),
            refused("no height", "OutOfRange", "height_m", track_m=1.6, height_m=0.0),
        ),
    ]
