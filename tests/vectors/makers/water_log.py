"""Vectors of the water log: findings and what may be drunk, by hand."""

from typing import Any

import numpy as np
from vectors.frame import case, function, refused
from vectors.logs import BY_HAND, DAY, dipped, moved, watered

Json = Any
FRESH = {"id": "fresh", "capacity_l": 90.0}
CAN = {"id": "can", "capacity_l": 20.0, "drawn": False}
HOT = {"kind": "change", "id": "c2", "at_s": 2 * DAY, "sequence": 20, "odometer_km": None, "rate_u": 0.33}
SETUP: Json = {
    "tanks": [FRESH, CAN],
    "presences": [{"share": 1.0, "from_s": 0.0}, {"share": 1.0, "from_s": 0.0}],
}


def functions(rng: np.random.Generator) -> list[Json]:
    yes = watered(0, 50.0, full=True, drinkable="yes")
    drained = dipped(5, None, 0.0, tank_id="fresh", how="tube", level_u=0.005)
    return [
        function(
            "read_water_log",
            BY_HAND,
            _log("nothing", {"until_s": None, "findings": [], "qualities": _words("unknown", "unknown")}),
            _log("heat before anything was logged", {"until_s": None, "journal": {"steps": []}}, HOT),
            _log(
                "heat since", {"until_s": 2 * DAY, "journal": {"steps": [{}, {}]}, "findings": []}, yes, HOT
            ),
            _log("drinkable", {"until_s": 0.0, "qualities": _words("yes", "unknown")}, yes),
            _log("not known on top", {"qualities": _words("unknown", "unknown")}, yes, watered(2, 20.0)),
            _log(
                "not drinkable on top",
                {"qualities": _words("no", "unknown")},
                yes,
                watered(2, 20.0, drinkable="no"),
                watered(3, 10.0, drinkable="yes"),
            ),
            _log(
                "drained, then filled again",
                {"qualities": _words("yes", "unknown"), "findings": []},
                yes,
                watered(2, 12.0, drinkable="no"),
                drained,
                watered(5.1, 60.0, drinkable="yes"),
            ),
            _log(
                "poured over",
                {"qualities": _words("no", "no"), "apart": [{"tank_id": "can", "litres_l": 5.0}]},
                yes,
                watered(1, 15.0, tank="can", drinkable="no"),
                moved(2, None, "can", "fresh", 10.0),
            ),
            _log(
                "a can drunk empty and filled",
                {"qualities": _words("unknown", "yes")},
                watered(1, 15.0, tank="can", drinkable="no"),
                watered(2, 15.0, "draw", tank="can"),
                watered(3, 20.0, tank="can", drinkable="yes"),
            ),
            _log(
                "more than it holds",
                {"findings": [{"entry_id": "w2", "code": "fill_too_large", "high": 99.0}]},
                yes,
                watered(2, 990.0),
            ),
            _log(
                "a reading far off",
                {"findings": [{"entry_id": "d1", "code": "held", "field": "level", "value": 0.1}]},
                yes,
                dipped(1, None, 0.1, tank_id="fresh"),
            ),
            case(
                "a clock ten years ahead",
                {"findings": [{"entry_id": "w3650", "field": "at_s"}], "until_s": 0.0},
                setup=SETUP,
                entries=[yes, watered(3650, 50.0)],
                now_s=5 * DAY,
            ),
            refused(
                "capacity 0",
                "OutOfRange",
                "capacity_l",
                setup={"tanks": [{**FRESH, "capacity_l": 0.0}]},
                entries=[],
            ),
        ),
    ]


def _log(name: str, out: Json, *entries: Json) -> Json:
    return case(name, out, rel=1e-9, abs=1e-9, setup=SETUP, entries=list(entries))


def _words(fresh: str, can: str) -> list[Json]:
    return [{"tank_id": "fresh", "drinkable": fresh}, {"tank_id": "can", "drinkable": can}]
