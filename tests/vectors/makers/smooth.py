"""Vectors of the smoother: all moments at once as one large Gaussian, conditioned on all observations."""

from typing import Any

import numpy as np
from vectors.frame import case, function
from vectors.makers.bank import mixed
from vectors.slow_filter import Slow, run, weights
from vectors.tanks import CAMP, EXAMPLE, KAPPAS, ONE, ROUND, TWO, WATERING

Json = Any
ONE_GAUSSIAN = "the joint Gaussian of all moments, conditioned at once on all observations (numpy)"


def functions(rng: np.random.Generator) -> list[dict[str, Any]]:
    logs = (
        ("example", ONE, 0.1, EXAMPLE),
        ("two tanks", TWO, 0.12, ROUND[:16]),
        ("water", CAMP, 0.4, WATERING),
    )
    return [
        function(
            "smooth",
            ONE_GAUSSIAN,
            *(
                case(
                    name,
                    _joint(model, kappa, events),
                    rel=1e-7,
                    abs=1e-7,
                    model=model,
                    kappa=kappa,
                    events=events,
                )
                for name, model, kappa, events in logs
            ),
        ),
        function(
            "smooth_bank",
            ONE_GAUSSIAN,
            case(
                "example",
                _mixed(ONE, EXAMPLE),
                rel=1e-7,
                abs=1e-7,
                model=ONE,
                kappas=list(KAPPAS),
                events=EXAMPLE,
            ),
        ),
    ]


def _joint(model: Json, kappa: float, events: list[Json]) -> list[Json]:
    """Stack the state after each event; observations are rows of one linear system."""
    step = Slow(model, kappa)
    size = step.mean.size
    mean, cov, rows = step.mean.copy(), step.cov.copy(), []
    for n, event in enumerate(events):
        observed = event["kind"] in ("full", "gauge", "level")
        f, shift, q = (
            (np.eye(size), np.zeros(size), np.zeros((size, size))) if observed else _parts(step, event)
        )
        last = slice(n * size, (n + 1) * size)
        cross = f @ cov[last, :]
        mean = np.concatenate([mean, f @ mean[last] + shift])
        cov = np.block([[cov, cross.T], [cross, f @ cov[last, last] @ f.T + q]])
        step.scale *= event.get("ratio", 1.0)
        if observed:
            h, y, r = step.expected(event)
            rows.append((n + 1, h, y, r))
    design = np.zeros((len(rows), mean.size))
    for k, (moment, h, _, _) in enumerate(rows):
        design[k, moment * size : (moment + 1) * size] = h
    s = design @ cov @ design.T + np.diag([r for *_, r in rows])
    gain = np.linalg.solve(s, design @ cov).T
    mean = mean + gain @ (np.array([y for _, _, y, _ in rows]) - design @ mean)
    cov = cov - gain @ s @ gain.T
    moments = [slice(n * size, (n + 1) * size) for n in range(1, len(events) + 1)]
    return [{"mean": mean[one].tolist(), "cov": cov[one, one].tolist()} for one in moments]


def _parts(step: Slow, event: Json) -> tuple[Any, Any, Any]:
    """F, shift and Q of a linear event, read off from what it does to unit vectors."""
    size = step.mean.size
    zero = np.zeros((size, size))
    shift = Slow(step.model, step.kappa, np.zeros(size), zero, 0.0, step.scale).apply(event)
    columns = [
        Slow(step.model, step.kappa, unit, zero, 0.0, step.scale).apply(event).mean - shift.mean
        for unit in np.eye(size)
    ]
    return np.array(columns).T, shift.mean, shift.cov


def _mixed(model: Json, events: list[Json]) -> list[list[Json]]:
    shares = weights([run(model, kappa, events) for kappa in KAPPAS])
    runs = [_joint(model, kappa, events) for kappa in KAPPAS]
    size = len(runs[0][0]["mean"])
    return [
        [
            mixed(shares, [one[n]["mean"][k] for one in runs], [one[n]["cov"][k][k] for one in runs])
            for k in range(size)
        ]
        for n in range(len(events))
    ]
