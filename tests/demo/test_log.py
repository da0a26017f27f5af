"""The logs have the faults that logs have, and are otherwise what truly went in."""

from collections.abc import Iterator
from datetime import date, datetime
from functools import cache

import pytest

from server.demo.diary import Fill
from server.demo.scenario import STORIES, Scenario, generate

TODAY = date(2026, 11, 20)


@cache
def made() -> Scenario:
    return generate(1, TODAY)


def entries(kind: str, key: str) -> list[dict]:
    book = made().truth.vehicles[key].entered.book
    mutations = [one.mutation for one in made().records]
    return [one for one in mutations if one["kind"] == kind and one["book"] == book]


def late_by_days(entry: dict) -> int:
    made_at = datetime.fromisoformat(entry["made_at"])
    return (made_at - datetime.fromisoformat(entry["body"]["at"])).days


def poured(key: str) -> Iterator[tuple[float, float]]:
    """Litres logged and litres that truly went in, for each logged fill of a tank."""
    truth = made().truth.vehicles[key]
    tanks = {truth.entered.of("tank", row.key): row.key for row in truth.sheet.tanks}
    when = [f"{point.when:%Y-%m-%dT%H:%M:%S.000Z}" for point in truth.points]
    for entry in entries("fill", key):
        if entry["body"]["at"] not in when or "price" not in entry["body"]:
            continue  # the second phone's entry of one stop
        at = when.index(entry["body"]["at"])
        before, after = truth.points[at - 1].litres, truth.points[at].litres
        for line in entry["body"]["lines"]:
            tank = tanks[line["tank_id"]]
            yield line["litres_l"], after[tank] - before[tank]


@pytest.mark.parametrize("key", ["utility", "wagon", "van"])
def test_logged_litres_went_in_within_the_pump(key):
    pairs = list(poured(key))
    assert len(pairs) >= 12
    for logged, true in pairs:
        assert abs(logged - true) <= 0.005 * true + 0.006


@pytest.mark.parametrize(("sheet", "diary"), STORIES, ids=lambda one: getattr(one, "key", ""))
def test_one_fill_is_missing_and_the_next_one_says_so(sheet, diary):
    stops = [row for row in diary if isinstance(row, Fill)]
    logged = entries("fill", sheet.key)
    twice = sum(1 for row in stops if row.again_by)
    assert len(logged) == len(stops) - 1 + twice
    assert sum(entry["body"].get("missed_before", False) for entry in logged) == 1


@pytest.mark.parametrize("key", ["utility", "wagon", "van"])
def test_full_partial_and_late_fills_occur(key):
    lines = [line for entry in entries("fill", key) for line in entry["body"]["lines"]]
    assert {line["full"] for line in lines} == {True, False}
    assert sum(late_by_days(entry) >= 2 for entry in entries("fill", key)) == 1


@pytest.mark.parametrize("key", ["utility", "wagon", "van"])
def test_surface_shares_add_up_and_every_surface_occurs(key):
    shares = [entry["body"]["surface"] for entry in entries("fill", key) if entry["body"].get("surface")]
    assert all(sum(one.values()) == pytest.approx(1) for one in shares)
    for surface in ("sealed", "gravel", "sand"):
        assert any(one[surface] > 0 for one in shares)


def test_a_reading_that_is_struck_out_takes_no_road_with_it():
    struck = entries("correction", "wagon")[0]["body"]
    dip = next(one["body"] for one in entries("dip", "wagon") if one["id"] == struck["of_id"])
    assert struck["what"] == "struck_out" and struck["reason"]
    assert "surface" not in dip


def test_the_van_has_two_entries_that_wait_for_a_correction():
    fills = sorted((one["body"] for one in entries("fill", "van")), key=lambda body: body["at"])
    readings = [body["odometer_km"] for body in fills]
    backwards = [at for at in range(1, len(readings)) if readings[at] < readings[at - 1]]
    assert len(backwards) == 1
    assert len(readings) - len(set(readings)) == 1  # one stop logged by two phones
    assert not any(body.get("corrects") for body in fills)


def test_a_mistyped_weighing_is_corrected_by_a_new_entry():
    new = next(one["body"] for one in entries("weighing", "utility") if one["body"].get("corrects"))
    old = next(one["body"] for one in entries("weighing", "utility") if one["id"] == new["corrects"])
    wrong, right = (body["readings"][2]["as_typed"]["value_kg"][0] for body in (old, new))
    assert wrong != right and sorted(wrong) == sorted(right)
    assert new["reason"] and new["state"] == old["state"]


def test_a_struck_out_reading_has_its_reason_and_its_repeat():
    every = [one for entry in entries("weighing", "wagon") for one in entry["body"]["readings"]]
    readings = [one for one in every if one.get("struck_out") or one.get("repeat_of")]
    struck = next(one for one in readings if one.get("struck_out"))
    again = next(one for one in readings if one.get("repeat_of"))
    assert again["repeat_of"] == struck["id"] and again["on_deck"] == struck["on_deck"]


@pytest.mark.parametrize("key", ["utility", "wagon", "van"])
def test_visits_are_spread_over_months_and_differ_in_what_was_read(key):
    corrected = {one["body"].get("corrects") for one in entries("weighing", key)}
    visits = [one["body"] for one in entries("weighing", key) if one["id"] not in corrected]
    assert 3 <= len(visits) <= 7
    sets = [{tuple(one["on_deck"]) for one in body["readings"]} for body in visits]
    assert {("front",), ("rear",)} in sets and {("front", "rear")} in sets
    assert {("front",), ("rear",), ("front", "rear")} in sets
    first, last = (datetime.fromisoformat(visits[end]["at"]) for end in (0, -1))
    assert (last - first).days > 180


def test_a_weighing_names_the_plan_of_its_day():
    first, *_, last = entries("weighing", "utility")
    revs = [{row["id"]: row["rev"] for row in one["body"]["state"]["plan"]} for one in (first, last)]
    changed = [key for key in revs[0] if revs[1][key] != revs[0][key]]
    bar = made().truth.vehicles["utility"].entered.of("item", "Rear bar, one wheel carrier")
    assert changed == [bar]
