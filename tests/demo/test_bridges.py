"""The bridges keep within their class, and print in their steps."""

from datetime import date

import pytest

from server.demo.bridges import Bridge, OnDeck, build_bridges, furthest_kg, read
from server.demo.chance import Chance
from server.demo.scenario import generate
from server.demo.weigh import deck_of

# in service, class III: twice the error at verification (Directive 2014/31/EU, Annex I, Table 3 and 4.2)
CASES = [
    (20, 3_000, 20),
    (20, 10_000, 20),
    (20, 10_020, 40),
    (10, 5_000, 10),
    (10, 6_500, 20),
    (10, 30_000, 30),
]


def stop_of(reading: dict) -> str:
    if reading.get("differs"):
        return "alone"
    return {1: reading["on_deck"][0], 2: "whole", 3: "everything"}[len(reading["on_deck"])]


def bridge(interval_kg: float, **given: object) -> Bridge:
    own = {("front",): 0.0, ("rear",): 0.0, ("front", "rear"): 0.0}
    fields = {"gain": 0.0, "step_m": 0.0, "own": own} | given
    return Bridge("b", "Bridge", "B-1", interval_kg, 60_000, **fields)


@pytest.mark.parametrize(("interval_kg", "load_kg", "allowed_kg"), CASES)
def test_what_the_class_allows(interval_kg, load_kg, allowed_kg):
    assert bridge(interval_kg).allowed_kg(load_kg) == allowed_kg


@pytest.mark.parametrize("seed", range(8))
def test_no_gain_breaks_the_class_at_any_load(seed):
    for one in build_bridges(seed).values():
        for load_kg in range(1_000, int(one.max_kg) + 1, 500):
            assert abs(one.gain) * load_kg <= one.allowed_kg(load_kg) + 1e-9


def test_a_proud_deck_reads_an_axle_short_by_the_moment():
    on_deck = OnDeck(("rear",), 1_500, True, 3_000, 0.8, 3.0)
    assert bridge(20, step_m=0.03).tilt_kg(3_000, 0.8, 3.0) == pytest.approx(8.0)
    figures = [read(bridge(10, step_m=0.03), on_deck, Chance(seed, "read")) for seed in range(400)]
    assert sum(figures) / len(figures) == pytest.approx(1_492, abs=1)


@pytest.mark.parametrize("seed", range(12))
def test_every_printed_figure_is_within_the_bridge_of_the_true_load(seed):
    made = generate(seed, date(2026, 11, 20))
    by_site = {one.site_number: one for one in made.truth.bridges.values()}
    vehicles = made.truth.vehicles.values()
    stood = {key: value for told in vehicles for key, value in {**told.loads, **told.towed}.items()}
    bases = {told.entered.book: told.vehicle.wheelbase_m for told in vehicles}
    corrected = {one.mutation["body"].get("corrects") for one in made.records}
    weighings = [one.mutation for one in made.records if one.mutation["kind"] == "weighing"]
    for weighing in (one for one in weighings if one["id"] not in corrected):
        scale = by_site[weighing["body"]["bridge"]["site_number"]]
        for reading in weighing["body"]["readings"]:
            on_deck = deck_of(stop_of(reading), stood[weighing["id"]], bases[weighing["book"]])
            off = abs(reading["value_kg"] - on_deck.load_kg)
            assert (off <= furthest_kg(scale, on_deck)) != bool(reading.get("struck_out"))
            assert reading["value_kg"] % scale.interval_kg == 0
