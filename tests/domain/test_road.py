"""A route of a book: it begins with the day's loads, and what is planned on the way is what happens."""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from parity.road_books import AT, book, route
from vectors.decode import decode
from vectors.road_books import LOG, PLAN, WHOLE

from server.domain import journal
from server.domain.book import Book, Row, open_book
from server.domain.fuel_answer import fuel_answer
from server.domain.plan import plan_in, planned_loads, reckoned
from server.domain.road import Road, road
from server.domain.state import logged_state, seats_for
from server.domain.supplies import fuel_log_of, levels_at
from server.domain.underway import people_aboard

SEEDS = range(12)


def drawn(seed: int) -> tuple[Book, dict[str, Any]]:
    rng = np.random.default_rng(seed)
    return decode(book(rng), Book), route(rng)


def answer(seed: int, **more: Any) -> Road:
    opened, record = drawn(seed)
    return road(book=opened, route={**record, **more}, at=AT, from_km=0.0)


@pytest.mark.parametrize("seed", SEEDS)
def test_it_begins_with_the_loads_of_the_day(seed: int) -> None:
    """Without a leg that tows: who is aboard, what the tanks hold by the log, and an empty grey tank."""
    opened, record = drawn(seed)
    legs = [{**leg, "towing": False} for leg in record["legs"]]
    plain = {**record, "legs": legs, "people_ids": None, "changes": []}
    found = road(book=opened, route=plain, at=AT, from_km=0.0).loads
    state = logged_state(book=opened, at=AT, levels=levels_at(book=opened, at=AT))
    if not reckoned(book=opened, state=replace(state, trailers_on=())):
        assert found is None
        return
    assert found is not None
    grey = {tank.body.get("grey_tank_id") for tank in opened.tanks if opened.waters}
    tanks = tuple(replace(one, level=0.0) if one.tank_id in grey else one for one in state.tanks)
    seats = seats_for(book=opened, seats=state.seats, people=people_aboard(book=opened, at=AT))
    state = replace(state, tanks=tanks, seats=seats, trailers_on=())
    loads = planned_loads(book=opened, plan=plan_in(opened, state), state=state)
    for row, value in zip(found.along.rows, found.along.marks[0].value_kg, strict=True):
        assert value == pytest.approx(loads.value_kg(row), rel=1e-9, abs=1e-6)


@pytest.mark.parametrize("seed", SEEDS)
def test_a_load_that_comes_and_goes_leaves_nothing_behind(seed: int) -> None:
    _, record = drawn(seed)
    total = sum(leg["distance_km"] for leg in record["legs"])
    wood = {"at_km": total / 3, "what": "load", "mass_kg": 50.0, "x_m": 3.0, "until_km": 2 * total / 3}
    without, found = answer(seed, changes=[]).loads, answer(seed, changes=[wood]).loads
    if without is None or found is None:
        assert without is found
        return
    gross = found.along.rows.index("gross")
    middle = [mark for mark in found.along.marks if mark.cause == "rest"]
    assert all(abs(mark.at_km - wood["at_km"]) < 1e-6 for mark in middle[:1])
    if not (found.stuck or without.stuck):
        ends = [one.along.marks[-1].value_kg[gross] for one in (found, without)]
        assert ends[0] == pytest.approx(ends[1], rel=1e-9)
        assert len(middle) == 2


@pytest.mark.parametrize("seed", SEEDS)
def test_a_supply_struck_out_is_one_that_is_shut(seed: int) -> None:
    opened, record = drawn(seed)
    first, *others = record["supplies"]
    struck = road(book=opened, route=record, at=AT, shut=[0])
    shut = road(book=opened, route={**record, "supplies": [{**first, "shut": True}, *others]}, at=AT)
    assert struck == shut


def test_filling_up_on_the_way_rests_on_each_tanks_own_shut_off() -> None:
    """u 3 and 4 L of two tanks are 5 L together; without a figure of their own 1 L each."""
    wide = {"main": 3.0, "tail": 4.0}

    def after(own: dict[str, float]) -> tuple[float, float]:
        plan = [{**one, "body": {**one["body"], "full_u_l": own.get(one["id"])}} for one in PLAN]
        rows = [Row(**one) for one in (*plan, *LOG)]
        found = road(book=open_book(rows=rows), route=WHOLE, at="2026-05-20T09:00:00Z", from_km=0.0)
        assert found.fuel is not None
        assert found.loads is not None
        taken = next(point for point in found.fuel.answer.points if point.taken)
        at = next(mark for mark in found.loads.along.marks if mark.cause == "take")
        return taken.left.u, at.u_kg[found.loads.along.rows.index("rear")]

    usual, own = after({}), after(wide)
    assert usual[0] == pytest.approx(2**0.5)
    assert own[0] == pytest.approx(5.0)
    assert own[1] > usual[1]


@pytest.mark.parametrize("seed", SEEDS)
def test_it_goes_on_from_a_log_that_was_read(seed: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """The same answer, and no entry of the log up to now is run through the filter again."""
    opened, record = drawn(seed)
    before = fuel_log_of(book=opened, until=AT)
    asked: dict[str, Any] = {"book": opened, "route": record, "at": AT, "from_km": 0.0}
    anew, really = road(**asked), journal.step_on

    def only_water(**given: Any) -> Any:
        assert "sealed" not in given["state"].main.bank.model.class_ids
        return really(**given)

    monkeypatch.setattr(journal, "step_on", only_water)
    assert road(**asked, previous=before) == anew


def test_filling_up_where_legs_add_up_but_for_rounding_is_filling_up() -> None:
    """The record says 300.3 km, the legs add up to 6e-14 km less; half a litre more than fits is planned there."""
    leg = {"surface": {"sealed": 1.0, "gravel": 0.0, "sand": 0.0}}
    legs = [{**leg, "distance_km": km} for km in (100.1, 200.2, 60.0)]
    assert legs[0]["distance_km"] + legs[1]["distance_km"] != 300.3
    here = {"name": "Half", "at_km": 300.3, "fuel": True, "water": False, "certain": True}
    opened = open_book(rows=[Row(**one) for one in (*PLAN, *LOG)])

    def driven(**more: float) -> Road:
        record = {"name": "R", "legs": legs, "supplies": [{**here, **more}]}
        return road(book=opened, route=record, at="2026-05-20T09:00:00Z", from_km=0.0)

    fuel = driven().fuel
    assert fuel is not None
    found = driven(fuel_take_l=fuel.answer.stops[0].room_l + 0.5)
    assert found.loads is not None
    assert found.loads.stuck is None
    assert found.loads == driven().loads


def test_a_surface_ahead_is_answered_with_a_trailer_that_only_an_entry_tells_of() -> None:
    """The book has no trailer, and the last fill says that one was towed."""
    towed = {**LOG[-2], "body": {**LOG[-2]["body"], "towing": True}}
    log = fuel_log_of(book=open_book(rows=[Row(**one) for one in (*PLAN, *LOG[:-2], towed)]))
    assert log is not None
    assert {"gravel+trailer", "sand+trailer"} <= set(log.model.class_ids)
    assert fuel_answer(log=log, mix={"gravel+trailer": 1.0}).stands.count_on_km > 0
