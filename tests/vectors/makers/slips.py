"""Vectors of slips: each slip made on purpose in readings that fit, found again; p from scipy."""

from typing import Any

import numpy as np
from scipy import stats
from vectors.frame import case, function
from vectors.makers.deck import BRIDGE, MARA, SETUP, SOLO, TOW, plain_covariance, read

GIVEN = {"bridge": BRIDGE, "setup": SETUP}
FRONT, WHOLE, REAR = (read("f", "front", 1350.0), read("w", "front+rear", 3140.0), read("r", "rear", 1790.0))


def typed(*readings: dict[str, Any]) -> dict[str, Any]:
    return {one["id"]: {"digits": f"{one['value_kg']:.0f}"} for one in readings}


def p_of(front: float, whole: float, rear: float) -> float:
    """One redundancy: whole - front - rear with the variance of that difference."""
    values = [front, whole, rear]
    turn = np.array([-1.0, 1.0, -1.0])
    variance = float(turn @ np.array(plain_covariance(values)) @ turn)
    return float(stats.chi2.sf((whole - front - rear) ** 2 / variance, 1))


def found(
    readings: list[dict[str, Any]], wanted: list[dict[str, Any]], deck: dict[str, Any], **more: Any
) -> dict[str, Any]:
    name = more.pop("name")
    return case(name, wanted, readings=readings, deck=deck, **GIVEN, typed=typed(*readings, **more), rel=1e-7)


def slip(reading: dict[str, Any], kind: str, value_kg: float, p: float | None, **more: Any) -> dict[str, Any]:
    return {
        "reading_id": reading["id"],
        "kind": kind,
        "value_kg": value_kg,
        "axles": reading["axles"],
        "part_id": None,
        "p": p,
        **more,
    }


def slipped() -> list[dict[str, Any]]:
    swapped = {**WHOLE, "value_kg": 3410.0}
    pounds = {**FRONT, "value_kg": 2980.0}
    kilos = 2980.0 * 0.45359237
    out = {**SOLO, "occupants": [{**MARA, "x_u_m": 0.0}]}
    again = {**FRONT, "id": "r", "value_kg": 1790.0}
    alone = {**read("w", "front+rear", 3060.0)}
    return [
        found(
            [FRONT, swapped, REAR],
            [slip(WHOLE, "digits_swapped", 3140.0, p_of(1350.0, 3140.0, 1790.0))],
            SOLO,
            name="two digits swapped",
        ),
        found(
            [pounds, WHOLE, REAR],
            [slip(FRONT, "pounds", kilos, p_of(kilos, 3140.0, 1790.0))],
            SOLO,
            name="pounds for kilograms",
        ),
        found(
            [FRONT, again, WHOLE],
            [
                slip(FRONT, "wrong_axles", 1350.0, p_of(1790.0, 3140.0, 1350.0), axles=["rear"]),
                slip(again, "wrong_axles", 1790.0, p_of(1350.0, 3140.0, 1790.0), axles=["rear"]),
            ],
            SOLO,
            name="the wrong axle touched, twice the front",
        ),
        found(
            [FRONT, alone, REAR],
            [
                slip(alone, "somebody_out", 3060.0, 1.0, part_id="s1:occupant"),
                slip(REAR, "digits_swapped", 1709.0, p_of(1350.0, 3060.0, 1709.0)),
            ],
            out,
            name="the driver out, or two digits swapped",
        ),
        case(
            "what the scale does not reach was not read",
            [],
            readings=[
                {**FRONT, "value_kg": 1000.0},
                {**WHOLE, "value_kg": 1349.0},
                {**REAR, "value_kg": 2139.0},
            ],
            deck=SOLO,
            bridge={**BRIDGE, "interval_kg": 2.2, "accuracy_class": "IIII"},
            setup=SETUP,
            typed={"w": {"digits": "1349"}},
        ),
        case("no readings", [], readings=[], deck=SOLO, **GIVEN, typed={}),
    ]


def repeats() -> list[dict[str, Any]]:
    # d = 10, w = 1360: sd = sqrt(2 (100/12 + 4.08^2)) = 7.07, so 28.3 kg is the most that one load may differ
    near, far = {**FRONT, "id": "g", "value_kg": 1360.0}, {**FRONT, "id": "g", "value_kg": 1380.0}
    other = {**far, "without": ["s1:occupant"]}
    return [
        case("near enough", [], readings=[FRONT, near, WHOLE], bridge=BRIDGE),
        case("too far apart", ["f", "g"], readings=[FRONT, far, WHOLE], bridge=BRIDGE),
        case("another state is no repeat", [], readings=[FRONT, other], bridge=BRIDGE),
    ]


def again() -> list[dict[str, Any]]:
    wrong = [FRONT, {**WHOLE, "value_kg": 3410.0}, REAR]
    planned = {
        "rows": ["front", "rear"],
        "mean_kg": [1340.0, 2040.0],
        "cov_kg2": [[100.0, 0.0], [0.0, 100.0]],
    }
    towing = [
        *(read("1", "front", 1300.0), read("2", "front+rear", 3200.0), read("7", "rear", 1900.0)),
        *(read("3", "front+rear+trailer_axles", 4540.0), read("4", "trailer_axles", 940.0)),
    ]
    apart = [FRONT, {**FRONT, "id": "g", "value_kg": 1450.0}, WHOLE]
    return [
        case("without a plan the whole", "w", readings=wrong, deck=SOLO, **GIVEN, planned=None),
        case("the one farthest from the plan", "r", readings=wrong, deck=SOLO, **GIVEN, planned=planned),
        case("two redundancies point at one of two", "3", readings=towing, deck=TOW, **GIVEN, planned=None),
        case("repeats apart come first", "g", readings=apart, deck=SOLO, **GIVEN, planned=None),
        case("nothing read", None, readings=[], deck=SOLO, **GIVEN, planned=None),
    ]


def functions(rng: np.random.Generator) -> list[dict[str, Any]]:
    return [
        function("slips", "slips made on purpose; scipy.stats.chi2", *slipped()),
        function("repeats_apart", "the rule by hand", *repeats()),
        function("to_repeat", "the rule by hand", *again()),
        function(
            "swapped_digits",
            "written out by hand",
            case("four digits", ["4310", "3140", "3401"], digits="3410"),
            case("alike digits are one figure", ["3132", "1323"], digits="1332"),
            case("no leading zero", ["1300", "1003"], digits="1030"),
            case("a decimal point stays where it is", ["4.38", "3.84"], digits="3.48"),
        ),
    ]
