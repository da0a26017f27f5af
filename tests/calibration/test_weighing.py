"""A small campaign with a fixed seed in every run of the tests; the whole one is a command."""

from collections.abc import Sequence

import numpy as np
import pytest

from tests.calibration import __main__ as command
from tests.calibration import place, weighing
from tests.calibration.figures import CHUNK, Figure, repeat, share, table
from tests.calibration.gross import CASES, Case
from tests.calibration.plain import listed
from tests.calibration.sheet import BASE, WHEELBASE_M
from tests.calibration.world import Mass, Scale, draw_vehicle, standing

RUNS, SEED, SPREAD = 200, 7, 3.0
Groups = dict[str, list[Figure]]


@pytest.fixture(scope="module")
def groups() -> Groups:
    """All figures of a few hundred trials."""
    return weighing.measure(runs=RUNS, seed=SEED, jobs=1)


def test_every_bar_holds_within_its_sampling_error(groups: Groups) -> None:
    print(table(groups, SPREAD))
    asked = [one for made in groups.values() for one in made if one.has_bar]
    assert len(asked) > 50
    assert [one for one in asked if not one.holds(SPREAD)] == []


def test_each_step_brings_the_rear_load_nearer(groups: Groups) -> None:
    """Plan alone, one reading, three readings, three readings with the plan."""
    answers = named(groups["Rear load of the day, errors of the plan uniform"])
    errors = [
        answers[name].value
        for name in (
            "plan alone",
            "reading taken as it is",
            "generalised least squares of three",
            "full reconciliation",
        )
    ]
    assert errors == sorted(errors, reverse=True)
    assert answers["reading ± d/sqrt 12 holds"].value < 65 < 90 < answers["full reconciliation holds"].value


def test_a_place_is_shown_the_oftener_the_greater_the_mass(groups: Groups) -> None:
    shown = [
        named(groups[f"Unexplained {kg} kg at 4 m"])["a place is shown"].value for kg in (30, 60, 100, 200)
    ]
    assert shown == sorted(shown)
    assert shown[0] < 30
    assert shown[-1] > 98


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.item)
def test_plain_arithmetic_lists_as_often(groups: Groups, case: Case) -> None:
    """The whole shortlist, and the masses alone, with 4 standard errors for errors of another shape."""
    figures = named(groups[f"One wrong entry: {case.name} ({case.item})"])
    by_hand = listed(case.item, case.more_kg)
    for name, of in (("one list of all candidates", "all"), ("the list of entries holds it", "masses")):
        assert figures[name].value == pytest.approx(100 * by_hand[of], abs=4 * figures[name].se)


def named(figures: Sequence[Figure]) -> dict[str, Figure]:
    return {one.name: one for one in figures}


def test_processes_change_no_figure() -> None:
    one, two = (repeat(place.trial, runs=CHUNK + 10, seed=3, jobs=jobs) for jobs in (1, 2))
    assert one.keys() == two.keys()
    assert all(np.array_equal(one[key], two[key], equal_nan=True) for key in one)


def test_a_bar_is_held_within_its_error_and_no_further() -> None:
    low = Figure("a", 92.0, 0.5, least=93.0, most=97.0)
    assert low.holds(2.6)
    assert not low.holds(1.9)
    assert not Figure("a", 98.5, 0.5, least=93.0, most=97.0).holds(2.6)
    assert "MISSED" in table({"b": [low]}, 1.9)
    assert not Figure("a", 1.0, 0.1).has_bar


def test_a_share_near_100_is_judged_by_its_error_at_the_bar() -> None:
    results = {"k": np.array([1.0] * 99 + [0.0])}
    one = share(results, "k", "often", least=94.0, most=96.0)
    assert one.se == pytest.approx(0.995, abs=0.001)
    assert one.holds(1.6)  # 3 above 96, where 100 trials have an error of 1.96
    assert not one.holds(1.5)


def test_a_share_that_never_failed_has_an_error_all_the_same() -> None:
    one = share({"k": np.ones(100)}, "k", "always")
    assert one.value == 100.0
    assert one.se > 0.5


def test_a_missed_bar_is_the_exit_status(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def measured(value: float) -> command.Campaign:
        return command.Campaign("title", lambda **_: {"b": [Figure("a", value, 0.1, least=93.0)]}, 10)

    for value, status in ((93.0, 0), (92.8, 0), (92.0, 1)):
        monkeypatch.setitem(command.CAMPAIGNS, "weighing", measured(value))
        assert command.main(["weighing", "--seed", "5", "--jobs", "1"]) == status
    said = capsys.readouterr().out
    assert "seed 5, 10 runs, 1 jobs" in said
    assert "1 bars missed" in said


@pytest.mark.parametrize(("interval_kg", "load"), [(20.0, 1500.0), (20.0, 3000.0), (5.0, 3000.0)])
def test_the_scale_errs_evenly_within_its_class(interval_kg: float, load: float) -> None:
    """Twice 0.5 e up to 500 e and twice 1.0 e beyond, with the figure's own step on top."""
    permitted = interval_kg * (1.0 if load <= 500 * interval_kg else 2.0)
    chance = np.random.default_rng(4)
    axles = ("front", "rear")
    off = []
    for _ in range(4000):
        scale = Scale(chance, interval_kg=interval_kg)
        scale.new_visit()
        near = (
            load - interval_kg * chance.uniform()
        )  # a load on a step of the display has no rounding of its own
        off.append(scale.figure(axles, standing([Mass(near, WHEELBASE_M)]), 0.8) - near)
    errors = np.array(off)
    assert np.abs(errors).max() <= permitted + interval_kg / 2
    assert np.std(errors) == pytest.approx(np.hypot(permitted / 3**0.5, interval_kg / 12**0.5), rel=0.04)


def test_the_truth_keeps_mass_and_moment() -> None:
    masses = list(draw_vehicle(np.random.default_rng(1)).masses.values())
    loads = standing(masses)
    assert loads.total == pytest.approx(sum(one.kg for one in masses))
    assert loads.front * WHEELBASE_M == pytest.approx(sum(one.kg * (WHEELBASE_M - one.x_m) for one in masses))


def test_true_errors_are_as_great_as_stated_and_never_greater_than_uniform() -> None:
    chance = np.random.default_rng(2)
    stated = BASE[0]
    off = np.array([draw_vehicle(chance).masses[stated.name].kg - stated.mass_kg for _ in range(3000)])
    assert np.std(off) == pytest.approx(stated.mass_u_kg, rel=0.04)
    assert np.abs(off).max() <= 3**0.5 * stated.mass_u_kg
