"""Vectors of placing: order and findings by hand."""

from typing import Any

import numpy as np
from vectors.frame import case, function
from vectors.logs import BY_HAND

Json = Any


def functions(rng: np.random.Generator) -> list[Json]:
    return [
        function("place", BY_HAND, *_places()),
        function(
            "longest_rise",
            BY_HAND,
            case("nothing", [], values=[]),
            case("rising", [0, 1, 2], values=[1.0, 2.0, 2.0]),
            case("falling: the first is kept", [0], values=[3.0, 2.0, 1.0]),
            case("a digit too many", [0, 1, 3, 4], values=[1.0, 2.0, 30.0, 4.0, 5.0]),
            case("a digit too few", [0, 1, 3], values=[100.0, 200.0, 30.0, 400.0]),
            case("of two as long the one that ends early", [0, 1, 2], values=[1.0, 5.0, 13.0, 9.0]),
        ),
    ]


def _entry(id: str, at: float, odometer: float | None, sequence: int | None = None) -> Json:
    return {
        "id": id,
        "at_s": at,
        "sequence": int(at) if sequence is None else sequence,
        "odometer_km": odometer,
    }


def _found(id: str, code: str, standing: str, value: float, low: float | None, high: float | None) -> Json:
    about = {"entry_id": id, "code": code, "standing": standing, "field": "odometer_km", "unit": "km"}
    return {**about, "value": value, "low": low, "high": high}


def _places() -> list[Json]:
    steady = [_entry("a", 1, 100.0), _entry("b", 2, 500.0), _entry("c", 3, 900.0)]
    late = _entry("z", 4, 700.0)
    far = _entry("x", 4, 9000.0)
    after = [_entry("d", 5, 1300.0), _entry("e", 6, 1700.0)]
    return [
        case("nothing", {"ids": [], "findings": []}, entries=[]),
        case("in order", {"ids": ["a", "b", "c"], "findings": []}, entries=list(reversed(steady))),
        case(
            "entered late, takes its place by odometer",
            {"ids": ["a", "b", "z", "c"], "findings": [_found("z", "late", "noted", 700.0, None, None)]},
            entries=[*steady, late],
        ),
        case(
            "the last one may still be right",
            {"ids": ["a", "b", "c", "x"], "findings": []},
            entries=[*steady, far],
        ),
        case(
            "two later ones say that it is not",
            {
                "ids": ["a", "b", "c", "d", "e"],
                "findings": [_found("x", "odometer_backwards", "refused", 9000.0, 900.0, 1300.0)],
            },
            entries=[*steady, far, *after],
        ),
        case(
            "before the first",
            {
                "ids": ["a", "b", "c"],
                "findings": [_found("y", "odometer_backwards", "refused", 90.0, 900.0, None)],
            },
            entries=[*steady, _entry("y", 4, 90.0)],
        ),
        case(
            "without odometer by time",
            {"ids": ["n", "a", "m", "b", "c"], "findings": []},
            entries=[*steady, _entry("m", 1.5, None), _entry("n", 0.5, None)],
        ),
        case(
            "one odometer value: by time, then by recording",
            {"ids": ["p", "q", "r"], "findings": []},
            entries=[_entry("r", 2, 10.0, 9), _entry("q", 2, 10.0, 3), _entry("p", 1, 10.0, 7)],
        ),
    ]
