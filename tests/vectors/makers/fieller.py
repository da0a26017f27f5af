"""Vectors of fieller: the worked example, and the quadratic inequality solved in high precision."""

from decimal import Decimal, getcontext
from typing import Any

import numpy as np
from vectors.frame import case, function, refused

getcontext().prec = 50
Z = 1.959964
W = {"w_aa": 1500.0, "w_ab": 300.0, "w_bb": 200.0}


def slow(a: float, b: float, w_aa: float, w_ab: float, w_bb: float, z: float) -> dict[str, Any]:
    """Roots of A t^2 - 2 B t + C in fifty digits."""
    da, db, aa, ab, bb, dz = (Decimal(one) for one in (a, b, w_aa, w_ab, w_bb, z))
    lead, half, tail = db * db - dz * dz * bb, da * db - dz * dz * ab, da * da - dz * dz * aa
    disc = half * half - lead * tail
    g = float(dz * dz * bb / (db * db))
    if lead < 0 and disc <= 0:
        return {"kind": "line", "from_m": None, "to_m": None, "g": g}
    roots = sorted(float((half + sign * disc.sqrt()) / lead) for sign in (-1, 1))
    return {"kind": "interval" if lead > 0 else "outside", "from_m": roots[0], "to_m": roots[1], "g": g}


def functions(rng: np.random.Generator) -> list[dict[str, Any]]:
    draws = []
    for i in range(12):
        a, b = (round(float(x), 3) for x in rng.normal(scale=(300, 60)))
        root = rng.normal(scale=(40, 12), size=(3, 2))
        w = (root.T @ root).round(6)
        given = {"w_aa": float(w[0, 0]), "w_ab": float(w[0, 1]), "w_bb": float(w[1, 1])}
        draws.append(
            case(f"draw {i}", slow(a, b, **given, z=Z), moment_kgm=a, mass_kg=b, **given, z=Z, rel=1e-8)
        )
    sharp = {"w_aa": 1e-6, "w_ab": 0.0, "w_bb": 1e-10}
    return [
        function(
            "fieller",
            "worked example C",
            case(
                "interval",
                {"kind": "interval", "from_m": 2.28574, "to_m": 4.40763, "g": 0.1200},
                moment_kgm=250.0,
                mass_kg=80.0,
                **W,
                rel=0.0,
                abs=5e-5,
            ),
            case(
                "whole line",
                {"kind": "line", "from_m": None, "to_m": None},
                moment_kgm=60.0,
                mass_kg=15.0,
                **W,
            ),
            case("no mass", {"kind": "line", "g": None}, moment_kgm=10.0, mass_kg=0.0, **W),
            case(
                "all sure",
                {"kind": "interval", "from_m": 2.5, "to_m": 2.5, "g": 0.0},
                moment_kgm=250.0,
                mass_kg=100.0,
                w_aa=0.0,
                w_ab=0.0,
                w_bb=0.0,
            ),
            refused(
                "a negative variance",
                "OutOfRange",
                "w_bb",
                moment_kgm=1.0,
                mass_kg=1.0,
                **{**W, "w_bb": -1.0},
            ),
        ),
        function(
            "fieller",
            "the quadratic inequality in fifty digits",
            case("outside", slow(200.0, 20.0, **W, z=Z), moment_kgm=200.0, mass_kg=20.0, **W, z=Z),
            case(
                "far apart in size",
                slow(2500.0, 1000.0, **sharp, z=Z),
                moment_kgm=2500.0,
                mass_kg=1000.0,
                **sharp,
                z=Z,
            ),
            *draws,
        ),
    ]
