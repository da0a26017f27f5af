"""Several entries in doubt: every choice of up to three has its branch, and one more doubt never raises what stands."""

from collections.abc import Collection
from dataclasses import replace
from itertools import chain, combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from strategies import number

from server.domain.bank import Bank
from server.domain.entries import FillEntry, FillLine
from server.domain.events import Fill, Full, Missed
from server.domain.filter import Model
from server.domain.fuel import FUEL, FUEL_KAPPAS, TankSpec
from server.domain.fuel_answer import fuel_answer
from server.domain.fuel_log import FuelSetup, read_fuel_log
from server.domain.journal import EVERY_CHOICE, MOST_OTHERS, Part, Step, lower_banks, run_journal
from server.domain.remain import Counting, range_at, reach

ONE = Model(("main",), (80.0,), ("sealed",), (11.0,), FUEL)
TWO = Model(("main", "sub"), (80.0, 60.0), ("sealed",), (11.0,), FUEL)
FEW = settings(max_examples=30)  # a log takes its time


@st.composite
def logs(draw: st.DrawFn) -> tuple[Model, list[Step]]:
    """Stops that nobody doubts yet, some of them full, some after one that was missed."""
    model = draw(st.sampled_from([ONE, TWO]))
    steps = []
    for n in range(draw(st.integers(4, 9))):
        tank = draw(st.sampled_from(model.tank_ids))
        missed = [Missed(tank)] if draw(st.integers(0, 9)) == 0 else []
        full = [Full((tank,))] if draw(st.booleans()) else []
        events = (*missed, Fill(tank, draw(number(5, 60, 0))), *full)
        way = (Part("sealed", draw(number(50, 400, 0))),)
        steps.append(Step(f"s{n}", way, events, (tank,), confirmed=True))
    return model, steps


def entered(steps: list[Step]) -> list[Step]:
    """The same with no fill missed."""
    return [
        replace(one, events=tuple(said for said in one.events if not isinstance(said, Missed)))
        for one in steps
    ]


def banks(
    model: Model, steps: list[Step], doubts: Collection[int], left: Collection[int] = ()
) -> tuple[Bank, ...]:
    """Where a log ends with some steps in doubt, and some left out."""
    said = [
        replace(one, doubt="alike" if n in doubts else None, refused=n in left) for n, one in enumerate(steps)
    ]
    return lower_banks(state=run_journal(model=model, kappas=FUEL_KAPPAS, steps=said).state)


def stands(found: Collection[Bank]) -> float:
    return min(range_at(bank=one, mix={"sealed": 1.0}, p=0.95) for one in found)


def some(draw: st.DataObject, of: int, most: int) -> list[int]:
    return sorted(draw.draw(st.sets(st.integers(0, of - 1), max_size=most)))


@FEW
@given(logs(), st.data())
def test_every_choice_of_up_to_three_is_run(log: tuple[Model, list[Step]], data: st.DataObject) -> None:
    model, steps = log
    doubts = some(data, len(steps), EVERY_CHOICE)
    left = chain.from_iterable(combinations(doubts, k) for k in range(len(doubts) + 1))
    each = [banks(model, steps, (), one) for one in left]
    if steps == entered(steps):
        assert all(len(one) == 1 for one in each)
        assert set(banks(model, steps, doubts)) == {bank for one in each for bank in one}
    assert banks(model, steps, doubts)[0] == banks(model, steps, (), doubts)[0]


@FEW
@given(logs(), st.data())
def test_one_more_doubt_never_raises_what_stands(log: tuple[Model, list[Step]], data: st.DataObject) -> None:
    model, steps = log
    plain = entered(steps)
    doubts = some(data, len(plain), EVERY_CHOICE)
    before = stands(banks(model, plain, doubts[1:]))
    assert stands(banks(model, plain, doubts)) <= before


@FEW
@given(logs(), st.data())
def test_a_later_doubt_never_raises_it_however_many_there_are(
    log: tuple[Model, list[Step]], data: st.DataObject
) -> None:
    """Against the same log without what is in doubt, as long as there is room for one more branch."""
    model, steps = log[0], entered(log[1])
    doubts = some(data, len(steps), EVERY_CHOICE + 3)
    for n, last in enumerate(doubts):
        fewer = stands(banks(model, steps[: last + 1], doubts[:n], [last]))
        assert stands(banks(model, steps[: last + 1], doubts[: n + 1])) <= fewer


@FEW
@given(logs())
def test_branches_stay_few(log: tuple[Model, list[Step]]) -> None:
    model, steps = log
    found = banks(model, steps, range(len(steps)))
    assert len(found) <= 1 + MOST_OTHERS
    if steps == entered(steps):
        assert found[-1] == banks(model, steps, ())[-1]


@FEW
@given(st.data())
def test_what_stands_is_the_lowest_of_all_branches(data: st.DataObject) -> None:
    """Also where only one of them has been searched for its range to the end."""
    stops = data.draw(
        st.lists(st.tuples(number(80, 350, 0), number(10, 60, 0), st.booleans()), min_size=5, max_size=8)
    )
    odometer, entries = 1000.0, []
    for n, (way, litres, full) in enumerate(stops):
        odometer += way
        entries.append(FillEntry(f"e{n}", n * 86_400.0, n, odometer, (FillLine("main", litres, full),)))
    alike = {f"e{n}": "x" for n in some(data, len(stops), EVERY_CHOICE)}
    log = read_fuel_log(setup=FuelSetup((TankSpec("main", 80.0),), alike=alike), entries=entries)
    answer = fuel_answer(log=log, mix={"sealed": 1.0}, distance_km=300.0)
    counting = Counting(reserve_l=answer.reserve_l)
    found = [
        (
            range_at(bank=one, mix={"sealed": 1.0}, p=0.95, counting=counting),
            range_at(bank=one, mix={"sealed": 1.0}, p=0.5, counting=counting),
            reach(bank=one, mix={"sealed": 1.0}, amount=300.0, counting=counting),
        )
        for one in lower_banks(state=log.journal.state)
    ]
    stands = (answer.stands.count_on_km, answer.stands.likely_km, answer.stands.reach)
    assert stands == pytest.approx([min(column) for column in zip(*found, strict=True)], abs=1e-8)
