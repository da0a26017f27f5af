"""What lies between two plans adds up to their difference, whatever was edited in between."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from parity.edited_books import given as drawn
from vectors.decode import decode

from server.domain.book import Book
from server.domain.plan import plan_in, planned_loads
from server.domain.state import State, full_state
from server.domain.two_plans import TwoPlans, Version, book_on, two_plans

SEEDS = st.integers(0, 5_000)


def asked(seed: int) -> tuple[Book, Version, Version, State | None]:
    made = drawn(np.random.default_rng(seed))
    return (
        decode(made["book"], Book),
        decode(made["first"], Version),
        decode(made["second"], Version),
        decode(made["state"], State | None),
    )


def compared(book: Book, first: Version, second: Version, state: State | None) -> TwoPlans:
    return two_plans(book=book, first=first, second=second, today="2026-03-25", state=state)


@given(SEEDS)
def test_the_records_between_add_up_to_the_difference(seed: int) -> None:
    found = compared(*asked(seed))
    first, second = found.first.loads, found.second.loads
    if first is None or second is None:
        assert found.differences == ()
        return
    for k, row in enumerate(found.rows):
        was, now = (one.value_kg(row) if row in one.rows else 0.0 for one in (first, second))
        assert sum(one.kg[k] for one in found.differences) == pytest.approx(now - was, abs=1e-6)
        assert found.total_kg[k] == pytest.approx(now - was, abs=1e-6)


@given(SEEDS)
def test_the_other_way_round_is_the_opposite(seed: int) -> None:
    book, first, second, state = asked(seed)
    there, back = compared(book, first, second, state), compared(book, second, first, state)
    assert there.total_kg == pytest.approx([-kg for kg in back.total_kg], abs=1e-6)
    assert {one.record_id for one in there.differences} == {one.record_id for one in back.differences}


@given(SEEDS)
def test_a_plan_does_not_differ_from_itself(seed: int) -> None:
    book, first, _, state = asked(seed)
    found = compared(book, first, first, state)
    assert found.differences == () and found.first == found.second


@given(SEEDS)
def test_the_last_day_is_the_present_plan(seed: int) -> None:
    book = asked(seed)[0]
    last = book_on(book=book, day="2026-03-31")
    for kind in ("vehicle", "trailers", "plates", "items", "tanks", "seats", "people"):
        assert getattr(last, kind) == getattr(book, kind)


@given(SEEDS)
def test_each_side_is_the_plan_of_its_day(seed: int) -> None:
    book, first, second, _ = asked(seed)
    found = compared(book, first, second, None)
    if found.first.loads is None:
        return
    stood = book if first.day is None else book_on(book=book, day=first.day)
    state = full_state(book=stood, trailer_id=first.trailer_id)
    plan = plan_in(stood, state, ordered=first.ordered)
    assert planned_loads(book=stood, plan=plan, state=state) == found.first.loads
