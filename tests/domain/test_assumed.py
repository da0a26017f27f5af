"""What is listed as assumed is what the plan uses: written out, it changes no figure and is listed no more."""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from parity.planned_books import given as drawn
from strategies import number
from vectors.decode import decode

from server.domain.assumed import Assumed, assumed
from server.domain.book import Book, Row
from server.domain.plan import plan_in, planned_loads
from server.domain.state import State
from server.domain.statics import Loads

WORDS = {
    "known_by": "estimate",
    "position_by": "described",
    "rear_axles": "single",
    "frame": "flexible",
    "fuel_kind": "diesel",
    "weighed_singly": False,
}
SEEDS = number(0, 5_000, 0).map(int)
KINDS = ("items", "tanks", "seats", "people", "trailers")


def planned(seed: int) -> tuple[Book, State]:
    made = drawn(np.random.default_rng(seed), heights=0.8)
    return decode(made["book"], Book), decode(made["state"], State)


def written(row: Row, one: Assumed, field: str) -> Row:
    """A record with a default written into its blank."""
    value: Any = WORDS[one.code] if one.value is None else one.value
    if one.code.startswith("mass_"):
        value *= row.body[field.replace("_u_kg", "_kg")]
    of = {"y_m": "y_u_m", "density_kg_per_l": "density_u_kg_per_l"}
    of |= {"fuel_temperature_c": "fuel_temperature_u_c"}
    more = {} if one.u is None else {of[field]: one.u}
    return replace(row, body={**row.body, field: value, **more})


def filled(book: Book, one: Assumed) -> Book:
    """The book with every blank of one default written out."""
    for blank in one.blanks:
        if blank.kind == "vehicle" and book.vehicle:
            book = replace(book, vehicle=written(book.vehicle, one, blank.field))
        for kind in KINDS:
            rows = getattr(book, kind)
            new = [written(row, one, blank.field) if row.id == blank.record_id else row for row in rows]
            book = replace(book, **{kind: tuple(new)})
    return book


def loads_of(book: Book, state: State) -> Loads:
    return planned_loads(book=book, plan=plan_in(book, state, ordered=True), state=state)


@given(SEEDS)
def test_a_default_written_out_changes_no_figure(seed: int) -> None:
    book, state = planned(seed)
    before = loads_of(book, state)
    for one in assumed(book=book):
        if one.code in ("forgotten_kinds", "forgotten_share"):
            continue
        after = loads_of(filled(book, one), state)
        assert after.rows == before.rows
        assert after.mean_kg == pytest.approx(before.mean_kg, rel=1e-12, abs=1e-9), one.code
        assert np.array(after.cov_kg2) == pytest.approx(np.array(before.cov_kg2), rel=1e-9, abs=1e-9), (
            one.code
        )


@given(SEEDS)
def test_what_is_written_out_is_assumed_no_more(seed: int) -> None:
    book, _ = planned(seed)
    for one in assumed(book=book):
        if one.code == "forgotten_kinds":
            continue
        blanks = {(of.record_id, of.field) for of in one.blanks}
        left = {(of.record_id, of.field) for other in assumed(book=filled(book, one)) for of in other.blanks}
        gone = {("v", "forgotten_share")} if one.code == "forgotten_share" else set()
        assert not (blanks - gone) & left, one.code


@given(SEEDS)
def test_each_blank_is_listed_once_and_is_blank(seed: int) -> None:
    book, _ = planned(seed)
    assert book.vehicle
    bodies = {row.id: row.body for kind in KINDS for row in getattr(book, kind)} | {"v": book.vehicle.body}
    blanks = [(of.record_id, of.field) for one in assumed(book=book) for of in one.blanks]
    assert len(blanks) == len(set(blanks))
    assert all(
        bodies[record_id].get(field) is None for record_id, field in blanks if field != "forgotten_share"
    )


def test_a_book_without_a_vehicle_assumes_nothing_of_it() -> None:
    assert assumed(book=Book(None)) == ()
