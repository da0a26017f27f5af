"""Vectors of weighing: the worked example, and the covariance written out by hand."""

from typing import Any

import numpy as np
from vectors.frame import by_order, case, function, refused, refused_by_order
from vectors.makers.bridge import FINE, PADS

SETUP = {
    "total_kg": 2800.0,
    "wheelbase_m": 3.2,
    "cg_height_m": 0.8,
    "deck_u_m": 0.02,
    "friction_share": 0.003,
}
FRONT = {"id": "f", "axles": ["front"], "value_kg": 1350.0, "split": True}
REAR = {"id": "r", "axles": ["rear"], "value_kg": 1450.0, "split": True}
WHOLE = {"id": "w", "axles": ["front", "rear"], "value_kg": 2830.0}
READINGS = [FRONT, REAR, WHOLE]
PAD = {"id": "p", "axles": ["front_left"], "value_kg": 600.0}
GAIN2, ZERO2 = 0.00075**2 / 3, 2.5**2 / 3


def plain_covariance(rho: float = 0.0, own_share: float = 1.0, gain: float = GAIN2) -> list[list[float]]:
    """Example B's V, term by term: MPE 10 kg in service, d = e = 10 kg, tilt 4.375 kg."""
    values, split, tilt2 = [1350.0, 1450.0, 2830.0], [True, True, False], (2800 * 0.8 * 0.02 / 3.2**2) ** 2
    out = [[gain * a * b + ZERO2 for b in values] for a in values]
    for i, value in enumerate(values):
        own = max(100 / 3 - GAIN2 * value**2 - ZERO2, 0.0)
        out[i][i] += 100 / 12 + own_share * own + ((0.003 * value) ** 2 + tilt2 if split[i] else 0.0)
    out[0][1] += rho * tilt2
    out[1][0] += rho * tilt2
    return out


def errors() -> list[dict[str, Any]]:
    example = {
        "rounding_kg": 8.3333**0.5,
        "own_kg": 30.8558**0.5,
        "zero_kg": 1.443376,
        "tilt_kg": 4.375,
        "total_kg": 8.9292,
    }
    thrice = {"friction_kg": 0.003 * 1450 / 3**0.5, "tilt_kg": 4.375, "own_kg": 30.85578125**0.5}
    pads = {"rounding_kg": 5 / 12**0.5, "gain_kg": 6 / 3**0.5, "zero_kg": 0.0, "own_kg": 0.0, "tilt_kg": 0.0}
    return [
        case("example B", example, reading=REAR, bridge=FINE, setup=SETUP, rel=0.0, abs=5e-5),
        case(
            "three repeats divide only friction",
            thrice,
            reading={**REAR, "repeats": 3},
            bridge=FINE,
            setup=SETUP,
        ),
        case("whole on the deck", {"tilt_kg": 0.0, "friction_kg": 0.0}, reading=WHOLE, bridge=FINE),
        case("a pad", pads, reading=PAD, bridge=PADS),
        refused(
            "no displayed interval",
            "OutOfRange",
            "displayed_kg",
            reading=REAR,
            bridge={**FINE, "displayed_kg": 0.0},
        ),
        refused("split without a set-up", "NotKnown", "cg_height_m", reading=REAR, bridge=FINE),
        refused(
            "no height",
            "OutOfRange",
            "cg_height_m",
            reading=REAR,
            bridge=FINE,
            setup={**SETUP, "cg_height_m": 0.0},
        ),
        refused(
            "beyond the class", "OutOfRange", "load_kg", reading={**WHOLE, "value_kg": 100_001.0}, bridge=FINE
        ),
    ]


def covariances() -> list[dict[str, Any]]:
    def given(**more: Any) -> dict[str, Any]:
        return {"readings": READINGS, "bridge": FINE, "setup": SETUP, **more}

    def slope(rho: float) -> dict[str, Any]:
        return {**SETUP, "level_correlation": rho}

    pads = [
        {**PAD, "id": str(i), "axles": [wheel], "deck": deck}
        for i, (wheel, deck) in enumerate(
            [("front_left", "one"), ("front_right", "two"), ("rear_left", "one")]
        )
    ]
    gain, round_ = 0.01**2 / 3 * 600**2, 25 / 12
    by_pad = [[gain + round_, 0.0, gain], [0.0, gain + round_, 0.0], [gain, 0.0, gain + round_]]
    return [
        case("example B", plain_covariance(), **given()),
        case("constant slope", plain_covariance(-1.0), **given(setup=slope(-1.0))),
        case("a proud deck", plain_covariance(1.0), **given(setup=slope(1.0))),
        case("what is not a state", plain_covariance(0.0, 0.5, 0.0), **given(with_gain=False, own_share=0.5)),
        case("one pad moved adds linearly, another does not", by_pad, readings=pads, bridge=PADS),
        refused(
            "slope of three",
            "OutOfRange",
            "level_correlation",
            **given(readings=[FRONT, REAR, {**REAR, "id": "x", "axles": ["rear_2"]}], setup=slope(-0.6)),
        ),
        refused(
            "repeats not merged", "Duplicate", "axles", **given(readings=[REAR, {**REAR, "id": "again"}])
        ),
        refused("nothing on the deck", "OutOfRange", "axles", **given(readings=[{**REAR, "axles": []}])),
    ]


def merging() -> list[dict[str, Any]]:
    again = {**REAR, "id": "r2", "value_kg": 1470.0}
    turned = {**REAR, "id": "r3", "approach": "from the other side"}
    alone = {**REAR, "id": "r4", "without": ["driver"]}
    apart = {**REAR, "id": "r5", "uncoupled": True}
    swapped = {**WHOLE, "id": "w2", "axles": ["rear", "front"], "value_kg": 2850.0}
    return [
        case("mean of two", [{"id": "r", "value_kg": 1460.0, "repeats": 2}], readings=[REAR, again]),
        case(
            "mean of means",
            [{"value_kg": 1455.0, "repeats": 4}],
            readings=[{**REAR, "repeats": 3}, again],
        ),
        case("order of axles does not matter", [{"id": "w", "value_kg": 2840.0}], readings=[WHOLE, swapped]),
        case(
            "another approach or state is another reading",
            [{"id": "r"}, {"id": "r3"}, {"id": "r4"}, {"id": "r5"}],
            readings=[REAR, turned, alone, apart],
        ),
    ]


def functions(rng: np.random.Generator) -> list[dict[str, Any]]:
    return [
        function("reading_error", "worked example B; by hand", *errors()),
        function("reading_covariance", "term by term, by hand", *covariances()),
        function("merge_repeats", "by hand", *merging()),
        function(
            "tilt_u",
            "moment balance M h dh / L^2; Jazar, Vehicle Dynamics, eq. 2.75-2.76 (second-hand), numbers ours",
            by_order(
                "one per cent of slope",
                [{**SETUP, "total_kg": 3500.0, "cg_height_m": 0.9, "deck_u_m": 0.032}],
                9.84375,
            ),
            by_order("example B", [SETUP], 4.375),
            refused_by_order("no set-up", [None], "NotKnown", "cg_height_m"),
        ),
    ]
