"""What is left after a way, how far it can be counted on, and with what probability a distance is reached.

A true distance d (map, road posts) is d/k indicated km; `factor` is k = true / indicated km with its u. For
water the amounts are person-days and the factor is 1.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import sqrt

import numpy as np

from .bank import Bank, bank_weights
from .errors import OutOfRange, check_range
from .filter import Estimate, Model, class_index, leg_noise, total_left
from .linalg import finite
from .normal import cdf

LIMIT = 1e6  # a range that ends nowhere below this is cut here
TOLERANCE = 1e-9  # width at which the bisection of a range stops


@dataclass(frozen=True, slots=True)
class Counting:
    """How true and indicated km go together, and what must not be used."""

    factor: float = 1.0
    factor_u: float = 0.0
    reserve_l: float = 0.0


def check_mix(*, mix: Mapping[str, float]) -> None:
    """Refuse shares outside 0 to 1 or with a sum that differs from 1 by more than 1e-9."""
    for share in mix.values():
        check_range("mix", share, low=0.0, high=1.0)
    if abs(sum(mix.values()) - 1.0) > 1e-9:
        raise OutOfRange("mix", sum(mix.values()), 1.0, 1.0)


def check_counting(*, counting: Counting) -> None:
    """Refuse a factor not above 0, a negative u and a negative reserve."""
    check_range("factor", counting.factor, above=0.0)
    check_range("factor_u", counting.factor_u, low=0.0)
    check_range("reserve_l", counting.reserve_l, low=0.0, unit="L")


def left_after(
    *,
    model: Model,
    kappa: float,
    estimate: Estimate,
    mix: Mapping[str, float],
    amount: float,
    counting: Counting | None = None,
) -> tuple[float, float]:
    """Litres left and their variance after a true amount of an evenly mixed way; the reserve is not taken off.

    mean = sum V - sum b_i D_i/per, D_i = share_i amount / k;
    var = g'P g + sum_i [walk_class^2 b0_i^2 D_i^3/(3 per^2 ref) + q_i D_i]
          + walk^2 (sum b0_i D_i)^2 D/(3 per^2 ref) + (fuel u_k/k)^2,  g = (1..1, -D_i/per).
    amount >= 0. With one class it is the same as stepping; a way in a known order is stepped (`route`).
    """
    check_range("kappa", kappa, low=0.0)
    check_range("amount", amount, low=0.0)
    check_mix(mix=mix)
    counting = counting or Counting()
    check_counting(counting=counting)
    settings, total = model.settings, amount / counting.factor
    g = np.ones(len(estimate.mean))
    g[len(model.tank_ids) :] = 0.0
    own = prior_use = used = 0.0
    for class_id, share in mix.items():
        i, part = class_index(model, class_id), share * total
        rate0 = estimate.scale * model.rate0[i - len(model.tank_ids)]
        g[i] = -part / settings.per
        used += estimate.mean[i] * part / settings.per
        prior_use += rate0 * part
        own += (settings.walk_class * rate0) ** 2 * part**3 / (3 * settings.per**2 * settings.walk_ref)
        own += leg_noise(model=model, kappa=kappa, class_id=class_id, scale=estimate.scale) * part
    common = (settings.walk * prior_use) ** 2 * total / (3 * settings.per**2 * settings.walk_ref)
    odometer = (used * counting.factor_u / counting.factor) ** 2
    variance = float(g @ np.array(estimate.cov) @ g) + own + common + odometer
    return total_left(model=model, estimate=estimate)[0] - used, variance


def reach(*, bank: Bank, mix: Mapping[str, float], amount: float, counting: Counting | None = None) -> float:
    """Probability that an amount is done without touching the reserve: the weighted sum over the bank.

    Each P = Phi((mean - reserve) / sd); sd = 0 decides by the sign, an untouched reserve counts as reached.
    """
    counting = counting or Counting()
    parts = [
        left_after(model=bank.model, kappa=kappa, estimate=one, mix=mix, amount=amount, counting=counting)
        for kappa, one in zip(bank.kappas, bank.estimates, strict=True)
    ]
    return untouched(parts=parts, weights=bank_weights(bank=bank), reserve_l=counting.reserve_l)


def range_at(*, bank: Bank, mix: Mapping[str, float], p: float, counting: Counting | None = None) -> float:
    """Largest true amount that is reached with probability p: 0.95 is the count-on range, 0.5 the likely one.

    0 if even now the probability is below p. Bracketed by doubling, bisected to 1e-9; cut at 1e6, where a rate
    at or below 0 would lead nowhere, or a p far below 0.5: very far out the rate's drift outgrows the mean, and
    the probability rises again towards 1/2. 0 < p < 1, else refused.
    """
    check_range("p", p, above=0.0, below=1.0)

    def falls_short(amount: float) -> bool:
        return reach(bank=bank, mix=mix, amount=amount, counting=counting) < p

    if falls_short(0.0):
        return 0.0
    low, high = 0.0, 1.0
    while not falls_short(high):
        if high >= LIMIT:
            return LIMIT
        low, high = high, 2 * high
    while high - low > TOLERANCE:
        middle = (low + high) / 2
        if middle in (low, high):
            break
        low, high = (low, middle) if falls_short(middle) else (middle, high)
    return low


def untouched(*, parts: Sequence[tuple[float, float]], weights: Sequence[float], reserve_l: float) -> float:
    """Probability that a mixture of levels, each (mean, variance), is not below the reserve.

    The weighted sum of Phi((mean - reserve) / sd); sd = 0 decides by the sign, an untouched reserve counts.
    """
    total = 0.0
    for weight, (mean, variance) in zip(weights, parts, strict=True):
        margin = mean - reserve_l
        if variance > 0:
            total += weight * cdf(margin / sqrt(variance))
        else:
            total += weight * (1.0 if margin >= 0 else 0.0)
    return min(total, 1.0)  # the weights add up to 1 but for rounding


def litres_at(*, parts: Sequence[tuple[float, float]], weights: Sequence[float], p: float) -> float:
    """Litres that a mixture of levels, each (mean, variance), holds at least with probability p, 0 < p < 1.

    0.5 gives the likely figure, 0.95 the count-on one; below zero where they would be used up. Bisected to 1e-9 L.
    """
    check_range("p", p, above=0.0, below=1.0)
    finite("parts", parts)
    finite("weights", weights)
    reach_l = 40.0 * sqrt(max(variance for _, variance in parts)) + TOLERANCE
    low = min(mean for mean, _ in parts) - reach_l
    high = max(mean for mean, _ in parts) + reach_l
    while high - low > TOLERANCE:
        middle = (low + high) / 2
        if middle in (low, high):
            break
        enough = untouched(parts=parts, weights=weights, reserve_l=middle) >= p
        low, high = (middle, high) if enough else (low, middle)
    return low
