"""The zone is the set of places that the quadratic inequality admits."""

import numpy as np
from hypothesis import assume, given
from hypothesis import strategies as st
from strategies import number

from server.domain.fieller import Zone, fieller

Z = 1.959964


def inside(zone: Zone, x: float) -> bool:
    if zone.from_m is None or zone.to_m is None:
        return True
    between = zone.from_m <= x <= zone.to_m
    return between if zone.kind == "interval" else not between


@given(number(-600, 600), number(-200, 200), st.integers(0, 10_000), number(-20, 20))
def test_a_place_is_in_the_zone_if_it_passes(moment: float, mass: float, seed: int, x: float) -> None:
    root = np.random.default_rng(seed).normal(scale=(30, 12), size=(3, 2))
    (w_aa, w_ab), (_, w_bb) = (root.T @ root).tolist()
    zone = fieller(moment_kgm=moment, mass_kg=mass, w_aa=w_aa, w_ab=w_ab, w_bb=w_bb, z=Z)
    passes = (moment - x * mass) ** 2 - Z**2 * (w_aa - 2 * x * w_ab + x * x * w_bb)
    assume(abs(passes) > 1e-6 * (1 + moment**2 + w_aa * Z**2))
    assert inside(zone, x) == (passes < 0)
    assert (zone.kind == "interval") == (abs(mass) > Z * w_bb**0.5)


def test_the_zone_holds_the_place_in_95_of_100_weighings() -> None:
    """J.3: over all weighings, the whole-line ones included."""
    rng = np.random.default_rng(2)
    w = np.array([[9000.0, 2100.0], [2100.0, 1225.0]])
    root, held = np.linalg.cholesky(w), 0
    for _ in range(4000):
        moment, mass = np.array([60 * 4.0, 60.0]) + root @ rng.normal(size=2)
        zone = fieller(moment_kgm=moment, mass_kg=mass, w_aa=9000.0, w_ab=2100.0, w_bb=1225.0, z=Z)
        held += inside(zone, 4.0)
    assert 0.94 <= held / 4000 <= 0.96
