"""Solve, never invert: triangular factors and least squares, with a refusal instead of a silent jitter."""

import math
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from .errors import DomainError, Redundant, check_finite

Array = NDArray[np.float64]

# A pivot at or below this share of the largest diagonal counts as zero (our choice, maths 0.1)
PIVOT_SHARE = 1e-12


def cholesky(a: ArrayLike) -> Array:
    """Lower factor L of a symmetric positive definite matrix, a = L L'.

    Only the lower triangle is read. A pivot <= 1e-12 times the largest diagonal element is refused with
    `Redundant`: no jitter is added. An empty matrix has an empty factor. Source: Golub and Van Loan, Matrix
    Computations, algorithm 4.2.1 (from memory).
    """
    matrix = as_square(a)
    size = len(matrix)
    smallest = PIVOT_SHARE * max(np.diag(matrix), default=0.0)
    factor = np.zeros_like(matrix)
    for j in range(size):
        row = factor[j, :j]
        pivot = matrix[j, j] - row @ row
        if not pivot > smallest:
            raise Redundant()
        factor[j, j] = math.sqrt(pivot)
        factor[j + 1 :, j] = (matrix[j + 1 :, j] - factor[j + 1 :, :j] @ row) / factor[j, j]
    return factor


def solve_lower(l: ArrayLike, b: ArrayLike) -> Array:  # noqa: E741 (the letter of the equation)
    """Solve L x = b by forward substitution; b is a vector or a matrix, L has no zero on its diagonal."""
    factor = as_square(l)
    x = np.array(b, dtype=float)
    for j in range(len(factor)):
        x[j] = (x[j] - factor[j, :j] @ x[:j]) / factor[j, j]
    return x


def solve_upper(l: ArrayLike, b: ArrayLike) -> Array:  # noqa: E741
    """Solve L' x = b by back substitution, given the *lower* factor L."""
    factor = as_square(l)
    x = np.array(b, dtype=float)
    for j in reversed(range(len(factor))):
        x[j] = (x[j] - factor[j + 1 :, j] @ x[j + 1 :]) / factor[j, j]
    return x


def cho_solve(l: ArrayLike, b: ArrayLike) -> Array:  # noqa: E741
    """Solve L L' x = b, given the lower factor L."""
    return solve_upper(l, solve_lower(l, b))


def symmetrise(a: ArrayLike) -> Array:
    """(a + a')/2: takes rounding's asymmetry out of a covariance."""
    matrix = as_square(a)
    half: Array = (matrix + matrix.T) / 2
    return half


def least_squares(a: ArrayLike, b: ArrayLike) -> tuple[Array, float]:
    """Minimise |a x - b|^2 by Householder QR: x and the sum of squared residuals.

    `a` has at least as many rows as columns and full column rank: a diagonal element of R at or below 1e-12
    times the largest is refused with `Redundant`. Source: Golub and Van Loan, section 5.3 (from memory).
    """
    matrix, right = np.array(a, dtype=float), np.array(b, dtype=float)
    q, r = _qr(matrix)
    x = _solve_r(r, q.T @ right)
    residual = right - matrix @ x
    return x, float(residual @ residual)


def gram_inverse(a: ArrayLike) -> Array:
    """(a' a)^-1 from the R of QR, which squares no condition number; refuses as `least_squares` does."""
    _, r = _qr(np.array(a, dtype=float))
    root = _solve_r(r, np.eye(len(r)))
    inverse: Array = root @ root.T
    return inverse


def as_square(a: ArrayLike) -> Array:
    """A fresh float matrix; refuses what is not square."""
    matrix = np.array(a, dtype=float)
    if matrix.size == 0:
        return np.zeros((0, 0))
    if matrix.ndim != 2 or matrix.shape[0] != matrix.shape[1]:
        raise DomainError("matrix", str(matrix.shape), "as many rows as columns")
    return matrix


def finite(field: str, a: ArrayLike) -> Array:
    """A vector or matrix as floats; refuses an element that is not finite, by the name of the whole."""
    for value in np.array(a, dtype=object).ravel():
        check_finite(field, value)
    out: Array = np.array(a, dtype=float)
    return out


def tuples(a: Any) -> Any:
    """A vector or matrix as (nested) tuples of floats, so that a result can be compared and hashed."""
    array = np.asarray(a, dtype=float)
    return tuple(array.tolist()) if array.ndim == 1 else tuple(tuple(row) for row in array.tolist())


def _qr(matrix: Array) -> tuple[Array, Array]:
    if matrix.ndim != 2 or matrix.shape[0] < matrix.shape[1]:
        raise DomainError("matrix", str(matrix.shape), "at least as many rows as columns")
    q, r = np.linalg.qr(matrix)
    sizes = np.abs(np.diag(r))
    if sizes.size and not sizes.min() > PIVOT_SHARE * sizes.max():
        raise Redundant()
    return q, r


def _solve_r(r: Array, b: Array) -> Array:
    return solve_upper(r.T, b)
