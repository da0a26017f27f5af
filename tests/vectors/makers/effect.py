"""Vectors of what an entry changes: events of both logs written by hand, run through the slow filter."""

from typing import Any

import numpy as np
from vectors.frame import case, function, refused
from vectors.log_books import STEADY, filled, logged, opened
from vectors.logs import HAND_AND_VAN_LOAN
from vectors.slow_filter import range_at
from vectors.tanks import KAPPAS, ONE, fill, full, slow_bank, use

Json = Any
MODEL: Json = {
    **ONE,
    "class_ids": ["sealed", "gravel", "sand"],
    "rate0": [12.0 * 1.02, 13.8 * 1.02, 19.2 * 1.02],
}
COUNTING = {"factor": 1.02, "factor_u": 0.004, "reserve_l": 8.0}
HEAD = [*(fill(60.0), full()), *(use(500.0), fill(54.0), full()), *(use(200.0), fill(20.0))]
TAIL = [*(use(280.0), fill(30.0), full())]


def functions(rng: np.random.Generator) -> list[Json]:
    late = opened(*STEADY, filled("f6", 9, 2200.0, 4.0, False))
    without = [*HEAD, *TAIL, use(420.0), fill(46.0), full()]
    taken_in = [*HEAD, *TAIL, use(220.0), fill(4.0), use(200.0), fill(46.0), full()]
    read = opened(*STEADY, logged("d6", "dip", 6, tank_id="main", how="gauge", level=0.5, odometer_km=2700.0))
    driven = [*without, use(300.0), {"kind": "gauge", "tank_id": "main", "fraction": 0.5, "fraction_u": 0.05}]
    return [
        function(
            "entry_effect",
            HAND_AND_VAN_LOAN,
            _case("a late part fill: more was used", without, taken_in, {"sealed": 1.0}, late, "f6"),
            _case("on sand ahead", without, taken_in, {"sand": 1.0}, late, "f6"),
            _case("a level read", without, driven, {"sealed": 1.0}, read, "d6"),
            refused("no such entry", "Unknown", "entry_id", book=late, entry_id="f9", mix={"sealed": 1.0}),
        )
    ]


def _case(name: str, before: list[Json], after: list[Json], mix: Json, book: Json, entry_id: str) -> Json:
    out = {"before": _ranges(before, mix), "after": _ranges(after, mix)}
    return case(name, out, rel=0.0, abs=1e-4, book=book, entry_id=entry_id, mix=mix)


def _ranges(events: list[Json], mix: Json) -> Json:
    bank = slow_bank(MODEL, events, KAPPAS)
    count_on, likely = (range_at(bank, mix, p, COUNTING) for p in (0.95, 0.5))
    return {"count_on_km": count_on, "likely_km": likely}
