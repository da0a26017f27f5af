"""The story's claims hold in the truth, whatever the seed."""

from datetime import date
from functools import cache

import pytest

from server.demo.figures import base_of
from server.demo.scenario import Scenario, VehicleTruth, generate
from server.demo.tables import Sheet
from server.demo.truth import MEASURED_SD_M, TOLD_SD_M, Loads, sd_of, standing

SEEDS = range(12)
TODAY = date(2026, 11, 20)


@cache
def made(seed: int) -> Scenario:
    return generate(seed, TODAY)


def told(seed: int, key: str) -> VehicleTruth:
    return made(seed).truth.vehicles[key]


def limit_kg(sheet: Sheet, name: str, *, day: int = 0) -> float:
    plates = sorted((row for row in sheet.plates if row.day >= day), key=lambda row: -row.day)
    stated: dict[str, float] = {}
    for plate in plates:
        if name in plate.ratings:
            stated[plate.of] = base_of(plate.ratings[name])
    return min(stated.values())


def when_full(truth: VehicleTruth) -> Loads:
    vehicle, sheet = truth.vehicle, truth.sheet
    litres = {key: 0.0 if tank.holds == "grey" else tank.capacity_l for key, tank in vehicle.tanks.items()}
    items = [line.name for line in sheet.lines if not line.on_order]
    return standing(vehicle, items=items, seated={row.key: row.seat for row in sheet.people}, litres=litres)


def weighings(seed: int, key: str) -> list[dict]:
    book = told(seed, key).entered.book
    mutations = [one.mutation for one in made(seed).records]
    return [one for one in mutations if one["book"] == book and one["kind"] == "weighing"]


def coupled(weighing: dict) -> bool:
    return any(one["coupled"] for one in weighing["body"]["state"]["trailers"])


def solo(seed: int, key: str) -> list[dict]:
    return [one for one in weighings(seed, key) if not coupled(one)]


def planned(
    sheet: Sheet, state: dict, ids: dict[str, str]
) -> tuple[list[tuple[float, float, float, float]], float]:
    """(kg, sd of kg, x, sd of x) of everything in a weighing's state, and the wheelbase: a check of its own."""
    wheelbase = base_of(sheet.figures["wheelbase_m"])
    base_u = base_of(sheet.figures["base_front_u_kg"])
    rows = [(base_of(sheet.figures["base_front_kg"]), base_u, 0.0, 0.0)]
    rows += [(base_of(sheet.figures["base_rear_kg"]), base_u, wheelbase, 0.0)]
    aboard = {one["item_id"] for one in state["items"] if one["aboard"]}
    for line in sheet.lines:
        if ids[line.name] in aboard:
            sd_x = base_of(line.x_u) if line.x_u else TOLD_SD_M if line.told else MEASURED_SD_M
            sign = -1 if line.taken_off else 1
            kg = sign * base_of(line.mass) * line.count
            rows.append((kg, sd_of(line) * line.count, line.at[0] / 1000, sd_x))
    levels = {one["tank_id"]: one for one in state["tanks"]}
    for tank, level in ((one, levels[ids[one.key]]) for one in sheet.tanks):
        density = 0.8325 if tank.holds == "fuel" else 1.0
        full = density * base_of(tank.capacity)
        fixed = density * base_of(tank.unusable or "0 L") + base_of(tank.empty or "0 kg")
        rows.append((full * level["level"] + fixed, full * level["level_u"], tank.at[0] / 1000, 0.02))
    places = {row.key: row.at[0] / 1000 for row in sheet.seats}
    for row in sheet.people:
        if ids[row.key] in {one["person_id"] for one in state["seats"]}:
            rows.append((base_of(row.mass), base_of(row.u), places[row.seat], 0.05))
    rows.append((-0.8325 * base_of(sheet.figures["base_fuel_l"]), 0.0, sheet.tanks[0].at[0] / 1000, 0.0))
    if "base_driver_kg" in sheet.figures:
        rows.append((-base_of(sheet.figures["base_driver_kg"]), 0.0, sheet.seats[0].at[0] / 1000, 0.0))
    return rows, wheelbase


def gap_and_sd(truth: VehicleTruth, weighing: dict) -> tuple[float, float, float, float]:
    """True minus planned, front and rear, each with the plan's own standard deviation."""
    ids = {key: value for (_, key), value in truth.entered.ids.items()}
    ids |= {row.key: truth.entered.of("tank", row.key) for row in truth.sheet.tanks}
    ids |= {row.key: truth.entered.of("person", row.key) for row in truth.sheet.people}
    rows, length = planned(truth.sheet, weighing["body"]["state"], ids)
    loads = truth.loads[weighing["id"]]
    rear = sum(kg * x / length for kg, _, x, _ in rows)
    front = sum(kg * (1 - x / length) for kg, _, x, _ in rows)
    sd_rear = sum((u * x / length) ** 2 + (kg * u_x / length) ** 2 for kg, u, x, u_x in rows) ** 0.5
    sd_front = sum((u * (1 - x / length)) ** 2 + (kg * u_x / length) ** 2 for kg, u, x, u_x in rows) ** 0.5
    return loads.front_kg - front, sd_front, loads.rear_kg - rear, sd_rear


@pytest.mark.parametrize("seed", SEEDS)
def test_the_utility_carries_110_to_140_kg_that_nobody_planned(seed):
    truth = told(seed, "utility")
    line = next(one for one in truth.sheet.lines if one.truly_more_kg)
    unplanned = truth.vehicle.items[line.name].kg - base_of(line.mass)
    hidden = sum(one.kg for one in truth.vehicle.unlisted)
    assert 110 <= unplanned + hidden <= 140


@pytest.mark.parametrize("seed", SEEDS)
def test_the_utility_is_over_or_nearly_over_its_rear_axle(seed):
    truth = told(seed, "utility")
    last = weighings(seed, "utility")[-1]
    assert truth.loads[last["id"]].rear_kg > limit_kg(truth.sheet, "rear_axle_kg") - 20
    assert when_full(truth).rear_kg > limit_kg(truth.sheet, "rear_axle_kg")


@pytest.mark.parametrize("seed", SEEDS)
def test_the_wagon_without_its_trailer_is_under_when_full_too_but_not_by_much(seed):
    truth = told(seed, "wagon")
    for weighing in solo(seed, "wagon"):
        loads = truth.loads[weighing["id"]]
        for name, load in zip(
            ("front_axle_kg", "rear_axle_kg", "gross_kg"),
            (loads.front_kg, loads.rear_kg, loads.total_kg),
            strict=True,
        ):
            assert load < limit_kg(truth.sheet, name) - 40
    assert 10 < limit_kg(truth.sheet, "rear_axle_kg") - when_full(truth).rear_kg < 80


@pytest.mark.parametrize("seed", SEEDS)
def test_the_van_is_under_everywhere_and_its_plan_is_right(seed):
    truth = told(seed, "van")
    full = when_full(truth)
    assert full.front_kg < limit_kg(truth.sheet, "front_axle_kg") - 100
    assert full.rear_kg < limit_kg(truth.sheet, "rear_axle_kg") - 100
    assert full.total_kg < limit_kg(truth.sheet, "gross_kg", day=100) - 100
    for weighing in solo(seed, "van"):
        front, sd_front, rear, sd_rear = gap_and_sd(truth, weighing)
        assert abs(front) < 3 * sd_front and abs(rear) < 3 * sd_rear


@pytest.mark.parametrize("seed", SEEDS)
def test_the_utility_is_beyond_what_its_plan_allows_at_the_rear(seed):
    truth = told(seed, "utility")
    _, _, rear, sd_rear = gap_and_sd(truth, weighings(seed, "utility")[-1])
    assert rear > 3 * sd_rear
