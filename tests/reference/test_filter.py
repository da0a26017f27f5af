"""The filter on the flow of the Nile: a local level (Durbin & Koopman, Time Series Analysis, ch. 2)."""

from dataclasses import replace
from math import sqrt

import numpy as np
import pytest
from statsmodels.datasets import nile

from server.domain.events import Fill, Full, Gauge, Level, Observation, Start, Use
from server.domain.filter import Estimate, Model, advance, innovation, prior
from server.domain.fuel import FUEL

IRREGULAR, LEVEL = 15_099.0, 1_469.1  # maximum likelihood (from memory, and second-hand from another package)
RATE = 1e-9  # a rate of next to nothing: only the noise of a leg is left, and it is the level's


def model() -> Model:
    settings = replace(FUEL, per=1.0, u_common=0.0, u_class=0.0, walk=0.0, walk_class=0.0, ell=1.0)
    return Model(("river",), (1e6,), ("year",), (RATE,), settings)


def run(years: int) -> tuple[Estimate, list[float]]:
    """Filtered through some years from a diffuse start, which leaves the first year's flow with its own variance."""
    flows = nile.load_pandas().data["volume"].to_list()[:years]
    river = model()
    kappa = sqrt(LEVEL) / RATE
    now = prior(model=river)
    now = advance(model=river, kappa=kappa, estimate=now, event=Start("river", flows[0], sqrt(IRREGULAR)))
    z = []
    for flow in flows[1:]:
        now = advance(model=river, kappa=kappa, estimate=now, event=Use(1.0, "year"))
        seen = Level("river", flow, sqrt(IRREGULAR))
        z.append(innovation(model=river, estimate=now, event=seen).z)
        now = advance(model=river, kappa=kappa, estimate=now, event=seen)
    return now, z


@pytest.mark.parametrize(
    ("years", "level", "variance"), [(1, 1120.0, 15_099.0), (2, 1140.928, 7899.736), (100, 798.370, 4032.158)]
)
def test_filtered_level(years: int, level: float, variance: float) -> None:
    found, _ = run(years)
    assert found.mean[0] == pytest.approx(level, abs=1e-3)
    assert found.cov[0][0] == pytest.approx(variance, abs=1e-3)


def test_steady_gain() -> None:
    """Predicted variance 5501.258 and gain 0.26705 in the steady state (closed form)."""
    found, _ = run(100)
    predicted = found.cov[0][0] + LEVEL
    assert predicted == pytest.approx(5501.258, abs=1e-3)
    assert predicted / (predicted + IRREGULAR) == pytest.approx(0.26705, abs=5e-6)


def test_standardised_innovations_are_those_of_a_reference_library() -> None:
    from statsmodels.tsa.statespace.structural import UnobservedComponents

    reference = UnobservedComponents(nile.load_pandas().data["volume"], "llevel", use_exact_diffuse=True)
    expected = reference.smooth([IRREGULAR, LEVEL]).filter_results.standardized_forecasts_error[0]
    _, z = run(100)
    assert z == pytest.approx(expected[1:].tolist(), abs=1e-6)


def test_a_fuel_log_as_another_kalman_filter_reads_it() -> None:
    """filterpy (update in Joseph form) with the noise of its own Van Loan discretisation, against `advance`.

    dV = -b/100 dD + sqrt(q) dw, db = sqrt(G) dv: levels and rates of one tank and one class.
    """
    from filterpy.common import van_loan_discretization
    from filterpy.kalman import KalmanFilter

    tank, kappa, b0 = Model(("main",), (80.0,), ("sealed",), (10.0,), FUEL), 0.1, 10.0
    drift = (FUEL.walk**2 + FUEL.walk_class**2) * b0**2 / FUEL.walk_ref
    leg = (kappa * b0 / FUEL.per) ** 2 * FUEL.ell
    theirs = KalmanFilter(dim_x=2, dim_z=1)
    theirs.x = np.array([[40.0], [b0]])
    theirs.P = np.diag([80.0**2 / 12, (FUEL.u_common**2 + FUEL.u_class**2) * b0**2])
    theirs.H = np.array([[1.0, 0.0]])
    ours = prior(model=tank)
    log: list[tuple[float, float | None, Observation]] = [
        (0.0, 60.0, Full(("main",))),
        (500.0, 54.0, Full(("main",))),
        (230.0, None, Gauge("main", 0.66)),
        (190.0, 46.0, Full(("main",))),
        (310.0, 20.0, Level("main", 66.0, 2.5)),
    ]
    for way, litres, seen in log:
        if way:
            theirs.F, theirs.Q = van_loan_discretization(
                np.array([[0.0, -1 / FUEL.per], [0.0, 0.0]]), np.diag([sqrt(leg), sqrt(drift)]), dt=way
            )
            theirs.predict()
            ours = advance(model=tank, kappa=kappa, estimate=ours, event=Use(way, "sealed"))
        if litres is not None:
            theirs.x[0] += litres
            theirs.P[0, 0] += (FUEL.fill_u * litres) ** 2
            ours = advance(model=tank, kappa=kappa, estimate=ours, event=Fill("main", litres))
        value, u = {
            "full": lambda _: (80.0, FUEL.full_u_l),
            "gauge": lambda one: (80.0 * one.fraction, 80.0 * FUEL.gauge_u),
            "level": lambda one: (one.litres_l, one.litres_u_l),
        }[seen.kind](seen)
        theirs.update(np.array([[value]]), R=u**2)
        ours = advance(model=tank, kappa=kappa, estimate=ours, event=seen)
        assert ours.mean == pytest.approx(theirs.x[:, 0].tolist(), rel=1e-9)
        assert np.array(ours.cov) == pytest.approx(theirs.P, rel=1e-7, abs=1e-9)
