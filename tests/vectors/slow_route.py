"""A planned way driven a second time with the slow filter: for expected values only.

Ways are functions of the distance, roots are found by Brent's method; nothing is imported from the domain.
"""

from copy import deepcopy
from typing import Any

import numpy as np
from scipy.optimize import brentq
from scipy.stats import norm
from vectors.slow_filter import Slow, weights

Json = Any
XTOL = 1e-10


def pooled(slow: list[Slow]) -> list[Slow]:
    """All tanks as one."""
    out = []
    for one in slow:
        tanks, model = one.tanks, one.model
        j = np.zeros((1 + len(model["class_ids"]), one.mean.size))
        j[0, :tanks], j[1:, tanks:] = 1.0, np.eye(len(model["class_ids"]))
        each = model.get("full_u_l") or [model["settings"]["full_u_l"]] * tanks
        settings = {**model["settings"], "full_u_l": sum(u**2 for u in each) ** 0.5}
        whole = {
            **model,
            "tank_ids": ["together"],
            "capacity_l": [sum(model["capacity_l"])],
            "settings": settings,
            "full_u_l": None,
        }
        made = Slow(whole, one.kappa, j @ one.mean, j @ one.cov @ j.T, one.log_likelihood, one.scale)
        out.append(made)
    return out


class Ride:
    """A bank on its way; `used` since a level was last known."""

    def __init__(self, slow: list[Slow], counting: Json) -> None:
        self.slow, self.counting = slow, counting
        self.used = np.zeros(len(slow))

    def copy(self) -> "Ride":
        return deepcopy(self)

    def drive(self, way: Json) -> "Ride":
        before = np.array([one.mean[0] for one in self.slow])
        factor = self.counting["factor"]
        for one in self.slow:
            one.apply({"kind": "even", "way": {name: amount / factor for name, amount in way.items()}})
        self.used = self.used + before - np.array([one.mean[0] for one in self.slow])
        return self

    def fill_up(self) -> "Ride":
        for one in self.slow:
            one.reset(0, one.model["capacity_l"][0], one.model["settings"]["full_u_l"] ** 2)
        self.used = 0.0 * self.used
        return self

    def pour_in(self, litres: float) -> "Ride":
        for one in self.slow:
            one.apply({"kind": "fill", "tank_id": "together", "litres_l": litres})
        return self

    def parts(self) -> tuple[Any, Any, Any]:
        means = np.array([one.mean[0] for one in self.slow])
        spent = self.used * self.counting["factor_u"] / self.counting["factor"]
        return weights(self.slow), means, np.array([one.cov[0, 0] for one in self.slow]) + spent**2

    def probability(self, least: float | None = None) -> float:
        shares, means, variances = self.parts()
        line = self.counting["reserve_l"] if least is None else least
        return float(shares @ norm.cdf((means - line) / variances**0.5))

    def litres(self, p: float) -> float:
        return float(brentq(lambda x: self.probability(x) - p, -2000, 2000, xtol=XTOL))

    def left(self) -> Json:
        shares, means, variances = self.parts()
        mean = shares @ means
        return {"mean": float(mean), "u": float((shares @ (variances + (means - mean) ** 2)) ** 0.5)}


def place(ride: Ride, ways: list[tuple[float, float, Json]], p: float) -> float | None:
    """Where the probability falls to p; `ways` are (from, to, amounts) in order."""
    for low, high, way in ways:
        after = ride.copy().drive(way)
        if after.probability() < p:

            def short(
                at: float, low: float = low, high: float = high, way: Json = way, start: Ride = ride
            ) -> float:
                share = (at - low) / (high - low)
                part = {name: share * amount for name, amount in way.items()}
                return start.copy().drive(part).probability() - p

            return float(brentq(short, low, high, xtol=XTOL))
        ride = after
    return None
