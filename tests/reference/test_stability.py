"""Heights, slopes and trailers against published formulas; the numbers are our own unless said otherwise."""

from math import atan, sin

import pytest

from server.domain.axles import Geometry, Trailer
from server.domain.stability import static_stability
from server.domain.statics import Part, loads
from server.domain.weighing import SplitSetup, tilt_u


@pytest.mark.parametrize(("slope", "moved"), [(0.01, 9.84), (0.02, 19.68)])
def test_standing_on_a_slope(slope: float, moved: float) -> None:
    """Jazar, Vehicle Dynamics, eq. 2.75-2.76 (read in reproduction): m h / l sin(phi) goes downhill."""
    rise = 3.2 * sin(atan(slope))
    setup = SplitSetup(total_kg=3500.0, wheelbase_m=3.2, cg_height_m=0.9, deck_u_m=rise)
    assert tilt_u(setup) == pytest.approx(moved, abs=0.05)


def test_static_stability_factor() -> None:
    """NHTSA rollover notice, section V (read): half of the track over the height of the centre of gravity."""
    assert static_stability(track_m=1.60, height_m=0.75).factor == pytest.approx(1.0667, abs=0.00005)


def test_a_trailer_balanced_over_its_axle() -> None:
    """Jazar, Vehicle Dynamics, example 64 (read in reproduction): nothing rests on the hitch."""
    geometry = Geometry(3.2, coupling_x_m=4.3, trailer=Trailer("t", 3.5))
    parts = [Part("front box", 100.0, 0.0, 2.5, on="t"), Part("rear box", 100.0, 0.0, 4.5, on="t")]
    found = loads(parts=parts, geometry=geometry, rows=["coupling", "trailer_axles", "rear"])
    assert found.mean_kg == pytest.approx((0.0, 200.0, 0.0), abs=1e-9)
