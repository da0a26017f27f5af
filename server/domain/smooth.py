"""The past as it looks with everything that is known now: for display only.

Rauch, Tung and Striebel 1965, AIAA J. 3:1445 (from memory).
"""

from collections.abc import Sequence

import numpy as np

from .bank import Value, bank_advance, bank_prior, bank_weights, mixture
from .events import Event, Missed, Pour, Rescale, Start, Use, is_observation
from .filter import Estimate, Model, advance, class_index, prior, tank_index
from .linalg import Array, tuples

NO_PIVOT = 1e-12  # below this share of its diagonal element a pivot counts as zero


def smooth(*, model: Model, kappa: float, events: Sequence[Event]) -> tuple[Estimate, ...]:
    """The estimate after each event, given all events, from the prior on.

    Backwards over the steps: G = P F' P+^-; mean += G (mean_s - mean+); P += G (P_s - P+) G', where + is the
    prediction of the next step. An observation is no step: before and after it is one moment. P+ may be
    singular after a start or a pour: directions without variance are left alone (generalised inverse).
    """
    filtered = [prior(model=model)]
    for event in events:
        filtered.append(advance(model=model, kappa=kappa, estimate=filtered[-1], event=event))
    later = filtered[-1]
    smoothed = [later]
    for event, now, after in zip(
        reversed(events), reversed(filtered[:-1]), reversed(filtered[1:]), strict=True
    ):
        if not is_observation(event):
            later = _back(now, after, later, _transition(model, event))
        smoothed.append(later)
    return tuple(reversed(smoothed[:-1]))


def smooth_bank(
    *, model: Model, kappas: Sequence[float], events: Sequence[Event]
) -> tuple[tuple[Value, ...], ...]:
    """Levels and rates after each event given all events, mixed over the bank with its final weights."""
    bank = bank_prior(model=model, kappas=kappas)
    for event in events:
        bank = bank_advance(bank=bank, event=event)
    weights = bank_weights(bank=bank)
    runs = [smooth(model=model, kappa=kappa, events=events) for kappa in kappas]
    states = range(len(model.tank_ids) + len(model.class_ids))
    return tuple(
        tuple(
            mixture(
                means=[one.mean[k] for one in moment],
                variances=[one.cov[k][k] for one in moment],
                weights=weights,
            )
            for k in states
        )
        for moment in zip(*runs, strict=True)
    )


def _back(now: Estimate, after: Estimate, later: Estimate, f: Array) -> Estimate:
    cov, ahead = np.array(now.cov), np.array(after.cov)
    gain = _solve_singular(ahead, f @ cov).T
    mean = np.array(now.mean) + gain @ (np.array(later.mean) - np.array(after.mean))
    cov = cov + gain @ (np.array(later.cov) - ahead) @ gain.T
    return Estimate(tuples(mean), tuples((cov + cov.T) / 2), now.log_likelihood, now.scale)


def _transition(model: Model, event: Event) -> Array:
    """F of a step: what the state before contributes to the state after it."""
    tanks = len(model.tank_ids)
    f = np.eye(tanks + len(model.class_ids))
    if isinstance(event, Use):
        shares = np.array(event.shares or (1.0,))
        f[:tanks, class_index(model, event.class_id)] = -shares * event.amount / model.settings.per
    elif isinstance(event, Start | Missed | Pour):
        t = tank_index(model, event.tank_id)
        if isinstance(event, Pour) and event.into_id is not None:
            f[tank_index(model, event.into_id), t] = 1.0
        f[t, t] = 0.0
    elif isinstance(event, Rescale):
        f[tanks:, tanks:] *= event.ratio
    return f


def _solve_singular(a: Array, b: Array) -> Array:
    """x with a x = b for a symmetric a >= 0 by L D L'; rows whose pivot is zero to rounding give zero."""
    size = len(a)
    lower, pivots = np.eye(size), np.zeros(size)
    for j in range(size):
        pivot = a[j, j] - (lower[j, :j] ** 2 * pivots[:j]).sum()
        if pivot <= NO_PIVOT * a[j, j]:
            continue
        pivots[j] = pivot
        lower[j + 1 :, j] = (a[j + 1 :, j] - (lower[j + 1 :, :j] * pivots[:j]) @ lower[j, :j]) / pivot
    x = b.copy()
    for i in range(size):
        x[i] -= lower[i, :i] @ x[:i]
    x = np.array([row / pivot if pivot > 0 else 0.0 * row for row, pivot in zip(x, pivots, strict=True)])
    for i in reversed(range(size)):
        x[i] -= lower[i + 1 :, i] @ x[i + 1 :]
        if pivots[i] == 0:
            x[i] = 0.0
    return x
