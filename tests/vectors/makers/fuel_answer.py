"""Vectors of the fuel answer: events of a log written by hand, run through the slow filter."""

from typing import Any

import numpy as np
from vectors.frame import case, function
from vectors.logs import (
    BY_HAND,
    HAND_AND_VAN_LOAN,
    SETUP,
    STEADY,
    TANK,
    called,
    changed,
    dipped,
    filled,
    slow_ranges,
    slow_rate,
)
from vectors.slow_filter import run
from vectors.tanks import FUEL, KAPPAS, ONE, fill, full, gauge, use

Json = Any
NEAR = {"rel": 0.0, "abs": 1e-5}
EVENTS = [
    *(fill(60.0), full()),
    *(use(500.0), fill(54.0), full()),
    *(use(200.0), fill(20.0)),
    *(use(280.0), fill(30.0), full()),
    *(use(420.0), fill(46.0), full()),
]
MISSED = {"kind": "missed", "tank_id": "main"}


def functions(rng: np.random.Generator) -> list[Json]:
    ranges = [
        {"litres": {"mean": 50.0, "u": 2.0}, "count_on_km": 300.0, "likely_km": 500.0, "reach": 0.9},
        {"litres": {"mean": 70.0, "u": 1.0}, "count_on_km": 350.0, "likely_km": 400.0, "reach": 0.8},
    ]
    least = {"litres": {"mean": 50.0, "u": 2.0}, "count_on_km": 300.0, "likely_km": 400.0, "reach": 0.8}
    return [
        function("fuel_answer", HAND_AND_VAN_LOAN, *_plain(), *_held(), *_classes()),
        function(
            "lower", BY_HAND, case("one", ranges[0], ranges=ranges[:1]), case("two", least, ranges=ranges)
        ),
    ]


def _asked(name: str, out: Json, *more: Json, setup: Json = SETUP, **asked: Json) -> Json:
    log = called("fuel_log", "read_fuel_log", setup=setup, entries=[*STEADY, *more])
    return case(name, out, **NEAR, log=log, **asked)


def _plain() -> list[Json]:
    bank = [run(ONE, kappa, EVENTS) for kappa in KAPPAS]
    steady = {
        "stands": slow_ranges(EVENTS, distance=600.0),
        "counted": slow_ranges(EVENTS),
        "other": None,
        "since_full": {"from_id": "f4", "litres_l": 46.0},
        "pooled": {"mean": 150 / 14},
        "rates": [{"class_id": "sealed", "l_per_100km": slow_rate(bank), "way_km": 1400.0, "full_tanks": 3}],
        "mix": {"sealed": 1.0},
        "reserve_l": 8.0,
        "readings": 4,
    }
    dip = [*EVENTS, use(200.0), gauge(0.75, u=0.05)]
    start = [*EVENTS, {"kind": "start", "tank_id": "main", "litres_l": 80.0, "litres_u_l": 1.0}]
    own = [{**one, "litres_u_l": 3.0} if one["kind"] == "full" else one for one in EVENTS]
    pump, step = (46.0 * FUEL["fill_u"]) ** 2 + 2 * 9.0, 2 / 12
    scattered = ((pump / 420**2) * 1e4 + (4600 / 420) ** 2 * step / 420**2) ** 0.5
    change = [*EVENTS, {"kind": "change", "rate_u": 0.15}]
    return [
        _asked("steady", steady, distance_km=600.0),
        _asked("driven on since", {"stands": slow_ranges([*EVENTS, use(150.0)])}, odometer_km=2550.0),
        _asked("a dip", {"stands": slow_ranges(dip)}, dipped(6, 2600.0, 0.75)),
        _asked(
            "two dips at one place",
            {"stands": slow_ranges(dip)},
            dipped(6, 2600.0, 0.7),
            dipped(7, 2600.0, 0.75),
        ),
        _asked("full without odometer", {"stands": slow_ranges(start)}, filled(6, None, 46.0)),
        _asked(
            "a tank whose shut-off scatters more",
            {"stands": slow_ranges(own), "since_full": {"u": scattered}},
            setup={**SETUP, "tanks": [{**TANK, "full_u_l": 3.0}]},
        ),
        _asked(
            "a gauge of its own",
            {"stands": slow_ranges([*EVENTS, use(200.0), gauge(0.75, u=0.02)])},
            dipped(6, 2600.0, 0.75),
            setup={**SETUP, "tanks": [{**TANK, "gauge_u": 0.02}]},
        ),
        _asked("another reserve", {"reserve_l": 20.0}, setup={**SETUP, "reserve_l": 20.0}),
        _asked("a roof load", {"stands": slow_ranges(change)}, changed(6, 2400.0)),
        _asked(
            "lamps",
            {"stands": slow_ranges([*EVENTS, use(200.0), gauge(0.75, u=0.1)])},
            dipped(6, 2600.0, 0.75, how="lamps"),
        ),
    ]


def _held() -> list[Json]:
    driven = [*EVENTS, use(400.0)]
    typed = [*driven, fill(4.4), full()]
    main, other = slow_ranges(driven), slow_ranges(typed)
    part_one, part_two = (slow_ranges([*driven, *(fill(20.0),) * n]) for n in (1, 2))
    full_once = slow_ranges([*driven, fill(43.0), full()])
    part = [use(900.0), MISSED, fill(20.0)]
    missed, nothing = slow_ranges([*EVENTS, *part]), slow_ranges([*EVENTS, part[0], part[2]])
    later = [*driven, use(420.0), fill(46.0), MISSED, full()]
    return [
        _asked(
            "a typing error",
            {
                "counted": main,
                "other": other,
                "readings": 4,
                "stands": {name: min(main[name], other[name]) for name in main},
            },
            filled(6, 2800.0, 4.4),
        ),
        _asked(
            "confirmed",
            {"stands": other, "other": None},
            filled(6, 2800.0, 4.4),
            setup={**SETUP, "confirmed": ["f6"]},
        ),
        _asked(
            "perhaps one fill on two phones: the second part fill is in the other answer alone",
            {
                "counted": part_one,
                "other": part_two,
                "stands": {name: min(part_one[name], part_two[name]) for name in part_one},
            },
            filled(6, 2800.0, 20.0, False),
            {**filled(7, 2800.0, 20.0, False)},
            setup={**SETUP, "alike": {"f7": "f6"}},
        ),
        _asked(
            "a full tank is full, once or twice",
            {"counted": full_once, "other": full_once, "stands": full_once},
            filled(6, 2800.0, 43.0),
            {**filled(7, 2800.0, 43.0)},
            setup={**SETUP, "alike": {"f7": "f6"}},
        ),
        _asked("refused", {"stands": main, "other": None}, filled(6, 2800.0, 460.0)),
        _asked(
            "refused, and read again",
            {"stands": slow_ranges(later)},
            filled(6, 2800.0, 460.0),
            filled(7, 3220.0, 46.0),
        ),
        _asked(
            "missed and part filled",
            {
                "counted": missed,
                "other": nothing,
                "stands": {name: min(missed[name], nothing[name]) for name in missed},
            },
            filled(6, 3300.0, 20.0, False, missed_before=True),
        ),
        _asked(
            "missed and full",
            {"other": None, "stands": slow_ranges([*EVENTS, use(900.0), MISSED, fill(46.0), full()])},
            filled(6, 3300.0, 46.0, missed_before=True),
        ),
    ]


def _classes() -> list[Json]:
    model = {**ONE, "class_ids": ["sealed", "sand"], "rate0": [10.0, 16.0], "settings": FUEL}
    sand = [*EVENTS, use(75.0, "sealed"), use(225.0, "sand"), fill(43.0), full()]
    mix = {"sealed": 0.4, "sand": 0.6}
    setup = {**SETUP, "ahead": ["sealed", "sand"]}
    towed = {**ONE, "class_ids": ["sealed", "sealed+trailer"], "rate0": [10.0, 14.0], "settings": FUEL}
    third = 0.3333333
    rough = {"sealed": third, "gravel": third, "sand": third}
    every = {**ONE, "class_ids": list(rough), "rate0": [10.0, 11.5, 16.0], "settings": FUEL}
    thirds = [*EVENTS, *(use(50.0, name) for name in rough), fill(20.0)]
    return [
        _asked(
            "towed, and nobody knows how far",
            {
                "stands": slow_ranges(EVENTS, {"sealed+trailer": 1.0}, model=towed),
                "mix": {"sealed+trailer": 1.0},
            },
            filled(6, None, 20.0, False, towing=True),
        ),
        _asked(
            "shares typed to seven digits",
            {"stands": slow_ranges(thirds, dict.fromkeys(rough, 1 / 3), model=every)},
            filled(6, 2550.0, 20.0, False, surface=rough),
        ),
        _asked(
            "sand that was never driven",
            {"stands": slow_ranges(EVENTS, mix, model=model)},
            setup=setup,
            mix=mix,
        ),
        _asked(
            "sand ahead, some behind",
            {"stands": slow_ranges(sand, mix, model=model)},
            filled(6, 2700.0, 43.0, surface={"sealed": 0.25, "sand": 0.75}),
            mix=mix,
        ),
    ]
