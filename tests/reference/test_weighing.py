"""Bridges and readings against published tables, and against libraries that propagate uncertainty."""

import math

import numpy as np
import pytest
from GTC import ureal
from scipy import stats

from server.domain.agreement import axle_loads
from server.domain.bridge import permissible_error
from server.domain.limits import verdict
from server.domain.normal import chi2_upper, quantile
from server.domain.weighing import Reading

# Class, e, load -> initial error. UK S.I. 1995/1907 schedule 2 para 4 table 3 (read); in service twice as much
ERRORS = [
    ("III", 5, 3500, 5), ("III", 10, 3500, 5), ("III", 20, 3500, 10), ("III", 20, 10_000, 10),
    ("III", 20, 10_001, 20), ("IIII", 20, 1500, 20), ("IIII", 20, 3500, 20),
]  # fmt: skip


@pytest.mark.parametrize(("accuracy_class", "interval", "load", "error"), ERRORS)
def test_permissible_errors(accuracy_class: str, interval: float, load: float, error: float) -> None:
    about = {"load_kg": load, "interval_kg": interval, "accuracy_class": accuracy_class}
    assert permissible_error(**about, in_service=False) == error
    assert permissible_error(**about) == 2 * error


@pytest.mark.parametrize(("d", "u"), [(5, 1.443), (10, 2.887), (20, 5.774), (50, 14.434)])
def test_rounding(d: float, u: float) -> None:
    """JCGM 100:2008 F.2.2.1 (from memory): d / sqrt 12."""
    assert d / math.sqrt(12) == pytest.approx(u, abs=5e-4)
    assert ureal(0, d / math.sqrt(12)).u == pytest.approx(u, abs=5e-4)


def test_three_readings_that_must_add_up() -> None:
    """Own numbers with the formula of Narasimhan & Jordache ch. 3, 4.2: 1520, 1950, 3490, each u 20 / sqrt 12."""
    readings = [
        Reading("f", ("front",), 1520.0),
        Reading("r", ("rear",), 1950.0),
        Reading("t", ("front", "rear"), 3490.0),
    ]
    found = axle_loads(readings=readings, covariance=np.eye(3) * 400 / 12)
    assert found.mean_kg == pytest.approx((1526.667, 1956.667), abs=1e-3)
    assert math.sqrt(found.cov_kg2[0][0]) == pytest.approx(4.714, abs=1e-3)
    assert found.chi2 == pytest.approx(4.0, abs=1e-9)
    assert found.p == pytest.approx(0.0455, abs=5e-5)


def test_verdict_against_an_uncertainty_library() -> None:
    """The margin of two correlated readings' sum, by GTC."""
    front, rear = ureal(1340, 12), ureal(1722, 15)
    total = front + rear
    found = verdict(rating="gross", value_kg=total.x, u_kg=total.u, limit_kg=3100)
    assert found.over_probability == pytest.approx(stats.norm.sf((3100 - total.x) / total.u), rel=1e-9)
    assert found.word == "under"


# NIST/SEMATECH e-Handbook 1.3.6.7.4 (from memory): upper 5 % and 1 % points
POINTS_5 = (3.841, 5.991, 7.815, 9.488, 11.070, 12.592, 14.067, 15.507, 16.919, 18.307)
POINTS_1 = (6.635, 9.210, 11.345, 13.277, 15.086)


@pytest.mark.parametrize(("dof", "point"), list(enumerate(POINTS_5, start=1)))
def test_chi_square_5_percent(dof: int, point: float) -> None:
    assert chi2_upper(point, dof) == pytest.approx(0.05, abs=2e-5)
    assert chi2_upper(point, dof) == pytest.approx(stats.chi2.sf(point, dof), rel=1e-12)


@pytest.mark.parametrize(("dof", "point"), list(enumerate(POINTS_1, start=1)))
def test_chi_square_1_percent(dof: int, point: float) -> None:
    assert chi2_upper(point, dof) == pytest.approx(0.01, abs=5e-6)


@pytest.mark.parametrize("p", [0.05, 0.5, 0.9, 0.95, 0.975, 0.999])
def test_normal_quantile(p: float) -> None:
    assert quantile(p) == pytest.approx(stats.norm.ppf(p), rel=1e-9, abs=1e-12)
