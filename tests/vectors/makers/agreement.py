"""Vectors of agreement: worked example B, a published balance, and least squares in rational arithmetic."""

from fractions import Fraction
from typing import Any

import numpy as np
from scipy import stats
from vectors.exact import Exact, column, floats, inverse, matrix, plus, times, turned
from vectors.frame import case, function, refused
from vectors.makers.weighing import READINGS, plain_covariance

AXLES = ("front", "rear", "trailer_axles")


def slow(design: list[list[int]], values: list[float], cov: list[list[float]]) -> dict[str, Any]:
    """Generalised least squares by its normal equations, exactly; z from the variance of V^-1 a."""
    b, y, inv = matrix(design), column(values), inverse(matrix(cov))
    spread = inverse(times(turned(b), inv, b))
    mean = times(spread, turned(b), inv, y)
    rest = plus(y, times(b, mean), -1)
    chi2 = float(times(turned(rest), inv, rest)[0][0])
    dof = len(values) - len(design[0])
    p = float(stats.chi2.sf(chi2, dof)) if dof else None
    return {
        "mean_kg": [float(one[0]) for one in mean],
        "cov_kg2": floats(spread),
        "chi2": chi2 if dof else 0.0,
        "dof": dof,
        "p": p,
        "agree": p is None or p >= 0.01,
        "z": _z(inv, b, spread, rest) if dof else [None] * len(values),
    }


def _z(inv: Exact, b: Exact, spread: Exact, rest: Exact) -> list[float | None]:
    weighted = times(inv, rest)
    variance = plus(inv, times(inv, b, spread, turned(b), inv), -1)
    return [
        None if variance[i][i] == Fraction(0) else abs(float(one[0])) / float(variance[i][i]) ** 0.5
        for i, one in enumerate(weighted)
    ]


def readings(sets: list[tuple[str, ...]], values: list[float]) -> list[dict[str, Any]]:
    return [
        {"id": str(i), "axles": list(axles), "value_kg": value}
        for i, (axles, value) in enumerate(zip(sets, values, strict=True))
    ]


def diagonal(*variances: float) -> list[list[float]]:
    return [[value if i == j else 0.0 for j in range(len(variances))] for i, value in enumerate(variances)]


def solved(rng: np.random.Generator) -> list[dict[str, Any]]:
    sets = [("front",), ("rear",), ("trailer_axles",), ("front", "rear"), AXLES]
    design = [[int(axle in one) for axle in AXLES] for one in sets]
    values = [1340.0, 1460.0, 980.0, 2812.0, 3770.0]
    root = rng.normal(size=(5, 5)).round(3)
    cov = [[round(float(x), 6) for x in row] for row in (root @ root.T * 10 + np.eye(5) * 30)]
    lone = diagonal(30.0, 40.0, 50.0, 60.0)
    untested = [("front",), ("rear",), ("front", "rear"), ("trailer_axles",)]
    lone_values = [1340.0, 1460.0, 2812.0, 980.0]
    lone_design = [[int(axle in one) for axle in AXLES] for one in untested]
    return [
        case(
            "five readings of three axles",
            slow(design, values, cov),
            readings=readings(sets, values),
            covariance=cov,
        ),
        case(
            "nothing tests the trailer",
            slow(lone_design, lone_values, lone),
            readings=readings(untested, lone_values),
            covariance=lone,
            rel=1e-8,
        ),
        case(
            "two readings of two axles",
            slow([[1, 0], [0, 1]], [1.0, 2.0], diagonal(4.0, 9.0)),
            readings=readings([("front",), ("rear",)], [1.0, 2.0]),
            covariance=diagonal(4.0, 9.0),
        ),
    ]


def summed(rng: np.random.Generator) -> list[dict[str, Any]]:
    """A lever between the unknown loads: the last reading feels 0.375 of the third."""
    rows = [[1.0, 0.0, 0.0], [1.0, 1.0, 0.0], [1.0, 1.0, -1.0], [1.0, 0.0, 0.375]]
    values = [1300.0, 3200.0, 3040.0, 1365.0]
    root = rng.normal(size=(4, 4)).round(3)
    cov = [[round(float(x), 6) for x in row] for row in (root @ root.T * 10 + np.eye(4) * 30)]
    full = slow([[Fraction(x) for x in row] for row in rows], values, cov)  # type: ignore[misc]
    wanted = {"a": [1.0, 0.0, 0.0], "b": [0.0, 1.0, 0.0], "c": [0.0, 0.0, 1.0]}
    part = {"rows": ["a", "rest"], "mean_kg": [1300.0, 1900.0], "dof": 0, "p": None, "agree": True}
    return [
        case(
            "four readings of three loads",
            {**full, "rows": ["a", "b", "c"]},
            sums=rows,
            values_kg=values,
            covariance=cov,
            wanted=wanted,
        ),
        case(
            "what is open is left out",
            {**part, "cov_kg2": [[4.0, -4.0], [-4.0, 13.0]]},
            sums=[[1.0, 0.0, 0.0], [1.0, 1.0, 1.0]],
            values_kg=[1300.0, 3200.0],
            covariance=diagonal(4.0, 9.0),
            wanted={**wanted, "rest": [0.0, 1.0, 1.0]},
        ),
    ]


def by_hand() -> list[dict[str, Any]]:
    """A total alone, a total read twice, and a sum of two loads."""
    both = {"front": [1.0, 0.0], "gross": [1.0, 1.0]}
    alone = {"rows": ["gross"], "mean_kg": [2830.0], "cov_kg2": [[42.0]], "chi2": 0.0, "dof": 0, "z": [None]}
    twice = {"chi2": 12.25, "dof": 1, "agree": False, "z": [3.5, 3.5]}
    third = 200 / 9
    return [
        case(
            "a total alone fixes none of its axles",
            {**alone, "p": None, "agree": True},
            sums=[[1.0, 1.0]],
            values_kg=[2830.0],
            covariance=[[42.0]],
            wanted=both,
        ),
        case(
            "one total twice, 3.5 sd apart",
            twice,
            sums=[[1.0, 1.0], [1.0, 1.0]],
            values_kg=[2830.0, 2865.0],
            covariance=diagonal(64.0, 36.0),
            wanted=both,
        ),
        case(
            "a sum of two",
            {"rows": ["gross"], "mean_kg": [3470.0], "cov_kg2": [[2 * third]]},
            sums=[[1.0, 0.0], [0.0, 1.0]],
            values_kg=[1520.0, 1950.0],
            covariance=diagonal(third, third),
            wanted={"gross": [1.0, 1.0]},
        ),
    ]


def functions(rng: np.random.Generator) -> list[dict[str, Any]]:
    example = {
        "rows": ["front", "rear"],
        "mean_kg": [1361.997, 1462.382],
        "chi2": 4.6826,
        "dof": 1,
        "p": 0.0305,
        "agree": True,
    }
    twelfth = 400 / 12
    three = readings([("front",), ("rear",), ("front", "rear")], [1520.0, 1950.0, 3490.0])
    balanced = {
        "mean_kg": [1526.6667, 1956.6667],
        "chi2": 4.0,
        "p": 0.0455,
        "cov_kg2": [[22.2222, -11.1111], [-11.1111, 22.2222]],
        "z": [2.0] * 3,
    }
    total = readings([("front", "rear")], [2830.0])
    states = [three[0], {**three[1], "without": ["driver"]}]
    return [
        function(
            "axle_loads",
            "worked example B; three readings of equal u by hand",
            case("example B", example, readings=READINGS, covariance=plain_covariance(), rel=0.0, abs=1e-3),
            case(
                "front, rear and whole",
                balanced,
                readings=three,
                covariance=diagonal(twelfth, twelfth, twelfth),
                rel=0.0,
                abs=1e-3,
            ),
            case(
                "nothing was read",
                {"rows": [], "dof": 0, "p": None, "agree": True},
                readings=[],
                covariance=[],
            ),
            refused("a total fixes no axle", "NotFixed", "axles", readings=total, covariance=[[42.0]]),
            refused(
                "readings in two states",
                "DomainError",
                "readings",
                readings=states,
                covariance=diagonal(1.0, 1.0),
            ),
            refused(
                "redundant to rounding",
                "Redundant",
                "readings",
                readings=three[:2],
                covariance=[[1.0, 1.0], [1.0, 1.0]],
            ),
        ),
        function("axle_loads", "normal equations in rational arithmetic", *solved(rng)),
        function("fixed_sums", "normal equations in rational arithmetic", *summed(rng)),
        function("fixed_sums", "by hand", *by_hand()),
    ]
