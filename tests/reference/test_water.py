"""Water: density against published tables and a reference equation, and the planning figures of two authorities."""

import pytest
from CoolProp.CoolProp import PropsSI

from server.domain.filter import Settings
from server.domain.fuel import TankSpec
from server.domain.volume import water_density
from server.domain.water import DRINKING_RATE, WATER, WATER_RATE, floor_days, water_model

# CIPM 2001, Tanaka et al. 2001, Metrologia 38:301, at 101.325 kPa, kg/m3 (recomputed, form second-hand)
TANAKA = {4: 999.9749, 10: 999.7027, 15: 999.1026, 20: 998.2067, 25: 997.0470, 30: 995.6488, 40: 992.2152}


@pytest.mark.parametrize("temperature", TANAKA)
def test_density(temperature: float) -> None:
    found = 1000 * water_density(temperature_c=temperature)
    assert found == pytest.approx(TANAKA[temperature], abs=0.005)


@pytest.mark.parametrize("temperature", TANAKA)
def test_density_against_iapws_95(temperature: float) -> None:
    found = 1000 * water_density(temperature_c=temperature)
    assert found == pytest.approx(PropsSI("D", "T", temperature + 273.15, "P", 101_325, "Water"), abs=0.01)


def test_planning_rates() -> None:
    """South Australia, remote-area travel advice (second-hand): 6 L; Sphere Handbook 2011 (second-hand): 2.5 to 3 L."""
    assert WATER_RATE == 6
    assert 2.5 <= DRINKING_RATE <= 3


def test_endurance_of_the_official_example() -> None:
    """Two people, 6 L, 5 days and 4 in reserve carry 108 L (own arithmetic on that advice)."""
    litres = 2 * WATER_RATE * (5 + 4)
    assert litres == 108
    assert floor_days(litres_l=litres, people=2, reserve_l=2 * WATER_RATE * 4) == pytest.approx(60 / 6)


def test_the_prior_is_the_planning_rate() -> None:
    model = water_model(tanks=(TankSpec("w", 60.0),))
    assert model.settings == WATER
    assert isinstance(model.settings, Settings)
