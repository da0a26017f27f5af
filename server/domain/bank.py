"""The same filter run for several kappas, weighted by how well each foretold what was read.

How unsteady a driver is from leg to leg is not known beforehand; the bank learns it. Magill 1965, IEEE Trans.
Autom. Control 10:434 (from memory).
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp, sqrt

from .errors import NotKnown, check_range
from .events import Event, Observation
from .filter import Estimate, Innovation, Model, advance_all, innovations, prior, total_left


@dataclass(frozen=True, slots=True)
class Bank:
    """One model under several kappas, with equal prior weights."""

    model: Model
    kappas: tuple[float, ...]
    estimates: tuple[Estimate, ...]


@dataclass(frozen=True, slots=True)
class Value:
    """A mean with one standard uncertainty."""

    mean: float
    u: float


def bank_prior(*, model: Model, kappas: Sequence[float]) -> Bank:
    """The bank before the first entry; needs at least one kappa, each >= 0."""
    if not kappas:
        raise NotKnown("kappas", "the bank")
    for kappa in kappas:
        check_range("kappa", kappa, low=0.0)
    first = prior(model=model)
    return Bank(model, tuple(kappas), (first,) * len(kappas))


def bank_advance(*, bank: Bank, event: Event) -> Bank:
    """The bank after one event; the one before stays as it is and can be continued again."""
    after = advance_all(model=bank.model, kappas=bank.kappas, estimates=bank.estimates, event=event)
    return Bank(bank.model, bank.kappas, after)


def bank_weights(*, bank: Bank) -> tuple[float, ...]:
    """Weight of each kappa: proportional to exp(log-likelihood - greatest), the sum is 1."""
    best = max(estimate.log_likelihood for estimate in bank.estimates)
    raw = [exp(estimate.log_likelihood - best) for estimate in bank.estimates]
    return tuple(weight / sum(raw) for weight in raw)


def mixture(*, means: Sequence[float], variances: Sequence[float], weights: Sequence[float]) -> Value:
    """Mean and u of a mixture: sum w m, and sqrt(sum w (v + (m - mean)^2)), a sum form without cancellation.

    For display only: probabilities are weighted sums of probabilities.
    """
    mean = sum(w * m for w, m in zip(weights, means, strict=True))
    variance = sum(w * (v + (m - mean) ** 2) for w, m, v in zip(weights, means, variances, strict=True))
    return Value(mean, sqrt(max(variance, 0.0)))


def bank_innovation(*, bank: Bank, event: Observation) -> Innovation:
    """What an observation says against the mixture, with the weights as they were before it."""
    seen = innovations(model=bank.model, estimates=bank.estimates, event=event)
    mixed = mixture(
        means=[one.nu_l for one in seen],
        variances=[one.s_l2 for one in seen],
        weights=bank_weights(bank=bank),
    )
    return Innovation(mixed.mean, mixed.u**2, mixed.mean / mixed.u)


def bank_state(*, bank: Bank) -> tuple[Value, ...]:
    """Every level and rate of the mixture, in the state's order."""
    weights = bank_weights(bank=bank)
    return tuple(
        mixture(
            means=[one.mean[k] for one in bank.estimates],
            variances=[one.cov[k][k] for one in bank.estimates],
            weights=weights,
        )
        for k in range(len(bank.estimates[0].mean))
    )


def bank_total(*, bank: Bank) -> Value:
    """Litres in all tanks of the mixture."""
    left = [total_left(model=bank.model, estimate=one) for one in bank.estimates]
    return mixture(
        means=[mean for mean, _ in left],
        variances=[variance for _, variance in left],
        weights=bank_weights(bank=bank),
    )
