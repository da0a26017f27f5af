"""Masses below zero: the most probable masses that are not, which is more than clipping."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

import numpy as np

from .linalg import Array, cho_solve, cholesky
from .posterior import Reconciled

SMALL_SHARE = 0.1  # of the planned mass
ROUNDING = 1e-9
TIED = 1 - 1e-9  # masses with at least this correlation are one (assumed)


@dataclass(frozen=True, slots=True)
class Possible:
    """A mass of the unconstrained update, and in the most probable answer without negative masses."""

    id: str
    now_kg: float
    possible_kg: float


def doubtful_masses(*, posterior: Reconciled, free: Sequence[str] = ()) -> tuple[str, ...]:
    """Masses for which the Gaussian is out of its range: below 0, or below 2 u+ and a tenth of the plan.

    `free` are masses that may be negative, such as what is not on the list.
    """
    out = []
    for name in _masses(posterior, free):
        planned = posterior.prior[name].mean
        now, u = float(posterior.mean[posterior.order[name]]), sqrt(posterior.variance(name))
        if now < -ROUNDING or (now < 2 * u and now < SMALL_SHARE * planned):
            out.append(name)
    return tuple(out)


def nonnegative_masses(*, posterior: Reconciled, free: Sequence[str] = ()) -> tuple[Possible, ...]:
    """The most probable masses >= 0 given plan and readings; those that are `free` may be negative.

    Minimises |P^-1/2 (theta - mu)|^2 + |V^-1/2 (y - H theta)|^2 with every mass >= 0, moments and gains free: since
    that is (theta - mu+)' P+^-1 (theta - mu+) save for a constant, the masses held at 0 pull the others along by
    theta = mu+ + P+[:, A] l, l >= 0. Active sets as in Lawson & Hanson 1974, chapter 23 (from memory). The
    intervals shown stay those of the unconstrained update. A mass with u = 0 stays what it is.
    """
    names = _masses(posterior, free)
    places = [posterior.order[name] for name in names]
    mean = posterior.mean[places]
    held: list[int] = []
    pull = np.zeros(0)
    columns = np.zeros((len(names), 0))
    for _ in range(3 * len(names) + 1):
        theta = mean + columns @ pull
        theta[held] = 0.0
        below = [i for i in range(len(names)) if i not in held and theta[i] < -ROUNDING]
        if not below:
            break
        lowest = min(below, key=lambda i: (theta[i], i))
        added = posterior.column(names[lowest])[places]
        # of copies that move as one the last to be below zero is the first to reach it
        stay = [k for k, i in enumerate(held) if added[i] < TIED * sqrt(added[lowest] * columns[i, k])]
        held, pull, columns = _solve(
            mean,
            [*(held[k] for k in stay), lowest],
            np.append(pull[stay], 0.0),
            np.column_stack([columns[:, stay], added]),
        )
    return tuple(
        Possible(name, float(now), max(float(one), 0.0))
        for name, now, one in zip(names, mean, theta, strict=True)
    )


def _solve(mean: Array, held: Sequence[int], pull: Array, columns: Array) -> tuple[list[int], Array, Array]:
    """Pulls that hold these masses at 0; one that would have to push instead is let go, the nearest first."""
    held = list(held)
    while held:
        wanted = cho_solve(cholesky(columns[held, :]), -mean[held])
        if wanted.min() > 0:
            return held, wanted, columns
        steps = [2.0 if w > 0 else p / (p - w) if p > w else 0.0 for p, w in zip(pull, wanted, strict=True)]
        step = min(steps)
        pull = pull + step * (wanted - pull)
        out = steps.index(step)
        held = held[:out] + held[out + 1 :]
        pull, columns = np.delete(pull, out), np.delete(columns, out, axis=1)
    return held, pull, columns


def _masses(posterior: Reconciled, free: Sequence[str]) -> list[str]:
    return [name for name, one in posterior.prior.items() if one.kind == "mass" and name not in free]
