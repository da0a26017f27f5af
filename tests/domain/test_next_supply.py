"""The next supplies: what is taken on here is what it takes, and nobody is sent past a supply that counts."""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from parity.road_books import AT, book, route
from vectors.decode import decode

from server.domain.book import Book
from server.domain.next_supply import HERE_KM, NextSupply, supplies_ahead
from server.domain.road import road

SEEDS = range(10)


def drawn(seed: int) -> tuple[Book, dict[str, Any]]:
    rng = np.random.default_rng(100 + seed)
    return decode(book(rng), Book), route(rng)


def asked(opened: Book, record: dict[str, Any]) -> tuple[NextSupply, ...]:
    return supplies_ahead(book=opened, route=record, at=AT, holds="fuel", from_km=0.0)


@pytest.mark.parametrize("seed", SEEDS)
def test_it_is_the_first_section_of_the_whole_road(seed: int) -> None:
    opened, record = drawn(seed)
    found = asked(opened, record)
    along = road(book=opened, route=record, at=AT, from_km=0.0).fuel
    if along is None:
        assert found == ()
        return
    first = along.answer.sections[0]
    if first.to_km > HERE_KM:
        assert found[0].at_km == pytest.approx(first.to_km)
        assert found[0].probability <= first.probability + 1e-9


@pytest.mark.parametrize("seed", SEEDS)
def test_what_is_taken_on_here_is_enough(seed: int) -> None:
    """The same litres as a supply at the beginning: reached with just that probability, and with less not."""
    opened, record = drawn(seed)
    for one in asked(opened, record):
        if one.least_l is None or not 0 < one.least_l < one.room_l - 5:
            continue
        for litres, enough in ((one.least_l + 0.01, True), (one.least_l - 0.01, False)):
            here = {
                "name": "Here",
                "at_km": 0.0,
                "fuel": True,
                "water": False,
                "certain": True,
                "fuel_take_l": litres,
            }
            there = {**here, "name": "There", "at_km": one.at_km, "fuel_take_l": None}
            along = road(book=opened, route={**record, "supplies": [here, there]}, at=AT, from_km=0.0).fuel
            assert along is not None
            assert (along.answer.sections[0].probability >= 0.95) == enough


@pytest.mark.parametrize("seed", SEEDS)
def test_the_one_after_is_the_next_when_the_next_is_shut(seed: int) -> None:
    opened, record = drawn(seed)
    found = asked(opened, record)
    if len(found) < 2 or found[0].supply is None:
        return
    supplies = [
        {**one, "shut": one.get("shut") or n == found[0].supply} for n, one in enumerate(record["supplies"])
    ]
    twins = [one for one in supplies if one["at_km"] == found[0].at_km and one["certain"] and not one["shut"]]
    assert not twins
    again = asked(opened, {**record, "supplies": supplies})
    assert replace(again[0], way={}) == replace(found[1], way={})
    assert again[0].way == pytest.approx(found[1].way)
