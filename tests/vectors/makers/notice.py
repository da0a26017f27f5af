"""Vectors of noticing a change: the reference bank and the two sums, step by step."""

from typing import Any

import numpy as np
from vectors.frame import case, function
from vectors.makers.bank import mixed
from vectors.slow_filter import Slow, weights
from vectors.tanks import KAPPAS, ONE, VAN_LOAN, bank, fill, full, gauge, use

Json = Any
REFERENCE = {**ONE, "settings": {**ONE["settings"], "walk": 0.01, "walk_class": 0.0}}
TANK = [use(450.0), fill(45.0), full()]
MORE = [use(450.0), fill(60.0), full()]
LESS = [use(450.0), fill(32.0), full()]


def functions(rng: np.random.Generator) -> list[dict[str, Any]]:
    first = {
        "bank": bank(REFERENCE, [Slow(REFERENCE, kappa) for kappa in KAPPAS]),
        "seen": 0,
        "more": 0.0,
        "less": 0.0,
    }
    return [
        function(
            "notice_prior",
            VAN_LOAN,
            case("one tank", {**first, "alarm": None, "z": None}, model=ONE, kappas=list(KAPPAS)),
        ),
        function(
            "notice_advance",
            f"{VAN_LOAN}; the sums by their definition (Page 1954)",
            *_run("steady", [full(), *TANK, *TANK, *TANK, *TANK]),
            *_run("more", [full(), *TANK, *TANK, *TANK, *TANK, *MORE, *MORE]),
            *_run("less", [full(), *TANK, *TANK, *TANK, *TANK, *LESS, *LESS]),
            *_run("one reading alone", [full(), *TANK, *TANK, *TANK, *TANK, use(30.0), gauge(0.4)]),
        ),
    ]


def _run(name: str, events: list[Json]) -> list[Json]:
    slow = [Slow(REFERENCE, kappa) for kappa in KAPPAS]
    state: Json = {"seen": 0, "more": 0.0, "less": 0.0, "alarm": None, "z": None}
    cases = []
    for n, event in enumerate(events):
        given = {"bank": bank(REFERENCE, slow), **state}
        state = _next(state, slow, event)
        slow = [Slow(REFERENCE, s.kappa, s.mean, s.cov, s.log_likelihood, s.scale).apply(event) for s in slow]
        if n >= len(events) - 6:
            out = {"bank": bank(REFERENCE, slow), **state}
            cases.append(
                case(f"{name}: {n + 1}. {event['kind']}", out, rel=1e-7, abs=1e-7, notice=given, event=event)
            )
    return cases


def _next(state: Json, slow: list[Slow], event: Json) -> Json:
    if event["kind"] not in ("full", "gauge", "level"):
        return {**state, "alarm": None, "z": None}
    seen = [one.innovation(event) for one in slow]
    mix = mixed(weights(slow), [nu for nu, _ in seen], [s for _, s in seen])
    z, count = mix["mean"] / mix["u"], state["seen"] + 1
    if count <= 3:
        return {**state, "seen": count, "alarm": None, "z": z}
    more, less = max(0.0, state["more"] - z - 0.5), max(0.0, state["less"] + z - 0.5)
    alarm = "more" if more > 5 or z < -3.5 else "less" if less > 5 or z > 3.5 else None
    return {
        "seen": count,
        "more": 0.0 if alarm else more,
        "less": 0.0 if alarm else less,
        "alarm": alarm,
        "z": z,
    }
