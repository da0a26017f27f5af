"""A way with supplies against ways drawn at random: rates that wander, unsteady legs, an odometer that errs."""

import numpy as np
import pytest

from server.domain.bank import bank_advance, bank_prior
from server.domain.events import Fill, Full, Start, Use
from server.domain.fuel import FUEL, TankSpec, fuel_model
from server.domain.remain import Counting
from server.domain.route import Stop, route_answer
from server.domain.stretch import Stretch

KAPPA = 0.12
MODEL = fuel_model(tanks=(TankSpec("main", 80.0),), class_ids=["sealed", "sand"], base_rate=11.0)


def test_chances_are_the_share_of_ways_drawn() -> None:
    """20 000 ways in steps of 5 km from the same prior: rates N(b0, ...), Brownian drift, noise of each step.

    The simulation draws what the filter integrates (Van Loan); three standard errors of a share are 0.011.
    """
    bank = bank_prior(model=MODEL, kappas=(KAPPA,))
    bank = bank_advance(bank=bank, event=Start("main", 78.0, 1.0))
    way = [
        Stretch(260.0, {"sealed": 260.0}),
        Stretch(120.0, {"sealed": 60.0, "sand": 60.0}),
        Stretch(280.0, {"sand": 280.0}),
    ]
    stops = [Stop(380.0, True), Stop(500.0, False)]
    found = route_answer(bank=bank, stretches=way, stops=stops, counting=Counting(1.0, 0.01, 8.0))
    drawn = _drawn(20_000)
    for place, chance in ((380.0, found.stops[0]), (500.0, found.stops[1])):
        assert chance.probability == pytest.approx((drawn[place] >= 8.0).mean(), abs=0.011)
        assert chance.likely_l == pytest.approx(np.median(drawn[place]), abs=0.35)
        assert chance.count_on_l == pytest.approx(np.quantile(drawn[place], 0.05), abs=0.6)
    end = found.sections[-1].probability
    assert 0.05 < end < 0.95
    assert end == pytest.approx((drawn[660.0] >= 8.0).mean(), abs=0.011)


def _drawn(count: int) -> dict[float, np.ndarray]:
    rng = np.random.default_rng(41)
    b0 = np.array(MODEL.rate0)
    rates = b0 * (
        1 + FUEL.u_common * rng.standard_normal((count, 1)) + FUEL.u_class * rng.standard_normal((count, 2))
    )
    level, used = 78.0 + rng.standard_normal(count), np.zeros(count)
    odometer = 1 + 0.01 * rng.standard_normal(count)
    out = {}
    for n in range(132):
        at, km = 5.0 * n, 5.0
        if at == 380.0:
            out[at] = level - used * (odometer - 1)
            level, used = 80.0 + FUEL.full_u_l * rng.standard_normal(count), np.zeros(count)
        if at == 500.0:
            out[at] = level - used * (odometer - 1)
        share = np.array([1.0, 0.0] if at < 260 else [0.5, 0.5] if at < 380 else [0.0, 1.0])
        step = rng.standard_normal((count, 1)) * FUEL.walk * b0 * (km / FUEL.walk_ref) ** 0.5
        step = (
            step
            + rng.standard_normal((count, 2)) * FUEL.walk_class * b0 * (share * km / FUEL.walk_ref) ** 0.5
        )
        middle = rates + step / 2
        rates = rates + step
        noise = KAPPA * b0 / FUEL.per * (FUEL.ell * share * km) ** 0.5 * rng.standard_normal((count, 2))
        burnt = (middle * share * km / FUEL.per + noise).sum(axis=1)
        level, used = level - burnt, used + burnt
    out[660.0] = level - used * (odometer - 1)
    return out


def test_the_worked_example_stepped() -> None:
    """The specification's example: 300 km leaves 47.68793 (variance 8.422615), 594.928 km are reached with 95 %."""
    model = fuel_model(tanks=(TankSpec("main", 80.0),), class_ids=["sealed"], base_rate=10.0)
    bank = bank_prior(model=model, kappas=(0.1,))
    for event in (Start("main", 80.0, 1.0), Use(500.0, "sealed"), Fill("main", 54.0), Full(("main",))):
        bank = bank_advance(bank=bank, event=event)
    way = [
        Stretch(300.0, {"sealed": 300.0}),
        Stretch(300.0, {"sealed": 300.0}),
        Stretch(100.0, {"sealed": 100.0}),
    ]
    found = route_answer(bank=bank, stretches=way, counting=Counting(1.0, 0.01, 8.0))
    assert found.points[1].left.mean == pytest.approx(47.68793, abs=5e-6)
    assert found.points[1].left.u ** 2 == pytest.approx(8.422615, abs=5e-7)
    assert found.points[2].probability == pytest.approx(0.935800, abs=5e-7)
    assert found.sections[0].count_on_km == pytest.approx(594.928, abs=5e-4)
