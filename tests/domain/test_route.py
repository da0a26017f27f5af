"""What must hold along a planned way, whatever the log, the legs and the supplies."""

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from strategies import number
from tank_strategies import banks

from server.domain.bank import Bank, bank_advance, bank_prior, bank_total
from server.domain.events import Full
from server.domain.filter import Model
from server.domain.fuel import FUEL, FUEL_KAPPAS
from server.domain.pieces import cut_way
from server.domain.remain import LIMIT, Counting, left_after, range_at, reach
from server.domain.route import RouteAnswer, Stop, route_answer
from server.domain.stretch import Stretch, even_use, one_tank

FEW = settings(max_examples=40)  # a bank takes its time
COUNTING = Counting(1.03, 0.005, 6.0)


@st.composite
def ways(draw: st.DrawFn, bank: Bank, *, most: int = 4) -> list[Stretch]:
    """Legs of the bank's classes."""
    out = []
    for _ in range(draw(st.integers(1, most))):
        amounts = {name: draw(number(0, 150, 0)) for name in bank.model.class_ids}
        out.append(Stretch(sum(amounts.values()), amounts))
    return out


@st.composite
def trips(draw: st.DrawFn, *, stops: int = 3) -> tuple[Bank, list[Stretch], list[Stop]]:
    """A bank, legs, and stops along them."""
    bank = draw(banks())
    way = draw(ways(bank))
    total = sum(one.distance_km for one in way)
    made = [
        Stop(draw(number(0, 1)) * total, draw(st.booleans()), draw(st.none() | number(0, 60, 0)))
        for _ in range(draw(st.integers(0, stops)))
    ]
    return bank, way, made


def answer(bank: Bank, way: list[Stretch], stops: list[Stop], p: float = 0.95) -> RouteAnswer:
    return route_answer(bank=bank, stretches=way, stops=stops, p=p, counting=COUNTING)


def driven_in() -> Bank:
    """A tank of 80 L just filled, of which nothing is known but the guess."""
    model = Model(("main",), (80.0,), ("sealed",), (10.0,), FUEL)
    return bank_advance(bank=bank_prior(model=model, kappas=FUEL_KAPPAS), event=Full(("main",)))


def same(one: RouteAnswer, other: RouteAnswer, *, rel: float = 1e-9) -> None:
    """Sections and stops alike; points are those of the cut."""
    for a, b in zip(one.sections, other.sections, strict=True):
        assert b.probability == pytest.approx(a.probability, rel=rel, abs=1e-12)
        for name in ("count_on_km", "likely_km", "no_return_km"):
            x, y = getattr(a, name), getattr(b, name)
            assert (x is None) == (y is None)
            assert x is None or y == pytest.approx(x, abs=1e-5)
    for c, d in zip(one.stops, other.stops, strict=True):
        assert (d.likely_l, d.count_on_l) == pytest.approx((c.likely_l, c.count_on_l), abs=1e-6)
    assert other.points[-1].left.u == pytest.approx(one.points[-1].left.u, rel=rel)


def in_two(way: list[Stretch], share: float) -> list[Stretch]:
    """Each leg cut at a share of it."""
    return [
        Stretch(part * one.distance_km, {name: part * amount for name, amount in one.way.items()})
        for one in way
        for part in (share, 1.0 - share)
    ]


# what a cut leaves of a leg may be nothing, or next to nothing
SHARES = number(0, 1) | st.sampled_from([0.0, 1e-15, 1e-12, 1e-9, 1 - 1e-9, 1 - 1e-12, 1.0])


@FEW
@given(st.data())
def test_a_leg_cut_in_two_changes_nothing(data: st.DataObject) -> None:
    bank, way, stops = data.draw(trips())
    same(answer(bank, way, stops), answer(bank, in_two(way, data.draw(SHARES)), stops))


@pytest.mark.parametrize("left_km", [0.0, 1e-13, 1e-9, 0.9e-6])
@pytest.mark.parametrize("at_km", [0.0, 40.0, 100.0])
def test_next_to_nothing_left_by_a_cut_is_no_section(at_km: float, left_km: float) -> None:
    """A supply where the way ends, or as near to where a leg ends as what the cut leaves."""
    bank, way = driven_in(), [Stretch(100.0, {"sealed": 100.0})]
    for stops in ([Stop(at_km, True)], [Stop(at_km, True, 5.0), Stop(max(at_km - left_km, 0.0), True)]):
        whole = answer(bank, way, stops)
        for share in ((at_km - left_km) / 100.0, at_km / 100.0):
            same(whole, answer(bank, in_two(way, max(share, 0.0)), stops), rel=1e-7)


@FEW
@given(st.data())
def test_points_of_the_picture_change_nothing(data: st.DataObject) -> None:
    bank, way, stops = data.draw(trips())
    fine = answer(bank, [replace(one, points=5) for one in way], stops)
    coarse = answer(bank, way, stops)
    same(coarse, fine)
    assert set(coarse.points) <= set(fine.points)


@FEW
@given(st.data())
def test_striking_a_supply_never_raises_a_chance(data: st.DataObject) -> None:
    """Tails below a thousandth are left out: where hardly any way leads, more doubt can only help."""
    bank, way, stops = data.draw(trips())
    with_all = answer(bank, way, stops)
    for n in range(len(stops)):
        left = [replace(one, counted=one.counted and k != n) for k, one in enumerate(stops)]
        without = answer(bank, way, left)
        at = stops[n].at_km
        for before, after in zip(with_all.stops, without.stops, strict=True):
            if before.at_km > at and before.probability > 1e-3:
                assert after.probability <= before.probability + 1e-6


@FEW
@given(st.data())
def test_what_is_to_be_taken_on_is_just_enough(data: st.DataObject) -> None:
    bank, way, _ = data.draw(trips())
    p = data.draw(number(0.6, 0.98))
    here = Stop(0.0, True, 0.0)
    (told,) = answer(bank, way, [here], p).stops
    assert told.least_l is not None
    if told.least_l == 0.0:
        assert answer(bank, way, [here], p).sections[0].probability >= p
    elif bank_total(bank=bank).mean + told.least_l < sum(bank.model.capacity_l):
        found = answer(bank, way, [replace(here, take_l=told.least_l)], p).sections[0].probability
        assert found == pytest.approx(p, abs=1e-8)


@FEW
@given(st.data())
def test_the_chance_is_p_where_the_range_ends(data: st.DataObject) -> None:
    bank, way, stops = data.draw(trips())
    p = data.draw(number(0.55, 0.98))
    found = answer(bank, way, stops, p)
    for section in found.sections:
        for at, line in ((section.count_on_km, p), (section.likely_km, 0.5)):
            if at is None or not section.from_km < at:
                continue
            there = answer(bank, way, [*stops, Stop(at, False)], p)
            (told,) = [one for one in there.stops if one.at_km == at and not one.counted][:1]
            assert told.probability == pytest.approx(line, abs=1e-7)


@FEW
@given(st.data())
def test_a_way_of_one_mix_is_the_formula_and_its_range(data: st.DataObject) -> None:
    """E.3's formula for an evenly mixed way: mean, variance, chance and range."""
    bank: Bank = data.draw(banks())
    shares = {name: 1.0 / len(bank.model.class_ids) for name in bank.model.class_ids}
    amount = data.draw(number(10, 900, 0))
    way = [Stretch(amount, {name: share * amount for name, share in shares.items()})]
    found = answer(bank, way, [])
    end = found.points[-1]
    given_ = {"mix": shares, "counting": COUNTING}
    mean, variance = left_after(
        model=bank.model, kappa=bank.kappas[0], estimate=bank.estimates[0], amount=amount, **given_
    )  # type: ignore[arg-type]
    one = one_tank(bank=bank)
    after = even_use(bank=one, way={name: amount / 1.03 for name in shares for amount in [way[0].way[name]]})
    used = one.estimates[0].mean[0] - after.estimates[0].mean[0]
    assert after.estimates[0].mean[0] == pytest.approx(mean, rel=1e-9, abs=1e-9)
    odometer = (used * 0.005 / 1.03) ** 2
    assert after.estimates[0].cov[0][0] + odometer == pytest.approx(variance, rel=1e-9, abs=1e-9)
    assert end.probability == pytest.approx(reach(bank=bank, amount=amount, **given_), abs=1e-9)  # type: ignore[arg-type]
    limit = range_at(bank=bank, p=0.95, **given_)  # type: ignore[arg-type]
    where = found.sections[0].count_on_km
    assert (where is None) == (limit >= amount or limit == LIMIT)
    if where is not None:
        assert where == pytest.approx(limit, abs=1e-4)


@FEW
@given(st.data())
def test_turning_back_where_there_is_no_return_just_reaches(data: st.DataObject) -> None:
    bank, way, _ = data.draw(trips())
    total = sum(one.distance_km for one in way)
    found = answer(bank, way, [Stop(0.0, True, 0.0)])
    at = found.sections[0].no_return_km
    if at is None or at == 0.0:
        return
    assert at < total
    out = cut_way(stretches=way, at_km=[at]).ahead
    there = [Stretch(one.to_km - one.from_km, one.way) for one in out if one.to_km <= at]
    back = answer(bank, [*there, *reversed(there)], [])
    assert back.sections[0].probability == pytest.approx(0.95, abs=1e-6)


@FEW
@given(st.data())
def test_litres_fall_and_count_on_lies_below_likely(data: st.DataObject) -> None:
    bank, way, stops = data.draw(trips())
    for before, after in pairwise(answer(bank, way, stops).points):
        assert (
            after.taken or after.left.mean <= before.left.mean + 1e-9 or after.left.u > before.left.mean / 3
        )
        assert after.count_on_l <= after.likely_l + 1e-9
