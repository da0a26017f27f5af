"""The normal distribution and the upper tail of chi-square, the same in both languages."""

import math

from .errors import check_range

_ROOT_2PI = math.sqrt(2 * math.pi)


def pdf(x: float) -> float:
    """Standard normal density."""
    return math.exp(-x * x / 2) / _ROOT_2PI


def cdf(x: float) -> float:
    """Standard normal distribution function, relative error below 1e-13 for |x| <= 12.

    Series of Marsaglia (2004, J. Stat. Softw. 11:4, from memory) in the middle, continued fraction in the
    lower tail. An upper tail is cdf(-x), never 1 - cdf(x).
    """
    if x < -2.0:
        return _lower_tail(-x)
    if x > 4.5:
        return 1.0 - _lower_tail(x)
    term = total = x
    k = 1
    while total + term != total:
        term *= x * x / (2 * k + 1)
        total += term
        k += 1
    return 0.5 + pdf(x) * total


def _lower_tail(a: float) -> float:
    below = a
    for k in range(400 if a < 3 else 120, 0, -1):
        below = a + k / below
    return pdf(a) / below


def quantile(p: float) -> float:
    """x with cdf(x) = p, 0 < p < 1, by bisection in the lower half and symmetry above; else refused."""
    check_range("p", p, above=0.0, high=1.0)
    check_range("p", 1.0 - p, above=0.0)
    if p > 0.5:
        return -quantile(1.0 - p)
    low, high = -40.0, 0.0
    for _ in range(70):
        middle = (low + high) / 2
        if cdf(middle) < p:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def chi2_upper(x: float, dof: int) -> float:
    """P(chi-square with `dof` degrees of freedom > x), x >= 0, dof >= 1.

    Closed forms for whole dof (Abramowitz & Stegun 26.4, from memory).
    """
    check_range("x", x, low=0.0)
    check_range("dof", dof, low=1)
    if dof % 2 == 0:
        term = total = 1.0
        for i in range(1, dof // 2):
            term *= x / 2 / i
            total += term
        return math.exp(-x / 2) * total
    total = 2.0 * cdf(-math.sqrt(x))
    term = math.sqrt(2 * x / math.pi) * math.exp(-x / 2)
    for i in range(1, dof - 1, 2):
        total += term
        term *= x / (i + 2)
    return total
