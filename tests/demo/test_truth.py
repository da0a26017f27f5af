"""The truth's own physics: masses are kept, moments balance, fuel goes where the road is."""

from datetime import date
from itertools import pairwise

import pytest

from server.demo.chance import Chance
from server.demo.diary import Drive, Moment, Stand
from server.demo.enter import Entered
from server.demo.figures import base_of
from server.demo.journal import Journal
from server.demo.journey import Journey, ScenarioError, drive, evening, stand
from server.demo.plan_van import VAN
from server.demo.plan_wagon import WAGON
from server.demo.scenario import STORIES, generate
from server.demo.truth import Mass, axle_loads, draw_truth, sd_of, standing

SHEETS = [sheet for sheet, _ in STORIES]


def journey(sheet=WAGON, **levels: float) -> Journey:
    truth = draw_truth(sheet, Chance(3, "truth"))
    ids = Chance(3, "ids")
    made = Journey(sheet, truth, date(2026, 11, 20), Journal(ids), Entered("book"), Chance(3, "road"), {})
    every = dict.fromkeys(truth.tanks, 0.0)
    stand(made, Stand(day=9, at="06:00", odometer_km=1_000, levels=every | levels))
    return made


def test_a_mass_over_an_axle_rests_on_it():
    loads = axle_loads([Mass(1000, 0, 0.5), Mass(800, 3, 0.5), Mass(90, 4, 1)], 3)
    assert loads.rear_kg == pytest.approx(800 + 90 * 4 / 3)
    assert loads.front_kg == pytest.approx(1000 - 90 / 3)


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.key)
def test_mass_and_moment_are_kept(sheet):
    truth = draw_truth(sheet, Chance(5, "truth"))
    litres = {key: tank.capacity_l / 2 for key, tank in truth.tanks.items()}
    seated = {row.key: row.seat for row in sheet.people}
    loads = standing(truth, items=truth.items, seated=seated, litres=litres)
    parts = [*truth.base, *truth.unlisted, *truth.items.values()]
    parts += [tank.mass(litres[key]) for key, tank in truth.tanks.items()]
    parts += [Mass(truth.people[who], *truth.seats[seat]) for who, seat in seated.items()]
    assert loads.total_kg == pytest.approx(sum(one.kg for one in parts))
    about_rear = sum(one.kg * (truth.wheelbase_m - one.x_m) for one in parts)
    assert loads.front_kg * truth.wheelbase_m == pytest.approx(about_rear)


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.key)
@pytest.mark.parametrize("seed", range(5))
def test_true_masses_lie_within_what_the_sheet_states(sheet, seed):
    truth = draw_truth(sheet, Chance(seed, "truth"))
    for line in sheet.lines:
        forgotten = 0 if line.load else sheet.nature.forgotten_share * base_of(line.mass)
        more = line.truly_more_kg[1] if line.truly_more_kg else 0.0
        most = (base_of(line.mass) + forgotten + 2 * sd_of(line)) * line.count + more
        least = (base_of(line.mass) - 2 * sd_of(line)) * line.count
        assert least - 1e-9 <= abs(truth.items[line.name].kg) <= most + 1e-9
        assert (truth.items[line.name].kg < 0) == line.taken_off


def test_trades_forget_one_way():
    gaps = [
        truth.items[line.name].kg / line.count - base_of(line.mass)
        for seed in range(60)
        for truth in [draw_truth(WAGON, Chance(seed, "bias"))]
        for line in WAGON.lines
        if not line.load and not line.taken_off
    ]
    listed = [base_of(line.mass) for line in WAGON.lines if not line.load and not line.taken_off]
    mean = sum(gaps) / len(gaps)
    assert mean == pytest.approx(0.02 * sum(listed) / len(listed), abs=0.1)


def test_the_road_takes_what_its_surface_costs():
    one = journey(main=1, sub=1)
    before = sum(one.litres.values())
    drive(one, Drive(day=8, at="12:00", km=400, gravel=0.25, sand=0.05))
    rates = one.truth.rates_l_per_100km
    usual = 4 * (0.7 * rates["sealed"] + 0.25 * rates["gravel"] + 0.05 * rates["sand"])
    assert before - sum(one.litres.values()) == pytest.approx(usual, rel=0.08)
    assert rates["sealed"] < rates["gravel"] < rates["sand"]


def test_the_second_tank_empties_before_the_main_one():
    one = journey(main=1, sub=0.5)
    full = one.litres["main"]
    drive(one, Drive(day=8, at="12:00", km=100))
    assert one.litres["main"] == full and one.litres["sub"] > 0
    drive(one, Drive(day=8, at="18:00", km=200))
    assert one.litres["main"] < full and one.litres["sub"] == 0


def test_bigger_tyres_make_the_odometer_lag():
    one = journey(main=1, sub=1)
    drive(one, Drive(day=8, at="12:00", km=500))
    assert one.odometer_km == 1_000 + int(500 / WAGON.nature.odometer_factor) < 1_500


def test_fuel_that_is_not_there_is_an_error():
    with pytest.raises(ScenarioError, match=r"wagon: .* L of fuel short on day 8"):
        drive(journey(main=0.1), Drive(day=8, at="12:00", km=400))


def test_used_water_turns_grey_and_a_dry_tank_ends_the_day():
    one = journey(VAN, water=1)
    full = one.litres["water"]
    evening(one, Moment(day=8, at="20:00"))
    used = full - one.litres["water"]
    assert used > 0 and one.litres["grey"] == pytest.approx(0.8 * used)
    for _ in range(9):
        evening(one, Moment(day=8, at="20:00"))
    assert (
        one.litres["water"] == pytest.approx(0) and one.litres["grey"] <= one.truth.tanks["grey"].capacity_l
    )


@pytest.mark.parametrize("seed", range(40))
def test_levels_stay_between_empty_and_the_click(seed):
    for told in generate(seed, date(2026, 11, 20)).truth.vehicles.values():
        for point in told.points:
            for key, litres in point.litres.items():
                assert -1e-9 <= litres <= told.vehicle.tanks[key].capacity_l + 2
        assert all(one.when <= other.when for one, other in pairwise(told.points))
