"""Vectors of linalg: small integer systems whose answers are exact."""

from typing import Any

import numpy as np
from vectors.exact import column, floats, inverse, matrix, times, turned
from vectors.frame import case, function, refused

RATIONAL = "rational arithmetic (tests/vectors/exact.py)"
HILBERT = [[1 / (i + j + 1) for j in range(5)] for i in range(5)]
TALL = [[1.0, 0.0, 2.0], [1.0, 1.0, -1.0], [1.0, 2.0, 0.5], [1.0, 3.0, 4.0], [1.0, 5.0, -2.0]]
RIGHT = [1.0, -2.0, 3.0, 0.5, 7.0]


def functions(rng: np.random.Generator) -> list[dict[str, Any]]:
    spd = [[25.0, 15.0, -5.0], [15.0, 18.0, 0.0], [-5.0, 0.0, 11.0]]
    lower = [[5.0, 0.0, 0.0], [3.0, 3.0, 0.0], [-1.0, 1.0, 3.0]]
    tall, right = matrix(TALL), column(RIGHT)
    gram = inverse(times(turned(tall), tall))
    x = times(gram, turned(tall), right)
    rest = [y[0] - fit[0] for y, fit in zip(right, times(tall, x), strict=True)]
    hilbert = [row[0] for row in floats(times(inverse(matrix(HILBERT)), column(RIGHT)))]
    root = [[float(value) for value in row] for row in np.linalg.cholesky(np.array(HILBERT))]
    return [
        function(
            "cholesky",
            "exact integer factors",
            case("integers", lower, a=spd),
            case("one by one", [[3.0]], a=[[9.0]]),
            case("ill-conditioned", root, a=HILBERT, rel=1e-8),
            refused("two equal rows", "Redundant", "readings", a=[[1.0, 1.0], [1.0, 1.0]]),
            refused("not positive", "Redundant", "readings", a=[[1.0, 2.0], [2.0, 1.0]]),
            refused("a pivot of 1e-13", "Redundant", "readings", a=[[1.0, 0.0], [0.0, 1e-13]]),
            refused("not square", "DomainError", "matrix", a=[[1.0, 2.0]]),
        ),
        function("solve_lower", "by hand", case("three", [1.0, 2.0, 3.0], l=lower, b=[5.0, 9.0, 10.0])),
        function("solve_upper", "by hand", case("three", [1.0, 2.0, 3.0], l=lower, b=[8.0, 9.0, 9.0])),
        function(
            "cho_solve",
            RATIONAL,
            case("a vector", [1.0, 2.0, 3.0], l=lower, b=[40.0, 51.0, 28.0]),
            case(
                "a matrix",
                [[1.0, 0.0], [2.0, 1.0], [3.0, 0.0]],
                l=lower,
                b=[[40.0, 15.0], [51.0, 18.0], [28.0, 0.0]],
            ),
            case("through an ill-conditioned factor", hilbert, l=root, b=RIGHT, rel=1e-7),
        ),
        function("symmetrise", "by hand", case("two", [[1.0, 2.5], [2.5, 4.0]], a=[[1.0, 2.0], [3.0, 4.0]])),
        function(
            "least_squares",
            RATIONAL,
            case(
                "five by three",
                [[float(one[0]) for one in x], float(sum(one * one for one in rest))],
                a=TALL,
                b=RIGHT,
            ),
            case("exact fit", [[2.0, -1.0], 0.0], a=[[1.0, 0.0], [0.0, 1.0], [1.0, 1.0]], b=[2.0, -1.0, 1.0]),
            refused(
                "two columns alike",
                "Redundant",
                "readings",
                a=[[1.0, 2.0], [2.0, 4.0], [3.0, 6.0]],
                b=[1.0, 2.0, 3.0],
            ),
            refused("too few rows", "DomainError", "matrix", a=[[1.0, 2.0]], b=[1.0]),
        ),
        function("gram_inverse", RATIONAL, case("five by three", floats(gram), a=TALL)),
    ]
