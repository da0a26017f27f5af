"""Vectors of full to full: the worked example, and first-order propagation by GTC on logs with everything in them."""

from typing import Any

import GTC
import numpy as np
from vectors.frame import case, function, refused

Json = Any
BY_GTC = "first-order propagation of independent pump, shut-off and odometer errors (GTC)"
STOPS = [
    {"id": "a", "odometer_km": 0.0, "litres_l": 40.0, "full": True},
    {"id": "b", "odometer_km": 500.0, "litres_l": 54.0, "full": True},
    {"id": "c", "odometer_km": 980.0, "litres_l": 50.0, "full": True},
]
LONG = [
    {"id": "a", "odometer_km": 1200.0, "litres_l": 61.2, "full": True},
    {"id": "b", "odometer_km": 1540.0, "litres_l": 20.0, "full": False, "litres_u_l": 1.5},
    {"id": "c1", "odometer_km": 1810.0, "litres_l": 44.0, "full": False},
    {"id": "c2", "odometer_km": 1810.0, "litres_l": 12.5, "full": True},
    {"id": "d", "odometer_km": 2290.0, "litres_l": 55.1, "full": True},
    {"id": "e", "odometer_km": 3300.0, "litres_l": 58.0, "full": True, "missed_before": True},
    {"id": "f", "odometer_km": 3720.0, "litres_l": 49.5, "full": True},
]
ACCURACY = {"pump_u": 0.003, "full_u_l": 1.4, "step_km": 1.0, "factor": 1.034, "factor_u": 0.006}


def functions(rng: np.random.Generator) -> list[dict[str, Any]]:
    pair = _by_gtc(STOPS, {})
    whole = _by_gtc(LONG, ACCURACY)
    backwards = [STOPS[0], {**STOPS[1], "odometer_km": -5.0}]
    return [
        function(
            "segments",
            "the worked example of the project's own specification (54 L in 500 km, 50 L in 480 km)",
            case(
                "two",
                [{"l_per_100km": 10.8, "u": 0.2847}, {"l_per_100km": 10.4167, "u": 0.2963}],
                rel=0.0,
                abs=5e-5,
                stops=STOPS,
            ),
        ),
        function(
            "segments",
            BY_GTC,
            case("partial, two pumps, missed", whole["segments"], stops=LONG, accuracy=ACCURACY),
            case("no full tank", [], stops=[LONG[1]]),
            case("nothing", [], stops=[]),
            refused("odometer backwards", "OutOfRange", "odometer_km", stops=backwards),
            refused("litres below 0", "OutOfRange", "litres_l", stops=[{**STOPS[0], "litres_l": -1.0}]),
            refused(
                "a factor's u below 0", "OutOfRange", "factor_u", stops=STOPS, accuracy={"factor_u": -0.1}
            ),
            refused(
                "an odometer as text", "DomainError", "odometer_km", stops=[{**STOPS[0], "odometer_km": "5"}]
            ),
            refused("factor 0", "OutOfRange", "factor", stops=STOPS, accuracy={"factor": 0.0}),
        ),
        function(
            "pooled",
            "the worked example of the project's own specification (54 L in 500 km, 50 L in 480 km)",
            case("two", {"mean": 10.6122, "u": 0.1460}, rel=0.0, abs=5e-5, segments=pair["segments"]),
        ),
        function(
            "pooled",
            BY_GTC,
            case("with a gap", whole["pooled"], segments=whole["segments"], accuracy=ACCURACY),
            case("none", None, segments=[]),
        ),
        function(
            "segment_covariance",
            BY_GTC,
            case("two", pair["covariance"], segments=pair["segments"]),
            case("with a gap", whole["covariance"], segments=whole["segments"], accuracy=ACCURACY),
        ),
    ]


def _by_gtc(stops: list[Json], accuracy: Json) -> Json:
    """Each segment as a function of independent errors: one per fill, full tank and odometer reading, one of k."""
    given = {
        "pump_u": 0.005 / 3**0.5,
        "full_u_l": 1.0,
        "step_km": 1.0,
        "factor": 1.0,
        "factor_u": 0.0,
        **accuracy,
    }
    k = GTC.ureal(given["factor"], given["factor_u"])
    odometer = {
        one["odometer_km"]: GTC.ureal(one["odometer_km"], given["step_km"] / 12**0.5) for one in stops
    }
    level = {one["odometer_km"]: GTC.ureal(0.0, given["full_u_l"]) for one in stops}
    found, opened, litres = [], None, 0.0
    for stop in stops:
        u = stop.get("litres_u_l")
        if stop.get("missed_before"):
            opened = None
        litres = litres + GTC.ureal(stop["litres_l"], given["pump_u"] * stop["litres_l"] if u is None else u)
        if stop["full"]:
            if opened is not None:
                at, then = stop["odometer_km"], opened["odometer_km"]
                put_in = litres + level[at] - level[then]
                found.append((opened["id"], stop["id"], put_in, k * (odometer[at] - odometer[then])))
            opened, litres = stop, 0.0
    rates = [100 * put_in / distance for _, _, put_in, distance in found]
    together = 100 * sum(one[2] for one in found) / sum(one[3] for one in found)
    return {
        "segments": [
            {
                "from_id": first,
                "to_id": last,
                "litres_l": put_in.x,
                "litres_u_l": put_in.u,
                "distance_km": distance.x,
                "l_per_100km": rate.x,
                "u": rate.u,
            }
            for (first, last, put_in, distance), rate in zip(found, rates, strict=True)
        ],
        "pooled": {"mean": together.x, "u": together.u},
        "covariance": [[GTC.get_covariance(one, other) for other in rates] for one in rates],
    }
