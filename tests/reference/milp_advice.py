"""Load advice by other means: every choice tried, and scipy's HiGHS on a relaxation that is cut until it is exact.

The root of the variance is concave, so its secant over the range of the variance lies below it: a mixed-integer
program with the secant is a relaxation. What it gives is checked exactly and, where it fails, forbidden by a no-good
cut; the first answer that passes is optimal. Cross terms of shared errors enter by their least value.
"""

from itertools import product
from typing import Any

import numpy as np
from parity.advice_problems import Z, arrays, covariance
from scipy.optimize import LinearConstraint, milp

Json = Any
TOLERANCE = 1e-9
Best = tuple[int, float]  # moves, kilograms off


def meets(given: Json, picks: np.ndarray) -> np.ndarray:
    """Which rows of picks meet every limit and slot."""
    mean, variance = arrays(given, picks)
    reach = Z * np.sqrt(np.maximum(variance, 0.0))
    bound = np.array([one["limit_kg"] for one in given["limits"]])
    least = np.array([one["least"] for one in given["limits"]])
    over = np.where(least, bound - (mean - reach), mean + reach - bound)
    held: np.ndarray = (over <= TOLERANCE).all(axis=1)
    for slot in given["slots"]:
        into = sum(_of(item, "slot_kg", slot["id"])[picks[:, i]] for i, item in enumerate(given["items"]))
        held &= into <= slot["capacity_kg"] + TOLERANCE
    return held


def costs(given: Json, picks: np.ndarray) -> list[Best]:
    """Moves and kilograms off of each row of picks."""
    off = sum(
        np.array([one["off_kg"] for one in item["options"]])[picks[:, i]]
        for i, item in enumerate(given["items"])
    )
    moves = sum(moves_of(item)[picks[:, i]] for i, item in enumerate(given["items"]))
    return [(int(n), round(float(kg), 6)) for n, kg in zip(moves, off, strict=True)]


def moves_of(item: Json) -> np.ndarray:
    """What each option of an item counts as, staying as none."""
    return np.array([one.get("moves", 1) * (s > 0) for s, one in enumerate(item["options"])])


def key(given: Json, cost: Best) -> tuple[float, float]:
    """What is to be least, in the order of the objective."""
    return cost if given["objective"] == "moves" else cost[::-1]


def brute_force(given: Json) -> tuple[Best | None, int]:
    """The best of all choices, and how many are as good."""
    picks = np.array(list(product(*(range(len(item["options"])) for item in given["items"]))))
    held = picks[meets(given, picks)]
    if len(held) == 0:
        return None, 0
    all_ = costs(given, held)
    best = min(all_, key=lambda one: key(given, one))
    return best, all_.count(best)


def by_milp(given: Json) -> Best | None:
    """The best choice by HiGHS."""
    model = _Model(given)
    for _ in range(2000):
        picks = model.solve()
        if picks is None:
            return None
        if meets(given, picks[None, :])[0]:
            return costs(given, picks[None, :])[0]
        model.forbid(picks)
    raise AssertionError("the relaxation was cut two thousand times")


class _Model:
    def __init__(self, given: Json) -> None:
        self.given, items = given, given["items"]
        self.starts = np.cumsum([0, *(len(item["options"]) for item in items)])
        self.size = int(self.starts[-1])
        options = [one for item in items for one in item["options"]]
        self.off = np.array([one["off_kg"] for one in options])
        self.moves = np.concatenate([moves_of(item).astype(float) for item in items])
        one_each = np.zeros((len(items), self.size))
        for i in range(len(items)):
            one_each[i, self.starts[i] : self.starts[i + 1]] = 1
        self.rows = [(one_each, np.ones(len(items)), np.ones(len(items)))]
        loads = np.array([one["loads_kg"] for one in options])
        least = _least_variances(given)
        for k, limit in enumerate(given["limits"]):
            self._add_limit(limit, loads[:, k], least[:, k])
        for slot in given["slots"]:
            into = np.concatenate([_of(item, "slot_kg", slot["id"]) for item in items])
            self._at_most(into, slot["capacity_kg"] + 1e-6)

    def _add_limit(self, limit: Json, loads: np.ndarray, variances: np.ndarray) -> None:
        """Mean + z secant(variance) <= limit, loosened by what HiGHS calls feasible."""
        spans = [variances[a:b] for a, b in zip(self.starts, self.starts[1:], strict=False)]
        low = max(limit["variance_kg2"] + sum(float(one.min()) for one in spans), 0.0)
        high = max(limit["variance_kg2"] + sum(float(one.max()) for one in spans), 0.0)
        slope = 0.0 if high - low < 1e-9 else (np.sqrt(high) - np.sqrt(low)) / (high - low)
        fixed_u = np.sqrt(low) + slope * (limit["variance_kg2"] - low)
        sign = -1.0 if limit["least"] else 1.0
        self._at_most(
            sign * loads + Z * slope * variances,
            sign * (limit["limit_kg"] - limit["fixed_kg"]) - Z * fixed_u + 1e-6,
        )

    def _at_most(self, row: np.ndarray, bound: float) -> None:
        self.rows.append((row[None, :], np.array([-np.inf]), np.array([bound])))

    def forbid(self, picks: np.ndarray) -> None:
        """Not this very choice: at least one item elsewhere."""
        row = np.zeros(self.size)
        row[self.starts[:-1] + picks] = 1
        self._at_most(row, len(picks) - 1 + 1e-6)

    def solve(self) -> np.ndarray | None:
        """Both stages, lexicographic."""
        first, second = (
            (self.moves, self.off) if self.given["objective"] == "moves" else (self.off, self.moves)
        )
        found = self._least(first, [])
        if found is None:
            return None
        cap = (first[None, :], np.array([-np.inf]), np.array([first @ found + 1e-6]))
        found = self._least(second, [cap])
        assert found is not None
        chosen = found.reshape(-1)
        return np.array(
            [int(np.argmax(chosen[a:b])) for a, b in zip(self.starts, self.starts[1:], strict=False)]
        )

    def _least(self, cost: np.ndarray, more: list[Any]) -> np.ndarray | None:
        found = milp(
            cost,
            integrality=np.ones(self.size),
            bounds=(0, 1),
            constraints=[LinearConstraint(*one) for one in (*self.rows, *more)],
            options={"mip_rel_gap": 0.0},
        )
        return None if found.x is None else np.round(found.x)


def _least_variances(given: Json) -> np.ndarray:
    """What each option adds to each variance; cross terms with other items by their least value, half on either."""
    c = covariance(given)
    limits = given["limits"]
    h = np.array([one.get("linked") or [0.0] * len(c) for one in limits])
    put = [[_put(one, len(limits), len(c)) for one in item["options"]] for item in given["items"]]
    rows = []
    for i, item in enumerate(given["items"]):
        for s, option in enumerate(item["options"]):
            a = put[i][s]
            own = (
                np.array(option["variances_kg2"])
                + 2 * (a * h).sum(axis=1)
                + np.einsum("ke,ef,kf->k", a, c, a)
            )
            for j, other in enumerate(put):
                if j != i and len(c):
                    own = own + np.min([np.einsum("ke,ef,kf->k", a, c, b) for b in other], axis=0)
            rows.append(own)
    return np.array(rows)


def _put(option: Json, limits: int, errors: int) -> np.ndarray:
    out = np.zeros((limits, errors))
    for share in option.get("shares", ()):
        out[:, share["error"]] += share["per_unit"]
    return out


def _of(item: Json, field: str, slot: str) -> np.ndarray:
    return np.array([one[field] if one.get("slot") == slot else 0.0 for one in item["options"]])
