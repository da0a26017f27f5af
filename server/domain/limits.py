"""Limits and verdicts: a rating compared with a load that is known only so well."""

from collections.abc import Sequence
from dataclasses import dataclass

from .errors import check_finite, check_range
from .normal import FAR, cdf, z_at
from .statics import Loads

CONFIDENCE = 0.95  # one-sided; the user may choose another


@dataclass(frozen=True, slots=True)
class Verdict:
    """A rating judged. `word` is under, over, cannot_tell or not_known; `reach_kg` is z u, the whisker's
    half length."""

    rating: str
    limit_kg: float | None
    value_kg: float
    u_kg: float
    reach_kg: float
    margin_kg: float | None
    over_probability: float | None
    word: str


@dataclass(frozen=True, slots=True)
class Extremes:
    """Least and greatest load of a row over all levels of the tanks, kg."""

    least_kg: float
    greatest_kg: float


@dataclass(frozen=True, slots=True)
class TankRange:
    """A content that may be anything between two masses, with its share on the row."""

    share: float
    least_kg: float
    greatest_kg: float


def verdict(
    *, rating: str, value_kg: float, u_kg: float, limit_kg: float | None, confidence: float = CONFIDENCE
) -> Verdict:
    """Under if margin >= z u, over if margin < -z u, else cannot tell; z one-sided at the confidence.

    margin = limit - value. u >= 0 kg; with u = 0 a load equal to the limit is under. A blank limit is "not
    known". limit > 0 kg, confidence from 0.5, where the whisker has no length, to below 1; else refused.
    """
    check_finite("value_kg", value_kg)
    check_range("u_kg", u_kg, low=0.0, unit="kg")
    z = z_at(confidence)
    if limit_kg is None:
        return Verdict(rating, None, value_kg, u_kg, z * u_kg, None, None, "not_known")
    check_range("limit_kg", limit_kg, above=0.0, unit="kg")
    margin_kg = limit_kg - value_kg
    word = "under" if margin_kg >= z * u_kg else "over" if margin_kg < -z * u_kg else "cannot_tell"
    chance = chance_over(limit_kg=limit_kg, value_kg=value_kg, u_kg=u_kg)
    return Verdict(rating, limit_kg, value_kg, u_kg, z * u_kg, margin_kg, chance, word)


def chance_over(*, limit_kg: float, value_kg: float, u_kg: float) -> float:
    """Probability that a load known as value +- u exceeds a limit, Phi((value - limit)/u).

    u >= 0 kg; with u = 0 it is 1 above the limit and 0 at or below it.
    """
    check_finite("limit_kg", limit_kg)
    check_finite("value_kg", value_kg)
    check_range("u_kg", u_kg, low=0.0, unit="kg")
    if u_kg == 0:
        return float(value_kg > limit_kg)
    return cdf(max(-FAR, min((value_kg - limit_kg) / u_kg, FAR)))


def lifts(*, loads: Loads) -> tuple[str, ...]:
    """Rows whose mean load is below zero: the front axle, or the coupling, which the trailer then lifts."""
    return tuple(row for row in ("front", "coupling") if row in loads.rows and loads.value_kg(row) < 0.0)


def any_over(*, probabilities: Sequence[float]) -> tuple[float, float]:
    """Bounds on the probability that any limit is exceeded: [max p, min(1, sum p)] (Frechet, Bonferroni).

    The loads are strongly correlated, so the probabilities are never multiplied. No limits give (0, 0).
    """
    for p in probabilities:
        check_range("probability", p, low=0.0, high=1.0)
    return max(probabilities, default=0.0), min(1.0, sum(probabilities))


def extremes(*, fixed_kg: float, tanks: Sequence[TankRange]) -> Extremes:
    """Least and greatest load over independent levels: linear in each content, hence exact and separable.

    max = fixed + sum max(l m_lo, l m_hi). A tank behind the rear axle makes the front greatest when it is
    empty.
    """
    check_finite("fixed_kg", fixed_kg)
    for tank in tanks:
        check_finite("share", tank.share)
        greatest_kg = check_range("greatest_kg", tank.greatest_kg, low=0.0, unit="kg")
        check_range("least_kg", tank.least_kg, low=0.0, high=greatest_kg, unit="kg")
    ends = [(tank.share * tank.least_kg, tank.share * tank.greatest_kg) for tank in tanks]
    return Extremes(fixed_kg + sum(map(min, ends)), fixed_kg + sum(map(max, ends)))
