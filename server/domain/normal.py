"""The normal and the chi-square distribution, without a library, alike in both languages."""

import math

from .errors import DomainError, check_finite, check_range

FAR = 40.0  # beyond it the tail is below every positive double
MOST_DOF = 1e6  # more readings than anybody takes (our choice)


def pdf(x: float) -> float:
    """Density of the standard normal distribution, exp(-x^2/2)/sqrt(2 pi)."""
    x = check_finite("x", x)
    return math.exp(-x * x / 2) / math.sqrt(2 * math.pi)


def cdf(x: float) -> float:
    """Distribution function of the standard normal, relative error below 4e-14 for |x| <= 12; 0 or 1 beyond 40.

    A power series from -2 to 4.5 (Marsaglia 2004, J. Stat. Software 11(4), from memory), the continued
    fraction of the tail below (Abramowitz and Stegun 26.2.14, from memory), 1 - cdf(-x) above. For an upper
    tail call cdf(-x), never 1 - cdf(x).
    """
    if isinstance(x, float) and FAR < abs(x) < math.inf:
        return float(x > 0)
    x = check_finite("x", x)
    if x < -2:
        return _lower_tail(-x)
    return _series(x) if x <= 4.5 else 1 - _lower_tail(x)


def quantile(p: float) -> float:
    """x with cdf(x) = p, for 0 < p < 1, by 70 halvings of [-40, 0]; symmetric above one half.

    p = 0 and p = 1 are refused: there is no finite answer.
    """
    p = check_range("p", p, above=0.0, below=1.0)
    if p > 0.5:
        return -quantile(1 - p)
    if p == 0.5:
        return 0.0
    low, high = -40.0, 0.0
    for _ in range(70):
        middle = (low + high) / 2
        low, high = (middle, high) if cdf(middle) < p else (low, middle)
    return (low + high) / 2


def z_at(confidence: float) -> float:
    """How many u a one-sided confidence is worth, 1.6449 at 0.95; from 0.5, where it is 0, to below 1, else refused."""
    return quantile(check_range("confidence", confidence, low=0.5, below=1.0))


def chi2_upper(x: float, dof: int) -> float:
    """Chance that a chi-square variable of `dof` degrees of freedom, a whole number from 1 to 1e6, exceeds x >= 0.

    Finite sums for even and odd dof: Abramowitz and Stegun 26.4.4 and 26.4.5 (from memory).
    """
    x = check_range("x", x, low=0.0)
    check_range("dof", dof, low=1, high=MOST_DOF)
    if dof % 1:
        raise DomainError("dof", dof, "a whole number from 1 to 1e6")
    dof = int(dof)
    if dof % 2 == 0:
        term = total = math.exp(-x / 2)
        for i in range(1, dof // 2):
            term *= x / 2 / i
            total += term
        return total
    total = 2 * cdf(-math.sqrt(x))
    term = math.sqrt(2 * x / math.pi) * math.exp(-x / 2)
    for i in range(1, dof - 1, 2):
        total += term
        term *= x / (i + 2)
    return total


def _series(x: float) -> float:
    total = term = x
    k = 1
    while total + term != total:
        term *= x * x / (2 * k + 1)
        total += term
        k += 1
    return 0.5 + pdf(x) * total


def _lower_tail(a: float) -> float:
    """phi(a)/(a + 1/(a + 2/(a + ...))), evaluated from its far end."""
    fraction = a
    for k in range(400 if a < 3 else 120, 0, -1):
        fraction = a + k / fraction
    return pdf(a) / fraction
