"""Vectors of places beside a route: on the equator, where a degree is always as long."""

from math import pi
from typing import Any

import numpy as np
from vectors.frame import case, function

Json = Any
DEGREE_KM = 6378.137 * pi / 180  # of the equator of WGS 84


def functions(rng: np.random.Generator) -> list[Json]:
    west, east, far = placed(0.0, 10.0), placed(180.0, 11.0), placed(300.0, 13.0)
    blank = {"name": "Camp", "at_km": 90.0, "fuel": False, "water": True, "certain": False}

    def told(name: str, out: Json, longitude_deg: float, *supplies: Json, latitude_deg: float = 0.0) -> Json:
        spot = {"latitude_deg": latitude_deg, "longitude_deg": longitude_deg}
        return case(name, out, abs=1e-6, route={"legs": [], "supplies": supplies}, spot=spot)

    return [
        function(
            "along_route",
            "by hand: shares of the straight way between two supplies, in the route's own kilometres",
            told("half way", {"at_km": 90.0, "off_km": 0.0}, 10.5, west, blank, east, far),
            told("in the second part", {"at_km": 210.0, "off_km": 0.0}, 11.5, far, east, west),
            told(
                "beside it",
                {"at_km": 240.0, "off_km": DEGREE_KM / 10},
                12.0,
                west,
                east,
                far,
                latitude_deg=0.1,
            ),
            told("past the last one", {"at_km": 300.0, "off_km": DEGREE_KM}, 14.0, west, east, far),
            told("at one alone", {"at_km": 180.0, "off_km": DEGREE_KM}, 12.0, east, blank),
            told("two in one place", {"at_km": 180.0, "off_km": DEGREE_KM}, 12.0, east, placed(200.0, 11.0)),
            told("nowhere", None, 10.5, blank),
        ),
    ]


def placed(at_km: float, longitude_deg: float) -> Json:
    about = {"name": "S", "at_km": at_km, "fuel": True, "water": True, "certain": True}
    return {**about, "latitude_deg": 0.0, "longitude_deg": longitude_deg}
