"""Moments, centres of gravity and axle loads against published worked examples, in the units of each."""

import pytest

from server.domain.stability import centre_of_gravity
from server.domain.statics import Geometry, Part, loads

G = 9.81  # m/s^2, as the examples take it


def parts(*pairs: tuple[float, float]) -> list[Part]:
    return [Part(f"p{i}", abs(m), 0.0, x, taken_off=m < 0) for i, (m, x) in enumerate(pairs)]


# (mass, arm) pairs -> CG; a negative mass is taken off
CENTRES = {
    # FAA-H-8083-30 ch. 4 fig. 4-20 (inputs read in reproduction, result from memory): tare and fuel off, rest fuel on
    "weighed empty, 1.1": ([(645, 70), (635, 70), (222.5, -30), (-177, 95), (6, 98)], 50.09, 0.05),
    # FAA-H-8083-1 family (read in reproduction): nose reaction alone
    "nose reaction, 1.2": ([(340, -78), (1666, 0)], -13.2, 0.05),
    # FAA-H-8083-1B ch. 3 (read in reproduction; datum from memory)
    "datum ahead, 1.3": ([(340, 50), (1666, 128)], 114.8, 0.05),
    # FAA-H-8083-1B ch. 2 (read in reproduction; masses from memory)
    "lever, 1.4": ([(100, 0), (200, 80), (200, 100)], 72.0, 1e-9),
    "lever shifted, 1.5": ([(100, 0), (200, 25), (200, 100)], 50.0, 1e-9),
    "lever, 1.6": ([(100, 50), (100, 90), (200, 150)], 110.0, 1e-9),
    # FAA-H-8083-25, weight shifting (read in reproduction)
    "cargo aft, 1.7": ([(8000, 77), (-100, 30), (100, 150)], 78.5, 1e-9),
    "cargo forward, 1.8": ([(7800, 81.5), (-65, 150), (65, 30)], 80.5, 1e-9),
    # FAA knowledge-test question (read in reproduction)
    "mass added, 1.9": ([(2900, 115.0), (207.1, 130)], 116.0, 0.001),
    # FAA-H-8083-1B, ballast (partly from memory)
    "ballast, 1.10": ([(1876, 32.2), (7.70, 228)], 33.0, 0.001),
    # FAA mechanic knowledge-test question (read in reproduction)
    "ballast, 1.11": ([(4954, 30.5), (57.16, 162)], 32.0, 0.001),
    # EASA mass-and-balance question bank (read in reproduction): 7 ft 8 in between nose and main wheels
    "three points, 1.12": ([(285, 0), (1465 + 1395, 92)], 83.7, 0.05),
    # US Army TM 55-1500-342-23 para 2-7 (read in reproduction)
    "seesaw, 1.13": ([(200, -50), (100, 100)], 0.0, 1e-9),
}


@pytest.mark.parametrize("name", CENTRES)
def test_centre_of_gravity(name: str) -> None:
    masses, expected, tolerance = CENTRES[name]
    found = centre_of_gravity(parts=parts(*masses))
    assert found is not None
    assert found.x_m == pytest.approx(expected, abs=tolerance)


# Jazar, Vehicle Dynamics, ch. 2, by lecture slides on it: m, a1, l -> per front and rear wheel, N
WHEELS = {
    "car on level road, 2.1": (890, 0.78, 2.35, 2916.5, 1449.0),
    "exercise 1, 2.3 (own result)": (1765, 1.22, 2.84, 4938.3, 3719.0),
}


@pytest.mark.parametrize("name", WHEELS)
def test_axle_loads_from_the_centre_of_gravity(name: str) -> None:
    mass, a1, wheelbase, front, rear = WHEELS[name]
    found = loads(parts=parts((mass, a1)), geometry=Geometry(wheelbase))
    assert found.value_kg("front") * G / 2 == pytest.approx(front, abs=0.5)
    assert found.value_kg("rear") * G / 2 == pytest.approx(rear, abs=0.5)


def test_centre_from_wheel_loads() -> None:
    """Jazar, example 40 (read in reproduction), 2.2: 2000 and 1800 N per wheel, l 2.34 m."""
    found = centre_of_gravity(parts=parts((2 * 2000, 0), (2 * 1800, 2.34)))
    assert found is not None
    assert found.x_m == pytest.approx(1.1084, abs=5e-5)


def test_mass_behind_the_rear_axle() -> None:
    """Plain statics with own numbers, 2.8: 150 kg 1.2 m behind the axle of a 3.2 m wheelbase."""
    found = loads(parts=parts((150, 4.4)), geometry=Geometry(3.2))
    assert (found.value_kg("rear"), found.value_kg("front")) == pytest.approx((206.25, -56.25))
