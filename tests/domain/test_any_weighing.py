"""Whatever weighing the schema lets in is read; one that it would refuse stands apart, and spoils no other."""

from typing import Any

import pytest
from factories import new_id
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from server.domain.book import Book, Row, check_weighing, open_book
from server.domain.comparison import compare
from server.domain.errors import DomainError
from server.domain.guidance import guide
from server.domain.visit import read_visit
from server.schemas.register import KINDS
from server.schemas.weighing import AXLES, WHEELS

SEAT, PERSON, TRAILER = new_id(), new_id(), new_id()
VEHICLE = {"name": "V", "wheelbase_m": 3.2, "coupling_x_m": 4.4, "base_front_kg": 1200, "base_rear_kg": 1100}
PLAN = [
    Row(new_id(), "plate", "p", {"of": "vehicle", "gross_kg": 3300, "front_axle_kg": 1600}),
    Row(new_id(), "item", "i", {"name": "Box", "nature": "part", "mass_kg": 200, "x_m": 3}),
    Row(TRAILER, "trailer", "t", {"name": "T", "coupling_to_axle_m": 3, "base_axles_kg": 600}),
    Row(PERSON, "person", "m", {"name": "M", "nature": "person", "mass_kg": 80}),
    Row(SEAT, "seat", "s", {"name": "Driver", "x_m": 1.4, "usual_person_id": PERSON}),
]
STATE = {
    **{"settled_by": "confirmed", "tanks": [], "items": [], "plan": []},
    "seats": [{"seat_id": SEAT, "person_id": PERSON, "mass_kg": 80, "mass_u_kg": 3}],
}
VALUES = st.one_of(st.sampled_from([0.0, 500.0, 1300.0, 3300.0]), st.floats(0, 200_000))
DIFFERS = {"uncoupled": st.booleans(), "seats_empty": st.lists(st.just(SEAT), max_size=1)}
READINGS = st.fixed_dictionaries(
    {"on_deck": st.lists(st.sampled_from(AXLES + WHEELS), min_size=1, max_size=4), "value_kg": VALUES},
    optional={
        "split": st.booleans(),
        "deck": st.sampled_from(["a", "b"]),
        "differs": st.fixed_dictionaries({}, optional=DIFFERS),
        "struck_out": st.just("it rolled"),
    },
)
BRIDGES = st.fixed_dictionaries(
    {},
    optional={
        "interval_kg": st.sampled_from([0.1, 1.0, 2.0, 20.0, 200.0]),
        "accuracy_class": st.sampled_from(["III", "IIII", "percent"]),
        "percent": st.sampled_from([0.01, 1.5, 20.0]),
        "max_kg": st.sampled_from([100.0, 60_000.0]),
    },
)


@st.composite
def weighings(draw: st.DrawFn) -> Row:
    readings = draw(st.lists(READINGS, min_size=1, max_size=4))
    coupled = {"trailers": [{"trailer_id": TRAILER, "coupled": draw(st.booleans())}]}
    body = {
        **{"at": f"2026-03-{draw(st.integers(1, 28)):02d}T00:00:00Z", "zone": "UTC"},
        **{"bridge": draw(BRIDGES), "readings": [{"id": new_id(), **one} for one in readings]},
        "state": draw(st.none() | st.just({**STATE, **coupled})),
    }
    return Row(new_id(), "weighing", "w", body)


@st.composite
def books(draw: st.DrawFn) -> tuple[Book, list[Row]]:
    vehicle = {**VEHICLE, "rear_axles": draw(st.sampled_from(["single", "independent_pair"]))}
    rows = draw(st.lists(weighings(), min_size=1, max_size=3))
    return open_book(rows=[Row(new_id(), "vehicle", "v", vehicle), *PLAN, *rows]), rows


def refused(row: Row) -> dict[str, Any]:
    return dict(KINDS["weighing"]().validate(row.body))


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(books())
def test_a_weighing_is_read_or_stands_apart_and_the_schema_knows_which(found: tuple[Book, list[Row]]) -> None:
    book, rows = found
    assert {one.id for one in book.unread} == {one.id for one in rows if refused(one)}
    for one in book.unread:
        with pytest.raises(DomainError):
            check_weighing(weighing=one)
    for one in book.weighings:
        assert read_visit(book=book, weighing=one).id == one.id
        assert compare(book=book, weighing_id=one.id).weighing_id == one.id
        guide(book=book, weighing_id=one.id)
