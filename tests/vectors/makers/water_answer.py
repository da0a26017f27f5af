"""Vectors of the water answer: events of a log written by hand, run through the slow filter."""

from math import hypot
from typing import Any

import numpy as np
from scipy.stats import norm
from vectors.frame import case, function
from vectors.logs import BY_HAND, DAY, HAND_AND_VAN_LOAN, called, dipped, watered
from vectors.makers.bank import mixed
from vectors.makers.water import KAPPAS
from vectors.makers.water_log import SETUP
from vectors.slow_filter import Slow, range_at, weights
from vectors.tanks import CAMP, fill, full, gauge, slow_bank, use

Json = Any
ENTRIES = [
    watered(0, 50.0, full=True, drinkable="yes"),
    watered(0.5, 20.0, tank="can", drinkable="yes"),
    dipped(2, None, 0.7, tank_id="fresh"),
    watered(3, 5.0, "draw"),
]
EVENTS = [
    *(fill(50.0, "fresh"), full("fresh")),
    *(use(1.0, "all"), use(3.0, "all"), gauge(0.7, "fresh")),
    *(
        use(2.0, "all"),
        {"kind": "transfer", "tank_id": "fresh", "into_id": None, "litres_l": 5.0, "litres_u_l": 0.1},
    ),
    use(1.0, "all"),
]


def functions(rng: np.random.Generator) -> list[Json]:
    blank = {
        "litres": {"mean": 9.0, "u": 1.0},
        "count_on_days": None,
        "likely_days": None,
        "floor_days": None,
    }
    days = [
        {**blank, "count_on_days": 2.0, "likely_days": 5.0, "floor_days": 3.0},
        {
            **blank,
            "litres": {"mean": 8.0, "u": 1.0},
            "count_on_days": 3.0,
            "likely_days": 4.0,
            "floor_days": 2.0,
        },
    ]
    least = {"litres": {"mean": 8.0, "u": 1.0}, "count_on_days": 2.0, "likely_days": 4.0, "floor_days": 2.0}
    return [
        function("water_answer", HAND_AND_VAN_LOAN, *_answers()),
        function("water_banks", HAND_AND_VAN_LOAN, *_banks()),
        function("survival", HAND_AND_VAN_LOAN, *_survivals()),
        function("lower_days", BY_HAND, case("two", least, days=days), case("nobody", blank, days=[blank])),
    ]


def _banks() -> list[Json]:
    """Two people: at the last entry, and half a day later."""
    log = called("water_log", "read_water_log", setup=SETUP, entries=ENTRIES)
    then, later = slow_bank(CAMP, EVENTS[:-1], KAPPAS), slow_bank(CAMP, EVENTS, KAPPAS)
    return [
        case("at the last entry", [as_bank(then)], rel=1e-7, abs=1e-7, log=log, now_s=3 * DAY),
        case("half a day later", [as_bank(later)], rel=1e-7, abs=1e-7, log=log, now_s=3.5 * DAY),
        case("a clock behind the log's", [as_bank(then)], rel=1e-7, abs=1e-7, log=log, now_s=DAY),
    ]


def as_bank(slow: list[Slow]) -> Json:
    """Levels and rates; the likelihoods are told by their weights elsewhere."""
    estimates = [{"mean": one.mean.tolist()} for one in slow]
    return {"kappas": list(KAPPAS), "estimates": estimates}


def _answers() -> list[Json]:
    bank = slow_bank(CAMP, EVENTS, KAPPAS)
    left = mixed(weights(bank), [one.mean[0] for one in bank], [one.cov[0, 0] for one in bank])
    rate = mixed(weights(bank), [one.mean[1] for one in bank], [one.cov[1, 1] for one in bank])
    ways = [range_at(bank, {"all": 1.0}, p, {"reserve_l": 9.0}) for p in (0.95, 0.5)]
    days = {
        "litres": left,
        "count_on_days": ways[0] / 2,
        "likely_days": ways[1] / 2,
        "floor_days": (left["mean"] - 9) / 6,
    }
    answer = {
        "stands": days,
        "counted": days,
        "other": None,
        "drinkable": days,
        "drinkable_word": "yes",
        "tanks": [
            {"tank_id": "fresh", "litres": left, "drinkable": "yes"},
            {"tank_id": "can", "litres": {"mean": 20.0, "u": 0.0}, "drinkable": "yes"},
        ],
        "people": 2.0,
        "rate": rate,
        "reserve_l": 9.0,
        "readings": 2,
        "early": True,
    }
    foul = [*ENTRIES, watered(3.5, 1.0, drinkable="no")]
    hot = {"kind": "change", "id": "c3", "at_s": 3 * DAY, "sequence": 31, "odometer_km": None, "rate_u": 0.33}
    heated = slow_bank(CAMP, [*EVENTS[:-1], {"kind": "change", "rate_u": 0.33}, EVENTS[-1]], KAPPAS)
    means, variances = [one.mean[1] for one in heated], [one.cov[1, 1] for one in heated]
    less = range_at(heated, {"all": 1.0}, 0.95, {"reserve_l": 9.0}) / 2
    heat = {
        "rate": mixed(weights(heated), means, variances),
        "stands": {"count_on_days": less},
        "readings": 2,
    }
    return [
        _asked("two people, half a day later", answer, 3.5),
        _asked("four people", {"stands": {"count_on_days": ways[0] / 4}, "people": 4.0}, 3.5, people=4.0),
        _asked("a heat wave since", heat, 3.5, entries=[*ENTRIES, hot]),
        _asked("nobody", {"stands": {"count_on_days": None, "floor_days": None}}, 3.5, people=0.0),
        _asked(
            "nothing of it may be drunk",
            {
                "drinkable_word": "no",
                "drinkable": {"litres": {"mean": 0.0, "u": 0.0}, "count_on_days": 0.0, "floor_days": 0.0},
            },
            3.5,
            entries=foul,
        ),
        _asked("a clock behind the log's", {"people": 2.0, "readings": 2}, 1.0),
    ]


def _survivals() -> list[Json]:
    """20 L in a can beside the tank; z from scipy."""
    bank = slow_bank(CAMP, EVENTS, KAPPAS)
    left = mixed(weights(bank), [one.mean[0] for one in bank], [one.cov[0, 0] for one in bank])
    z, sure = (float(norm.ppf(p)) for p in (0.95, 0.99))
    litres = {"mean": left["mean"] + 20.0, "u": hypot(left["u"], 1.0)}
    least = litres["mean"] - z * litres["u"]
    whole = {
        "litres": litres,
        "least_l": least,
        "apart_l": 20.0,
        "doubtful_l": 0.0,
        "people": 2.0,
        "rate_l": 3.0,
    }
    foul = [*ENTRIES, watered(3.5, 1.0, drinkable="no")]
    can = {"litres": {"mean": 20.0, "u": 1.0}, "least_l": 20.0 - z, "doubtful_l": left["mean"] + 1.0}
    return [
        _asked("at rest", {**whole, "days": least / 6}, 3.5),
        _asked("at hard work", {"days": least / 22.72}, 3.5, rate_l=11.36),
        _asked("surer", {"least_l": litres["mean"] - sure * litres["u"]}, 3.5, p=0.99),
        _asked("only the can may be drunk", can, 3.5, entries=foul),
        _asked("nobody", {"least_l": least, "days": None}, 3.5, people=0.0),
    ]


def _asked(name: str, out: Json, day: float, entries: list[Json] = ENTRIES, **asked: Json) -> Json:
    log = called("water_log", "read_water_log", setup=SETUP, entries=entries)
    return case(name, out, rel=1e-7, abs=1e-6, log=log, now_s=day * DAY, **asked)
