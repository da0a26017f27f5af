"""What must hold for the loads of any vehicle."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from strategies import number, vehicles

from server.domain.axles import WHEELS, Geometry, rear_x_m, rows_of
from server.domain.statics import Loads, Part, loads

Vehicle = tuple[Geometry, list[Part]]


def all_loads(vehicle: Vehicle) -> Loads:
    geometry, parts = vehicle
    return loads(parts=parts, geometry=geometry, rows=rows_of(geometry))


def assert_same(one: Loads, other: Loads) -> None:
    scale = 1 + np.abs(np.array(one.cov_kg2)).max()
    assert one.rows == other.rows
    assert one.mean_kg == pytest.approx(other.mean_kg, rel=1e-9, abs=1e-7)
    assert np.array(one.cov_kg2) == pytest.approx(np.array(other.cov_kg2), rel=1e-9, abs=1e-10 * scale)


@given(vehicles())
def test_axles_carry_all_that_is_there(vehicle: Vehicle) -> None:
    found = all_loads(vehicle)
    total = sum(part.sign * part.mass_kg for part in vehicle[1])
    trailer = found.value_kg("trailer_axles") if vehicle[0].trailer else 0.0
    assert found.value_kg("front") + found.value_kg("rear") + trailer == pytest.approx(total, abs=1e-7)
    assert found.value_kg("gross") == pytest.approx(
        found.value_kg("front") + found.value_kg("rear"), abs=1e-7
    )
    if vehicle[0].spread_m:
        singles = found.value_kg("rear_1") + found.value_kg("rear_2")
        assert singles == pytest.approx(found.value_kg("rear"), abs=1e-7)


@given(vehicles(trailer=True))
def test_the_coupling_load_counts_once(vehicle: Vehicle) -> None:
    found = all_loads(vehicle)
    assert found.value_kg("trailer") == pytest.approx(
        found.value_kg("coupling") + found.value_kg("trailer_axles"), abs=1e-7
    )
    assert found.value_kg("combination") == pytest.approx(
        found.value_kg("gross") + found.value_kg("trailer_axles"), abs=1e-7
    )


@given(vehicles(), st.randoms(use_true_random=False))
def test_order_does_not_matter(vehicle: Vehicle, random: object) -> None:
    geometry, parts = vehicle
    mixed = list(parts)
    random.shuffle(mixed)  # type: ignore[attr-defined]
    assert_same(all_loads((geometry, mixed)), all_loads(vehicle))


@given(vehicles())
def test_nothing_weighs_nothing(vehicle: Vehicle) -> None:
    geometry, parts = vehicle
    nothing = Part("nothing", 0.0, 0.0, 9.0, 1.0, y_u_m=1.0)
    assert_same(all_loads((geometry, [*parts, nothing])), all_loads(vehicle))


@given(vehicles(), number(0, 200), number(-1, 6), number(-2, 2))
def test_a_shift_moves_its_moment(vehicle: Vehicle, mass: float, x: float, dx: float) -> None:
    geometry, parts = vehicle
    assume(geometry.second_axle == "pair")

    def rear(at: float) -> float:
        return all_loads((geometry, [*parts, Part("shifted", mass, 0.0, at)])).value_kg("rear")

    assert rear(x + dx) - rear(x) == pytest.approx(mass * dx / rear_x_m(geometry), abs=1e-7)


@given(vehicles(tracks=True))
def test_a_mirror_swaps_left_and_right(vehicle: Vehicle) -> None:
    geometry, parts = vehicle
    there = loads(parts=parts, geometry=geometry, rows=WHEELS)
    mirrored = [replace(part, y_m=-part.y_m) for part in parts]
    swapped = [f"{row.split('_')[0]}_{'right' if 'left' in row else 'left'}" for row in WHEELS]
    back = loads(parts=mirrored, geometry=geometry, rows=swapped)
    assert_same(replace(back, rows=there.rows), there)


@given(vehicles(tracks=True))
def test_wheels_add_up_to_axles(vehicle: Vehicle) -> None:
    found = all_loads(vehicle)
    for end in ("front", "rear"):
        both = found.value_kg(f"{end}_left") + found.value_kg(f"{end}_right")
        assert both == pytest.approx(found.value_kg(end), abs=1e-7)


@given(vehicles())
def test_a_covariance_is_one(vehicle: Vehicle) -> None:
    """Symmetric, never negative, and the total's is that of the sum of its axles."""
    found = all_loads(vehicle)
    cov = np.array(found.cov_kg2)
    front, rear, gross = (found.rows.index(row) for row in ("front", "rear", "gross"))
    assert np.array_equal(cov, cov.T)
    assert np.linalg.eigvalsh(cov).min() >= -1e-9 * (1 + cov.max())
    assert cov[gross, gross] == pytest.approx(
        cov[front, front] + 2 * cov[front, rear] + cov[rear, rear], abs=1e-6
    )


def test_second_moments_are_exact() -> None:
    """A product of independent mass and place, drawn 400 000 times."""
    rng = np.random.default_rng(5)
    mass, x = rng.normal(60, 25, 400_000), rng.normal(2.0, 0.8, 400_000)
    found = loads(parts=[Part("box", 60.0, 25.0, 2.0, 0.8)], geometry=Geometry(3.2), rows=["front", "rear"])
    drawn = np.cov([mass * (1 - x / 3.2), mass * x / 3.2])
    assert np.array(found.cov_kg2) == pytest.approx(drawn, rel=0.02)
