"""Vectors of the fuel log: segments, ways and findings by hand."""

from typing import Any

import numpy as np
from vectors.frame import case, function, refused
from vectors.logs import BY_HAND, SETUP, STEADY, TANK, called, changed, dipped, filled, moved

Json = Any
SUB = {"id": "sub", "capacity_l": 60.0, "drain_order": 100}
CAN = {"id": "can", "capacity_l": 20.0, "drawn": False}


def functions(rng: np.random.Generator) -> list[Json]:
    bare = {
        "segments": [],
        "findings": [],
        "odometer_km": None,
        "mix": {"sealed": 1.0},
        "ways_km": {},
        "full_tanks": {},
    }
    steady = {
        "segments": [
            {"from_id": "f1", "to_id": "f2", "litres_l": 54.0, "distance_km": 500.0, "l_per_100km": 10.8},
            {"from_id": "f2", "to_id": "f4", "litres_l": 50.0, "distance_km": 480.0},
            {"from_id": "f4", "to_id": "f5", "litres_l": 46.0, "distance_km": 420.0},
        ],
        "findings": [],
        "odometer_km": 2400.0,
        "ways_km": {"sealed": 1400.0},
        "full_tanks": {"sealed": 3},
    }
    previous = called("fuel_log", "read_fuel_log", setup=SETUP, entries=STEADY[:3])
    return [
        function(
            "read_fuel_log",
            BY_HAND,
            case("nothing", bare, setup=SETUP, entries=[]),
            case("partial fills are summed", steady, setup=SETUP, entries=STEADY),
            case("continued", steady, setup=SETUP, entries=STEADY, previous=previous),
            refused(
                "a capacity of 0",
                "OutOfRange",
                "capacity_l",
                setup={"tanks": [{**TANK, "capacity_l": 0.0}]},
                entries=[],
            ),
            refused("factor 0", "OutOfRange", "factor", setup={**SETUP, "factor": 0.0}, entries=[]),
            *_findings(),
            *_answered(),
            *_ways(),
            *_surfaces(),
            *_impossible(),
            *_tanks(),
        ),
        function(
            "accuracy_of",
            BY_HAND,
            case(
                "defaults",
                {"pump_u": 0.005 / 3**0.5, "full_u_l": 1.0, "factor": 1.0, "factor_u": 0.0},
                setup=SETUP,
            ),
            case(
                "two tanks, a can apart",
                {"full_u_l": 5.0},
                setup={"tanks": [{**TANK, "full_u_l": 3.0}, {**SUB, "full_u_l": 4.0}, CAN]},
            ),
        ),
    ]


def _log(name: str, out: Json, *more: Json, setup: Json = SETUP, base: list[Json] = STEADY) -> Json:
    return case(name, out, rel=1e-9, abs=1e-9, setup=setup, entries=[*base, *more])


def _says(entry: str, code: str, standing: str, field: str, value: Any = None, **more: Any) -> Json:
    return {"entry_id": entry, "code": code, "standing": standing, "field": field, "value": value, **more}


def _findings() -> list[Json]:
    twice = {**filled(6, 2400.0, 46.0), "id": "again"}
    late = filled(6, 2100.0, 3.0, False)
    return [
        _log(
            "more than the tank holds",
            {
                "findings": [
                    _says("f6", "fill_too_large", "refused", "litres_l", 460.0, low=0.0, high=88.0, unit="L")
                ],
                "odometer_km": 2800.0,
            },
            filled(6, 2800.0, 460.0),
        ),
        _log(
            "the next segment begins anew",
            {"segments": [{}, {}, {}, {"from_id": "f7", "to_id": "f8"}]},
            filled(6, 2800.0, 460.0),
            filled(7, 3200.0, 44.0),
            filled(8, 3600.0, 44.0),
        ),
        _log(
            "full twice at one odometer value",
            {
                "findings": [_says("again", "twice_full", "refused", "odometer_km", 2400.0)],
                "segments": [{}, {}, {}],
            },
            twice,
        ),
        _log(
            "odometer below the first",
            {
                "findings": [
                    _says("f6", "odometer_backwards", "refused", "odometer_km", 240.0, low=2400.0, high=None)
                ]
            },
            filled(6, 240.0, 46.0),
        ),
        _log(
            "late",
            {
                "findings": [_says("f6", "late", "noted", "odometer_km", 2100.0)],
                "segments": [{}, {}, {"from_id": "f4", "to_id": "f5", "litres_l": 49.0}],
            },
            late,
        ),
        _log(
            "no odometer at the end",
            {"findings": [_says("f6", "no_odometer", "noted", "odometer_km")], "segments": [{}, {}, {}]},
            filled(6, None, 46.0),
        ),
        _log(
            "no odometer, then one with it",
            {"segments": [{}, {}, {}, {"litres_l": 66.0, "distance_km": 600.0}]},
            filled(6, None, 46.0),
            filled(7, 3000.0, 20.0),
        ),
        _log(
            "a surface that is not there",
            {"findings": [_says("f6", "unknown", "refused", "surface", "mud")]},
            filled(6, 2800.0, 46.0, surface={"mud": 1.0}),
        ),
        _log(
            "a fill was missed",
            {"segments": [{}, {}, {}], "findings": []},
            filled(6, 3300.0, 40.0, missed_before=True),
        ),
        _log(
            "one id twice",
            {"findings": [_says("f5", "duplicate", "refused", "id", "f5")]},
            filled(5, 2500.0, 9.0),
        ),
        _log(
            "far off",
            {
                "findings": [
                    {"entry_id": "f6", "code": "held", "standing": "held", "field": "litres_l", "value": 4.4}
                ]
            },
            filled(6, 2800.0, 4.4),
        ),
        _log(
            "further than it reaches",
            {
                "findings": [
                    {
                        "entry_id": "f6",
                        "code": "beyond_tank",
                        "standing": "held",
                        "value": 7400.0,
                        "unit": "km",
                    }
                ]
            },
            filled(6, 9800.0, 44.0),
        ),
        _log(
            "more than fits",
            {"findings": [{"entry_id": "f6", "code": "overfull", "value": 30.0}]},
            filled(6, 2410.0, 30.0, False),
        ),
    ]


def _answered() -> list[Json]:
    """Doubles, and entries that somebody found right. What is missing is what the main branch lacks."""
    again = {**filled(6, 2401.0, 46.0), "id": "again"}
    asked = {"alike": {"again": "f5"}}
    missing = 1500 * 0.107 - 70  # about: 150 L on 1400 km have told the rate
    return [
        _log(
            "one fill on two phones",
            {
                "findings": [_says("again", "alike", "held", "id", "f5")],
                "segments": [{}, {}, {"to_id": "f5"}],
                "odometer_km": 2401.0,
            },
            again,
            setup={**SETUP, **asked},
        ),
        _log(
            "at the same odometer it is asked about, too",
            {"findings": [_says("again", "alike", "held", "id", "f5")]},
            {**again, "odometer_km": 2400.0},
            setup={**SETUP, **asked},
        ),
        _log(
            "two fills after all",
            {"findings": [], "segments": [{}, {}, {}, {"from_id": "f5", "to_id": "again", "litres_l": 46.0}]},
            again,
            setup={**SETUP, "confirmed": ["again"]},
        ),
        _log(
            "found right, a full tank may be full twice",
            {"findings": [], "segments": [{}, {}, {"litres_l": 92.0}]},
            {**again, "odometer_km": 2400.0},
            setup={**SETUP, "confirmed": ["again"]},
        ),
        _log(
            "a can bought on two phones",
            {"apart": [{"tank_id": "can", "litres_l": 20.0}]},
            {**filled(6, 2400.0, 0.0), "lines": [{"tank_id": "can", "litres_l": 20.0}]},
            {**filled(7, 2400.0, 0.0), "lines": [{"tank_id": "can", "litres_l": 20.0}]},
            setup={"tanks": [TANK, CAN], "base_rate": 10.0, "alike": {"f7": "f6"}},
        ),
        case(
            "about so many litres are missing",
            {"findings": [{"code": "beyond_tank", "missing_l": missing}]},
            rel=0.0,
            abs=3.0,
            setup=SETUP,
            entries=[*STEADY, filled(6, 3900.0, 70.0)],
        ),
        case(
            "at least so many, where the tank was not filled",
            {"findings": [{"code": "beyond_tank", "missing_l": 1500 * 0.107 - 80, "missing_u_l": None}]},
            rel=0.0,
            abs=3.0,
            setup=SETUP,
            entries=[*STEADY, filled(6, 3900.0, 20.0, False)],
        ),
    ]


def _ways() -> list[Json]:
    mixed = {"sealed": 0.25, "sand": 0.75}
    wide = {**SETUP, "factor": 1.1, "factor_u": 0.0}
    return [
        _log(
            "surfaces and a trailer",
            {
                "ways_km": {"sealed": 500.0, "sealed+trailer": 50.0, "sand+trailer": 150.0},
                "mix": {"sealed+trailer": 0.25, "sand+trailer": 0.75},
                "full_tanks": {"sealed": 1, "sand+trailer": 1},
            },
            filled(3, 1700.0, 30.0, surface=mixed, towing=True),
            base=STEADY[:2],
        ),
        _log(
            "blank is as before",
            {"ways_km": {"sealed": 500.0, "gravel": 900.0}},
            filled(3, 1700.0, 30.0, surface={"gravel": 1.0}),
            filled(5, 2400.0, 60.0),
            base=STEADY[:2],
        ),
        _log(
            "true km",
            {"segments": [{"distance_km": 550.0, "l_per_100km": 54 / 5.5}], "ways_km": {"sealed": 550.0}},
            setup=wide,
            base=STEADY[:2],
        ),
        _log(
            "other tyres at 1500",
            {"segments": [{"distance_km": 500.0}, {"distance_km": 330.0}]},
            changed(2.5, 1500.0, ratio=1.1),
            filled(3, 1800.0, 33.0),
            setup=wide,
            base=STEADY[:2],
        ),
    ]


def _tanks() -> list[Json]:
    two = {**SETUP, "tanks": [TANK, SUB, CAN]}

    def both(day: float, odometer: float, main: float, sub: float, can: float = 0.0) -> Json:
        lines = [
            {"tank_id": "main", "litres_l": main, "full": True},
            {"tank_id": "sub", "litres_l": sub, "full": True},
        ]
        more = [{"tank_id": "can", "litres_l": can}] if can else []
        return {**filled(day, odometer, 0.0), "lines": [*lines, *more]}

    return [
        _log(
            "both tanks full close a segment",
            {"segments": [{"litres_l": 60.0, "distance_km": 600.0}]},
            both(1, 1000.0, 20.0, 20.0),
            filled(2, 1300.0, 30.0),
            both(3, 1600.0, 28.0, 2.0),
            setup=two,
            base=[],
        ),
        _log(
            "a can is bought, then burnt",
            {
                "segments": [{"litres_l": 50.0, "distance_km": 500.0}],
                "apart": [{"tank_id": "can", "litres_l": 5.0}],
            },
            both(1, 1000.0, 20.0, 20.0, 20.0),
            moved(2, 1200.0, "can", "main", 15.0),
            both(3, 1500.0, 33.0, 2.0),
            setup=two,
            base=[],
        ),
        _log(
            "more out of a can than it held",
            {
                "findings": [_says("t2", "can_short", "asked", "litres_l", 18.0, low=0.0, high=10.0)],
                "apart": [{"tank_id": "can", "litres_l": 0.0}],
            },
            both(1, 1000.0, 20.0, 20.0, 10.0),
            moved(2, 1200.0, "can", "main", 18.0),
            setup=two,
            base=[],
        ),
        _log(
            "given away is not burnt",
            {"segments": [{"litres_l": 40.0}]},
            both(1, 1000.0, 20.0, 20.0),
            moved(2, 1200.0, "sub", None, 10.0),
            both(3, 1400.0, 40.0, 10.0),
            setup=two,
            base=[],
        ),
        _log(
            "read twice is read once",
            {"journal": {"outcomes": [{}, {"readings": []}, {"entry_id": "d3"}]}},
            dipped(2, 1300.0, 0.5),
            dipped(3, 1300.4, 0.55),
            base=STEADY[:1],
        ),
    ]


def _surfaces() -> list[Json]:
    """A surface said without a fill: the way since is driven on it, and it is what lies ahead."""
    sand = changed(6, 2500.0, rate_u=0.0, surface={"sand": 1.0})
    nowhere = {**sand, "odometer_km": None}
    steady = {"sealed": 1400.0}
    return [
        _log("sand since the last fill", {"mix": {"sand": 1.0}, "ways_km": {**steady, "sand": 100.0},
                                          "odometer_km": 2500.0, "segments": [{}, {}, {}]}, sand),
        _log("towed, and nobody knows how far: the class is there with its guess",
             {"mix": {"sealed+trailer": 1.0}, "ways_km": steady,
              "model": {"class_ids": ["sealed", "sealed+trailer"], "rate0": [10.0, 14.0]}},
             filled(6, None, 20.0, False, towing=True)),
        _log("sand, and no odometer", {"mix": {"sand": 1.0}, "ways_km": steady, "odometer_km": 2400.0}, nowhere),
    ]  # fmt: skip


def _impossible() -> list[Json]:
    """What cannot be is refused of its entry, never of the log."""
    store = {"id": "store", "capacity_l": 200.0, "drawn": False}
    stored = {**filled(6, 2400.0, 0.0), "lines": [{"tank_id": "store", "litres_l": 150.0}]}
    setup = {**SETUP, "tanks": [TANK, store]}
    exact = {"how": "stick", "litres_l": 69.0, "litres_u_l": 0.0, "level": None}
    open_ = {"journal": {"state": {"main": {"unknown": ["main"]}}}}

    def much(value: float) -> Json:
        return _says("t7", "fill_too_large", "refused", "litres_l", value, low=0.0, high=88.0, unit="L")

    return [
        _log("more moved than the tank holds", {"findings": [much(100.0)], **open_},
             moved(7, 2500.0, "store", "main", 100.0), setup=setup),
        _log("all of a store that holds more than the tank",
             {"findings": [much(150.0)], "apart": [{"tank_id": "store", "litres_l": 150.0}], **open_},
             stored, moved(7, 2500.0, "store", "main", None, everything=True), setup=setup),
        _log("moved, but not said how much", open_, moved(7, 2500.0, "main", None, None), setup=setup),
        _log("a level read twice without any doubt",
             {"findings": [], "journal": {"outcomes": [{}, {}, {}, {}, {}, {}, {}, {"held": None}]}},
             {**dipped(6, 2500.0, 0.0), **exact},
             {**filled(7, 2500.0, 0.0), "lines": [{"tank_id": "main", "litres_l": 5.0, "litres_u_l": 0.0}]},
             {**dipped(8, 2500.0, 0.0), **exact, "litres_l": 74.0}),
    ]  # fmt: skip
