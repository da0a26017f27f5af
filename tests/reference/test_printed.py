"""Figures that the specification prints in its running text, and check values that no other file holds.

The specification's figures are our own arithmetic by another implementation; published figures name their source.
"""

from math import sqrt

import numpy as np
import pytest

from server.domain.agreement import axle_loads
from server.domain.axles import Geometry
from server.domain.bridge import Bridge, gain_u
from server.domain.envelope import worst_ends
from server.domain.limits import chance_over, verdict
from server.domain.linalg import gram_inverse, least_squares
from server.domain.normal import chi2_upper, quantile
from server.domain.parts import DENSITY
from server.domain.reconcile import Session, reconcile, update
from server.domain.statics import Part, base_parts, copies_u, loads
from server.domain.unplanned import Z95
from server.domain.weighing import Reading, SplitSetup, reading_covariance, tilt_u

# NIST/SEMATECH e-Handbook 1.3.6.7.4 (from memory): upper 10 % points
POINTS_10 = (2.706, 4.605, 6.251, 7.779, 9.236)
# JCGM 100:2008 H.3, table H.6 (from memory): thermometer reading, C, and correction, C
THERMOMETER = [
    (21.521, -0.171), (22.012, -0.169), (22.512, -0.166), (23.003, -0.159), (23.507, -0.164), (23.999, -0.165),
    (24.513, -0.156), (25.002, -0.157), (25.503, -0.159), (26.010, -0.161), (26.511, -0.160),
]  # fmt: skip


@pytest.mark.parametrize(("dof", "point"), list(enumerate(POINTS_10, start=1)))
def test_chi_square_10_percent(dof: int, point: float) -> None:
    assert chi2_upper(point, dof) == pytest.approx(0.10, abs=5e-5)


def test_a_straight_line_through_calibration_points() -> None:
    """JCGM 100:2008 H.3 (data and results from memory): corrections of a thermometer over t - 20 C."""
    t, b = np.array(THERMOMETER).T
    design = np.column_stack([np.ones(11), t - 20.0])
    x, rss = least_squares(design, b)
    cov = gram_inverse(design) * rss / 9
    assert x == pytest.approx([-0.1712, 0.00218], abs=5e-5)
    assert np.sqrt(np.diag(cov)) == pytest.approx([0.0029, 0.00067], abs=5e-5)
    assert cov[0, 1] / sqrt(cov[0, 0] * cov[1, 1]) == pytest.approx(-0.930, abs=5e-4)
    at_30 = np.array([1.0, 10.0])
    assert at_30 @ x == pytest.approx(-0.1494, abs=5e-5)
    assert sqrt(at_30 @ cov @ at_30) == pytest.approx(0.0041, abs=5e-5)


def test_three_readings_and_their_total() -> None:
    """Check value 4.2, own numbers: 1520, 1950, 3490, each 20/sqrt 12; the total is 3483.333, u 4.714 each."""
    readings = [
        Reading("f", ("front",), 1520.0),
        Reading("r", ("rear",), 1950.0),
        Reading("t", ("front", "rear"), 3490.0),
    ]
    found = axle_loads(readings=readings, covariance=np.eye(3) * 400 / 12)
    cov = np.array(found.cov_kg2)
    assert sum(found.mean_kg) == pytest.approx(3483.333, abs=1e-3)
    assert [*np.sqrt(np.diag(cov)), sqrt(cov.sum())] == pytest.approx([4.714] * 3, abs=1e-3)
    assert found.z == pytest.approx([2.0] * 3)  # one redundancy: it cannot be said which is wrong


def test_densities_are_the_middle_of_their_standards() -> None:
    """EN 590 0.820 to 0.845, EN 228 0.720 to 0.775 kg/L at 15 C (read in reproduction), uniform."""
    for fuel, low, high in (("diesel", 0.820, 0.845), ("petrol", 0.720, 0.775)):
        assert DENSITY[fuel] == pytest.approx(((low + high) / 2, (high - low) / sqrt(12)), abs=5e-5)


def test_one_sided_and_two_sided_95_percent() -> None:
    assert quantile(0.95) == pytest.approx(1.6449, abs=5e-5)
    assert pytest.approx(quantile(0.975), rel=1e-7) == Z95


def test_ten_kg_over_with_sigma_one_is_sure() -> None:
    """At the heaviest state its own sigma counts; the greatest sigma, 20, would say 69 %."""
    ends = (((0.0, 400.0), (20.0, 1.0)),)
    found = worst_ends(fixed_kg=990.0, fixed_kg2=0.0, contents=ends, limit_kg=1000.0)
    assert (found.found, found.value_kg, found.u_kg) == ("over", 1010.0, 1.0)
    assert found.chance == pytest.approx(1.0, abs=1e-15)
    assert chance_over(limit_kg=1000.0, value_kg=1010.0, u_kg=20.0) == pytest.approx(0.69, abs=0.005)


def test_one_kg_over_with_sigma_twelve_cannot_be_told() -> None:
    assert verdict(rating="rear", value_kg=1301.0, u_kg=12.0, limit_kg=1300.0).word == "cannot_tell"


def test_the_gain_of_the_common_public_bridge() -> None:
    assert gain_u(bridge=Bridge("b", 20.0, 20.0, "III", 60_000.0)) * sqrt(3) == pytest.approx(0.001)


def test_raising_one_axle_by_50_mm_moves_about_10_kg() -> None:
    setup = SplitSetup(total_kg=2800.0, wheelbase_m=3.2, cg_height_m=0.8, deck_u_m=0.05)
    assert tilt_u(setup) == pytest.approx(10.0, abs=1.0)


def test_four_copies_of_one_article_are_four_times_as_doubtful() -> None:
    assert copies_u(count=4, unit_u_kg=1.5) == 6.0
    assert copies_u(count=4, unit_u_kg=1.5, weighed_singly=True) == 3.0


def test_without_negative_covariance_axles_and_total_do_not_fit_together() -> None:
    """Worked example A without its water: a box at 3.0 +- 0.2 m makes the axles doubtful, and not the total."""
    box = Part("box", 80.0, 8.0, 3.0, 0.2)
    found = loads(parts=[box], geometry=Geometry(3.2))
    moved = (80**2 + 8**2) * (0.2 / 3.2) ** 2
    assert found.cov_kg2[0][1] == pytest.approx(64 * (1 - 3.0 / 3.2) * 3.0 / 3.2 - moved)
    assert found.u_kg("gross") == pytest.approx(8.0)


def test_friction_stays_where_the_tilt_cancels() -> None:
    """A slope through the deck: of front and rear together only friction and the scale are left."""
    readings = [Reading("f", ("front",), 1350.0, split=True), Reading("r", ("rear",), 1450.0, split=True)]
    bridge = Bridge("b", 10.0, 10.0, "III", 40_000.0)

    def of_sum(rho: float, friction: float) -> float:
        setup = SplitSetup(2800.0, 3.2, 0.8, friction_share=friction, level_correlation=rho)
        return float(np.array(reading_covariance(readings=readings, bridge=bridge, setup=setup)).sum())

    tilt = 2800 * 0.8 * 0.02 / 3.2**2
    friction = (0.003 * 1350) ** 2 + (0.003 * 1450) ** 2
    assert of_sum(-1.0, 0.003) - of_sum(-1.0, 0.0) == pytest.approx(friction, rel=1e-9)
    assert of_sum(0.0, 0.003) - of_sum(-1.0, 0.003) == pytest.approx(2 * tilt**2, rel=1e-9)
    assert of_sum(1.0, 0.003) - of_sum(0.0, 0.003) == pytest.approx(2 * tilt**2, rel=1e-9)


def test_what_comes_of_the_joseph_form_at_10_6_against_10_3() -> None:
    """One weighing of a sum: the sum is then as well known as the reading, the difference as badly as before."""
    _, cov, _ = update(
        mean=[0.0, 0.0],
        cov=[[1e12, 0.0], [0.0, 1e12]],
        design=[[1.0, 1.0]],
        readings=[3000.0],
        noise=[[1e-6]],
    )
    assert np.linalg.eigvalsh(np.array(cov)).max() == pytest.approx(1e12, rel=1e-9)
    assert (np.array(cov) == np.array(cov).T).all()


def test_masses_known_exactly_stay_whatever_is_weighed() -> None:
    geometry = Geometry(3.2)
    parts = base_parts(geometry=geometry, front_kg=1300.0, front_u_kg=0.0, rear_kg=1200.0, rear_u_kg=30.0)
    for total in (2300.0, 2500.0, 2700.0):
        readings = (Reading("f", ("front",), total / 2), Reading("w", ("front", "rear"), total))
        session = Session("s", parts, (), readings, Bridge("b"))
        found = reconcile(lasting=parts, geometry=geometry, sessions=[session])
        assert (found.learnt("base_front").now_kg, found.learnt("base_front").now_u_kg) == (1300.0, 0.0)
        assert found.learnt("base_rear").now_u_kg < 30.0
