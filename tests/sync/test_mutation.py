"""Reading a mutation by hand agrees with its schema, and names what is wrong."""

import json
from typing import Any

import pytest
from factories import fill, mutation, new_id, seat
from hypothesis import given
from hypothesis import strategies as st

from server.schemas import register
from server.schemas import sync as shapes
from server.sync import mutation as rules
from server.sync.mutation import LOG_KINDS, PLAN_KINDS, Mutation, Refusal, name_of, read

BOOK = new_id()
ODD: list[Any] = [
    *(
        None,
        True,
        False,
        0,
        1,
        -1,
        1.5,
        2**53,
        2**70,
        "",
        "1",
        [],
        {},
        new_id(),
        new_id().upper(),
        "seat",
        ["seat"],
    ),
    *(
        f"{new_id()}\n",
        "2026-03-04T05:06:07Z",
        "2026-02-30T05:06:07Z",
        "2026-03-04T05:06:07Z\n",
        "0000-01-01T00:00:00Z",
    ),
    *("2026-03-04T05:06:07.1234567Z", "2026-03-04 05:06:07Z", "٢٠٢٦-03-04T05:06:07Z", -900, -901, 900, 1_001),
]


def test_kinds_are_those_of_the_register() -> None:
    assert (PLAN_KINDS, LOG_KINDS) == (register.PLAN_KINDS, register.LOG_KINDS)
    assert rules.SCHEMA == shapes.SCHEMA


def test_a_mutation_is_read_as_it_was_sent() -> None:
    sent = seat(BOOK)
    assert read(sent) == Mutation(**sent)


@given(st.sampled_from(sorted(seat(BOOK))), st.sampled_from(ODD))
def test_reading_agrees_with_the_schema(name: str, value: Any) -> None:
    sent = {**fill(BOOK), name: value}
    assert isinstance(read(sent), Refusal) == bool(shapes.Mutation().validate(sent))


@given(
    st.sampled_from(sorted(seat(BOOK))), st.sampled_from([v for v in ODD if not isinstance(v, list | dict)])
)
def test_a_refusal_names_the_field(name: str, value: Any) -> None:
    refusal = read({**fill(BOOK), name: value})
    assert isinstance(refusal, Mutation) or list(refusal.fields) == [name]


def test_missing_and_unknown_names_are_told_together() -> None:
    sent = {**seat(BOOK), "author": new_id()}
    del sent["schema"]
    refusal = read(sent)
    assert isinstance(refusal, Refusal)
    assert refusal.fields == {"schema": ["This is missing."], "author": ["This name is not known."]}


@pytest.mark.parametrize("raw", [None, 5, "x", [], [{}], True])
def test_only_an_object_is_a_mutation(raw: Any) -> None:
    assert isinstance(read(raw), Refusal)
    assert name_of(raw) is None


def test_the_name_of_a_spoiled_mutation_is_kept() -> None:
    sent = mutation(BOOK, "cloud", {})
    assert name_of(sent) == sent["mut"]
    assert name_of({"mut": "not an id"}) is None
    assert json.dumps(name_of({"mut": f"{new_id()}\n"})) == "null"
