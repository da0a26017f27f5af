"""What must hold for any set of readings."""

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from strategies import bridges, number, readings, setups

from server.domain.agreement import axle_loads, fixed_sums
from server.domain.axles import Geometry
from server.domain.bridge import Bridge, own_variance, permissible_error
from server.domain.errors import Duplicate, OutOfRange
from server.domain.weighing import Reading, SplitSetup, merge_repeats, reading_covariance

SETUPS = setups(Geometry(3.1))


@given(readings(), bridges(), SETUPS)
def test_a_covariance_is_positive_definite(
    taken: tuple[Reading, ...], bridge: Bridge, setup: SplitSetup
) -> None:
    v = np.array(reading_covariance(readings=taken, bridge=bridge, setup=setup))
    assert np.array_equal(v, v.T)
    assert np.linalg.eigvalsh(v).min() > 0


@given(bridges(), number(0, 5000))
def test_the_class_error_is_all_accounted_for(bridge: Bridge, load: float) -> None:
    """Gain, zero and own variance together are at least MPE^2/3, and no more unless own is 0."""
    assume(bridge.percent is None)
    permitted = permissible_error(load_kg=load, interval_kg=bridge.interval_kg, accuracy_class="III")
    assert 0 <= own_variance(bridge=bridge, value_kg=load) <= permitted**2 / 3


@given(st.lists(number(1000, 2000, 0), min_size=2, max_size=6), bridges(), SETUPS)
def test_repeats_only_wear_friction_down(values: list[float], bridge: Bridge, setup: SplitSetup) -> None:
    taken = [Reading(str(i), ("rear",), value, True) for i, value in enumerate(values)]
    (merged,) = merge_repeats(readings=taken)
    once = Reading("once", ("rear",), merged.value_kg, True)
    (less,), (more,) = (
        reading_covariance(readings=[one], bridge=bridge, setup=setup) for one in (merged, once)
    )
    friction = (0.003 * merged.value_kg) ** 2
    assert merged.value_kg == pytest.approx(np.mean(values))
    assert more[0] - less[0] == pytest.approx(friction * (1 - 1 / len(values)), rel=1e-6)
    with pytest.raises(Duplicate, match="Merge"):
        reading_covariance(readings=taken, bridge=bridge, setup=setup)


@given(readings(), bridges(), SETUPS, st.randoms(use_true_random=False))
def test_order_of_readings_does_not_matter(
    taken: tuple[Reading, ...], bridge: Bridge, setup: SplitSetup, random: object
) -> None:
    assume(len(taken) >= 2)
    mixed = list(taken)
    random.shuffle(mixed)  # type: ignore[attr-defined]

    def solved(some: list[Reading]) -> dict[str, float]:
        found = axle_loads(
            readings=some, covariance=reading_covariance(readings=some, bridge=bridge, setup=setup)
        )
        return dict(zip(found.rows, found.mean_kg, strict=True)) | {"chi2": found.chi2}

    assert solved(mixed) == pytest.approx(solved(list(taken)), rel=1e-7, abs=1e-7)


@given(number(500, 3000, 0), number(500, 3000, 0), number(-200, 200, 0), bridges(), SETUPS)
def test_with_one_redundancy_every_z_is_alike(
    front: float, rear: float, gap: float, bridge: Bridge, setup: SplitSetup
) -> None:
    taken = [Reading("f", ("front",), front), Reading("r", ("rear",), rear)]
    taken.append(Reading("w", ("front", "rear"), max(front + rear + gap, 0.0)))
    found = axle_loads(
        readings=taken, covariance=reading_covariance(readings=taken, bridge=bridge, setup=setup)
    )
    assert list(found.z) == pytest.approx([found.chi2**0.5] * 3, rel=1e-6, abs=1e-6)


@given(readings(), bridges(), SETUPS)
def test_another_reading_never_makes_a_load_less_sure(
    taken: tuple[Reading, ...], bridge: Bridge, setup: SplitSetup
) -> None:
    def u(some: tuple[Reading, ...]) -> float:
        covariance = reading_covariance(readings=some, bridge=bridge, setup=setup)
        found = fixed_sums(
            sums=[[float(end in one.axles) for end in ("front", "rear")] for one in some],
            values_kg=[one.value_kg for one in some],
            covariance=covariance,
            wanted={"gross": [1.0, 1.0]},
        )
        return found.cov_kg2[0][0] ** 0.5 if found.rows else float("inf")

    assume(len(taken) >= 2)
    assert u(taken) <= u(taken[:-1]) * (1 + 1e-9)


def test_a_slope_through_the_deck_cancels_in_the_sum_and_friction_stays() -> None:
    bridge = Bridge("b")
    taken = [Reading("f", ("front",), 1400.0, True), Reading("r", ("rear",), 1400.0, True)]
    level = {rho: SplitSetup(2800.0, 3.2, 0.8, level_correlation=rho) for rho in (-1.0, 0.0, 1.0)}
    total = {
        rho: np.array(reading_covariance(readings=taken, bridge=bridge, setup=setup)).sum()
        for rho, setup in level.items()
    }
    tilt2 = (2800 * 0.8 * 0.02 / 3.2**2) ** 2
    assert total[0.0] - total[-1.0] == pytest.approx(2 * tilt2)
    assert total[1.0] - total[-1.0] == pytest.approx(4 * tilt2)
    whole = SplitSetup(2800.0, 3.2, 0.8, friction_share=0.0, level_correlation=-1.0)
    bare = np.array(reading_covariance(readings=taken, bridge=bridge, setup=whole)).sum()
    assert total[-1.0] - bare == pytest.approx(2 * (0.003 * 1400) ** 2)


def test_three_split_readings_bound_the_slope() -> None:
    taken = [Reading(axle, (axle,), 900.0, True) for axle in ("front", "rear_1", "rear_2")]
    for rho, allowed in ((-0.5, True), (-0.51, False)):
        setup = SplitSetup(2700.0, 3.2, 0.8, level_correlation=rho)
        if allowed:
            assert reading_covariance(readings=taken, bridge=Bridge("b"), setup=setup)
        else:
            with pytest.raises(OutOfRange, match="level_correlation"):
                reading_covariance(readings=taken, bridge=Bridge("b"), setup=setup)
