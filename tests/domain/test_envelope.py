"""Every tank state lies within the envelope."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from strategies import tanks, vehicles

from server.domain.axles import Geometry
from server.domain.envelope import Tank, content, envelope, height_span, worst_chance
from server.domain.limits import chance_over
from server.domain.stability import centre_of_gravity
from server.domain.statics import Part, loads

Vehicle = tuple[Geometry, list[Part]]
ROWS = ("front", "rear", "gross")
SHARES = st.lists(st.floats(0, 1), min_size=4, max_size=4)


def state(parts: list[Part], held: list[Tank], shares: list[float]) -> list[Part]:
    """Each tank somewhere between its levels."""
    levels = [
        t.least_level + s * (t.greatest_level - t.least_level) for t, s in zip(held, shares, strict=False)
    ]
    return [*parts, *(content(tank=t, level=f) for t, f in zip(held, levels, strict=True))]


@given(vehicles(), tanks(), st.lists(SHARES, min_size=1, max_size=20))
def test_loads_stay_within(vehicle: Vehicle, held: list[Tank], states: list[list[float]]) -> None:
    geometry, parts = vehicle
    spans = envelope(parts=parts, tanks=held, geometry=geometry, rows=ROWS)
    for shares in states:
        found = loads(parts=state(parts, held, shares), geometry=geometry, rows=ROWS)
        for span, value in zip(spans, found.mean_kg, strict=True):
            assert span.least_kg - 1e-7 <= value <= span.greatest_kg + 1e-7


@given(vehicles(trailer=False), tanks(), SHARES)
def test_heights_stay_within(vehicle: Vehicle, held: list[Tank], shares: list[float]) -> None:
    _, parts = vehicle
    span = height_span(parts=parts, tanks=held)
    found = centre_of_gravity(parts=state(parts, held, shares))
    assert found is not None and found.z_m is not None
    assert span.least_m - 1e-9 <= found.z_m <= span.greatest_m + 1e-9


@given(vehicles(), tanks(), SHARES, st.integers(1000, 2500))
def test_no_state_is_likelier_over(
    vehicle: Vehicle, held: list[Tank], shares: list[float], limit: int
) -> None:
    geometry, parts = vehicle
    worst = worst_chance(parts=parts, tanks=held, geometry=geometry, row="rear", limit_kg=float(limit))
    if worst.found == "over":
        assert worst.value_kg >= limit
        return
    found = loads(parts=state(parts, held, shares), geometry=geometry, rows=["rear"])
    u = found.u_kg("rear")
    assert chance_over(limit_kg=float(limit), value_kg=found.mean_kg[0], u_kg=u) <= worst.chance + 1e-9


def test_the_lowest_centre_needs_no_full_tank() -> None:
    base = [Part("base", 2400.0, 0.0, 1.5, z_m=0.75)]
    found = height_span(parts=base, tanks=[Tank("water", 80.0, 2.5, bottom_m=0.4, height_m=0.5)])
    levels = np.linspace(0, 1, 1001)
    heights = [(2400 * 0.75 + 80 * f * (0.4 + f * 0.25)) / (2400 + 80 * f) for f in levels]
    assert 0.5 < found.least_at[0] < 0.9
    assert abs(found.least_at[0] - levels[int(np.argmin(heights))]) < 2e-3


def test_a_thousand_states_stay_within_and_come_near() -> None:
    """Two tanks ahead of the rear axle, one behind it: also the front axle's extremes are reached."""
    chance = np.random.default_rng(8)
    base = [Part("base", 2400.0, 0.0, 1.5)]
    held = [Tank("fuel", 90.0, 2.2), Tank("water", 80.0, 1.4), Tank("tail", 60.0, 4.4)]
    geometry = Geometry(3.2)
    spans = envelope(parts=base, tanks=held, geometry=geometry, rows=ROWS)
    found = np.array(
        [
            loads(
                parts=state(base, held, chance.beta(0.3, 0.3, 3).tolist()), geometry=geometry, rows=ROWS
            ).mean_kg
            for _ in range(1000)
        ]
    )
    for span, values in zip(spans, found.T, strict=True):
        assert span.least_kg - 1e-7 <= values.min() < span.least_kg + 5
        assert span.greatest_kg - 5 < values.max() <= span.greatest_kg + 1e-7
