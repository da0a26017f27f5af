"""What must hold for a log as people keep it: doubles, answers, the past, what a fill does to the ratings."""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from parity import planned_books
from strategies import number
from tank_strategies import DAY_S, fuel_entries, water_entries

from server.domain.book import Book
from server.domain.cost import Paid, cost_per_distance
from server.domain.fill_room import fill_room
from server.domain.fuel import TankSpec
from server.domain.fuel_answer import fuel_answer
from server.domain.fuel_log import FuelLog, FuelSetup, read_fuel_log
from server.domain.grey import grey_filled
from server.domain.odometer import measured_factor
from server.domain.past import events_run, rates_over_time
from server.domain.state import State
from server.domain.water import Presence
from server.domain.water_answer import survival, water_answer
from server.domain.water_log import WaterSetup, read_water_log
from tests.vectors.decode import decode

TANKS = (TankSpec("main", 80.0), TankSpec("can", 20.0, drawn=False))
FEW = settings(max_examples=25)  # a log takes its time


def read(entries: list[Any], **setup: Any) -> FuelLog:
    return read_fuel_log(setup=FuelSetup(TANKS, base_rate=11.0, **setup), entries=entries)


@FEW
@given(fuel_entries(steady=True), st.data())
def test_a_double_never_raises_an_answer_before_somebody_has_said(
    entries: list[Any], data: st.DataObject
) -> None:
    if not entries:
        return
    n = data.draw(st.integers(0, len(entries) - 1))
    double = replace(entries[n], id="again", sequence=99, odometer_km=entries[n].odometer_km + 1)
    alone = read(entries)
    # of several that are held two answers stand, with none of them and with all: one more may then go either way
    if any(one.standing == "held" for one in alone.findings):
        return
    once = fuel_answer(log=alone).stands
    twice = read([*entries, double], alike={"again": entries[n].id})
    assert ("alike", "held") in {(one.code, one.standing) for one in twice.findings}
    both = fuel_answer(log=twice).stands
    assert both.count_on_km <= once.count_on_km + 2  # the odometer's km between them
    assert both.litres.mean <= once.litres.mean + 0.5


@FEW
@given(fuel_entries())
def test_what_somebody_found_right_is_never_held(entries: list[Any]) -> None:
    held = [one.entry_id for one in read(entries).findings if one.standing == "held"]
    after = read(entries, confirmed=tuple(held))
    assert not {one.entry_id for one in after.findings if one.standing == "held"} & set(held)


@FEW
@given(fuel_entries())
def test_the_past_ends_where_the_answer_begins(entries: list[Any]) -> None:
    """Replayed, the main branch is the same; its last smoothed rate is the filtered one."""
    log = read(entries)
    runs = events_run(journal=log.journal)
    assert len(runs) == len(log.journal.steps)
    rates = rates_over_time(log=log)
    ways = [n for n, step in enumerate(log.journal.steps) if step.way]
    if not ways or ways[-1] != len(runs) - 1:
        return
    now = {one.class_id: one for one in fuel_answer(log=log).rates}
    assert rates[-1].l_per_100km == pytest.approx(now[rates[-1].class_id].l_per_100km, rel=1e-6)
    assert rates[-1].u == pytest.approx(now[rates[-1].class_id].u, rel=1e-6)


@FEW
@given(fuel_entries(steady=True), number(0.5, 3))
def test_a_price_per_litre_costs_as_much_as_the_litres(entries: list[Any], price: float) -> None:
    log = read(entries)
    paid = {one.id: Paid(one.lines[0].litres_l * price, "XTS") for one in entries}
    found = cost_per_distance(log=log, fill_ids=[one.id for one in entries], paid=paid)
    litres = sum(one.litres_l for one in log.segments)
    assert sum(one.amount for one in found) == pytest.approx(price * litres)
    assert sum(one.distance_km for one in found) == pytest.approx(
        sum(one.distance_km for one in log.segments)
    )


@FEW
@given(st.integers(0, 10_000), number(0.6, 0.99))
def test_the_litres_that_may_go_in_keep_what_was_under_and_one_more_does_not(seed: int, p: float) -> None:
    given_ = planned_books.given(np.random.default_rng(seed))
    book: Book = decode(given_["book"], Book)
    state: State = decode(given_["state"], State)
    for tank in book.tanks:
        asked: dict[str, Any] = {"book": book, "state": state, "day": "2026-05-01", "tank_id": tank.id}
        found = fill_room(**asked, confidence=p)
        if found is None or not found.most_l or found.binds is None or found.binds.side == "lower":
            continue
        # one that is not under before, and that the fill first makes better, is held to where it stands
        drop = fill_room(**asked, confidence=p, litres_l=1e-9)
        assert drop is not None
        if {one.rating: one.word for one in drop.after}[found.binds.rating] != "under":
            continue
        for share, word in ((0.999, "under"), (1.001, "cannot_tell")):
            after = fill_room(**asked, confidence=p, litres_l=share * found.most_l)
            assert after is not None
            words = {one.rating: one.word for one in after.after}
            assert words[found.binds.rating] in (word, *(("over",) if word != "under" else ()))


@FEW
@given(water_entries(), number(3, 12), number(0.5, 4, 1))
def test_survival_is_what_may_be_drunk_over_the_rate(entries: list[Any], rate: float, people: float) -> None:
    two = (Presence(1.0, 0.0), Presence(1.0, 0.0))
    log = read_water_log(setup=WaterSetup((TankSpec("fresh", 90.0),), two), entries=entries)
    found = survival(log=log, now_s=9 * DAY_S, people=people, rate_l=rate)
    answer = water_answer(log=log, now_s=9 * DAY_S, people=people)
    assert found.days == pytest.approx(found.least_l / rate / people)
    assert found.least_l <= found.litres.mean
    assert found.litres.mean <= answer.stands.litres.mean + 1e-6 or answer.other is not None
    half = (grey_filled(log=log, from_s=a, until_s=b, fraction=0.5).mean for a, b in ((0, 1e5), (1e5, 4e5)))
    assert sum(half) == pytest.approx(
        grey_filled(log=log, from_s=0, until_s=4e5, fraction=0.5).mean, abs=1e-9
    )


@given(number(100, 500), number(0.8, 1.3))
def test_a_longer_way_measures_the_odometer_better(way: float, factor: float) -> None:
    one, two = (measured_factor(indicated_km=n * way, true_km=n * way * factor) for n in (1, 2))
    assert one.factor == pytest.approx(two.factor)
    assert two.factor_u < one.factor_u
