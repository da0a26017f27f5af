"""Small dense linear algebra: solve, never invert.

Systems here have one row per reading. A matrix that is singular to rounding is refused, never jittered.
"""

import math

import numpy as np
from numpy.typing import NDArray

from .errors import OutOfRange, Redundant

Matrix = NDArray[np.float64]

_PIVOT = 1e-12  # smallest pivot, as a share of the largest diagonal


def cholesky(a: Matrix) -> Matrix:
    """Lower C with a = C C'.

    a: symmetric positive definite (n, n). Raises Redundant where a pivot is <= 1e-12 of the largest diagonal.
    """
    a = np.asarray(a, dtype=float)
    n = len(a)
    largest = float(np.max(np.diag(a))) if n else 0.0
    lower = np.zeros((n, n))
    for j in range(n):
        row = lower[j, :j]
        pivot = float(a[j, j] - row @ row)
        if not pivot > _PIVOT * largest:
            raise Redundant("readings", n, "independent", way_out="Two of them are the same to rounding.")
        lower[j, j] = math.sqrt(pivot)
        lower[j + 1 :, j] = (a[j + 1 :, j] - lower[j + 1 :, :j] @ row) / lower[j, j]
    return lower


def solve_lower(lower: Matrix, b: Matrix) -> Matrix:
    """x of C x = b by forward substitution; b is (n,) or (n, m)."""
    x = np.array(b, dtype=float)
    for i in range(len(lower)):
        x[i] = (x[i] - lower[i, :i] @ x[:i]) / lower[i, i]
    return x


def solve_upper(lower: Matrix, b: Matrix) -> Matrix:
    """x of C' x = b by back substitution, C given lower; b is (n,) or (n, m)."""
    x = np.array(b, dtype=float)
    for i in range(len(lower) - 1, -1, -1):
        x[i] = (x[i] - lower[i + 1 :, i] @ x[i + 1 :]) / lower[i, i]
    return x


def cho_solve(lower: Matrix, b: Matrix) -> Matrix:
    """x of C C' x = b."""
    return solve_upper(lower, solve_lower(lower, b))


def symmetrise(a: Matrix) -> Matrix:
    """(a + a') / 2."""
    out: Matrix = (a + a.T) / 2
    return out


def least_squares(a: Matrix, b: Matrix) -> tuple[Matrix, float]:
    """x that makes |a x - b| least, and the residual sum of squares, by Householder QR.

    a: (n, k) with n >= k and full column rank, b: (n,). Raises Redundant where the rank is less.
    """
    r, y = np.array(a, dtype=float), np.array(b, dtype=float)
    n, k = r.shape
    if n < k:
        raise OutOfRange("rows", n, f"at least {k}")
    scale = float(np.max(np.abs(r))) if r.size else 0.0
    for j in range(k):
        v = r[j:, j].copy()
        norm = math.sqrt(float(v @ v))
        if not norm > _PIVOT * scale:
            raise Redundant("columns", k, "independent")
        v[0] += math.copysign(norm, v[0])
        share = 2.0 / float(v @ v)
        r[j:, j:] -= share * np.outer(v, v @ r[j:, j:])
        y[j:] -= share * float(v @ y[j:]) * v
    x = np.zeros(k)
    for i in range(k - 1, -1, -1):
        x[i] = (y[i] - r[i, i + 1 :] @ x[i + 1 :]) / r[i, i]
    return x, float(y[k:] @ y[k:])
