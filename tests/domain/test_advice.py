"""What load advice keeps to whatever the plan: never worse than another choice, whatever is said first."""

from itertools import combinations, product
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from parity.advice_problems import arrays, problem
from reference.milp_advice import brute_force, costs, key, meets
from vectors.decode import call

from server.domain.advice import Advice, Item, Limit, Option, advise

Json = Any
SEEDS = st.integers(0, 5_000)


def made(seed: int, **kind: Any) -> Json:
    return problem(np.random.default_rng(seed), **kind)


def answer(asked: Json) -> Advice:
    found: Advice = call("advice", {"function": "advise", "in": asked})
    return found


def cost(found: Advice, asked: Json) -> tuple[float, ...]:
    """What is to be least; nothing is worse than no answer."""
    if not found.picks:
        return (float("inf"),)
    return key(asked, (found.moves, round(found.off_kg, 6)))


@given(SEEDS)
def test_as_good_as_the_best_of_all_choices_of_five_items(seed: int) -> None:
    asked = made(seed, count=5)
    best, count = brute_force(asked)
    found = answer(asked)
    assert found.exact
    assert cost(found, asked) == ((float("inf"),) if best is None else key(asked, best))
    assert found.equals == (count > 1 and found.moves > 0)


@given(SEEDS, st.randoms(use_true_random=False))
def test_the_order_of_items_does_not_matter(seed: int, chance: Any) -> None:
    asked = made(seed)
    turned = list(asked["items"])
    chance.shuffle(turned)
    one, other = answer(asked), answer({**asked, "items": turned})
    assert (one.word, one.moves, one.equals) == (other.word, other.moves, other.equals)
    assert one.off_kg == pytest.approx(other.off_kg, abs=1e-9)


@given(SEEDS, st.integers(0, 6), st.floats(0, 30))
def test_a_looser_limit_never_costs_more(seed: int, which: int, kg: float) -> None:
    asked = made(seed)
    limits = [dict(one) for one in asked["limits"]]
    one = limits[which % len(limits)]
    one["limit_kg"] = max(0.0, one["limit_kg"] - kg) if one["least"] else one["limit_kg"] + kg
    assert cost(answer({**asked, "limits": limits}), asked) <= cost(answer(asked), asked)


@given(SEEDS)
def test_what_is_refused_never_makes_it_cheaper(seed: int) -> None:
    asked = made(seed)
    found = answer(asked)
    for i, pick in enumerate(found.picks):
        if pick:
            items = list(asked["items"])
            items[i] = {**items[i], "options": items[i]["options"][:1]}
            again = answer({**asked, "items": items})
            assert cost(again, asked) >= cost(found, asked)
            assert not again.picks or again.picks[i] == 0


@given(SEEDS)
def test_a_thing_without_mass_changes_nothing(seed: int) -> None:
    asked = made(seed)
    nothing = {"loads_kg": [0.0] * len(asked["limits"]), "variances_kg2": [0.0] * len(asked["limits"])}
    ghost = {"id": "ghost", "mass_kg": 0.0, "options": [{"id": "here", **nothing}]}
    one, other = answer(asked), answer({**asked, "items": [*asked["items"], ghost]})
    assert (one.word, one.moves, one.off_kg) == (other.word, other.moves, other.off_kg)
    assert [held.value_kg for held in one.after] == pytest.approx([held.value_kg for held in other.after])


@given(SEEDS)
def test_after_a_change_every_limit_is_met_and_another_run_moves_nothing(seed: int) -> None:
    asked = made(seed)
    found = answer(asked)
    if not found.picks:
        assert found.after == found.before
        return
    picks = np.array(found.picks)[None, :]
    assert meets(asked, picks)[0]
    assert costs(asked, picks)[0] == (found.moves, round(found.off_kg, 6))
    mean, variance = arrays(asked, picks)
    assert [one.value_kg for one in found.after] == pytest.approx(mean[0].tolist(), abs=1e-8)
    assert [one.u_kg for one in found.after] == pytest.approx(
        np.sqrt(np.maximum(variance[0], 0)).tolist(), abs=1e-6
    )
    items = [
        {**item, "options": [{**item["options"][pick], "off_kg": 0.0, "slot": None}]}
        for item, pick in zip(asked["items"], found.picks, strict=True)
    ]
    again = answer({**asked, "items": items})
    assert (again.word, again.moves) == ("within", 0)


def test_as_little_off_by_more_moves_is_not_called_exact() -> None:
    """The nodes run out while fewer moves are tried for what is known to be the least off."""
    asked = made(59, count=8)
    found, whole = answer({**asked, "most_nodes": 56}), answer(asked)
    assert (found.moves, whole.moves, found.off_kg) == (3, 2, whole.off_kg)
    assert not found.exact and found.most_moves < whole.moves


@given(SEEDS, st.integers(1, 400))
def test_few_nodes_never_give_a_choice_that_is_over(seed: int, nodes: int) -> None:
    asked = made(seed, count=8)
    found = answer({**asked, "most_nodes": nodes})
    if found.picks:
        assert meets(asked, np.array(found.picks)[None, :])[0]
    assert found.exact or found.most_moves < 8
    whole = answer(asked)
    if found.exact:
        assert cost(found, asked) == cost(whole, asked)
    elif found.word == "not_found" and whole.picks:
        assert whole.moves > found.most_moves


@pytest.mark.parametrize("seed", range(6))
def test_of_many_items_the_best_within_the_moves_that_it_names(seed: int) -> None:
    """Twenty-four items against every choice of at most two moves, tried one by one."""
    asked = {**made(seed, count=24, shared=seed % 2 == 0), "objective": "moves"}
    found = answer({**asked, "most_nodes": 100_000})
    two = np.array(list(_choices(asked["items"], 2)))
    held = two[meets(asked, two)]
    best = min(costs(asked, held), default=None)
    if best is None:
        assert found.moves > 2 or not found.picks
    else:
        assert (found.moves, round(found.off_kg, 6)) == best


def _choices(items: Json, most: int) -> Any:
    for moves in range(most + 1):
        for which in combinations(range(len(items)), moves):
            for places in product(*(range(1, len(items[i]["options"])) for i in which)):
                picks = [0] * len(items)
                for i, place in zip(which, places, strict=True):
                    picks[i] = place
                yield picks


def test_least_off_of_many_items_says_how_far_it_is_proven() -> None:
    """Above eighteen items every round may use one more move; each takes less off than the one before."""
    boxes = [
        Item(f"b{n}", kg, (Option("here", (kg,), (0.0,)), Option("off", (0.0,), (0.0,), kg)))
        for n, kg in enumerate(7.0 + 2.25 * n + (n % 3) / 4 for n in range(24))
    ]
    total = sum(one.mass_kg for one in boxes)
    limit = Limit("rear", 1000.0, 1000.0 + 61.125 - total)
    asked: Json = {"limits": [limit], "items": boxes, "confidence": 0.5, "objective": "off"}
    offs = []
    for nodes in (300, 3_000, 1_000_000):
        rounds: list[int] = []
        found = advise(**asked, most_nodes=nodes, told=rounds.append)
        assert rounds == list(range(len(rounds)))
        assert found.word == "found"
        assert found.off_kg >= 61.125
        offs.append((found.most_moves, found.off_kg))
    assert offs == sorted(offs, key=lambda one: (one[0], -one[1]))
    assert offs[0][0] < offs[-1][0]
