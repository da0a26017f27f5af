"""Vectors of the journal: ways planned by hand, steps against the slow filter."""

from typing import Any

import numpy as np
from vectors.frame import case, function
from vectors.logs import BY_HAND, HAND_AND_VAN_LOAN, called
from vectors.makers.bank import mixed
from vectors.slow_filter import Slow, weights
from vectors.tanks import KAPPAS, ONE, ROUND, TWO, bank, fill, full, slow_bank, use

Json = Any
FIRST = {"entry_id": "f1", "events": [fill(60.0), full()], "tank_ids": ["main"]}
SECOND = {
    "entry_id": "f2",
    "way": [{"class_id": "sealed", "amount": 500.0}],
    "events": [fill(54.0), full()],
    "tank_ids": ["main"],
}
TYPO = {**SECOND, "entry_id": "f3", "events": [fill(5.4), full()]}
THIRD = {**SECOND, "entry_id": "f4", "events": [fill(50.0), full()]}
MISSED = {"kind": "missed", "tank_id": "main"}
DRIVEN = use(500.0)


def functions(rng: np.random.Generator) -> list[Json]:
    return [
        function("plan_way", BY_HAND, *_ways()),
        function("run_journal", HAND_AND_VAN_LOAN, *_journals()),
        function("step_on", HAND_AND_VAN_LOAN, *_steps()),
        function("lower_banks", HAND_AND_VAN_LOAN, *_banks()),
        function("levels_now", HAND_AND_VAN_LOAN, *_levels()),
        function("bank_levels", HAND_AND_VAN_LOAN, _bank_levels()),
    ]


def _run(*steps: Json, **more: Json) -> Json:
    return {"model": ONE, "kappas": list(KAPPAS), "steps": list(steps), **more}


def _ways() -> list[Json]:
    empty = slow_bank(
        TWO,
        [
            {"kind": "start", "tank_id": "main", "litres_l": 30.0, "litres_u_l": 1.0},
            {"kind": "start", "tank_id": "sub", "litres_l": 24.0, "litres_u_l": 1.0},
        ],
    )
    one, two = bank(ONE, slow_bank(ONE, [])), bank(TWO, empty)
    sealed, sand = {"class_id": "sealed", "amount": 100.0}, {"class_id": "sand", "amount": 400.0}
    return [
        case("one tank", [use(100.0)], bank=one, way=[sealed, {**sealed, "amount": 0.0}]),
        case("the first gives all", [use(100.0, "sealed", [1.0, 0.0])], bank=two, way=[sealed]),
        case(
            "the second goes on, and below empty",
            [
                use(100.0, "sealed", [1.0, 0.0]),
                use(93.75, "sand", [1.0, 0.0]),
                use(306.25, "sand", [0.0, 1.0]),
            ],
            bank=two,
            way=[sealed, sand],
        ),
    ]


def _journals() -> list[Json]:
    events = [fill(60.0), full(), DRIVEN, fill(54.0), full()]
    before = slow_bank(ONE, events[:4])
    seen = [one.innovation(full()) for one in before]
    mix = mixed(weights(before), [nu for nu, _ in seen], [s for _, s in seen])
    reading = {"nu_l": mix["mean"], "s_l2": mix["u"] ** 2, "z": mix["mean"] / mix["u"]}
    used = {"held": None, "alarm": None}
    whole = {
        "outcomes": [
            {"entry_id": "f1", **used, "levels_l": [_level(events[:2])]},
            {"entry_id": "f2", **used, "readings": [reading], "levels_l": [_level(events)]},
        ],
        "state": {
            "main": {"bank": bank(ONE, slow_bank(ONE, events)), "unknown": []},
            "others": [],
        },
    }
    left_out = [*events, DRIVEN]
    held = {
        "main": {"bank": bank(ONE, slow_bank(ONE, left_out)), "unknown": ["main"]},
        "others": [{"bank": bank(ONE, slow_bank(ONE, [*left_out, fill(5.4), full()])), "unknown": []}],
    }
    again = [*left_out, DRIVEN, fill(50.0), MISSED, full()]
    after = {"main": {"bank": bank(ONE, slow_bank(ONE, again)), "unknown": []}, "others": [{}]}
    near = {"rel": 1e-7, "abs": 1e-7}
    return [
        case("two full tanks", whole, **near, **_run(FIRST, SECOND)),
        case(
            "the same, continued",
            whole,
            **near,
            **_run(FIRST, SECOND, previous=called("journal", "run_journal", **_run(FIRST, THIRD))),
        ),
        case("a typing error is held", {"state": held}, **near, **_run(FIRST, SECOND, TYPO)),
        case(
            "the level is open until it is read", {"state": after}, **near, **_run(FIRST, SECOND, TYPO, THIRD)
        ),
        case(
            "confirmed, it is used",
            {"state": {"others": []}},
            **near,
            **_run(FIRST, SECOND, {**TYPO, "confirmed": True}),
        ),
        case(
            "refused: only the way counts",
            {"state": {"main": held["main"], "others": []}},
            **near,
            **_run(FIRST, SECOND, {**TYPO, "refused": True}),
        ),
        case(
            "further than the tank reaches",
            {"state": {"others": [{}]}},
            **near,
            **_run(FIRST, SECOND, {**THIRD, "way": [{"class_id": "sealed", "amount": 2500.0}]}),
        ),
        case(
            "more than the tank holds",
            {"state": {"others": [{}]}},
            **near,
            **_run(FIRST, SECOND, {"entry_id": "f5", "events": [fill(30.0)], "tank_ids": ["main"]}),
        ),
        *_overfull(),
    ]


def _overfull() -> list[Json]:
    """Two litres over, three times the larger of the level's u and the tank's own shut-off's."""
    two_over = [{**FIRST, "events": [fill(60.0), full(), fill(over)]} for over in (2.0, 8.0)]
    tight, loose = ({**ONE, "full_u_l": [u]} for u in (0.3, 3.0))
    return [
        case(name, {"state": {"others": [{}] if held else []}}, **{**_run(step), "model": model})
        for name, model, step, held in (
            ("2 L above a full tank whose shut-off has an u of 0.3 L", tight, two_over[0], True),
            ("2 L above the usual one", ONE, two_over[0], False),
            ("8 L above one with an u of 3 L", loose, two_over[1], False),
            ("8 L above the usual one", ONE, two_over[1], True),
        )
    ]


def _level(events: list[Json]) -> float:
    slow: list[Slow] = slow_bank(ONE, events)
    return float(sum(w * one.mean[0] for w, one in zip(weights(slow), slow, strict=True)))


def _steps() -> list[Json]:
    """A missed fill before a part fill, from a full tank on."""
    before = [fill(60.0), full()]
    part = {**SECOND, "events": [MISSED, fill(20.0)]}
    whole = {"bank": bank(ONE, slow_bank(ONE, before)), "unknown": []}
    state = {"main": whole, "others": [], "notice": {"bank": whole["bank"]}}
    main, other = [*before, DRIVEN, MISSED, fill(20.0)], [*before, DRIVEN, fill(20.0)]
    after = {
        "main": {"bank": bank(ONE, slow_bank(ONE, main)), "unknown": []},
        "others": [{"bank": bank(ONE, slow_bank(ONE, other)), "unknown": ["main"], "passing": True}],
    }
    outcome = {"entry_id": "f2", "readings": [], "held": None, "alarm": None, "levels_l": [60.0]}
    return [case("missed, and part filled", [after, outcome], rel=1e-7, abs=1e-7, state=state, step=part)]


def _banks() -> list[Json]:
    """A missed fill before a part fill: anything may have been in the tank, or nothing more than there was."""
    events = [fill(60.0), full(), DRIVEN]
    main, other = slow_bank(ONE, [*events, MISSED, fill(20.0)]), slow_bank(ONE, [*events, fill(20.0)])
    state = {"main": {"bank": bank(ONE, main), "unknown": []}}
    given = {"notice": {"bank": bank(ONE, main)}, **state}
    both = {**given, "others": [{"bank": bank(ONE, other), "unknown": ["main"]}]}
    return [
        case("one", [bank(ONE, main)], state={**given, "others": []}),
        case("two", [bank(ONE, main), bank(ONE, other)], state=both),
    ]


def _bank_levels() -> Json:
    slow = slow_bank(TWO, ROUND)
    out = []
    for t, name in enumerate(TWO["tank_ids"]):
        spread = mixed(weights(slow), [one.mean[t] for one in slow], [one.cov[t, t] for one in slow])
        capacity = TWO["capacity_l"][t]
        level = min(max(spread["mean"] / capacity, 0.0), 1.0)
        out.append(
            {"tank_id": name, "level": level, "level_u": spread["u"] / capacity, "known_from": "estimate"}
        )
    return case("two tanks", out, rel=1e-8, bank=bank(TWO, slow))


def _levels() -> list[Json]:
    slow = slow_bank(ONE, [fill(60.0), full(), DRIVEN])
    below = slow_bank(
        ONE, [{"kind": "start", "tank_id": "main", "litres_l": 0.0, "litres_u_l": 1.0}, use(50.0)]
    )
    notice = {"bank": bank(ONE, slow)}
    spread = mixed(weights(slow), [one.mean[0] for one in slow], [one.cov[0, 0] for one in slow])
    deep = mixed(weights(below), [one.mean[0] for one in below], [one.cov[0, 0] for one in below])

    def state(which: list[Slow], unknown: list[str]) -> Json:
        return {
            "main": {"bank": bank(ONE, which), "unknown": unknown},
            "others": [],
            "notice": notice,
        }

    def level(value: float, u: float) -> list[Json]:
        return [{"tank_id": "main", "level": value, "level_u": u, "known_from": "estimate"}]

    return [
        case("driven", level(spread["mean"] / 80, spread["u"] / 80), rel=1e-8, state=state(slow, [])),
        case("not below empty", level(0.0, deep["u"] / 80), rel=1e-8, state=state(below, [])),
        case("open: anything", level(0.5, 12**-0.5), rel=1e-9, state=state(slow, ["main"])),
    ]
