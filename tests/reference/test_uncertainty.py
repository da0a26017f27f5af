"""Uncertainties and least squares against independent libraries and published data."""

from dataclasses import replace
from importlib import resources
from math import sqrt

import numpy as np
import pytest
import statsmodels.api as sm
from filterpy.kalman import KalmanFilter
from GTC import get_covariance, ureal
from uncertainties import covariance_matrix, ufloat

from server.domain.agreement import axle_loads
from server.domain.axles import Geometry
from server.domain.bridge import Bridge, gain_u, own_variance, zero_u
from server.domain.linalg import gram_inverse, least_squares
from server.domain.reconcile import update
from server.domain.shift import Move, shifted_loads
from server.domain.stability import centre_of_gravity
from server.domain.statics import Part, loads, tank_content
from server.domain.weighing import Reading, SplitSetup, reading_covariance, reading_error

BRIDGE = Bridge("b", 10.0, 10.0, "III", 40_000.0)
SETUP = SplitSetup(total_kg=2800.0, wheelbase_m=3.2, cg_height_m=0.8)
READINGS = (
    Reading("f", ("front",), 1350.0, split=True),
    Reading("r", ("rear",), 1450.0, split=True),
    Reading("w", ("front", "rear"), 2830.0),
)
PARTS = [
    Part("base_front", 1300.0, 10.0, 0.0),
    Part("base_rear", 1100.0, 10.0, 3.2),
    Part("box", 80.0, 8.0, 3.0, 0.2),
    Part("carrier", 40.0, 2.0, 4.4, 0.05),
]


def test_a_reading_s_budget_as_a_chain_of_influences() -> None:
    """GTC: true load times gain, plus zero, own, rounding, tilt, friction."""
    one = READINGS[1]
    own, tilt = sqrt(own_variance(bridge=BRIDGE, value_kg=one.value_kg)), 2800 * 0.8 * 0.02 / 3.2**2
    reading = ureal(1.0, gain_u(bridge=BRIDGE)) * one.value_kg + ureal(0.0, zero_u(bridge=BRIDGE))
    for u in (own, tilt, 0.003 * one.value_kg, 10 / sqrt(12)):
        reading += ureal(0.0, u)
    found = reading_error(reading=one, bridge=BRIDGE, setup=SETUP)
    assert found.total_kg == pytest.approx(reading.u, rel=1e-12)


def test_readings_of_one_bridge_share_gain_and_zero() -> None:
    """GTC keeps the correlations of shared influences; ours is a formula."""
    gain, zero = ureal(1.0, gain_u(bridge=BRIDGE)), ureal(0.0, zero_u(bridge=BRIDGE))
    alone = [reading_error(reading=one, bridge=BRIDGE, setup=SETUP) for one in READINGS]
    chained = [
        gain * one.value_kg
        + zero
        + ureal(0, sqrt(e.own_kg**2 + e.rounding_kg**2 + e.tilt_kg**2 + e.friction_kg**2))
        for one, e in zip(READINGS, alone, strict=True)
    ]
    expected = [[get_covariance(a, b) for b in chained] for a in chained]
    found = reading_covariance(readings=READINGS, bridge=BRIDGE, setup=SETUP)
    assert np.array(found) == pytest.approx(np.array(expected), rel=1e-12)


def number(value: float, u: float) -> object:
    """The uncertainties package wants no u of 0."""
    return ufloat(value, u) if u else value


def test_a_moved_part_to_first_order() -> None:
    """GTC chains all parts with the carrier in its new place; ours starts from the loads before."""
    geometry, (*rest, carrier) = Geometry(3.2), PARTS
    there = replace(carrier, x_m=0.4)
    rear = front = 0
    for part in (*rest, there):
        mass, x = ureal(part.mass_kg, part.mass_u_kg), ureal(part.x_m, part.x_u_m)
        rear += mass * x / 3.2
        front += mass * (1 - x / 3.2)
    before = loads(parts=PARTS, geometry=geometry, rows=("front", "rear"))
    found = shifted_loads(found=before, move=Move((carrier,), (there,)), geometry=geometry)
    assert found.mean_kg == pytest.approx((front.x, rear.x), rel=1e-12)
    second = sum((part.mass_u_kg * part.x_u_m / 3.2) ** 2 for part in PARTS)
    expected = np.array([[get_covariance(a, b) for b in (front, rear)] for a in (front, rear)])
    assert np.array(found.cov_kg2) - second * np.array([[1, -1], [-1, 1]]) == pytest.approx(
        expected, rel=1e-9
    )


def test_loads_to_first_order() -> None:
    """The uncertainties package propagates to first order; ours has u_m^2 u_x^2 / L^2 more."""
    rear = front = 0
    for part in PARTS:
        mass, x = ufloat(part.mass_kg, part.mass_u_kg), number(part.x_m, part.x_u_m)
        rear += mass * x / 3.2
        front += mass * (1 - x / 3.2)
    expected = np.array(covariance_matrix([front, rear]))
    second = sum((p.mass_u_kg * p.x_u_m / 3.2) ** 2 for p in PARTS)
    found = loads(parts=PARTS, geometry=Geometry(3.2), rows=["front", "rear"])
    assert found.mean_kg == pytest.approx((front.n, rear.n), rel=1e-12)
    more = np.array([[second, -second], [-second, second]])
    assert np.array(found.cov_kg2) == pytest.approx(expected + more, rel=1e-12)


def test_centre_of_gravity_to_first_order() -> None:
    masses = [ufloat(part.mass_kg, part.mass_u_kg) for part in PARTS]
    places = [number(part.x_m, part.x_u_m) for part in PARTS]
    expected = sum(m * x for m, x in zip(masses, places, strict=True)) / sum(masses)
    found = centre_of_gravity(parts=PARTS)
    assert found is not None
    assert (found.x_m, found.x_u_m) == pytest.approx((expected.n, expected.s), rel=1e-9)


def test_a_tank_to_first_order() -> None:
    """With u of a per cent or so the exact product differs from first order by its square."""
    expected = ufloat(0.832, 0.007) * ufloat(80.0, 0.5) * ufloat(0.5, 0.01)
    found = tank_content(
        id="t",
        density_kg_per_l=0.832,
        density_u_kg_per_l=0.007,
        capacity_l=80.0,
        capacity_u_l=0.5,
        level=0.5,
        level_u=0.01,
        x_m=1.0,
    )
    assert found.mass_kg == pytest.approx(expected.n, rel=1e-12)
    assert found.mass_u_kg == pytest.approx(expected.s, rel=1e-4)


def test_an_update_as_a_kalman_filter_makes_it() -> None:
    """filterpy, which has the Joseph form too."""
    rng = np.random.default_rng(3)
    root = rng.normal(size=(6, 6))
    kalman = KalmanFilter(dim_x=6, dim_z=3)
    kalman.x, kalman.P = rng.normal(size=(6, 1)), root @ root.T
    kalman.H, kalman.R = rng.normal(size=(3, 6)), np.diag([0.2, 0.5, 1.0])
    readings = rng.normal(size=3)
    mean, cov, _ = update(
        mean=kalman.x[:, 0].tolist(),
        cov=kalman.P.tolist(),
        design=kalman.H.tolist(),
        readings=readings.tolist(),
        noise=kalman.R.tolist(),
    )
    kalman.update(readings[:, None])
    assert mean == pytest.approx(kalman.x[:, 0], rel=1e-9)
    assert np.array(cov) == pytest.approx(kalman.P, rel=1e-9, abs=1e-12)


def test_axle_loads_as_generalised_least_squares() -> None:
    """statsmodels GLS with a known covariance."""
    covariance = np.array(reading_covariance(readings=READINGS, bridge=BRIDGE, setup=SETUP))
    design = [[1.0, 0.0], [0.0, 1.0], [1.0, 1.0]]
    fit = sm.GLS([one.value_kg for one in READINGS], design, sigma=covariance).fit()
    found = axle_loads(readings=READINGS, covariance=covariance.tolist())
    assert found.mean_kg == pytest.approx(fit.params, rel=1e-10)
    assert np.array(found.cov_kg2) == pytest.approx(fit.normalized_cov_params, rel=1e-9)
    assert found.chi2 == pytest.approx(fit.ssr, rel=1e-9)


def test_flows_that_must_balance() -> None:
    """Narasimhan & Jordache, Data Reconciliation and Gross Error Detection, table 1-1 (from memory).

    An exchanger with bypass: flows 1 = 2 + 3, 2 = 4, 3 = 5, 4 + 5 = 6, all measured, sigma 1.
    """
    measured = (101.91, 64.45, 34.65, 64.20, 36.44, 98.88)
    streams = (("a", "b"), ("a",), ("b",), ("a",), ("b",), ("a", "b"))
    taken = [
        Reading(str(i), axles, value, approach=str(i))
        for i, (axles, value) in enumerate(zip(streams, measured, strict=True))
    ]
    found = axle_loads(readings=taken, covariance=np.eye(6).tolist())
    assert found.mean_kg == pytest.approx((64.50, 35.72), abs=0.005)
    assert sum(found.mean_kg) == pytest.approx(100.22, abs=0.005)
    assert (found.chi2, found.dof) == (pytest.approx(6.4075, abs=0.0005), 4)


def test_norris() -> None:
    """NIST StRD, linear regression, Norris (data and certified values read in open test suites)."""
    file = resources.files("scipy.stats").joinpath("tests/data/nist_linregress/Norris.dat")
    if not file.is_file():
        pytest.skip("this scipy comes without its tests, which hold the data")
    y, x = np.array([line.split() for line in file.read_text().splitlines()[60:96]], dtype=float).T
    (intercept, slope), rss = least_squares(np.column_stack([np.ones(36), x]), y)
    spread = gram_inverse(np.column_stack([np.ones(36), x])) * rss / 34
    assert intercept == pytest.approx(-0.262323073774029, rel=1e-9)
    assert slope == pytest.approx(1.00211681802045, rel=1e-12)
    assert rss == pytest.approx(26.6173985294224, rel=1e-9)
    assert np.sqrt(np.diag(spread)) == pytest.approx([0.232818234301152, 0.429796848199937e-3], rel=1e-9)


def test_longley() -> None:
    """NIST StRD, linear regression, Longley (certified values from memory): badly conditioned on purpose."""
    data = sm.datasets.longley.load_pandas()
    design = np.column_stack([np.ones(16), data.exog.to_numpy(dtype=float)])
    x, rss = least_squares(design, data.endog.to_numpy(dtype=float))
    certified = [-3482258.63459582, 15.0618722713733, -0.358191792925910e-1, -2.02022980381683]
    certified += [-1.03322686717359, -0.511041056535807e-1, 1829.15146461355]
    assert x == pytest.approx(certified, rel=1e-7)
    assert sqrt(rss / 9) == pytest.approx(304.854073561965, rel=1e-7)
