"""What must hold for logs: continued or at once, in order or late, with good entries and bad ones."""

from dataclasses import replace
from itertools import accumulate, combinations, pairwise
from math import isfinite
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from strategies import number
from tank_strategies import fuel_entries

from server.domain.entries import FillEntry, FillLine
from server.domain.fuel import TankSpec
from server.domain.fuel_answer import fuel_answer
from server.domain.fuel_log import FuelLog, FuelSetup, read_fuel_log
from server.domain.fullfull import Accuracy, Stop, pooled, segment_covariance, segments
from server.domain.placing import longest_rise

SETUP = FuelSetup((TankSpec("main", 80.0), TankSpec("can", 20.0, drawn=False)), base_rate=11.0)

FEW = settings(max_examples=40)  # a log takes its time


def read(entries: list[Any], previous: FuelLog | None = None) -> FuelLog:
    return read_fuel_log(setup=SETUP, entries=entries, previous=previous)


def told(log: FuelLog) -> FuelLog:
    """All but the states that are kept for going on."""
    return replace(log, journal=replace(log.journal, kept=()))


@FEW
@given(fuel_entries(), st.data())
def test_continued_is_the_same_as_from_the_beginning(entries: list[Any], data: st.DataObject) -> None:
    cut = data.draw(st.integers(0, len(entries)))
    assert told(read(entries, previous=read(entries[:cut]))) == told(read(entries))


@FEW
@given(fuel_entries(most=25, steady=True), st.data())
def test_an_entry_taken_out_again_leaves_no_trace(entries: list[Any], data: st.DataObject) -> None:
    whole = read(entries)
    gone = data.draw(st.integers(0, len(entries)))
    fewer = entries[:gone] + entries[gone + 1 :]
    assert told(read(fewer, previous=whole)) == told(read(fewer))


@FEW
@given(fuel_entries(), st.data())
def test_the_order_in_which_entries_are_handed_over_is_irrelevant(
    entries: list[Any], data: st.DataObject
) -> None:
    shuffled = data.draw(st.permutations(entries))
    assert told(read(shuffled)).journal == told(read(entries)).journal


@FEW
@given(fuel_entries(steady=True), st.data())
def test_a_fill_entered_late_counts_as_if_in_time(entries: list[Any], data: st.DataObject) -> None:
    if len(entries) < 5:
        return
    n = data.draw(st.integers(1, len(entries) - 3))
    late = replace(entries[n], at_s=99 * 86_400.0, sequence=99)
    found = read([*entries[:n], *entries[n + 1 :], late])
    assert [one.code for one in found.findings if one.entry_id == late.id and one.code == "late"] == ["late"]
    assert found.journal.state == read(entries).journal.state


@FEW
@given(fuel_entries())
def test_no_entry_hides_the_answer(entries: list[Any]) -> None:
    answer = fuel_answer(log=read(entries), distance_km=250.0)
    figures = (answer.stands.count_on_km, answer.stands.likely_km, answer.stands.litres.mean)
    assert all(isfinite(one) and one >= 0 for one in figures)
    assert answer.stands.reach is not None
    assert 0 <= answer.stands.reach <= 1


@FEW
@given(fuel_entries())
def test_the_lower_answer_stands(entries: list[Any]) -> None:
    answer = fuel_answer(log=read(entries))
    for one in (answer.counted, answer.other):
        if one is not None:
            assert answer.stands.count_on_km <= one.count_on_km
            assert answer.stands.likely_km <= one.likely_km
            assert answer.stands.litres.mean <= one.litres.mean


@FEW
@given(fuel_entries(), st.sampled_from([float("nan"), float("inf"), -5.0]), st.booleans())
def test_nonsense_is_a_finding_about_its_entry(entries: list[Any], value: float, odometer: bool) -> None:
    at = (9e5, 999, value if odometer else 5000.0)
    bad = FillEntry("bad", *at, (FillLine("main", 5.0 if odometer else value, True),))
    found = read([*entries, bad])
    assert "bad" in {one.entry_id for one in found.findings}
    assert isfinite(fuel_answer(log=found).stands.count_on_km)


@FEW
@given(fuel_entries(steady=True))
def test_segments_share_out_all_litres_between_the_first_and_the_last_full_tank(entries: list[Any]) -> None:
    log = read(entries)
    full = [n for n, one in enumerate(entries) if one.lines[0].full]
    if log.segments and not log.findings:
        between = entries[full[0] + 1 : full[-1] + 1]
        litres = sum(one.lines[0].litres_l for one in between)
        assert sum(one.litres_l for one in log.segments) == pytest.approx(litres)
        way = entries[full[-1]].odometer_km - entries[full[0]].odometer_km
        assert sum(one.distance_km for one in log.segments) == pytest.approx(way)


@given(st.lists(st.tuples(st.integers(50, 600), number(5, 90), st.booleans()), max_size=12))
def test_pooled_is_the_weighted_mean_with_its_full_covariance(steps: list[tuple[int, float, bool]]) -> None:
    """Exactly so for an odometer without steps: its steps would weigh in the shares, too."""
    odometers = accumulate(way for way, _, _ in steps)
    stops = [
        Stop(f"s{n}", float(at), litres, full)
        for n, (at, (_, litres, full)) in enumerate(zip(odometers, steps, strict=True))
    ]
    accuracy = Accuracy(step_km=0.0, factor=1.03, factor_u=0.01)
    found = segments(stops=stops, accuracy=accuracy)
    whole = pooled(segments=found, accuracy=accuracy)
    if whole is None:
        assert sum(one.full for one in stops) < 2
        return
    total = sum(one.distance_km for one in found)
    shares = np.array([one.distance_km / total for one in found])
    cov = np.array(segment_covariance(segments=found, accuracy=accuracy))
    assert whole.mean == pytest.approx(shares @ [one.l_per_100km for one in found])
    assert whole.u == pytest.approx((shares @ cov @ shares) ** 0.5)


@given(st.lists(st.integers(0, 6), max_size=9))
def test_the_longest_rise_is_the_longest(values: list[int]) -> None:
    rise = longest_rise(values=[float(one) for one in values])
    taken = [values[i] for i in rise]
    assert taken == sorted(taken)
    assert list(rise) == sorted(set(rise))
    longer = combinations(range(len(values)), len(rise) + 1)
    assert not any(all(values[a] <= values[b] for a, b in pairwise(some)) for some in longer)
