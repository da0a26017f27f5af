"""Vectors of the checks of what happens along a way."""

from typing import Any

import numpy as np
from vectors.frame import case, function, refused

Json = Any
SOURCE = "the list of refusals of the specification (section I)"
MAIN = {"id": "main", "holds": "fuel", "capacity_l": 80.0, "litres_l": 60.0, "x_m": 2.0}
ROWS = ["front", "rear"]


def functions(rng: np.random.Generator) -> list[Json]:
    return [
        function(
            "check_vessels",
            SOURCE,
            case("one tank", vessels=[MAIN]),
            refused("one id twice", "Duplicate", "id", vessels=[MAIN, MAIN]),
            _wrong("capacity 0", "OutOfRange", "capacity_l", capacity_l=0.0),
            _wrong("more than it holds", "OutOfRange", "litres_l", litres_l=81.0),
            _wrong("density 0", "OutOfRange", "density_kg_per_l", density_kg_per_l=0.0),
            _wrong("u below 0", "OutOfRange", "litres_u_l", litres_u_l=-1.0),
            _wrong("u of a full tank below 0", "OutOfRange", "full_u_l", full_u_l=-1.0),
            _wrong("a share above 1", "OutOfRange", "grey_fraction", grey_fraction=1.1),
            _wrong("a grey tank that is not there", "Unknown", "grey_id", grey_id="grey"),
        ),
        function(
            "check_happenings",
            SOURCE,
            case("a way", vessels=[MAIN], events=[_way(10.0, fuel=1.0)], rows=ROWS),
            _event("a length below 0", "OutOfRange", "distance_km", _way(-1.0)),
            _event("litres below 0", "OutOfRange", "used_l", _way(1.0, fuel=-1.0)),
            _event("what no tank holds", "Unknown", "holds", _way(1.0, water=1.0)),
            _event("taken on what no tank holds", "Unknown", "holds", {"kind": "take", "holds": "water"}),
            _event(
                "litres below 0",
                "OutOfRange",
                "litres_l",
                {"kind": "take", "holds": "fuel", "litres_l": -1.0},
            ),
            _event("an unknown tank let out", "Unknown", "tank_id", {"kind": "empty", "tank_id": "grey"}),
            _event("other rows", "DomainError", "rows", {"kind": "rest", "loads": LOADS}),
        ),
    ]


LOADS = {"rows": ["gross"], "mean_kg": [1.0], "cov_kg2": [[1.0]]}


def _way(distance: float, **used: float) -> Json:
    return {"kind": "way", "distance_km": distance, "used_l": used}


def _wrong(name: str, error: str, field: str, **more: Any) -> Json:
    return refused(name, error, field, vessels=[{**MAIN, **more}])


def _event(name: str, error: str, field: str, event: Json) -> Json:
    return refused(name, error, field, vessels=[MAIN], events=[event], rows=ROWS)
