"""Entries of fuel and water logs for the vectors, and the slow filter's answers to them."""

from typing import Any

from vectors.slow_filter import Slow, range_at, reach, run, weights
from vectors.tanks import KAPPAS, ONE

Json = Any
DAY = 86_400.0
BY_HAND = "by hand from the entries"
HAND_AND_VAN_LOAN = "events by hand, numbers by tests/vectors/slow_filter.py"

TANK: Json = {"id": "main", "capacity_l": 80.0}
SETUP: Json = {"tanks": [TANK], "base_rate": 10.0}
COUNTING = {"factor": 1.0, "factor_u": 0.0, "reserve_l": 8.0}


def filled(day: float, odometer: float | None, litres: float, full: bool = True, **more: Any) -> Json:
    """A fill of the only tank; ids f1, f2, ... by day."""
    line = {"tank_id": "main", "litres_l": litres, "full": full}
    base = {"id": f"f{day:g}", "at_s": day * DAY, "sequence": int(day * 10), "odometer_km": odometer}
    return {"kind": "fill", **base, "lines": [line], **more}


def dipped(day: float, odometer: float | None, level: float, **more: Any) -> Json:
    base = {"id": f"d{day:g}", "at_s": day * DAY, "sequence": int(day * 10), "odometer_km": odometer}
    return {"kind": "dip", **base, "tank_id": "main", "level": level, **more}


def moved(
    day: float, odometer: float | None, source: str, into: str | None, litres: float | None, **more: Any
) -> Json:
    base = {"id": f"t{day:g}", "at_s": day * DAY, "sequence": int(day * 10), "odometer_km": odometer}
    return {
        "kind": "transfer",
        **base,
        "from_tank_id": source,
        "to_tank_id": into,
        "litres_l": litres,
        **more,
    }


def changed(day: float, odometer: float, **more: Any) -> Json:
    base = {"id": f"c{day:g}", "at_s": day * DAY, "sequence": int(day * 10), "odometer_km": odometer}
    return {"kind": "change", **base, **more}


def watered(day: float, litres: float, action: str = "fill", tank: str = "fresh", **more: Any) -> Json:
    base = {"id": f"w{day:g}", "at_s": day * DAY, "sequence": int(day * 10), "tank_id": tank}
    return {"kind": "water", **base, "action": action, "litres_l": litres, **more}


STEADY = [
    filled(1, 1000.0, 60.0),
    filled(2, 1500.0, 54.0),
    filled(3, 1700.0, 20.0, False),
    filled(4, 1980.0, 30.0),
    filled(5, 2400.0, 46.0),
]


def slow_ranges(
    events: list[Json], mix: Json | None = None, distance: float | None = None, model: Json = ONE
) -> Json:
    """The answer's figures from hand-written events."""
    bank = [run(model, kappa, events) for kappa in KAPPAS]
    mix = mix or {"sealed": 1.0}
    out = {
        "count_on_km": range_at(bank, mix, 0.95, COUNTING),
        "likely_km": range_at(bank, mix, 0.5, COUNTING),
    }
    return out if distance is None else {**out, "reach": reach(bank, mix, distance, COUNTING)}


def slow_rate(bank: list[Slow], k: int = 1) -> float:
    return float(sum(w * one.mean[k] for w, one in zip(weights(bank), bank, strict=True)))


def called(module: str, function: str, **given: Any) -> Json:
    """Stands in a case's input for what that call gives."""
    return {"$call": {"module": module, "function": function, "in": given}}
