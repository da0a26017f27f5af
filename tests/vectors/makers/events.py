"""Vectors of events: what is refused."""

from typing import Any

import numpy as np
from vectors.frame import case, function, refused
from vectors.tanks import fill, full, gauge, use

START = {"kind": "start", "tank_id": "main", "litres_l": 40.0, "litres_u_l": 1.0}


def functions(rng: np.random.Generator) -> list[dict[str, Any]]:
    return [
        function(
            "check_event",
            "the list of refusals of the specification (section I)",
            case("a fill of nothing", event=fill(0.0), tanks=1, capacity_l=80.0),
            case("a use of nothing", event=use(0.0), tanks=1),
            case("the largest fill", event=fill(88.0), tanks=1, capacity_l=80.0),
            refused(
                "u of a full tank below 0",
                "OutOfRange",
                "litres_u_l",
                event={**full(), "litres_u_l": -1.0},
                tanks=1,
            ),
            case("an empty gauge", event=gauge(0.0), tanks=1),
            case("a start", event=START, tanks=1),
            refused("fill above 1.1 C", "OutOfRange", "litres_l", event=fill(88.1), tanks=1, capacity_l=80.0),
            refused("fill below 0", "OutOfRange", "litres_l", event=fill(-1.0), tanks=1, capacity_l=80.0),
            refused("fill as text", "DomainError", "litres_l", event=fill("54"), tanks=1),  # type: ignore[arg-type]
            refused("u of a fill below 0", "OutOfRange", "litres_u_l", event=fill(5.0, u=-1.0), tanks=1),
            refused("distance below 0", "OutOfRange", "amount", event=use(-1.0), tanks=1),
            refused("gauge above 1", "OutOfRange", "fraction", event=gauge(1.01), tanks=1),
            refused("gauge below 0", "OutOfRange", "fraction", event=gauge(-0.01), tanks=1),
            refused("u of a gauge below 0", "OutOfRange", "fraction_u", event=gauge(0.5, u=-0.1), tanks=1),
            refused("start below 0", "OutOfRange", "litres_l", event={**START, "litres_l": -1.0}, tanks=1),
            refused(
                "no tank is full", "NotKnown", "tank_ids", event={"kind": "full", "tank_ids": []}, tanks=1
            ),
            refused("one tank full twice", "Duplicate", "tank_ids", event=full("main", "main"), tanks=1),
            refused(
                "a change below 0", "OutOfRange", "rate_u", event={"kind": "change", "rate_u": -0.1}, tanks=1
            ),
            refused("a ratio of 0", "OutOfRange", "ratio", event={"kind": "rescale", "ratio": 0.0}, tanks=1),
        ),
        function(
            "check_shares",
            "the list of refusals of the specification (section I)",
            case("one tank gives all", shares=[], tanks=1),
            case("three tanks", shares=[0.2, 0.5, 0.3], tanks=3),
            refused("sum 0.9", "OutOfRange", "shares", shares=[0.5, 0.4], tanks=2),
            refused("one below 0", "OutOfRange", "shares", shares=[1.5, -0.5], tanks=2),
            refused("one is missing", "DomainError", "shares", shares=[1.0], tanks=2),
            refused("two tanks, none said", "DomainError", "shares", shares=[], tanks=2),
        ),
    ]
