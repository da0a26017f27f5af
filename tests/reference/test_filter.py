"""The filter on the flow of the Nile: a local level (Durbin & Koopman, Time Series Analysis, ch. 2)."""

from dataclasses import replace
from math import sqrt

import pytest
from statsmodels.datasets import nile

from server.domain.events import Level, Start, Use
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
