"""Load advice against every choice tried and against scipy's HiGHS, in both languages."""

from typing import Any

import numpy as np
import pytest
from parity.advice_problems import problem
from parity.bundle import ask
from reference.milp_advice import Best, brute_force, by_milp, costs, key, meets
from vectors.decode import call, plain

Json = Any
SEED, INSTANCES = 20260501, 240


def problems() -> list[Json]:
    rng = np.random.default_rng(SEED)
    return [problem(rng, shared=n % 3 == 0, copies=n % 2 == 1) for n in range(INSTANCES)]


def told(given: Json, answer: Json) -> Best | None:
    """Moves and kilograms off of an answer, which must meet every limit and be what it says it is."""
    assert answer["exact"]
    if answer["word"] == "impossible":
        assert answer["picks"] == []
        return None
    picks = np.array(answer["picks"])[None, :]
    assert meets(given, picks)[0]
    cost = costs(given, picks)[0]
    assert cost == (answer["moves"], round(answer["off_kg"], 6))
    assert answer["word"] == ("found" if answer["moves"] else "within")
    return cost


@pytest.fixture(scope="module")
def answers() -> list[tuple[Json, Json, Json]]:
    """Each problem with the answer of either language."""
    given = problems()
    calls = [{"module": "advice", "function": "advise", "in": one} for one in given]
    theirs = [one["out"] for one in ask(calls)]
    return [
        (one, plain(call("advice", asked)), other)
        for one, asked, other in zip(given, calls, theirs, strict=True)
    ]


def test_the_instances_are_of_every_kind(answers: list[tuple[Json, Json, Json]]) -> None:
    words = [ours["word"] for _, ours, _ in answers]
    assert all(words.count(word) >= 15 for word in ("within", "found", "impossible"))
    assert sum(ours["moves"] > 1 for _, ours, _ in answers) >= 30
    assert sum(ours["equals"] for _, ours, _ in answers) >= 10
    several = [given for given, ours, _ in answers for i, pick in enumerate(ours["picks"])
               if given["items"][i]["options"][pick].get("moves", 1) > 1]  # fmt: skip
    assert len(several) >= 10
    together = [ours for _, ours, _ in answers if ours["word"] == "impossible" and not ours["unmet"]]
    assert len(together) >= 3


def test_as_good_as_the_best_of_all_choices(answers: list[tuple[Json, Json, Json]]) -> None:
    for given, ours, theirs in answers:
        best, count = brute_force(given)
        for answer in (ours, theirs):
            assert told(given, answer) == best
            assert answer["equals"] == (count > 1 and answer["moves"] > 0)


def test_as_good_as_the_mixed_integer_program(answers: list[tuple[Json, Json, Json]]) -> None:
    for given, ours, theirs in answers:
        best = by_milp(given)
        for answer in (ours, theirs):
            found = told(given, answer)
            assert (best is None) == (found is None)
            if best is not None and found is not None:
                assert key(given, found) == pytest.approx(key(given, best), abs=1e-6)


def test_a_limit_said_to_be_out_of_reach_is_missed_by_every_choice(
    answers: list[tuple[Json, Json, Json]],
) -> None:
    for given, ours, theirs in answers:
        assert [one["id"] for one in ours["unmet"]] == [one["id"] for one in theirs["unmet"]]
        for unmet in ours["unmet"]:
            k = [one["id"] for one in given["limits"]].index(unmet["id"])
            alone = _alone(given, k)
            alone["limits"][0]["limit_kg"] += (unmet["short_kg"] - 0.01) * (
                -1 if alone["limits"][0]["least"] else 1
            )
            assert brute_force(alone)[0] is None


def _alone(given: Json, k: int) -> Json:
    """The problem with one limit and no slots."""
    items = [{**item, "options": [_only(one, k) for one in item["options"]]} for item in given["items"]]
    return {**given, "limits": [{**given["limits"][k]}], "slots": [], "items": items}


def _only(option: Json, k: int) -> Json:
    """An option seen by one limit alone."""
    shares = [{**one, "per_unit": [one["per_unit"][k]]} for one in option["shares"]]
    kept = {
        "loads_kg": [option["loads_kg"][k]],
        "variances_kg2": [option["variances_kg2"][k]],
        "shares": shares,
    }
    return {**option, **kept, "slot": None}
