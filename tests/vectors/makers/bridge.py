"""Vectors of bridge: the table of permissible errors at its steps, and the worked example."""

from typing import Any

import numpy as np
from vectors.frame import case, function, refused

ROOT3 = 3**0.5
PUBLIC = {"key": "b", "interval_kg": 20.0, "displayed_kg": 20.0, "accuracy_class": "III", "max_kg": 60_000.0}
FINE = {"key": "b", "interval_kg": 10.0, "displayed_kg": 10.0, "accuracy_class": "III", "max_kg": 40_000.0}
PADS = {**PUBLIC, "interval_kg": 5.0, "displayed_kg": 5.0, "percent": 1.0}
ROUGH = {**PUBLIC, "accuracy_class": "IIII", "max_kg": 10_000.0}
TABLE = "UK S.I. 1995/1907 schedule 2 table 3 (read); OIML R 76-1:2006 table 6 (from memory)"


def mpe(name: str, load: float, e: float, accuracy: str, initial: float) -> list[dict[str, Any]]:
    """The same load at verification and in service, where twice as much is permitted."""
    given = {"load_kg": load, "interval_kg": e, "accuracy_class": accuracy}
    return [
        case(f"{name}, initial", initial, **given, in_service=False),
        case(f"{name}, in service", 2 * initial, **given),
    ]


def functions(rng: np.random.Generator) -> list[dict[str, Any]]:
    rows = [
        ("nothing", 0.0, 20.0, "III", 10.0),
        ("500 e", 10_000.0, 20.0, "III", 10.0),
        ("just over 500 e", 10_001.0, 20.0, "III", 20.0),
        ("2 000 e", 40_000.0, 20.0, "III", 20.0),
        ("10 000 e", 200_000.0, 20.0, "III", 30.0),
        ("3 500 kg, e 5", 3500.0, 5.0, "III", 5.0),
        ("3 500 kg, e 10", 3500.0, 10.0, "III", 5.0),
        ("3 500 kg, e 20", 3500.0, 20.0, "III", 10.0),
        ("IIII, 50 e", 1000.0, 20.0, "IIII", 10.0),
        ("IIII, 1 500 kg", 1500.0, 20.0, "IIII", 20.0),
        ("IIII, 3 500 kg", 3500.0, 20.0, "IIII", 20.0),
        ("IIII, 1 000 e", 20_000.0, 20.0, "IIII", 30.0),
    ]
    given = {"interval_kg": 20.0, "accuracy_class": "III"}
    public = {"interval_kg": 20.0, "displayed_kg": 20.0, "accuracy_class": "III", "max_kg": 60_000.0}
    return [
        function(
            "bridge_key",
            "by hand",
            case("the key first", "hb-7", bridge={"key": "HB-7", "name": "Hill"}),
            case("then the site number", "hb8", bridge={"site_number": " HB 8", "name": "Hill"}),
            case("then the name", "hillbridge", bridge={"name": "Hill  Bridge", "site_number": ""}),
            case("none of them", None, bridge={"name": " ", "key": None}),
        ),
        function(
            "bridge_of",
            "the common public truck bridge (common practice, no source); by hand",
            case("blanks", {"key": "w", **public, "percent": None}, key="w", body={}),
            case(
                "as written down",
                {"key": "hill", **public, "interval_kg": 10.0, "displayed_kg": 5.0, "accuracy_class": "IIII"},
                key="w",
                body={
                    "name": "Hill",
                    "interval_kg": 10,
                    "displayed_interval_kg": 5,
                    "accuracy_class": "IIII",
                },
            ),
            case(
                "in percent",
                {"percent": 1.5, "accuracy_class": "III"},
                key="w",
                body={"accuracy_class": "percent", "percent": 1.5},
            ),
            case("percent of another class", {"percent": None}, key="w", body={"percent": 1.5}),
            refused("percent blank", "NotKnown", "percent", key="w", body={"accuracy_class": "percent"}),
        ),
        function(
            "reach_kg",
            TABLE,
            case("III", 200_000.0, bridge=PUBLIC),
            case("IIII", 20_000.0, bridge=ROUGH),
            case("pads have no table", None, bridge=PADS),
            refused("class", "Unknown", "accuracy_class", bridge={**PUBLIC, "accuracy_class": "II"}),
        ),
        function(
            "can_weigh",
            TABLE,
            case("1 000 e of IIII", True, bridge=ROUGH, value_kg=20_000.0),
            case("just over", False, bridge=ROUGH, value_kg=20_000.1),
            case("pads", True, bridge=PADS, value_kg=1e6),
        ),
        function(
            "permissible_error",
            TABLE,
            *(one for row in rows for one in mpe(*row)),
            refused("beyond the table", "OutOfRange", "load_kg", load_kg=200_001.0, **given),
            refused("below zero", "OutOfRange", "load_kg", load_kg=-1.0, **given),
            refused(
                "no interval", "OutOfRange", "interval_kg", load_kg=1.0, interval_kg=0.0, accuracy_class="III"
            ),
            refused("class", "Unknown", "accuracy_class", load_kg=1.0, interval_kg=20.0, accuracy_class="II"),
        ),
        function(
            "gain_u",
            "worked example B (u_g 0.000433013); by hand from the table's steps",
            case("example B", 0.000433013, bridge=FINE, rel=0.0, abs=5e-10),
            case("public bridge: 0.001/sqrt 3", 0.001 / ROOT3, bridge=PUBLIC),
            case("Max within the first step", 20.0 / 8000.0 / ROOT3, bridge={**PUBLIC, "max_kg": 8000.0}),
            case("class IIII: 3 e at 500 e", 60.0 / 10_000.0 / ROOT3, bridge=ROUGH),
            case("pads, 1 %", 0.01 / ROOT3, bridge=PADS),
            refused("no Max", "OutOfRange", "max_kg", bridge={**PUBLIC, "max_kg": 0.0}),
            refused("percent", "OutOfRange", "percent", bridge={**PADS, "percent": 0.0}),
        ),
        function(
            "zero_u",
            "worked example B (1.443376)",
            case("example B", 1.443376, bridge=FINE, rel=0.0, abs=5e-7),
            case("pads", 0.0, bridge=PADS),
        ),
        function(
            "own_variance",
            "worked example B (30.8558); by hand",
            case("example B", 30.8558, bridge=FINE, value_kg=1450.0, rel=0.0, abs=5e-5),
            case("public bridge, 3 t", 400 / 3 - (3.0 / ROOT3) ** 2 - 25 / 3, bridge=PUBLIC, value_kg=3000.0),
            case("never below zero", 0.0, bridge=FINE, value_kg=40_000.0),
            case("pads", 0.0, bridge=PADS, value_kg=900.0),
        ),
        function(
            "below_min",
            "OIML R 76-1 (from memory)",
            case("399 kg on e 20", True, bridge=PUBLIC, value_kg=399.0),
            case("400 kg on e 20", False, bridge=PUBLIC, value_kg=400.0),
            case("class IIII", False, bridge=ROUGH, value_kg=200.0),
            case("pads have none", False, bridge=PADS, value_kg=1.0),
        ),
    ]
