"""The least change of a book says what the plan says once it is made, and proposes only what its owner would do."""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from parity.change_books import given as drawn
from parity.change_books import wishes
from vectors.change_books import book as change_book
from vectors.decode import call, decode

from server.domain.advice import held_by
from server.domain.book import Book, Row
from server.domain.change_options import Refused, content_l, usual_water_reserve
from server.domain.learning import Learning, learn, weighed_days
from server.domain.least_change import LeastChange, Move, Wishes, least_change, pose_change
from server.domain.limits import lifts
from server.domain.plan import geometry_of, plan_in
from server.domain.plates import ratings_of
from server.domain.state import State
from server.domain.statics import loads as loads_of
from server.domain.worst import rated_rows, worst_levels

Json = Any
SEEDS = st.integers(0, 3_000)


class Made:
    """One random book, its state and wishes, and the change."""

    def __init__(self, seed: int, *, session: bool = False, **wished: Any) -> None:
        rng = np.random.default_rng(seed)
        made = drawn(rng)
        self.book, self.state = decode(made["book"], Book), decode(made["state"], State)
        self.learning: Learning = call("learning", made["learning"]["$call"])
        self.session = made["session"] if session else None
        self.wishes = replace(decode(wishes(rng), Wishes), **wished)
        self.day = made["day"]
        self.change = self.again(self.wishes)

    def learnt(self, book: Book) -> Learning:
        """The weighings beside the plan as it now is."""
        return learn(book=book, days=weighed_days(book=self.book))

    def again(self, wish: Wishes) -> LeastChange:
        """The change by other wishes."""
        where = {"book": self.book, "state": self.state, "learning": self.learning, "session": self.session}
        return least_change(**where, day=self.day, wishes=wish)


def done(move: Move, book: Book, state: State) -> tuple[Book, State]:
    """A move made: the item's record edited or split, or left, or the levels of the tanks changed."""
    if move.kind == "tank":
        return book, _poured(move, book, state)
    row = next(one for one in book.items if one.id == move.subject_id)
    book, goes = _split(book, row, move.choice.copies)
    if move.choice.kind == "off":
        return book, replace(state, items_away=(*state.items_away, goes.id))
    slot = row.body["may_move_to"][move.choice.slot]
    place = {name: slot.get(name) for name in ("x_m", "y_m", "z_m", "roof", "trailer_id")}
    items = tuple(
        replace(one, body={**one.body, **place}) if one.id == goes.id else one for one in book.items
    )
    return replace(book, items=items), state


def _split(book: Book, row: Row, copies: int) -> tuple[Book, Row]:
    """Some copies as a record of their own, of the same article; and the record of what goes."""
    count = row.body.get("count") or 1
    if copies == count:
        return book, row
    same = {**row.body, "article_id": row.body.get("article_id") or row.id}
    goes = replace(row, id=f"{row.id}+", body={**same, "count": copies})
    stays = replace(row, body={**same, "count": count - copies})
    items = [one for each in book.items for one in ((stays, goes) if each.id == row.id else (each,))]
    return replace(book, items=tuple(items)), goes


def _poured(move: Move, book: Book, state: State) -> State:
    litres = {move.subject_id: -move.choice.litres_l}
    if move.choice.to_tank_id:
        litres[move.choice.to_tank_id] = move.choice.litres_l
    capacity = {row.id: row.body["capacity_l"] for row in book.tanks}
    tanks = tuple(
        replace(one, level=max(one.level + litres.get(one.tank_id, 0.0) / capacity[one.tank_id], 0.0))
        for one in state.tanks
    )
    return replace(state, tanks=tanks)


def loads(made: Made, book: Book, state: State) -> Any:
    """Every rated row by the plan of a book, with what the weighings teach of it."""
    plan, geometry = plan_in(book, state), geometry_of(book=book, state=state)
    rows = (*rated_rows(plan=plan, geometry=geometry), "roof")
    return made.learnt(book).loads(plan, rows, geometry, session=made.session)


@given(SEEDS)
def test_before_is_what_the_reconciled_plan_says(seed: int) -> None:
    made = Made(seed, session=True, tanks="as_is")
    found = loads(made, made.book, made.state)
    for one in made.change.before:
        assert one.value_kg == pytest.approx(found.value_kg(one.rating), abs=1e-6)
        assert one.u_kg == pytest.approx(found.u_kg(one.rating), abs=1e-5)


@given(SEEDS)
def test_before_at_the_worst_levels_is_what_the_plan_says_of_them(seed: int) -> None:
    """Where a content lifts a row and errs more than it weighs, the whisker may be longer, never shorter."""
    made = Made(seed, tanks="worst")
    assert made.book.vehicle
    geometry = geometry_of(book=made.book, state=made.state)
    shown = {one.rating: one for one in made.change.before}
    trailer_id = geometry.trailer.id if geometry.trailer else None
    ratings = [
        one for one in ratings_of(book=made.book, day=made.day, trailer_id=trailer_id) if one.rating in shown
    ]
    worst = worst_levels(
        book=made.book,
        state=made.state,
        ratings=ratings,
        confidence=made.wishes.confidence or made.book.vehicle.body["confidence"] or 0.95,
        loads_in=lambda plan, rows: made.learning.loads(plan, rows, geometry),
    )
    for one in worst:
        mine, limit = shown[one.verdict.rating], one.verdict.limit_kg
        assert limit is not None
        assert mine.value_kg >= one.verdict.value_kg - 1e-6
        if mine.word == "under" and one.verdict.word != "under":
            assert one.verdict.value_kg + one.verdict.reach_kg <= limit + 1e-6


@settings(suppress_health_check=[HealthCheck.filter_too_much])  # many are under, or cannot be
@given(SEEDS)
def test_after_is_what_the_plan_says_once_the_moves_are_made(seed: int) -> None:
    made = Made(seed, tanks="as_is")
    assume(made.change.moves)
    book, state = made.book, made.state
    for move in made.change.moves:
        book, state = done(move, book, state)
    found = loads(made, book, state)
    for one in made.change.after:
        assert one.value_kg == pytest.approx(found.value_kg(one.rating), abs=1e-6)
        assert one.u_kg == pytest.approx(found.u_kg(one.rating), abs=1e-5)
        assert one.word == "under"
    assert not lifts(loads=found)
    assert all(one.met_after for one in made.change.floors)
    for before, after in zip(made.change.before, made.change.after, strict=True):
        effects = [e.kg for move in made.change.moves for e in move.effects if e.rating == before.rating]
        assert before.value_kg + sum(effects) == pytest.approx(after.value_kg, abs=1e-6)


@settings(suppress_health_check=[HealthCheck.filter_too_much])
@given(SEEDS)
def test_a_change_that_was_made_leaves_nothing_to_do(seed: int) -> None:
    made = Made(seed, refused=())
    assume(made.change.moves)
    book, state = made.book, made.state
    for move in made.change.moves:
        book, state = done(move, book, state)
    wish = replace(made.wishes, water_reserve_l=0.0, fuel_reserve_l=0.0)
    learning = made.learnt(book)
    again = least_change(book=book, state=state, learning=learning, day=made.day, wishes=wish)
    assert again.advice.word == "within"


@given(SEEDS)
def test_only_what_may_be_moved_is(seed: int) -> None:
    made = Made(seed)
    items = {row.id: row.body for row in made.book.items}
    tanks = {row.id: row.body for row in made.book.tanks}
    said = {(one.subject_id, one.choice_id) for one in made.wishes.refused}
    for move in made.change.moves:
        assert (move.subject_id, None) not in said
        assert (move.subject_id, move.choice.id) not in said
        if move.kind == "tank":
            assert made.wishes.tanks == "as_is"
            assert not tanks[move.subject_id].get("emergency_reserve")
            if move.choice.kind == "out":
                assert tanks[move.subject_id]["holds"] in made.wishes.let_out
            continue
        body = items[move.subject_id]
        assert body["keep_aboard"] is False or (body["keep_aboard"] is None and "kit" not in body["name"])
        assert not body["taken_off"]
        if move.choice.kind == "off":
            assert body["may_stay_behind"] or (body["may_stay_behind"] is None and body["nature"] == "load")


@given(SEEDS, st.sampled_from([None, 0.0, 25.0]))
def test_the_drinking_reserve_stays(seed: int, reserve: float | None) -> None:
    made = Made(seed, tanks="as_is", let_out=("water", "fuel"), water_reserve_l=reserve, objective="moves")
    state = made.state
    for move in made.change.moves:
        if move.kind == "tank":
            state = _poured(move, made.book, state)
    kept = usual_water_reserve(book=made.book, state=made.state) if reserve is None else reserve
    water = [row for row in made.book.tanks if row.body["holds"] == "water" and _counts(row, made.state)]
    before, after = (sum(content_l(tank=row, state=one) for row in water) for one in (made.state, state))
    assert after >= min(before, kept) - 1e-9


def _counts(row: Row, state: State) -> bool:
    on = row.body.get("trailer_id")
    return (not on or on in state.trailers_on) and not row.body.get("emergency_reserve")


@given(SEEDS)
def test_refusing_a_move_gives_the_next_best(seed: int) -> None:
    made = Made(seed, objective="moves", refused=())
    for move in made.change.moves[:2]:
        stays = Refused(move.subject_id)
        again = made.again(replace(made.wishes, refused=(stays,)))
        assert all(one.subject_id != move.subject_id for one in again.moves)
        if again.advice.word == "found":
            before, after = made.change.advice, again.advice
            assert (after.moves, round(after.off_kg, 6)) >= (before.moves, round(before.off_kg, 6))


def opened(*records: tuple[str, str, Json]) -> Book:
    """The vehicle of the worked example with these records."""
    book: Book = call("book", change_book(*records)["$call"])
    return book


@given(st.floats(-0.5, 4.2), st.floats(0.0, 0.3), st.integers(2, 9), st.booleans(), st.booleans())
def test_some_copies_gone_are_what_the_plan_says_of_two_records(
    x_m: float, x_u_m: float, count: int, singly: bool, off: bool
) -> None:
    """Without weighings, copies of one unknown mass and copies that were weighed singly."""
    place = {"x_m": x_m, "y_m": 0.3}
    can = {"name": "Can", "nature": "load", "mass_kg": 20.0, "mass_u_kg": 2.0, "count": count, "x_m": 3.6,
           "x_u_m": x_u_m, "may_move_to": [place], "weighed_singly": singly}  # fmt: skip
    book = opened(("c", "item", can))
    state, learning = State(), learn(book=book, days=())
    posed = pose_change(book=book, state=state, learning=learning, day="2026-05-01")
    item, subject = posed.problem.items[0], posed.subjects[0]
    for k, way in enumerate(subject.choices):
        if way.copies == count or (way.kind == "off") != off:
            continue
        picks = [0] * len(posed.problem.items)
        picks[0] = k + 1
        asked = posed.problem
        held = held_by(limits=asked.limits, items=asked.items, errors=asked.errors, picks=picks)
        assert item.options[k + 1].moves == way.copies
        rows = [("c", "item", {**can, "count": count - way.copies})]
        if not off:
            rows.append(("d", "item", {**can, **place, "count": way.copies}))
        split = opened(*rows)
        plan = plan_in(split, state)
        tied = () if singly else ("c", "d")
        parts = [replace(one, article="can") if one.id in tied else one for one in plan.lasting]
        found = loads_of(parts=parts, geometry=geometry_of(book=split), rows=("front", "rear"))
        for one in held:
            row = one.id.removesuffix(":least")
            assert one.value_kg == pytest.approx(found.value_kg(row), abs=1e-9)
            assert one.u_kg == pytest.approx(found.u_kg(row), abs=1e-9)


def test_learning_of_no_weighings_is_the_plan() -> None:
    made = drawn(np.random.default_rng(5), weighings=0)
    book, state = decode(made["book"], Book), decode(made["state"], State)
    learning = learn(book=book, days=weighed_days(book=book))
    change = least_change(book=book, state=state, learning=learning, day=made["day"])
    assert change.before
    assert change.advice.exact
