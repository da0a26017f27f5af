"""Rational arithmetic for expected values: slow, plain, and without rounding until the end."""

from collections.abc import Sequence
from fractions import Fraction

Exact = list[list[Fraction]]


def matrix(rows: Sequence[Sequence[float]]) -> Exact:
    """The very numbers that the floats are."""
    return [[Fraction(value) for value in row] for row in rows]


def column(values: Sequence[float]) -> Exact:
    return [[Fraction(value)] for value in values]


def times(a: Exact, *others: Exact) -> Exact:
    for b in others:
        a = [
            [sum((x * y for x, y in zip(row, col, strict=True)), Fraction(0)) for col in zip(*b, strict=True)]
            for row in a
        ]
    return a


def plus(a: Exact, b: Exact, factor: int = 1) -> Exact:
    return [
        [x + factor * y for x, y in zip(row, other, strict=True)] for row, other in zip(a, b, strict=True)
    ]


def turned(a: Exact) -> Exact:
    return [list(col) for col in zip(*a, strict=True)]


def inverse(a: Exact) -> Exact:
    """Gauss-Jordan elimination."""
    size = len(a)
    work = [[*row, *(Fraction(i == j) for j in range(size))] for i, row in enumerate(a)]
    for k in range(size):
        pivot = next(i for i in range(k, size) if work[i][k])
        work[k], work[pivot] = work[pivot], work[k]
        work[k] = [value / work[k][k] for value in work[k]]
        for i in range(size):
            if i != k and work[i][k]:
                work[i] = [x - work[i][k] * y for x, y in zip(work[i], work[k], strict=True)]
    return [row[size:] for row in work]


def floats(a: Exact) -> list[list[float]]:
    return [[float(value) for value in row] for row in a]
