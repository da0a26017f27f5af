"""What the plan says of its centre, wheels and tank states holds in every state that is tried."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from parity.planned_books import given as drawn
from vectors.decode import decode

from server.domain.book import Book, Row
from server.domain.centre import plan_centre
from server.domain.plan import plan_in, planned_loads
from server.domain.split import plan_split
from server.domain.state import State, TankLevel
from server.domain.worst import plan_worst

PLANS = st.integers(0, 5_000)
FRACTIONS = st.lists(st.floats(0, 1), min_size=4, max_size=4)


def planned(seed: int, *, heights: float = 1.0) -> tuple[Book, State]:
    made = drawn(np.random.default_rng(seed), heights=heights)
    return decode(made["book"], Book), decode(made["state"], State)


def at(state: State, levels: list[float]) -> State:
    tanks = [TankLevel(one.tank_id, f, 0.0, "typed") for one, f in zip(state.tanks, levels, strict=False)]
    return replace(state, tanks=tuple(tanks))


@given(PLANS, FRACTIONS)
def test_no_tank_state_leaves_the_span_of_heights(seed: int, levels: list[float]) -> None:
    book, state = planned(seed)
    heights = plan_centre(book=book, state=state).heights
    there = plan_centre(book=book, state=at(state, levels)).centre
    assert heights and there and there.z_m is not None
    assert heights.least_m - 1e-9 <= there.z_m <= heights.greatest_m + 1e-9
    for told, z_m in ((heights.least_at, heights.least_m), (heights.greatest_at, heights.greatest_m)):
        reached = plan_centre(book=book, state=at(state, list(told))).centre
        assert reached and reached.z_m == pytest.approx(z_m, abs=1e-9)


@given(PLANS)
def test_a_height_is_there_exactly_when_nothing_lacks_it(seed: int) -> None:
    book, state = planned(seed, heights=0.8)
    found = plan_centre(book=book, state=state)
    lacking = {part.id for part in plan_in(book, state).parts if part.z_m is None}
    assert found.centre and (found.centre.z_m is None) == bool(lacking) == bool(found.no_height)
    assert (found.heights is None) == bool(lacking)
    bodies = {row.id: row.body for row in (*book.items, *book.tanks, *book.seats)} | {"v": book.vehicle.body}  # type: ignore[union-attr]
    assert all(bodies[one.record_id].get(one.field) is None for one in found.no_height)


@given(PLANS)
def test_wheels_add_up_to_their_axles_under_both_models(seed: int) -> None:
    book, state = planned(seed)
    split = plan_split(book=book, state=state)
    axles = planned_loads(book=book, plan=plan_in(book, state), state=state)
    for end in ("front", "rear"):
        pair = [one for one in split.wheels if one.row.startswith(end)]
        if pair:
            assert sum(one.value_kg for one in pair) == pytest.approx(axles.value_kg(end), abs=1e-6)
            assert sum(one.other_kg for one in pair) == pytest.approx(axles.value_kg(end), abs=1e-6)
    if split.singles:
        assert sum(one.value_kg for one in split.singles) == pytest.approx(axles.value_kg("rear"), abs=1e-6)


@given(PLANS, FRACTIONS)
def test_no_tank_state_is_likelier_over(seed: int, levels: list[float]) -> None:
    book, state = planned(seed)
    here = at(state, levels)
    loads = planned_loads(book=book, plan=plan_in(book, here), state=here)
    for one in plan_worst(book=book, state=state, day="2026-05-01", confidence=0.95):
        verdict = one.verdict
        assert verdict.limit_kg is not None
        if verdict.value_kg < verdict.limit_kg:
            value, u = loads.value_kg(verdict.rating), loads.u_kg(verdict.rating)
            assert value + 1e-6 < verdict.limit_kg
            assert (value - verdict.limit_kg) / u <= (
                verdict.value_kg - verdict.limit_kg
            ) / verdict.u_kg + 1e-9


@given(PLANS)
def test_mirrored_across_left_and_right_change_places(seed: int) -> None:
    book, state = planned(seed)
    kinds = {name: tuple(_mirror(row) for row in getattr(book, name)) for name in ("items", "tanks", "seats")}
    one, other = (
        plan_split(book=book, state=state).wheels,
        plan_split(book=replace(book, **kinds), state=state).wheels,
    )
    turned = {_turned(wheel.row): wheel.value_kg for wheel in other}
    assert {wheel.row: wheel.value_kg for wheel in one} == pytest.approx(turned, abs=1e-6)


def _mirror(row: Row) -> Row:
    y_m = row.body.get("y_m")
    return row if y_m is None else replace(row, body={**row.body, "y_m": -y_m})


def _turned(wheel: str) -> str:
    end, side = wheel.split("_")
    return f"{end}_{'left' if side == 'right' else 'right'}"
