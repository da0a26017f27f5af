"""Vectors of the filter: the worked example, and each event against the slow filter."""

from typing import Any

import numpy as np
from vectors.frame import case, function, refused
from vectors.slow_filter import Slow, run
from vectors.tanks import (
    CAMP,
    EXAMPLE,
    EXAMPLE_E,
    KAPPAS,
    ONE,
    ROUND,
    TWO,
    VAN_LOAN,
    WATERING,
    estimate,
    fill,
    full,
    gauge,
    use,
)

Json = Any
PRINTED = (
    ("start", [80.0, 10.0], [[1.0, 0.0], [0.0, 8.5]]),
    ("use 500 km", [30.0, 10.0], [[219.7083, -42.8625], [-42.8625, 8.645]]),
    ("fill 54 L", None, None),
    ("full", [80.01812, 10.776732], [[0.995470, -0.194183], [-0.194183, 0.321836]]),
)


def functions(rng: np.random.Generator) -> list[dict[str, Any]]:
    models = (("one tank", ONE), ("two tanks, three classes", TWO), ("water", CAMP))
    return [
        function("check_model", "the list of refusals of the specification (section I)", *_models()),
        function(
            "prior", VAN_LOAN, *(case(name, estimate(Slow(one, 0.1)), model=one) for name, one in models)
        ),
        function("advance", EXAMPLE_E, *_printed()),
        function(
            "advance",
            VAN_LOAN,
            *_steps("two tanks", TWO, 0.12, ROUND),
            *_steps("water", CAMP, 0.4, WATERING),
            *_steps("an entry far off", ONE, 0.04, [*EXAMPLE, use(20.0), gauge(0.2, u=0.01)]),
        ),
        function("advance", "what must be refused", *_refusals()),
        function("innovation", EXAMPLE_E, *_innovations()),
        function("advance_all", VAN_LOAN, _all()),
        function("innovations", EXAMPLE_E, _against_all()),
        function("shut_off_u", "by hand from the model", *_shut_offs()),
        function("total_left", VAN_LOAN, *(_total(n) for n in (1, 7, 12, len(ROUND)))),
        *_noise(),
    ]


def _models() -> list[dict[str, Any]]:
    none, many = (
        {**ONE, "class_ids": [], "rate0": []},
        {**ONE, "class_ids": list("abcdefghijkl"), "rate0": [1.0] * 12},
    )
    return [
        case("one tank", model=ONE),
        case("two tanks, three classes", model=TWO),
        refused("capacity 0", "OutOfRange", "capacity_l", model={**ONE, "capacity_l": [0.0]}),
        refused("rate 0", "OutOfRange", "rate0", model={**ONE, "rate0": [0.0]}),
        refused("one tank twice", "Duplicate", "tank_ids", model={**TWO, "tank_ids": ["main", "main"]}),
        refused("one class twice", "Duplicate", "class_ids", model={**TWO, "class_ids": ["a", "a", "b"]}),
        refused("no class", "OutOfRange", "tanks and classes", model=none),
        refused("two tanks, one capacity", "DomainError", "capacity_l", model={**TWO, "capacity_l": [80.0]}),
        refused("three classes, one rate", "DomainError", "rate0", model={**TWO, "rate0": [10.0]}),
        refused("two shut-offs, one tank", "DomainError", "full_u_l", model={**ONE, "full_u_l": [1.0, 1.0]}),
        *(
            refused(
                f"{name} {value}",
                "OutOfRange",
                name,
                model={**ONE, "settings": {**ONE["settings"], name: value}},
            )
            for name, value in (
                ("per", 0.0),
                ("walk_ref", 0.0),
                ("u_common", -0.1),
                ("ell", -1.0),
                ("gauge_u", -0.1),
            )
        ),
        refused("thirteen states", "OutOfRange", "states", model=many),
    ]


def _shut_offs() -> list[dict[str, Any]]:
    return [
        case("the usual one", [1.0, 1.0], model=TWO),
        case("each its own", [3.0, 0.4], model={**TWO, "full_u_l": [3.0, 0.4]}),
    ]


def _innovations() -> list[dict[str, Any]]:
    exact = {"mean": [40.0, 10.0], "cov": [[0.0, 0.0], [0.0, 8.5]], "log_likelihood": 0.0, "scale": 1.0}
    level = {"kind": "level", "tank_id": "main", "litres_l": 40.0, "litres_u_l": 0.0}
    out = {"nu_l": -4.0, "s_l2": 220.732633}
    before = estimate(run(ONE, 0.1, EXAMPLE[:3]))
    return [
        case("full", out, rel=3e-9, model=ONE, estimate=before, event=full()),
        refused("exact against exact", "Redundant", "readings", model=ONE, estimate=exact, event=level),
    ]


def _all() -> dict[str, Any]:
    before, after = ([run(TWO, kappa, ROUND[:n]) for kappa in KAPPAS] for n in (6, 7))
    given = {"kappas": list(KAPPAS), "estimates": [estimate(one) for one in before], "event": ROUND[6]}
    return case("four kappas", [estimate(one) for one in after], rel=1e-8, abs=1e-8, model=TWO, **given)


def _against_all() -> dict[str, Any]:
    slow = [run(ONE, kappa, EXAMPLE[:3]) for kappa in KAPPAS]
    seen = [one.innovation(full()) for one in slow]
    out = [{"nu_l": float(nu), "s_l2": float(s), "z": float(nu / s**0.5)} for nu, s in seen]
    return case("full", out, model=ONE, estimates=[estimate(one) for one in slow], event=full())


def _noise() -> list[dict[str, Any]]:
    drift = [
        [0.00036, 0.000414, 0.000576],
        [0.000414, 0.000552276, 0.0006624],
        [0.000576, 0.0006624, 0.0009216],
    ]
    return [
        function(
            "rate_drift",
            "by hand: (0.05^2 b0 b0' + 0.02^2 b0_i^2 e e') / 1000",
            case("gravel", drift, model=TWO, class_id="gravel"),
            refused("no such class", "Unknown", "class_id", model=TWO, class_id="mud"),
        ),
        function(
            "leg_noise",
            "by hand: (0.1 x 10/100)^2 x 100",
            case("sealed", 0.01, model=ONE, kappa=0.1, class_id="sealed"),
            case("rates counted 1.1 times", 0.0121, model=ONE, kappa=0.1, class_id="sealed", scale=1.1),
        ),
    ]


def _printed() -> list[dict[str, Any]]:
    cases = []
    for n, (name, mean, cov) in enumerate(PRINTED):
        if mean is not None:
            cases.append(
                case(
                    name,
                    {"mean": mean, "cov": cov},
                    rel=5e-7,
                    abs=5.1e-7 if n == 3 else 5e-5,
                    model=ONE,
                    kappa=0.1,
                    estimate=estimate(run(ONE, 0.1, EXAMPLE[:n])),
                    event=EXAMPLE[n],
                )
            )
    return cases


def _steps(name: str, model: Json, kappa: float, events: list[Json]) -> list[dict[str, Any]]:
    return [
        case(
            f"{name}: {n + 1}. {event['kind']}",
            estimate(run(model, kappa, events[: n + 1])),
            rel=1e-8,
            abs=1e-8,
            model=model,
            kappa=kappa,
            estimate=estimate(run(model, kappa, events[:n])),
            event=event,
        )
        for n, event in enumerate(events)
    ]


def _total(n: int) -> dict[str, Any]:
    slow = run(TWO, 0.12, ROUND[:n])
    out = [float(slow.mean[:2].sum()), float(slow.cov[:2, :2].sum())]
    return case(f"after {n} events", out, rel=1e-8, model=TWO, estimate=estimate(slow))


def _refusals() -> list[dict[str, Any]]:
    given: Json = {"model": ONE, "kappa": 0.1, "estimate": estimate(Slow(ONE, 0.1))}
    return [
        refused("unknown tank", "Unknown", "tank_id", **given, event=fill(1.0, "other")),
        refused("unknown full tank", "Unknown", "tank_id", **given, event=full("other")),
        refused("unknown class", "Unknown", "class_id", **given, event=use(1.0, "mud")),
        refused("fill above 1.1 C", "OutOfRange", "litres_l", **given, event=fill(88.1)),
        refused("negative distance", "OutOfRange", "amount", **given, event=use(-1.0)),
        refused("gauge above 1", "OutOfRange", "fraction", **given, event=gauge(1.2)),
        refused("kappa below 0", "OutOfRange", "kappa", **{**given, "kappa": -0.1}, event=use(1.0)),
        refused(
            "poured into itself",
            "Duplicate",
            "into_id",
            **given,
            event={"kind": "pour", "tank_id": "main", "into_id": "main"},
        ),
        refused("a share of two tanks", "DomainError", "shares", **given, event=use(1.0, shares=[0.5, 0.5])),
    ]
