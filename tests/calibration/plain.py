"""The test of single errors by plain arithmetic, without the domain: normal errors, one day, all three readings.

It tells whether a figure of the campaign comes from how the domain computes, or from the rule itself.
"""

from collections.abc import Mapping
from functools import cache

import numpy as np
from numpy.typing import NDArray

from tests.calibration.sheet import (
    BASE,
    CG_HEIGHT_M,
    ITEMS,
    PERSON_U_KG,
    SEAT_U_M,
    SEATS_M,
    TANKS,
    WHEELBASE_M,
    Stated,
)

Array = NDArray[np.float64]
WITHIN = 3.841459  # 95 % point of chi-square, one degree of freedom: NIST/SEMATECH e-Handbook 1.3.6.7.4
DRAWS = 100_000


@cache
def entries() -> tuple[Stated, ...]:
    """Everything aboard on a day with half-full tanks and two people of 75 kg."""
    held = [
        Stated(
            one.name,
            one.density_kg_per_l * one.capacity_l / 2,
            float(
                np.hypot(
                    0.03 * one.density_kg_per_l * one.capacity_l, one.density_kg_per_l * one.capacity_u_l / 2
                )
            ),
            one.x_m,
        )
        for one in TANKS
    ]
    people = [Stated(name, 75.0, PERSON_U_KG, x_m, SEAT_U_M) for name, x_m in SEATS_M.items()]
    return (*BASE, *ITEMS, *held, *people)


@cache
def _whitened() -> tuple[Array, Array]:
    """Columns of every entry and of the three readings, whitened by the innovation's covariance; bounds in kg."""
    x, u, mass, x_u = (
        np.array([getattr(one, name) for one in entries()])
        for name in ("x_m", "mass_u_kg", "mass_kg", "x_u_m")
    )
    h = np.vstack([1 - x / WHEELBASE_M, x / WHEELBASE_M, np.ones_like(x)])
    per_m = np.vstack([-np.ones_like(x), np.ones_like(x), np.zeros_like(x)]) / WHEELBASE_M
    spread = (h * u**2) @ h.T + (per_m * (mass**2 + u**2) * x_u**2) @ per_m.T
    readings = h @ mass
    # 20 kg bridge below 10 t: 20 kg in service, gain within 0.001, zero within 5 kg, all uniform; split: tilt, friction
    gain, zero = 0.001**2 / 3 * np.outer(readings, readings), np.full((3, 3), 5.0**2 / 3)
    own = 20.0**2 / 3 - np.diag(gain) - np.diag(zero)
    tilt = readings[2] * CG_HEIGHT_M * 0.02 / WHEELBASE_M**2
    split = np.array([tilt**2 + (0.003 * one) ** 2 for one in readings[:2]] + [0.0])
    root = np.linalg.cholesky(spread + gain + zero + np.diag(own + 20.0**2 / 12 + split))
    bounds = np.concatenate([-mass, np.full(3, -np.inf)])
    return np.linalg.solve(root, np.hstack([h, np.eye(3)])), bounds


@cache
def listed(name: str, more_kg: float) -> Mapping[str, float]:
    """How often an entry with so much more is within 3.84 of the best, of all and of the masses alone."""
    columns, bounds = _whitened()
    wrong = [one.name for one in entries()].index(name)
    draws = np.random.default_rng(1).normal(size=(3, DRAWS)) + more_kg * columns[:, [wrong]]
    fit, size = columns.T @ draws, (columns**2).sum(axis=0)[:, None]
    bias = np.maximum(fit / size, bounds[:, None])
    t = 2 * bias * fit - bias**2 * size
    return {
        "all": float((t[wrong] >= t.max(axis=0) - WITHIN).mean()),
        "masses": float((t[wrong] >= t[:-3].max(axis=0) - WITHIN).mean()),
    }
