"""Vectors of nonnegative: scipy's solver of the stacked whitened system."""

from typing import Any

import numpy as np
from scipy.optimize import lsq_linear
from vectors.frame import case, function
from vectors.makers.axles import L
from vectors.makers.bridge import FINE
from vectors.makers.reconcile import Slow, reading

LIGHT = [
    {"id": "base_front", "mass_kg": 1300.0, "mass_u_kg": 5.0, "x_m": 0.0},
    {"id": "base_rear", "mass_kg": 1100.0, "mass_u_kg": 5.0, "x_m": 3.2},
    {"id": "tent", "mass_kg": 12.0, "mass_u_kg": 10.0, "x_m": 2.5, "x_u_m": 0.3},
    {"id": "tool", "mass_kg": 25.0, "mass_u_kg": 20.0, "x_m": 3.0},
    {"id": "bolt", "mass_kg": 3.0, "mass_u_kg": 0.0, "x_m": 1.0},
]
SESSIONS = [
    {
        "id": "may",
        "lasting": LIGHT,
        "passing": [],
        "bridge": FINE,
        "readings": [reading("r", ["rear"], 1060.0), reading("w", ["front", "rear"], 2380.0)],
    }
]


def stacked(lasting: list[dict[str, Any]], sessions: list[dict[str, Any]]) -> dict[str, float]:
    """The whitened least squares with bounds on the masses, from the conditioned mean and covariance."""
    slow = Slow(lasting, sessions)
    mean = np.array([float(one[0]) for one in slow.mean])
    cov = np.array([[float(x) for x in row] for row in slow.cov])
    sure = np.diag(cov) <= 0
    keep = np.flatnonzero(~sure)
    white = np.linalg.inv(np.linalg.cholesky(cov[np.ix_(keep, keep)]))
    masses = {one["id"] for one in lasting}
    low = [0.0 if slow.names[i] in masses else -np.inf for i in keep]
    found = lsq_linear(white, white @ mean[keep], (low, np.full(len(keep), np.inf)), method="bvls", tol=1e-14)
    out = mean.copy()
    out[keep] = found.x
    return dict(zip(slow.names, out.tolist(), strict=True))


def functions(rng: np.random.Generator) -> list[dict[str, Any]]:
    book = {"lasting": LIGHT, "geometry": L, "sessions": SESSIONS}
    posterior = {"$call": {"module": "reconcile", "function": "reconcile", "in": book}}
    fit = stacked(LIGHT, SESSIONS)
    slow = Slow(LIGHT, SESSIONS)
    after = {one["id"]: slow.learnt(one["id"]) for one in LIGHT if one["mass_u_kg"]}
    doubtful = [
        one["id"]
        for one in LIGHT
        if one["id"] in after
        and (
            after[one["id"]]["now_kg"] < 0
            or after[one["id"]]["now_kg"] < min(2 * after[one["id"]]["now_u_kg"], 0.1 * one["mass_kg"])
        )
    ]
    out = [{"id": one["id"], "possible_kg": max(fit[one["id"]], 0.0)} for one in LIGHT]
    return [
        function(
            "nonnegative_masses",
            "scipy.optimize.lsq_linear (bvls)",
            case("a reading far too light", out, posterior=posterior, rel=1e-7, abs=1e-6),
        ),
        function(
            "doubtful_masses",
            "the rule on masses conditioned in rational arithmetic",
            case("below zero, or nearly nothing left", doubtful, posterior=posterior),
        ),
    ]
