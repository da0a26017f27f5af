"""What must hold for water: person-days, days, and what may be drunk."""

from dataclasses import replace
from math import isfinite
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from strategies import number
from tank_strategies import DAY_S, presences, water_entries

from server.domain.bank import bank_state
from server.domain.entries import DRINKABLE, WaterEntry
from server.domain.fuel import TankSpec
from server.domain.journal import lower_banks
from server.domain.water import Presence, people_at, person_days
from server.domain.water_answer import water_answer
from server.domain.water_log import WaterLog, WaterSetup, read_water_log

TANK = TankSpec("fresh", 90.0)
TWO = (Presence(1.0, 0.0), Presence(1.0, 0.0))
FEW = settings(max_examples=40)  # a log takes its time


def read(
    entries: list[Any], people: tuple[Presence, ...] = TWO, previous: WaterLog | None = None
) -> WaterLog:
    return read_water_log(setup=WaterSetup((TANK,), people), entries=entries, previous=previous)


@given(presences(), number(-3, 10, 1), number(0, 5, 1), number(0, 5, 1))
def test_person_days_add_up(people: tuple[Presence, ...], start: float, first: float, second: float) -> None:
    a, b, c = (day * DAY_S for day in (start, start + first, start + first + second))

    def days(from_s: float, until_s: float) -> float:
        return person_days(presences=people, from_s=from_s, until_s=until_s)

    assert days(a, b) + days(b, c) == pytest.approx(days(a, c), abs=1e-9)
    assert days(a, c) <= sum(one.share for one in people) * (first + second) + 1e-9


@FEW
@given(water_entries(), presences(), st.data())
def test_continued_is_the_same_as_from_the_beginning(
    entries: list[Any], people: tuple[Presence, ...], data: st.DataObject
) -> None:
    half = read(entries[: data.draw(st.integers(0, len(entries)))], people)
    whole, again = read(entries, people), read(entries, people, previous=half)
    assert replace(again, journal=whole.journal) == whole
    assert (again.journal.state, again.journal.outcomes) == (whole.journal.state, whole.journal.outcomes)


@FEW
@given(water_entries(), number(0.5, 5, 1))
def test_twice_the_people_half_the_days(entries: list[Any], people: float) -> None:
    log = read(entries)
    one, two = (water_answer(log=log, now_s=10 * DAY_S, people=n * people).stands for n in (1, 2))
    assert one.count_on_days is not None and two.count_on_days is not None
    assert isfinite(one.count_on_days)
    assert two.count_on_days == pytest.approx(one.count_on_days / 2, rel=1e-6)


@FEW
@given(water_entries())
def test_a_later_hour_never_leaves_more(entries: list[Any]) -> None:
    """While the rate is above 0: levels read that rise without a fill can drive its Gaussian mean below."""
    answers = [water_answer(log=read(entries), now_s=day * DAY_S) for day in (6, 7, 9)]
    for bank in lower_banks(state=read(entries).journal.state):
        if bank_state(bank=bank)[-1].mean < 0:
            return
    litres = [one.stands.litres.mean for one in answers]
    assert litres == sorted(litres, reverse=True)


@FEW
@given(water_entries(), st.data())
def test_worse_water_never_makes_a_tank_better(entries: list[Any], data: st.DataObject) -> None:
    fills = [n for n, one in enumerate(entries) if isinstance(one, WaterEntry)]
    if not fills:
        return
    n = data.draw(st.sampled_from(fills))
    foul = [*entries[:n], replace(entries[n], drinkable="no"), *entries[n + 1 :]]
    before, after = (DRINKABLE.index(read(some).qualities[0].drinkable) for some in (entries, foul))
    assert after >= before


@FEW
@given(water_entries())
def test_drinkable_days_are_among_all_days(entries: list[Any]) -> None:
    answer = water_answer(log=read(entries), now_s=6 * DAY_S)
    assert (answer.drinkable.count_on_days or 0.0) <= (answer.stands.count_on_days or 0.0) + 1e-9
    assert answer.people == people_at(presences=TWO, at_s=6 * DAY_S)
