"""What is moved by a drag is the same as what is computed anew with the thing in its new place."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from parity.planned_books import given as drawn
from strategies import number, vehicles
from vectors.decode import decode

from server.domain.axles import Geometry, rows_of
from server.domain.book import Book
from server.domain.plan import geometry_of, plan_in, planned_loads
from server.domain.shift import Move, move_to, moved_plan, shifted_loads
from server.domain.state import State
from server.domain.statics import Loads, Part, loads

Vehicle = tuple[Geometry, list[Part]]


def same(one: Loads, other: Loads) -> None:
    """Equal to 1e-9 of the largest figure."""
    assert one.rows == other.rows
    assert np.array(one.mean_kg) == pytest.approx(np.array(other.mean_kg), rel=1e-9, abs=1e-9 * 5_000)
    largest = np.abs(np.array(other.cov_kg2)).max(initial=1.0)
    assert np.array(one.cov_kg2) == pytest.approx(np.array(other.cov_kg2), rel=1e-9, abs=1e-9 * largest)


@given(vehicles(tracks=True), st.data())
def test_a_shift_is_the_same_as_computing_anew(vehicle: Vehicle, data: st.DataObject) -> None:
    geometry, parts = vehicle
    rows = rows_of(geometry)
    moved = (
        data.draw(st.lists(st.sampled_from(parts[2:]), unique_by=lambda part: part.id)) if parts[2:] else []
    )
    after = {part.id: replace(part, x_m=data.draw(number(-1, 6))) for part in moved}
    alike = {part.article for part in moved} - {None}
    mates = [part for part in parts if part.article in alike and part.id not in after]
    move = Move(tuple(moved), tuple(after[part.id] for part in moved), tuple(mates))
    found = shifted_loads(
        found=loads(parts=parts, geometry=geometry, rows=rows), move=move, geometry=geometry
    )
    anew = [after.get(part.id, part) for part in parts]
    same(found, loads(parts=anew, geometry=geometry, rows=rows))


@given(st.integers(0, 5_000), st.data())
def test_a_record_moved_is_the_plan_with_it_there(seed: int, data: st.DataObject) -> None:
    made = drawn(np.random.default_rng(seed), heights=1.0)
    book, state = decode(made["book"], Book), decode(made["state"], State)
    plan, geometry = plan_in(book, state), geometry_of(book=book, state=state)
    kinds = {"items": book.items, "tanks": book.tanks, "seats": book.seats}
    there = [
        (kind, row)
        for kind, rows in kinds.items()
        for row in rows
        if any(part.id.split(":")[0] == row.id for part in plan.parts)
    ]
    if not there:
        return
    kind, row = data.draw(st.sampled_from(there))
    x_m = data.draw(number(-1, 5))
    put = [replace(one, body={**one.body, "x_m": x_m}) if one.id == row.id else one for one in kinds[kind]]
    anew = replace(book, **{kind: tuple(put)})
    move = move_to(book=book, plan=plan, record_id=row.id, x_m=x_m)
    before = planned_loads(book=book, plan=plan, state=state)
    for part, other in zip(moved_plan(plan=plan, move=move).parts, plan_in(anew, state).parts, strict=True):
        assert replace(part, x_m=other.x_m, x_u_m=other.x_u_m) == other
        assert (part.x_m, part.x_u_m) == pytest.approx((other.x_m, other.x_u_m), rel=1e-9, abs=1e-9)
    after = planned_loads(book=anew, plan=plan_in(anew, state), state=state)
    same(shifted_loads(found=before, move=move, geometry=geometry), after)


@given(vehicles(), st.data())
def test_there_and_back_again_is_where_it_was(vehicle: Vehicle, data: st.DataObject) -> None:
    geometry, parts = vehicle
    if len(parts) < 3:
        return
    part = data.draw(st.sampled_from(parts[2:]))
    there = replace(part, x_m=data.draw(number(-1, 6)))
    mates = tuple(one for one in parts if part.article and one.article == part.article and one.id != part.id)
    found = loads(parts=parts, geometry=geometry)
    out = shifted_loads(found=found, move=Move((part,), (there,), mates), geometry=geometry)
    same(shifted_loads(found=out, move=Move((there,), (part,), mates), geometry=geometry), found)
