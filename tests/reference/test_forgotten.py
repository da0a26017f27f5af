"""The forgotten mass's place against statsmodels' weighted statistics."""

from math import sqrt

import pytest
from statsmodels.stats.weightstats import DescrStatsW

from server.domain.forgotten import forgotten_part
from server.domain.statics import Part

PARTS = [
    Part("canopy", 152.0, 7.6, 3.4, y_m=0.0, z_m=1.4),
    Part("bar", 64.0, 3.2, -0.72, y_m=0.05, z_m=0.7),
    Part("battery", 24.0, 0.1, 2.78, y_m=-0.5, z_m=1.1),
    Part("fridge", 25.0, 1.25, 3.05, y_m=0.45, z_m=1.2),
]


@pytest.mark.parametrize("axis", ["x", "y", "z"])
def test_middle_and_spread_are_weighted_by_mass(axis: str) -> None:
    found = forgotten_part(added=PARTS, share=0.045)
    assert found is not None
    places, masses = [getattr(one, f"{axis}_m") for one in PARTS], [one.mass_kg for one in PARTS]
    stats = DescrStatsW(places, weights=masses, ddof=0)
    assert getattr(found, f"{axis}_m") == pytest.approx(stats.mean, rel=1e-12)
    assert getattr(found, f"{axis}_u_m") == pytest.approx(sqrt(stats.var / 7 + 0.15**2), rel=1e-12)
