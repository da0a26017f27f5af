"""What must hold of the account, of the change since last time and of the lessons, whatever the book."""

from dataclasses import replace
from math import floor

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from parity.weighed_books import opened

from server.domain.account import account, whole_kg
from server.domain.axles import ROWS
from server.domain.book import Book
from server.domain.comparison import compare
from server.domain.learning import learn, weighed_days
from server.domain.plan import geometry_of, plan_in
from server.domain.since import since
from server.domain.state import full_state
from server.domain.taught import SPEAKS, taught

FEW = settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
ENTERED = ("base", "new", "changed", "removed")


def books(weighings: int | None = None) -> st.SearchStrategy[Book]:
    seeds = st.integers(0, 2**32 - 1)
    return seeds.map(lambda seed: opened(np.random.default_rng(seed), weighings=weighings))


def days() -> st.SearchStrategy[str]:
    return st.integers(1, 28).map(lambda day: f"2026-03-{day:02d}")


@FEW
@given(books(), days())
def test_the_column_adds_up_to_the_weighed_mass(book: Book, day: str) -> None:
    for weighing in book.weighings:
        found = account(book=book, weighing_id=weighing.id, day=day)
        if found is not None:
            assert sum(line.mass_kg for line in found.lines) == pytest.approx(found.weighed_kg, abs=1e-9)
            assert all(line.u_kg >= 0 for line in found.lines)


@FEW
@given(books(), days())
def test_what_nobody_planned_is_what_the_comparison_says(book: Book, day: str) -> None:
    for weighing in book.weighings:
        found = account(book=book, weighing_id=weighing.id, day=day)
        unplanned = compare(book=book, weighing_id=weighing.id).unplanned
        assert (found is None) == (unplanned is None)
        if found is not None and unplanned is not None:
            line = next(one for one in found.lines if one.code == "unplanned")
            assert line.mass_kg == pytest.approx(unplanned.mass_kg, abs=1e-8)
            assert line.u_kg == pytest.approx(unplanned.u_kg, abs=1e-8)


@FEW
@given(books())
def test_nothing_is_entered_after_the_weighing_s_own_plan(book: Book) -> None:
    found = account(book=book, weighing_id=book.weighings[0].id, day="2026-12-31")
    assert found is None or not [line for line in found.lines if line.code in ENTERED]


@given(st.lists(st.floats(-1e4, 1e4), max_size=30))
def test_whole_kilograms_add_up(masses: list[float]) -> None:
    whole, total = whole_kg(masses_kg=masses), 0.0
    for mass_kg in masses:
        total += mass_kg
    assert sum(whole) == floor(total + 0.5)
    assert all(abs(one - mass_kg) < 1 for one, mass_kg in zip(whole, masses, strict=True))


@FEW
@given(books(2))
def test_what_came_one_way_went_the_other(book: Book) -> None:
    there = since(book=book, weighing_id="w1", earlier_id="w0")
    back = since(book=book, weighing_id="w0", earlier_id="w1")
    assert (there is None) == (back is None)
    if there is None or back is None:
        return
    for name in ("listed_kg", "weighed_kg", "unexplained_kg"):
        assert getattr(there, name) == pytest.approx([-kg for kg in getattr(back, name)], abs=1e-8)
        other = name.replace("_kg", "_u_kg")
        assert getattr(there, other) == pytest.approx(getattr(back, other), abs=1e-8)
    kg = {(line.subject, line.record_id): line.kg for line in back.lines}
    assert len(kg) == len(there.lines)
    for line in there.lines:
        assert line.kg == pytest.approx([-one for one in kg[line.subject, line.record_id]], abs=1e-9)


@FEW
@given(books(2))
def test_the_lines_since_last_time_add_up(book: Book) -> None:
    found = since(book=book, weighing_id="w1")
    if found is None:
        return
    gaps = [{gap.row: gap for gap in compare(book=book, weighing_id=name).gaps} for name in ("w0", "w1")]
    for k, row in enumerate(found.rows):
        assert sum(line.kg[k] for line in found.lines) == pytest.approx(found.listed_kg[k], abs=1e-9)
        planned, weighed = (
            getattr(gaps[1][row], name) - getattr(gaps[0][row], name) for name in ("planned_kg", "weighed_kg")
        )
        assert found.listed_kg[k] == pytest.approx(planned, abs=1e-8)
        assert found.weighed_kg[k] == pytest.approx(weighed, abs=1e-8)
        assert found.unexplained_kg[k] == pytest.approx(weighed - planned, abs=1e-8)


@FEW
@given(books(1))
def test_a_second_weighing_of_the_same_shows_the_tanks_alone(book: Book) -> None:
    (first,) = book.weighings
    again = replace(first, id="again", body={**first.body, "at": "2026-09-01T08:00:00Z"})
    found = since(book=replace(book, weighings=(first, again)), weighing_id="again")
    if found is not None:
        assert {line.subject for line in found.lines} <= {"tank"}
        assert found.listed_kg == pytest.approx([0.0] * len(found.rows), abs=1e-9)
        assert found.weighed_kg == pytest.approx([0.0] * len(found.rows), abs=1e-9)


@FEW
@given(books())
def test_the_last_lesson_is_the_whole_posterior(book: Book) -> None:
    found = taught(book=book)
    assert [one.weighing_id for one in found] == [one.id for one in book.weighings]
    if found:
        learning = learn(book=book, days=weighed_days(book=book))
        plan = plan_in(book=book, state=full_state(book=book))
        whole = learning.loads(plan, ROWS, geometry_of(book=book))
        for row in found[-1].rows:
            assert row.after_kg == pytest.approx(whole.value_kg(row.row), rel=1e-9)
            assert row.after_u_kg == pytest.approx(whole.u_kg(row.row), rel=1e-7)


@FEW
@given(books())
def test_no_weighing_makes_less_sure(book: Book) -> None:
    known: dict[str, float] = {}
    for one in taught(book=book):
        for row in one.rows:
            assert row.before_u_kg == pytest.approx(known.get(row.row, row.before_u_kg), rel=1e-9)
            assert row.after_u_kg <= row.before_u_kg * (1 + 1e-9)
            known[row.row] = row.after_u_kg
        assert all(SPEAKS < item.told <= 1 for item in one.items)
        assert one.counted or all(row.after_kg == row.before_kg for row in one.rows)
