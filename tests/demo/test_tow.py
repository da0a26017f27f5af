"""Trailers in truth: two levers, the coupling's load counted once, and a rear axle over only when towing."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from functools import cache

import pytest

import server.demo.scenario as told_by
from server.demo.bridges import furthest_kg
from server.demo.chance import Chance
from server.demo.diary import Board, Drive, Stand
from server.demo.enter import Entered
from server.demo.figures import base_of
from server.demo.journal import Journal
from server.demo.journey import Journey, ScenarioError, board, drive, stand
from server.demo.plan_wagon import WAGON
from server.demo.scenario import STORIES, Scenario, VehicleTruth, generate
from server.demo.tables import Sheet
from server.demo.tow import Tow, Towed, draw_trailer, towed
from server.demo.trailers import VAN_TRAILER, WAGON_TRAILER
from server.demo.truth import MEASURED_SD_M, Loads, Mass, draw_truth, sd_of
from server.demo.weigh import deck_of

SEEDS = range(12)
TRAILERS = [WAGON_TRAILER, VAN_TRAILER]


@cache
def made(seed: int) -> Scenario:
    return generate(seed, date(2026, 11, 20))


def mutations(seed: int, kind: str, key: str) -> list[dict]:
    book = made(seed).truth.vehicles[key].entered.book
    every = [one.mutation for one in made(seed).records]
    return [one for one in every if one["kind"] == kind and one["book"] == book]


def limit_kg(sheet: Sheet, name: str) -> float:
    """The least of what the plates of several things say; a later plate of one thing counts for it."""
    assert sheet.trailer
    stated = {}
    for plate in sorted((*sheet.plates, *sheet.trailer.plates), key=lambda row: -row.day):
        if name in plate.ratings:
            stated[plate.of] = base_of(plate.ratings[name])
    return min(stated.values())


def with_trailer(key: str) -> Iterator[tuple[VehicleTruth, Towed]]:
    for seed in SEEDS:
        truth = made(seed).truth.vehicles[key]
        for stood in truth.towed.values():
            yield truth, stood


def coupled_wagon() -> Journey:
    truth = draw_truth(WAGON, Chance(3, "truth"))
    trailer = draw_trailer(WAGON_TRAILER, coupling_x_m=4.02, chance=Chance(3, "tow"))
    entered = Entered("book", {("trailer", "camp"): "trailer"})
    journal = Journal(Chance(3, "ids"))
    tow = Tow(WAGON_TRAILER, trailer, dict.fromkeys(trailer.tanks, 0.0))
    journey = Journey(WAGON, truth, date(2026, 11, 20), journal, entered, Chance(3, "road"), {}, tow=tow)
    stand(journey, Stand(day=9, at="06:00", odometer_km=1_000, levels=dict.fromkeys(truth.tanks, 1.0)))
    board(journey, Board(day=9, at="07:00", subject="trailer", key="camp", aboard=True))
    return journey


def test_a_trailer_of_round_figures():
    trailer = draw_trailer(WAGON_TRAILER, coupling_x_m=4.2, chance=Chance(1, "any"))
    stood = towed(Loads(1_500, 1_500, 0.8), Loads(150, 900, 0.7), trailer, 3.0)
    # 150 kg at 4.2 m on 3 m of wheelbase: 150 x 4.2 / 3 = 210 on the rear axle, 60 off the front one
    assert (stood.vehicle.front_kg, stood.vehicle.rear_kg) == pytest.approx((1_440, 1_710))
    assert (stood.trailer_kg, stood.combination_kg) == pytest.approx((1_050, 4_050))


@pytest.mark.parametrize("sheet", TRAILERS, ids=lambda sheet: sheet.key)
@pytest.mark.parametrize("share", [0.0, 0.5, 1.0])
def test_the_moments_about_the_trailers_axle_balance(sheet, share):
    truth = draw_trailer(sheet, coupling_x_m=4.0, chance=Chance(5, "tow"))
    litres = {key: share * tank.capacity_l for key, tank in truth.tanks.items()}
    loads = Tow(sheet, truth, litres).loads()
    parts = [(one.kg, one.x_m) for one in (*truth.base, *truth.items.values())]
    parts += [(tank.unusable_l + litres[key], tank.x_m) for key, tank in truth.tanks.items()]
    to_axle = base_of(sheet.figures["coupling_to_axle_m"])
    assert loads.front_kg * to_axle == pytest.approx(sum(kg * (to_axle - x) for kg, x in parts))
    assert loads.front_kg + loads.rear_kg == pytest.approx(sum(kg for kg, _ in parts))


@pytest.mark.parametrize("key", ["wagon", "van"])
def test_every_towed_load_is_that_of_the_lever_and_the_coupling_counts_once(key):
    stood_ones = list(with_trailer(key))
    assert len(stood_ones) >= len(SEEDS)
    for truth, stood in stood_ones:
        wheelbase = base_of(truth.sheet.figures["wheelbase_m"])
        behind = base_of(truth.sheet.figures["coupling_x_m"]) - wheelbase
        lifted = stood.coupling_kg * behind / wheelbase
        assert lifted > 5
        assert stood.vehicle.front_kg == pytest.approx(stood.alone.front_kg - lifted)
        assert stood.vehicle.rear_kg == pytest.approx(stood.alone.rear_kg + stood.coupling_kg + lifted)
        alone_and_trailer = stood.alone.total_kg + stood.coupling_kg + stood.axles_kg
        assert stood.combination_kg == pytest.approx(alone_and_trailer)


@pytest.mark.parametrize("sheet", TRAILERS, ids=lambda sheet: sheet.key)
@pytest.mark.parametrize("seed", range(5))
def test_a_trailers_true_masses_differ_from_its_sheet_within_what_it_states(sheet, seed):
    truth = draw_trailer(sheet, coupling_x_m=4.0, chance=Chance(seed, "tow"))
    for line in sheet.lines:
        listed, true = base_of(line.mass) * line.count, truth.items[line.name]
        forgotten = 0 if line.load else sheet.forgotten_share * listed
        assert 0 < abs(true.kg - listed) <= 2 * sd_of(line) * line.count + forgotten + 1e-9
        assert 0 < abs(true.x_m - line.at[0] / 1000) <= 2 * MEASURED_SD_M + 1e-9
    for end, one in zip(("coupling", "axles"), truth.base, strict=True):
        stated, u = (base_of(sheet.figures[f"base_{end}_{name}"]) for name in ("kg", "u_kg"))
        assert abs(one.kg - stated) <= 2 * u + 1e-9


def test_the_wagon_is_over_its_rear_axle_only_when_it_tows():
    for seed in SEEDS:
        truth = made(seed).truth.vehicles["wagon"]
        limits = {name: limit_kg(truth.sheet, f"{name}_kg") for name in ("front_axle", "rear_axle", "gross")}
        for weighing, loads in truth.loads.items():
            assert loads.front_kg < limits["front_axle"] - 40
            assert loads.total_kg < limits["gross"] - 5
            if weighing in truth.towed:
                assert loads.rear_kg >= limits["rear_axle"] + 30
                assert truth.towed[weighing].alone.rear_kg < limits["rear_axle"] - 40
            else:
                assert loads.rear_kg < limits["rear_axle"] - 40


@pytest.mark.parametrize("seed", SEEDS)
def test_the_wagons_readings_show_it_whatever_the_bridge_is_off_by(seed):
    truth = made(seed).truth.vehicles["wagon"]
    scale = made(seed).truth.bridges["ombarra"]
    at_scale = [
        one
        for one in mutations(seed, "weighing", "wagon")
        if one["body"]["bridge"]["site_number"] == scale.site_number and len(one["body"]["readings"]) > 2
    ]
    solo, towing = (
        [reading["value_kg"] for reading in one["body"]["readings"]] for one in at_scale
    )  # front, whole, rear; front, whole, everything, alone
    stood = truth.towed[at_scale[1]["id"]]
    wheelbase = truth.vehicle.wheelbase_m
    off = sum(furthest_kg(scale, deck_of(stop, stood, wheelbase)) for stop in ("front", "whole"))
    rear, gross = (limit_kg(truth.sheet, f"{name}_kg") for name in ("rear_axle", "gross"))
    assert max(solo[2], solo[1] - solo[0]) + off < rear
    assert towing[1] - towing[0] - off > rear
    assert max(solo[1], towing[1]) < gross


@pytest.mark.parametrize("key", ["wagon", "van"])
def test_the_other_ratings_of_towing_are_kept(key):
    for truth, stood in with_trailer(key):
        sheet = truth.sheet
        assert stood.combination_kg < limit_kg(sheet, "combination_kg") - 300
        assert stood.coupling_kg < limit_kg(sheet, "coupling_kg") - 15
        assert stood.trailer_kg < limit_kg(sheet, "trailer_kg") - 100
        assert stood.axles_kg < limit_kg(sheet, "trailer_axles_kg") - 100
        if key == "van":
            assert stood.vehicle.rear_kg < limit_kg(sheet, "rear_axle_kg") - 100
            assert stood.vehicle.total_kg < limit_kg(sheet, "gross_kg") - 100


def stops(seed: int, key: str) -> list[list[list[str]]]:
    """What stood on the deck at each visit with the trailer on."""
    visits = [one["body"] for one in mutations(seed, "weighing", key)]
    on = [one for one in visits if any(row["coupled"] for row in one["state"]["trailers"])]
    return [[reading["on_deck"] for reading in one["readings"]] for one in on]


def test_visits_with_a_trailer_say_so():
    whole, every = ["front", "rear"], ["front", "rear", "trailer"]
    assert stops(1, "wagon") == [[every], [["front"], whole, every, whole]]
    assert stops(1, "van") == [[every]]
    last = mutations(1, "weighing", "wagon")[-1]["body"]
    assert [one.get("differs") for one in last["readings"]] == [None, None, None, {"uncoupled": True}]
    assert last["state"]["trailers"][0]["coupled"]


def test_a_state_names_the_trailer_once_it_is_in_the_plan():
    begun = mutations(1, "trailer", "wagon")[0]["made_at"]
    trailer = made(1).truth.vehicles["wagon"].entered.of("trailer", "camp")
    for one in mutations(1, "weighing", "wagon"):
        named = [row["trailer_id"] for row in one["body"]["state"]["trailers"]]
        assert named == ([trailer] if one["made_at"] > begun else [])


@pytest.mark.parametrize(("key", "told"), [("wagon", [True, False, True]), ("van", [True, False])])
def test_coupling_and_uncoupling_are_logged(key, told):
    entries = [one["body"] for one in mutations(1, "aboard", key) if one["body"]["subject"] == "trailer"]
    assert [one["aboard"] for one in entries] == told
    assert all("seat_id" not in one for one in entries)


@pytest.mark.parametrize("key", ["wagon", "van"])
def test_what_is_on_a_trailer_names_it(key):
    truth = made(1).truth.vehicles[key]
    sheet = truth.sheet.trailer
    assert sheet
    trailer = truth.entered.of("trailer", sheet.key)
    for kind, count in (("item", len(sheet.lines)), ("tank", len(sheet.tanks)), ("plate", 1)):
        own = [one["body"] for one in mutations(1, kind, key) if one["body"].get("trailer_id") == trailer]
        assert len(own) == count > 0
    (body,) = (one["body"] for one in mutations(1, "trailer", key))
    assert body["base_coupling_kg"] == base_of(sheet.figures["base_coupling_kg"])


def test_a_road_with_a_trailer_costs_more_and_is_told_as_towed():
    one, other = coupled_wagon(), coupled_wagon()
    board(other, Board(day=9, at="08:00", subject="trailer", key="camp", aboard=False))
    full = sum(one.litres.values())
    for journey in (one, other):
        journey.chance = Chance(4, "same road")
        drive(journey, Drive(day=8, at="12:00", km=200))
    used = [full - sum(journey.litres.values()) for journey in (one, other)]
    assert one.tow and used[0] == pytest.approx(one.tow.truth.towing * used[1])
    assert one.road()["towing"] and not other.road()["towing"]
    assert one.road() == {"surface": None, "towing": True}  # no road since: as before


def test_a_trailer_that_is_on_cannot_be_coupled_again():
    with pytest.raises(ScenarioError, match="wagon: no trailer to be coupled"):
        board(coupled_wagon(), Board(day=8, at="07:00", subject="trailer", key="camp", aboard=True))


def test_trailers_leave_all_other_ids_and_the_utility_as_they_were(monkeypatch):
    bare = tuple((replace(sheet, trailer=None), diary) for sheet, diary in STORIES)
    monkeypatch.setattr(told_by, "STORIES", bare)
    monkeypatch.setattr(told_by, "TOW_DIARIES", {})
    without = [one.mutation for one in generate(1, date(2026, 11, 20)).records]
    now = {one.mutation["mut"]: one.mutation for one in made(1).records}
    utility = made(1).truth.vehicles["utility"].entered.book
    assert {one["mut"] for one in without} < set(now)
    for one in without:
        assert now[one["mut"]]["body"] == one["body"] or one["book"] != utility


def test_a_load_over_the_trailers_axle_leaves_the_coupling_alone():
    truth = draw_trailer(VAN_TRAILER, coupling_x_m=4.8, chance=Chance(2, "tow"))
    litres = dict.fromkeys(truth.tanks, 0.0)
    before = Tow(VAN_TRAILER, truth, litres).loads()
    over_axle = {**truth.items, "Crate": Mass(100, 2.6, 1.0), "Bag": Mass(20, 3.9, 1.0)}
    after = Tow(VAN_TRAILER, replace(truth, items=over_axle), litres).loads()
    assert after.front_kg == pytest.approx(before.front_kg - 20 * 1.3 / 2.6)
