"""What holds of any room left: it is used up exactly, it falls with doubt, and it is the plan's own arithmetic."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from parity import weighed_books
from parity.planned_books import given as planned
from strategies import number
from vectors.decode import decode

from server.domain.book import Book, Row
from server.domain.room import LOWER, UPPER, Bound, Room, Which, ask, headroom_kg, room_at, stretches
from server.domain.room_left import bounds_on, room_left
from server.domain.state import State

CONFIDENCES = number(0.5, 0.99)
PLACES = number(-1.5, 6)
SEEDS = st.integers(0, 5_000)
DAY = "2026-05-01"


@st.composite
def bounds(draw: st.DrawFn, *, held: bool = False) -> list[Bound]:
    """A vehicle's limits, some not known and, unless they are to be `held`, some not held even now."""
    length = draw(number(2.4, 4.5))
    lines = {"front": (1.0, -1 / length), "rear": (0.0, 1 / length), "gross": (1.0, 0.0)}
    out = [
        Bound("front", LOWER, 0.0, draw(number(300, 1500)), draw(number(0, 30)), *lines["front"]),
    ]
    for rating, line in lines.items():
        mean, spare = draw(number(500, 2000)), draw(number(80 if held else -30, 400))
        limit = draw(st.sampled_from([mean + spare, mean + spare, None]))
        out.append(Bound(rating, UPPER, limit, mean, draw(number(0, 30)), *line))
    return out


@given(bounds(), PLACES, CONFIDENCES)
def test_the_room_uses_up_one_limit_and_breaks_no_other(limits: list[Bound], x_m: float, sure: float) -> None:
    room = room_at(bounds=limits, x_m=x_m, confidence=sure)
    if not room.most_kg:
        return
    found = ask(bounds=limits, x_m=x_m, mass_kg=room.most_kg, confidence=sure)
    for one, after in zip(limits, found.after, strict=True):
        before, verdict = headroom_kg(bound=one, confidence=sure), after.verdict
        if before is None or verdict.margin_kg is None:
            continue
        left = verdict.margin_kg - verdict.reach_kg
        assert left >= min(before, 0.0) - 1e-6
        if room.binds == Which(one.rating, one.side):
            assert left == pytest.approx(0.0, abs=1e-6)


@given(
    bounds(held=True), PLACES, st.lists(CONFIDENCES, min_size=2, max_size=2), number(0, 0.3), number(0, 0.3)
)
def test_room_falls_with_confidence_and_with_doubt(
    limits: list[Bound], x_m: float, sure: list[float], share: float, x_u_m: float
) -> None:
    def most(confidence: float, **doubt: float) -> float:
        kg = room_at(bounds=limits, x_m=x_m, confidence=confidence, **doubt).most_kg
        return np.inf if kg is None else kg

    assert most(max(sure)) <= most(min(sure)) + 1e-9
    assert most(max(sure), mass_share=share, x_u_m=x_u_m) <= most(max(sure)) + 1e-9


@settings(max_examples=15)
@given(bounds(), CONFIDENCES)
def test_the_curve_is_the_least_over_the_limits_everywhere(limits: list[Bound], sure: float) -> None:
    curve = stretches(bounds=limits, from_m=-1.2, to_m=5.6, confidence=sure)
    assert (curve[0].from_m, curve[-1].to_m) == (-1.2, 5.6)
    assert all(one.to_m == other.from_m for one, other in pairwise(curve))
    assert all(one.binds != other.binds for one, other in pairwise(curve))
    for x_m in np.random.default_rng(3).uniform(-1.2, 5.6, 1000):
        room = room_at(bounds=limits, x_m=float(x_m), confidence=sure)
        there = next(one for one in curve if one.from_m <= x_m <= one.to_m)
        if min(x_m - there.from_m, there.to_m - x_m) > 1e-9:
            assert there.binds == room.binds
            if room.most_kg is not None:
                drawn = there.spare_kg / (there.share + there.per_m * x_m)
                assert drawn == pytest.approx(room.most_kg, rel=1e-9, abs=1e-9)


@given(bounds(), PLACES, number(1, 400), number(0, 40), number(0, 0.3), CONFIDENCES)
def test_a_mass_is_held_exactly_up_to_the_room_for_it(
    limits: list[Bound], x_m: float, kg: float, u: float, x_u: float, sure: float
) -> None:
    found = ask(bounds=limits, x_m=x_m, mass_kg=kg, mass_u_kg=u, x_u_m=x_u, confidence=sure)
    for one, after in zip(limits, found.after, strict=True):
        held = headroom_kg(bound=one, confidence=sure)
        if held is None or held < 0.0:
            continue
        bears = after.most_kg is None or kg <= after.most_kg
        if after.most_kg is None or abs(kg - after.most_kg) > 1e-6:
            assert (after.verdict.word == "under") == bears


def drawn(seed: int) -> tuple[Book, State]:
    made = planned(np.random.default_rng(seed))
    return decode(made["book"], Book), decode(made["state"], State)


@given(SEEDS, number(-1, 5), number(1, 200), st.booleans())
def test_it_agrees_with_the_plan_made_anew(seed: int, x_m: float, kg: float, roof: bool) -> None:
    book, state = drawn(seed)
    assert book.vehicle
    # what is put in is asked about bare: a plan that forgets a share of its items would forget more with it
    bare = {**book.vehicle.body, "forgotten_share": None}
    book = replace(book, vehicle=replace(book.vehicle, body=bare))
    body = {"mass_kg": kg, "mass_u_kg": 0.0, "x_m": x_m, "x_u_m": 0.0, "roof": roof}
    more = replace(book, items=(*book.items, Row("new", "item", "new-1", body)))
    for any_level in (False, True):
        before = room_left(book=book, state=state, day=DAY, any_level=any_level)
        after = room_left(book=more, state=state, day=DAY, any_level=any_level)
        assert before and after
        found = ask(bounds=bounds_on(room=before, roof=roof), x_m=x_m, mass_kg=kg)
        for one, anew in zip(found.after, after.limits, strict=True):
            assert one.verdict.value_kg == pytest.approx(anew.mean_kg, rel=1e-9, abs=1e-9)
            assert one.verdict.u_kg == pytest.approx(anew.u_kg, rel=1e-9, abs=1e-9)


@given(SEEDS, st.lists(st.floats(0, 1), min_size=4, max_size=4), number(0.6, 0.99))
def test_no_tank_state_leaves_less_room(seed: int, levels: list[float], sure: float) -> None:
    book, state = drawn(seed)
    tanks = tuple(replace(one, level=f, level_u=0.0) for one, f in zip(state.tanks, levels, strict=False))
    worst = room_left(book=book, state=state, day=DAY, confidence=sure, any_level=True)
    there = room_left(book=book, state=replace(state, tanks=tanks), day=DAY, confidence=sure)
    assert worst and there
    for one, other in zip(worst.limits, there.limits, strict=True):
        least, here = (headroom_kg(bound=each, confidence=sure) for each in (one, other))
        assert least is None or here is None or least <= here + 1e-6


def test_a_weighing_changes_what_is_left() -> None:
    """What the bridge found heavier than the plan is not free any more."""
    book = weighed_books.opened(np.random.default_rng(11), weighings=1)
    plates = (Row("p", "plate", "p-1", {"of": "vehicle", "rear_axle_kg": 2000.0}),)
    rated = replace(book, plates=plates)
    found = room_left(book=rated, state=State(), day=DAY)
    alone = room_left(book=replace(rated, weighings=()), state=State(), day=DAY)
    assert found and alone
    assert (found.weighed, alone.weighed) == (True, False)
    assert _at(found.limits, 3.0) != _at(alone.limits, 3.0)


def _at(limits: tuple[Bound, ...], x_m: float) -> Room:
    return room_at(bounds=[replace(one, share=1.0) for one in limits], x_m=x_m)
