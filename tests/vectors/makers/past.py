"""Vectors of the past: events by hand, rates by the joint Gaussian of all moments."""

from math import hypot
from typing import Any

import numpy as np
from vectors.frame import case, function
from vectors.logs import BY_HAND, SETUP, STEADY, called, changed, filled
from vectors.makers.effect import HEAD, TAIL
from vectors.makers.smooth import ONE_GAUSSIAN, _mixed
from vectors.tanks import ONE, fill, full, use

Json = Any
RUN = [*HEAD, *TAIL, use(420.0), fill(46.0), full()]
MISSED = {"kind": "missed", "tank_id": "main"}


def functions(rng: np.random.Generator) -> list[Json]:
    return [
        function("events_run", BY_HAND, *_runs()),
        function("rates_over_time", ONE_GAUSSIAN, *_rates()),
    ]


def _log(*more: Json, setup: Json = SETUP) -> Json:
    return called("fuel_log", "read_fuel_log", setup=setup, entries=[*STEADY, *more])


def _runs() -> list[Json]:
    def journal(*more: Json) -> Json:
        """The journal of a log, run from its steps."""
        steps = [
            {"entry_id": "f1", "events": [fill(60.0), full()], "tank_ids": ["main"]},
            {"entry_id": "f2", "way": [{"class_id": "sealed", "amount": 500.0}], "events": [fill(54.0), full()],
             "tank_ids": ["main"]},
            *more,
        ]  # fmt: skip
        return called("journal", "run_journal", model=ONE, kappas=[0.1], steps=steps)

    first = [[fill(60.0), full()], [use(500.0), fill(54.0), full()]]
    way = {"way": [{"class_id": "sealed", "amount": 400.0}], "tank_ids": ["main"]}
    slip = {"entry_id": "f3", **way, "events": [fill(5.0), full()]}
    good = {"entry_id": "f4", **way, "events": [fill(43.0), full()]}
    plain = [
        [{key: value for key, value in one.items() if value is not None} for one in run] for run in first
    ]
    forgotten = [use(400.0), fill(43.0), MISSED, full()]
    kept = [{key: value for key, value in one.items() if value is not None} for one in forgotten]
    return [
        case("nothing held", plain, journal=journal()),
        case("what is held is not in it, and its tank is forgotten", [*plain, [use(400.0)], kept],
             journal=journal(slip, good)),
    ]  # fmt: skip


def _rates() -> list[Json]:
    moments = _mixed({**ONE, "class_ids": ["sealed"]}, RUN)
    ends = {"f2": (4, 500.0), "f3": (6, 700.0), "f4": (9, 980.0), "f5": (12, 1400.0)}
    out = [
        {
            "entry_id": name,
            "at_km": km,
            "class_id": "sealed",
            "l_per_100km": moments[n][1]["mean"],
            "u": moments[n][1]["u"],
        }
        for name, (n, km) in ends.items()
    ]
    wide = {**SETUP, "factor": 1.1, "factor_u": 0.02}
    tyres = [changed(5.5, 2400.0, ratio=1.1), filled(6, 2800.0, 46.0)]
    # rates that begin alike per indicated km: 1.1 times the way, 1/1.1 of the rate, and the u of the factor
    scaled = [
        {
            **one,
            "at_km": one["at_km"] * 1.1,
            "l_per_100km": one["l_per_100km"] / 1.1,
            "u": hypot(one["u"], one["l_per_100km"] * 0.02 / 1.1) / 1.1,
        }
        for one in out
    ]
    same = {**wide, "rates": {"sealed": 10.0 / 1.1}}
    return [
        case("each way", out, rel=1e-7, abs=1e-7, log=_log()),
        case(
            "other tyres: the km before them were shorter",
            [{"at_km": 500.0}, {"at_km": 700.0}, {"at_km": 980.0}, {"at_km": 1400.0}, {"at_km": 1840.0}],
            log=_log(*tyres, setup={**SETUP, "factor": 1.1}),
        ),
        case(
            "an odometer that reads short",
            scaled,
            rel=1e-7,
            abs=1e-7,
            log=_log(setup=same),
        ),
        case("nothing logged", [], log=called("fuel_log", "read_fuel_log", setup=SETUP, entries=[])),
    ]  # fmt: skip
