"""Vectors of limits: the worked example, and scipy for the chances."""

from typing import Any

import numpy as np
from scipy import stats
from vectors.frame import case, function, refused


def judged(value: float, u: float, limit: float, confidence: float, word: str) -> dict[str, Any]:
    return {
        "rating": "rear",
        "limit_kg": limit,
        "value_kg": value,
        "u_kg": u,
        "reach_kg": float(stats.norm.ppf(confidence)) * u,
        "margin_kg": limit - value,
        "over_probability": float(stats.norm.sf((limit - value) / u)) if u else float(value > limit),
        "word": word,
    }


def _loads(**rows: float) -> dict[str, Any]:
    empty = [[0.0] * len(rows) for _ in rows]
    return {"rows": list(rows), "mean_kg": list(rows.values()), "cov_kg2": empty}


def functions(rng: np.random.Generator) -> list[dict[str, Any]]:
    example = {"rating": "rear", "value_kg": 1245.625, "u_kg": 14.1006, "limit_kg": 1270.0}
    rows = [
        ("far under", 1200.0, 12.0, 1300.0, 0.95, "under"),
        ("far over", 1400.0, 12.0, 1300.0, 0.95, "over"),
        ("one kg over and 12 unsure", 1301.0, 12.0, 1300.0, 0.95, "cannot_tell"),
        ("sure to be under only at 50 %", 1299.0, 12.0, 1300.0, 0.5, "under"),
        ("exact and equal is under", 1300.0, 0.0, 1300.0, 0.95, "under"),
        ("exact and over", 1300.5, 0.0, 1300.0, 0.95, "over"),
        ("a lifted front", -20.0, 5.0, 900.0, 0.99, "under"),
        ("deep in the tail", 1300.0, 10.0, 1420.0, 0.999, "under"),
    ]
    blank = {
        **judged(1200.0, 12.0, 1.0, 0.95, "not_known"),
        "limit_kg": None,
        "margin_kg": None,
        "over_probability": None,
    }
    return [
        function(
            "verdict",
            "worked example A (P(over) 0.04194, margin at 95 % 1.18 kg); scipy.stats.norm",
            case("example A", {"over_probability": 0.04194, "word": "under"}, **example, rel=0.0, abs=5e-6),
            *(
                case(
                    name,
                    judged(v, u, limit, c, word),
                    rating="rear",
                    value_kg=v,
                    u_kg=u,
                    limit_kg=limit,
                    confidence=c,
                    rel=1e-9,
                    abs=0.0,
                )
                for name, v, u, limit, c, word in rows
            ),
            case("no rating is not known", blank, rating="rear", value_kg=1200.0, u_kg=12.0, limit_kg=None),
            refused("a limit of nothing", "OutOfRange", "limit_kg", **{**example, "limit_kg": 0.0}),
            refused("a negative u", "OutOfRange", "u_kg", **{**example, "u_kg": -1.0}),
            refused("never sure", "OutOfRange", "confidence", **example, confidence=1.0),
            refused("less than even", "OutOfRange", "confidence", **example, confidence=0.4),
        ),
        function(
            "chance_over",
            "scipy.stats.norm; a sure load is over only above the limit",
            case("a doubt", float(stats.norm.cdf(1.5)), limit_kg=1300.0, value_kg=1318.0, u_kg=12.0),
            case("equal and sure", 0.0, limit_kg=1300.0, value_kg=1300.0, u_kg=0.0),
            case("above and sure", 1.0, limit_kg=1300.0, value_kg=1300.1, u_kg=0.0),
            case("next to no doubt, far above", 1.0, limit_kg=1300.0, value_kg=1e12, u_kg=1e-300),
            case("next to no doubt, far below", 0.0, limit_kg=1e12, value_kg=1300.0, u_kg=1e-300),
            case("hardly in doubt, above", 1.0, limit_kg=1300.0, value_kg=1301.0, u_kg=1e-9),
            case("hardly in doubt, below", 0.0, limit_kg=1300.0, value_kg=1299.0, u_kg=1e-9),
            refused(
                "a load typed as text", "DomainError", "value_kg", limit_kg=1300.0, value_kg="1", u_kg=1.0
            ),
        ),
        function(
            "lifts",
            "by hand",
            case("the front axle", ["front"], loads=_loads(front=-4.0, coupling=60.0)),
            case("the coupling", ["coupling"], loads=_loads(front=900.0, coupling=-1.0)),
            case("none", [], loads=_loads(front=0.0)),
        ),
        function(
            "any_over",
            "Frechet and Bonferroni bounds, by hand",
            case("three", [0.3, 0.6], probabilities=[0.1, 0.3, 0.2]),
            case("at most one", [0.7, 1.0], probabilities=[0.7, 0.6]),
            case("no limits", [0.0, 0.0], probabilities=[]),
            refused("no chance", "OutOfRange", "probability", probabilities=[1.2]),
        ),
        function(
            "extremes",
            "by hand: each tank at its worse end",
            case(
                "a tank behind the rear axle is worst when empty",
                {"least_kg": 1000.0 - 25.0, "greatest_kg": 1000.0 + 40.0},
                fixed_kg=1000.0,
                tanks=[
                    {"share": 0.5, "least_kg": 0.0, "greatest_kg": 80.0},
                    {"share": -0.25, "least_kg": 0.0, "greatest_kg": 100.0},
                ],
            ),
            case("no tanks", {"least_kg": 10.0, "greatest_kg": 10.0}, fixed_kg=10.0, tanks=[]),
            refused(
                "ends the wrong way round",
                "OutOfRange",
                "least_kg",
                fixed_kg=0.0,
                tanks=[{"share": 1.0, "least_kg": 2.0, "greatest_kg": 1.0}],
            ),
        ),
    ]
