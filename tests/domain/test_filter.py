"""What must hold for the filter, its bank, ranges and the smoother, whatever the log."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from strategies import number
from tank_strategies import banks, events, mixes, models, uses

from server.domain.bank import Bank, bank_state, bank_total, bank_weights
from server.domain.events import Event, Fill, Full, Use
from server.domain.filter import Estimate, Model, advance, prior, total_left
from server.domain.notice import notice_advance, notice_prior
from server.domain.remain import LIMIT, Counting, range_at, reach
from server.domain.smooth import smooth

KAPPA = 0.12
FEW = settings(max_examples=40)  # a bank takes its time


def run(model: Model, steps: list[Event]) -> Estimate:
    estimate = prior(model=model)
    for step in steps:
        estimate = advance(model=model, kappa=KAPPA, estimate=estimate, event=step)
    return estimate


def same(one: Estimate, other: Estimate, rel: float = 1e-9) -> None:
    assert one.mean == pytest.approx(other.mean, rel=rel, abs=1e-8)
    assert np.array(one.cov) == pytest.approx(np.array(other.cov), rel=rel, abs=1e-8)


@given(st.data())
def test_a_leg_cut_in_two_is_the_same_leg(data: st.DataObject) -> None:
    model = data.draw(models())
    whole = data.draw(uses(model))
    first = whole.amount * data.draw(number(0, 1))
    parts = [Use(part, whole.class_id, whole.shares) for part in (first, whole.amount - first)]
    before: list[Event] = [Full(model.tank_ids)]
    same(run(model, [*before, whole]), run(model, [*before, *parts]))


@given(st.data())
def test_a_fill_and_a_way_of_nothing_change_nothing(data: st.DataObject) -> None:
    model = data.draw(models())
    steps = data.draw(st.lists(events(model), max_size=5))
    use = data.draw(uses(model))
    nothing = [Fill("main", 0.0), Use(0.0, use.class_id, use.shares)]
    same(run(model, steps), run(model, [*steps, *nothing]), rel=0.0)


@given(st.data())
def test_the_covariance_stays_one(data: st.DataObject) -> None:
    model = data.draw(models())
    cov = np.array(run(model, data.draw(st.lists(events(model), max_size=12))).cov)
    assert np.array_equal(cov, cov.T)
    assert np.linalg.eigvalsh(cov).min() >= -1e-9 * np.abs(cov).max()


@given(st.data())
def test_a_class_that_is_not_driven_changes_nothing(data: st.DataObject) -> None:
    wide = data.draw(models(classes=3))
    narrow = Model(wide.tank_ids, wide.capacity_l, wide.class_ids[:1], wide.rate0[:1], wide.settings)
    steps = data.draw(st.lists(events(narrow), max_size=8))
    kept = len(wide.tank_ids) + 1
    found = run(wide, steps)
    small = Estimate(found.mean[:kept], tuple(row[:kept] for row in found.cov[:kept]), found.log_likelihood)
    same(small, run(narrow, steps))
    assert found.log_likelihood == pytest.approx(run(narrow, steps).log_likelihood)


@given(st.data())
def test_two_tanks_together_are_one(data: st.DataObject) -> None:
    """How the draw is shared does not touch the total."""
    model = data.draw(models(tanks=2))
    use = data.draw(uses(model))
    shared = data.draw(number(0, 1))
    totals = [
        total_left(
            model=model, estimate=run(model, [Full(model.tank_ids), Use(use.amount, use.class_id, how)])
        )
        for how in ((1.0, 0.0), (shared, 1.0 - shared))
    ]
    assert totals[0] == pytest.approx(totals[1], rel=1e-9)


@FEW
@given(st.data())
def test_smoothing_only_sharpens(data: st.DataObject) -> None:
    model = data.draw(models(tanks=1))
    steps = data.draw(st.lists(events(model), min_size=1, max_size=8))
    smoothed = smooth(model=model, kappa=KAPPA, events=steps)
    assert smoothed[-1] == run(model, steps)
    for n, one in enumerate(smoothed):
        filtered = np.diag(np.array(run(model, steps[: n + 1]).cov))
        assert np.all(np.diag(np.array(one.cov)) <= filtered * (1 + 1e-9) + 1e-9)


@FEW
@given(st.data())
def test_the_range_is_where_the_probability_is_p(data: st.DataObject) -> None:
    bank: Bank = data.draw(banks())
    mix = data.draw(mixes(bank.model))
    counting = Counting(data.draw(number(0.9, 1.1)), data.draw(number(0, 0.02)), data.draw(number(0, 12)))
    p = data.draw(number(0.5, 0.99))
    found = range_at(bank=bank, mix=mix, p=p, counting=counting)
    if 0 < found < LIMIT:
        assert reach(bank=bank, mix=mix, amount=found, counting=counting) == pytest.approx(p, abs=1e-9)


@FEW
@given(st.data())
def test_the_range_falls_with_reserve_p_and_the_odometer_s_u(data: st.DataObject) -> None:
    bank: Bank = data.draw(banks())
    mix = data.draw(mixes(bank.model))

    def found(p: float = 0.9, u: float = 0.005, reserve: float = 5.0) -> float:
        return range_at(bank=bank, mix=mix, p=p, counting=Counting(1.0, u, reserve))

    assert found(p=0.95) <= found() + 1e-6
    assert found(u=0.02) <= found() + 1e-6
    assert found(reserve=8.0) <= found() + 1e-6


@FEW
@given(st.data())
def test_the_mixture_lies_among_its_filters(data: st.DataObject) -> None:
    bank: Bank = data.draw(banks())
    assert sum(bank_weights(bank=bank)) == pytest.approx(1.0)
    for k, value in enumerate(bank_state(bank=bank)):
        means = [one.mean[k] for one in bank.estimates]
        assert min(means) - 1e-9 <= value.mean <= max(means) + 1e-9
    assert bank_total(bank=bank).u > 0


@FEW
@given(models(tanks=1, classes=1), number(0.7, 1.4))
def test_a_steady_log_raises_no_alarm(model: Model, ratio: float) -> None:
    notice = notice_prior(model=model, kappas=(0.04, 0.12))
    litres = 0.7 * model.capacity_l[0]
    way = 100 * litres / (model.rate0[0] * ratio)
    for step in [Full(("main",)), *[Use(way, "sealed"), Fill("main", litres), Full(("main",))] * 12]:
        notice = notice_advance(notice=notice, event=step)
        assert notice.alarm is None
