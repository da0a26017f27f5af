"""Vectors of gross: T as the fall of chi2 when the bias is fitted, in rational arithmetic."""

from typing import Any

import numpy as np
from vectors.exact import Exact, column, inverse, matrix, plus, times, turned
from vectors.frame import SELF, case, function, ours
from vectors.makers.axles import L
from vectors.makers.reconcile import LASTING, SESSIONS


def fall(e: Exact, inv: Exact, h: Exact, bias: Exact) -> float:
    """chi2 of the innovation less chi2 with the bias taken out."""
    rest = plus(e, times(h, bias), -1)
    return float((times(turned(e), inv, e)[0][0]) - times(turned(rest), inv, rest)[0][0])


def slow(innovation: list[float], spread: list[list[float]], signature: dict[str, Any]) -> dict[str, Any]:
    e, h, inv = column(innovation), column(signature["column"]), inverse(matrix(spread))
    best = times(inverse(times(turned(h), inv, h)), turned(h), inv, e)
    least = signature.get("mass_kg")
    possible = best if least is None or best[0][0] >= -least else matrix([[-least]])
    return {
        "id": signature["id"],
        "statistic": fall(e, inv, h, best),
        "bias_kg": float(best[0][0]),
        "possible_statistic": fall(e, inv, h, possible),
        "possible_kg": float(possible[0][0]),
        "shows_kg": 4.0 / float(times(turned(h), inv, h)[0][0]) ** 0.5,
    }


def _plain(name: str, kind: str, statistic: float) -> dict[str, Any]:
    """A candidate of which only T counts."""
    same = {"statistic": statistic, "possible_statistic": statistic, "bias_kg": 1.0, "possible_kg": 1.0}
    return {"id": name, "kind": kind, **same, "shows_kg": 4.0, "group": ord(name) - ord("a")}


def functions(rng: np.random.Generator) -> list[dict[str, Any]]:
    innovation = [22.0, -35.0, -20.0]
    spread = [[240.0, 40.0, 180.0], [40.0, 260.0, 210.0], [180.0, 210.0, 400.0]]
    signatures = [
        {"id": "box", "kind": "mass", "column": [0.25, 0.75, 1.0], "mass_kg": 80.0},
        {"id": "bag at the box", "kind": "mass", "column": [0.25, 0.75, 1.0], "mass_kg": 10.0},
        {"id": "carrier", "kind": "mass", "column": [-0.375, 1.375, 1.0], "mass_kg": 40.0},
        {"id": "taken off there", "kind": "mass", "column": [0.375, -1.375, -1.0], "mass_kg": 400.0},
        {"id": "at home", "kind": "mass", "column": [0.0, 0.0, 0.0], "mass_kg": 40.0},
        {"id": "front", "kind": "reading", "column": [1.0, 0.0, 0.0]},
        {"id": "rear", "kind": "reading", "column": [0.0, 1.0, 0.0]},
    ]
    tested = [one for one in signatures if any(one["column"])]
    out = [
        {**slow(innovation, spread, one), "group": group}
        for one, group in zip(tested, (0, 0, 1, 1, 2, 3), strict=True)
    ]
    book = {"lasting": LASTING, "geometry": L, "sessions": SESSIONS}
    posterior = {"$call": {"module": "reconcile", "function": "reconcile", "in": book}}
    best = max(one["possible_statistic"] for one in out)
    whole = [{"kind": "mass", "group": 0, **one} for one in out]
    near = sorted(
        (one for one in whole if best - one["possible_statistic"] <= 3.841458820694124),
        key=lambda one: -one["possible_statistic"],
    )
    return [
        function(
            "suspects",
            "fall of chi2 in rational arithmetic",
            case("three readings", out, innovation=innovation, spread=spread, signatures=signatures),
        ),
        function(
            "shortlist",
            "by hand: Sidak level of four classes",
            case(
                "within 3.84 of the best",
                {"suspects": [{"id": one["id"]} for one in near], "groups": 4, "level": 1 - 0.95**0.25},
                suspects=whole,
            ),
            case("nobody", {"suspects": [], "groups": 0, "p": None, "found": False}, suspects=[]),
        ),
        function(
            "likely_causes",
            "by hand: entries beside the best entry, readings beside the best of all",
            case(
                "entries and readings",
                {
                    "entries": [{"id": one["id"]} for one in near if one["kind"] == "mass"],
                    "readings": [{"id": one["id"]} for one in near if one["kind"] == "reading"],
                },
                suspects=whole,
            ),
            case(
                "a reading is best, and the entries keep their list",
                {"entries": [{"id": "b"}], "readings": [{"id": "r"}], "found": True},
                suspects=[_plain("a", "mass", 2.0), _plain("b", "mass", 8.0), _plain("r", "reading", 15.0)],
            ),
            case("nobody", {"entries": [], "readings": [], "found": False}, suspects=[]),
        ),
        function(
            "suspects_of",
            SELF,
            ours("gross", "a book of three weighings", "suspects_of", posterior=posterior),
        ),
    ]
