"""Distances against geodesics by another library (Karney's algorithm, good to nanometres)."""

import pytest
from geographiclib.geodesic import Geodesic
from hypothesis import given
from hypothesis import strategies as st

from server.domain.geo import Spot, beside_track, between_km, track_km

WGS84 = Geodesic.WGS84
LATITUDES, LONGITUDES = st.floats(-85, 85), st.floats(-180, 180)


def geodesic_km(start: Spot, end: Spot) -> float:
    found = WGS84.Inverse(start.latitude_deg, start.longitude_deg, end.latitude_deg, end.longitude_deg)
    return float(found["s12"]) / 1000


def test_the_documentation_s_example() -> None:
    """40.6 N 73.8 W to 51.6 N 0.5 W: 5 551 759.400 m (GeographicLib's documentation, from memory)."""
    start, end = Spot(40.6, -73.8), Spot(51.6, -0.5)
    assert geodesic_km(start, end) == pytest.approx(5551.7594, abs=1e-6)
    assert between_km(start=start, end=end) == pytest.approx(5551.7594, abs=0.02)


@given(LATITUDES, LONGITUDES, st.floats(0, 360), st.floats(0.001, 50))
def test_points_of_a_track(latitude: float, longitude: float, bearing: float, km: float) -> None:
    """A hundred-thousandth of the length: half a metre over 50 km."""
    there = WGS84.Direct(latitude, longitude, bearing, 1000 * km)
    start, end = Spot(latitude, longitude), Spot(there["lat2"], there["lon2"])
    assert between_km(start=start, end=end) == pytest.approx(geodesic_km(start, end), abs=1e-6, rel=1e-5)


@given(LATITUDES, LONGITUDES, st.floats(0, 360), st.floats(50, 5000))
def test_long_lines(latitude: float, longitude: float, bearing: float, km: float) -> None:
    """Lambert's formula is of the second order in the flattening: within 20 m over 5000 km."""
    there = WGS84.Direct(latitude, longitude, bearing, 1000 * km)
    start, end = Spot(latitude, longitude), Spot(there["lat2"], there["lon2"])
    assert between_km(start=start, end=end) == pytest.approx(km, abs=0.02)


@given(st.floats(-65, 65), LONGITUDES, st.floats(0, 360), st.floats(0.05, 0.95), st.floats(0.01, 2))
def test_a_place_beside_a_line(
    latitude: float, longitude: float, bearing: float, share: float, off: float
) -> None:
    """A line of 20 km and a place at a right angle to it."""
    line = WGS84.Line(latitude, longitude, bearing)
    ends = [line.Position(1000 * km) for km in (0.0, 20.0)]
    spots = [Spot(one["lat2"], one["lon2"]) for one in ends]
    foot = line.Position(20_000 * share)
    away = WGS84.Direct(foot["lat2"], foot["lon2"], foot["azi2"] + 90, 1000 * off)
    found = beside_track(spots=spots, spot=Spot(away["lat2"], away["lon2"]))
    assert found.at_km == pytest.approx(20 * share, abs=0.08)
    assert found.off_km == pytest.approx(off, abs=0.05)
    assert track_km(spots=spots)[-1] == pytest.approx(20.0, abs=1e-4)
