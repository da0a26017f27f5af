"""Vectors of distances on the ellipsoid: the published example of a geodesic, arcs of the equator, lines on a plane."""

from math import pi
from typing import Any

import numpy as np
from vectors.frame import case, function, refused

Json = Any
DEGREE_KM = 6378.137 * pi / 180  # of the equator of WGS 84


def functions(rng: np.random.Generator) -> list[Json]:
    east = [spot(0, 10), spot(0, 11), spot(0, 13)]
    away = DEGREE_KM / 10
    return [
        function(
            "between_km",
            "the equator: radius times angle; else GeographicLib's documentation (from memory)",
            case("a degree of the equator", DEGREE_KM, start=spot(0, 10), end=spot(0, 11)),
            case("over the date line", 2 * DEGREE_KM, start=spot(0, 179), end=spot(0, -179)),
            case("the same place", 0.0, start=spot(-20.5, 131), end=spot(-20.5, 131)),
            case("JFK to LHR", 5551.7594, rel=0.0, abs=0.02, start=spot(40.6, -73.8), end=spot(51.6, -0.5)),
            refused("latitude 91", "OutOfRange", "latitude_deg", start=spot(91, 0), end=spot(0, 0)),
            refused("longitude 181", "OutOfRange", "longitude_deg", start=spot(0, 0), end=spot(0, 181)),
        ),
        function(
            "track_km",
            "arcs of the equator added",
            case("three points", [0.0, DEGREE_KM, 3 * DEGREE_KM], spots=east),
            case("no point", [], spots=[]),
        ),
        function(
            "beside_track",
            "on the equator, where the plane is exact along it",
            case("beside", {"at_km": 2 * DEGREE_KM, "off_km": away}, spots=east, spot=spot(0.1, 12)),
            case("before it begins", {"at_km": 0.0, "off_km": DEGREE_KM}, spots=east, spot=spot(0, 9)),
            case("after it ends", {"at_km": 3 * DEGREE_KM, "off_km": DEGREE_KM}, spots=east, spot=spot(0, 14)),
            case("one point", {"at_km": 0.0, "off_km": 2 * DEGREE_KM}, spots=[spot(2, 5)], spot=spot(0, 5)),
            case("over the date line", {"at_km": DEGREE_KM, "off_km": 0.0}, spots=[spot(0, 179), spot(0, -179)],
                 spot=spot(0, 180)),
            refused("no track", "NotKnown", "spots", spots=[], spot=spot(0, 0)),
        ),
    ]  # fmt: skip


def spot(latitude: float, longitude: float) -> Json:
    return {"latitude_deg": float(latitude), "longitude_deg": float(longitude)}
