"""Vectors of normal: scipy as an independent implementation, and printed tables."""

from typing import Any

import numpy as np
from scipy import special, stats
from vectors.frame import case, function, refused

TABLE = {
    1: 3.841,
    2: 5.991,
    3: 7.815,
    4: 9.488,
    5: 11.070,
    6: 12.592,
    7: 14.067,
    8: 15.507,
    9: 16.919,
    10: 18.307,
}
POINTS = (-41.0, -37.0, -12.0, -4.6, -4.5, -2.1, -2.0, -1.0, -1e-9, 0.0, 0.3, 1.96, 4.4, 4.6, 9.0, 41.0)
CHANCES = (1e-15, 1e-6, 0.01, 0.05, 0.25, 0.5, 0.75, 0.95, 0.975, 0.999999)


def functions(rng: np.random.Generator) -> list[dict[str, Any]]:
    chi2 = [(x, k) for k in (1, 2, 3, 4, 7, 12, 25) for x in (0.0, 0.2, 3.0, 11.0, 60.0)]
    return [
        function(
            "pdf", "scipy.stats.norm.pdf", *(case(f"x = {x}", float(stats.norm.pdf(x)), x=x) for x in POINTS)
        ),
        function(
            "cdf",
            "scipy.special.ndtr",
            *(case(f"x = {x}", float(special.ndtr(x)), x=x, rel=1e-12, abs=0.0) for x in POINTS),
            refused("text", "DomainError", "x", x="1"),
        ),
        function(
            "quantile",
            "scipy.special.ndtri",
            *(case(f"p = {p}", float(special.ndtri(p)), p=p, rel=1e-12) for p in CHANCES),
            refused("never", "OutOfRange", "p", p=0.0),
            refused("always", "OutOfRange", "p", p=1.0),
        ),
        function(
            "z_at",
            "scipy.special.ndtri",
            *(
                case(f"at {c}", float(special.ndtri(c)), confidence=c, rel=1e-12)
                for c in (0.5, 0.9, 0.95, 0.999)
            ),
            refused("less than even", "OutOfRange", "confidence", confidence=0.4),
            refused("always sure", "OutOfRange", "confidence", confidence=1.0),
        ),
        function(
            "chi2_upper",
            "NIST/SEMATECH e-Handbook 1.3.6.7.4 (95 % points, from memory) and scipy.stats.chi2.sf",
            *(case(f"95 % point, {k} dof", 0.05, x=x, dof=k, rel=0.0, abs=1.6e-5) for k, x in TABLE.items()),
            *(case(f"x = {x}, {k} dof", float(stats.chi2.sf(x, k)), x=x, dof=k, rel=1e-11) for x, k in chi2),
            refused("below zero", "OutOfRange", "x", x=-1.0, dof=2),
            refused("no freedom", "OutOfRange", "dof", x=1.0, dof=0),
            refused("half a degree", "DomainError", "dof", x=1.0, dof=2.5),
            refused("more than can be summed", "OutOfRange", "dof", x=1.0, dof=1e16),
        ),
    ]
