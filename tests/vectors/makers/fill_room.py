"""Vectors of what a fill does to the ratings: levers by hand, the litres by Brent's method on each rating."""

from math import sqrt
from typing import Any

import numpy as np
from scipy.optimize import brentq
from vectors.frame import case, function, refused
from vectors.makers.room_left import DAY, Z, opened, state

Json = dict[str, Any]
RHO, RHO_U, X_U = 0.8, 0.02, 0.1
SHARES = {
    "front": (-0.2, -1 / 3),
    "rear": (1.2, 1 / 3),
    "gross": (1.0, 0.0),
}  # of a kilogram at 3.6 m, and per metre
LIMITS = {"front": 1350.0, "rear": 1400.0, "gross": 2600.0}


def before(level: float) -> dict[str, tuple[float, float]]:
    """Loads and their variance with the tail tank at a level, 80 kg when full."""
    kg, moved = 80.0 * level, 0.0
    own = (80.0 * level * RHO_U / RHO) ** 2
    moved = (kg**2 + own) * (X_U / 3) ** 2
    return {
        "front": (1212.0 - 0.2 * kg, 37 + moved + 0.04 * own),
        "rear": (912.0 + 1.2 * kg, 65 + moved + 1.44 * own),
        "gross": (2124.0 + kg, 104 + own),
    }


def loaded(rating: str, litres: float, level: float) -> tuple[float, float]:
    """Load and u of a rating after so many litres."""
    mean, variance = before(level)[rating]
    share, per_m = SHARES[rating]
    mass, u = RHO * litres, RHO_U * litres
    return mean + share * mass, sqrt(variance + (share * u) ** 2 + per_m**2 * (mass**2 + u**2) * X_U**2)


def most(rating: str, level: float, limit: float) -> float:
    def over(litres: float) -> float:
        mean, u = loaded(rating, litres, level)
        return mean + Z * u - limit

    return float(brentq(over, 0.0, 1e5, xtol=1e-10))


def after(litres: float, level: float) -> list[Json]:
    out = []
    for rating, limit in LIMITS.items():
        mean, u = loaded(rating, litres, level)
        margin, reach = limit - mean, Z * u
        word = "under" if margin >= reach else "over" if margin < -reach else "cannot_tell"
        out.append({"rating": rating, "value_kg": mean, "u_kg": u, "margin_kg": margin, "word": word})
    return [*out, {"rating": "roof", "value_kg": 24.0, "word": "under"}]


def functions(rng: np.random.Generator) -> list[Json]:
    tail = {"capacity_l": 100.0, "density_kg_per_l": RHO, "density_u_kg_per_l": RHO_U, "x_u_m": X_U}

    def given(level: float, **changed: Any) -> Json:
        return {"book": opened(**{"tail": tail, **changed}), "state": state(level), **DAY, "tank_id": "tail"}

    rear = {"rating": "rear", "side": "upper"}
    tight = {"p0": {"rear_axle_kg": 960.0}}
    no_rear = {"p0": {"rear_axle_kg": None, "gross_kg": None}}
    half = {"most_l": most("rear", 0.5, 1400.0), "binds": rear, "fits_l": 50.0, "already": [], "unknown": []}
    over = {"most_l": 0.0, "binds": rear, "already": [rear]}
    front = {"rating": "front", "side": "lower"}
    return [
        function(
            "fill_room",
            "levers and sums of squares in the maker, Brent's method (scipy) for the litres",
            case("half full: the rear axle goes first", {**half, "after": []}, rel=1e-8, **given(0.5)),
            case("after 30 L", {**half, "after": after(30.0, 0.5)}, rel=1e-8, **given(0.5), litres_l=30.0),
            case("after 600 L", {"after": after(600.0, 0.5)}, rel=1e-8, **given(0.5), litres_l=600.0),
            case("over even now", over, **given(0.5, **tight)),
            case(
                "ratings not known: only the front axle lifts",
                {"binds": front, "unknown": ["rear", "gross"], "fits_l": 80.0},
                **given(0.2, **no_rear),
            ),
            case("no place", None, **given(0.5, tail={**tail, "x_m": None})),
            case("no plan", None, **given(0.5, v={"base_rear_kg": None})),
            case("on a trailer that is not there", None, **given(0.5, tail={**tail, "trailer_id": "t"})),
            refused("no such tank", "Unknown", "tank_id", **{**given(0.5), "tank_id": "x"}),
            refused("litres below 0", "OutOfRange", "litres_l", **given(0.5), litres_l=-1.0),
        )
    ]
