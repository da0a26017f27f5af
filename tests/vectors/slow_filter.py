"""The consumption filter written a second time, by other means: for expected values only.

The noise of a `use` comes from the matrix exponential of the stochastic differential equation (Van Loan's
block form), the update from the information form's equations where it can be inverted, the range from Brent's
method on scipy's normal distribution. Nothing is imported from the domain.
"""

from dataclasses import dataclass, field
from typing import Any

import numpy as np
from scipy.linalg import expm
from scipy.optimize import brentq
from scipy.stats import norm

Json = dict[str, Any]
Array = np.ndarray[Any, np.dtype[np.float64]]


@dataclass
class Slow:
    """Mean, covariance and log-likelihood of one kappa; `model` is the plain JSON of the vectors."""

    model: Json
    kappa: float
    mean: Array = field(default_factory=lambda: np.zeros(0))
    cov: Array = field(default_factory=lambda: np.zeros((0, 0)))
    log_likelihood: float = 0.0
    scale: float = 1.0

    def __post_init__(self) -> None:
        if self.mean.size:
            return
        s, c, b0 = self.model["settings"], np.array(self.model["capacity_l"]), np.array(self.model["rate0"])
        self.mean = np.concatenate([c / 2, b0])
        rates = np.diag(b0) @ (
            s["u_common"] ** 2 * np.ones((b0.size,) * 2) + s["u_class"] ** 2 * np.eye(b0.size)
        )
        self.cov = np.block(
            [
                [np.diag(c**2 / 12), np.zeros((c.size, b0.size))],
                [np.zeros((b0.size, c.size)), rates @ np.diag(b0)],
            ]
        )

    @property
    def tanks(self) -> int:
        return len(self.model["tank_ids"])

    @property
    def rate0(self) -> Array:
        return self.scale * np.array(self.model["rate0"])

    def tank(self, name: str) -> int:
        return self.model["tank_ids"].index(name)

    def apply(self, event: Json) -> "Slow":
        getattr(self, f"_{event['kind']}")(event)
        return self

    def linear(self, f: Array, q: Array, shift: Array | None = None) -> None:
        self.mean = f @ self.mean + (0 if shift is None else shift)
        self.cov = f @ self.cov @ f.T + q

    def _use(self, event: Json) -> None:
        s, n, t = self.model["settings"], self.mean.size, self.tanks
        i = self.model["class_ids"].index(event["class_id"])
        f = np.array(event.get("shares") or [1.0])
        drift, noise = np.zeros((n, n)), np.zeros((n, n))
        drift[:t, t + i] = -f / s["per"]
        b0 = self.rate0
        noise[t:, t:] = s["walk"] ** 2 * np.outer(b0, b0) / s["walk_ref"]
        noise[t + i, t + i] += (s["walk_class"] * b0[i]) ** 2 / s["walk_ref"]
        noise[:t, :t] = np.outer(f, f) * (self.kappa * b0[i] / s["per"]) ** 2 * s["ell"]
        block = expm(np.block([[-drift, noise], [np.zeros((n, n)), drift.T]]) * event["amount"])
        f_d = block[n:, n:].T
        self.linear(f_d, f_d @ block[:n, n:])

    def _even(self, event: Json) -> None:
        """Several classes at once, each with its share of every metre; the first tank gives all."""
        s, n, t = self.model["settings"], self.mean.size, self.tanks
        amounts = np.array([event["way"].get(name, 0.0) for name in self.model["class_ids"]])
        total = amounts.sum()
        share = amounts / total if total else amounts
        drift, noise, b0 = np.zeros((n, n)), np.zeros((n, n)), self.rate0
        drift[0, t:] = -share / s["per"]
        noise[t:, t:] = s["walk"] ** 2 * np.outer(b0, b0) / s["walk_ref"]
        noise[t:, t:] += np.diag((s["walk_class"] * b0) ** 2 * share) / s["walk_ref"]
        noise[0, 0] = ((self.kappa * b0 / s["per"]) ** 2 * s["ell"]) @ share
        block = expm(np.block([[-drift, noise], [np.zeros((n, n)), drift.T]]) * total)
        f_d = block[n:, n:].T
        self.linear(f_d, f_d @ block[:n, n:])

    def _fill(self, event: Json) -> None:
        u = event.get("litres_u_l")
        u = self.model["settings"]["fill_u"] * event["litres_l"] if u is None else u
        e = np.eye(self.mean.size)[self.tank(event["tank_id"])]
        self.linear(np.eye(e.size), u**2 * np.outer(e, e), event["litres_l"] * e)

    def _transfer(self, event: Json) -> None:
        e = -np.eye(self.mean.size)[self.tank(event["tank_id"])]
        if event["into_id"] is not None:
            e[self.tank(event["into_id"])] = 1.0
        u = event.get("litres_u_l", 0.0)
        self.linear(np.eye(e.size), u**2 * np.outer(e, e), event["litres_l"] * e)

    def _pour(self, event: Json) -> None:
        f = np.eye(self.mean.size)
        source = self.tank(event["tank_id"])
        if event["into_id"] is not None:
            f[self.tank(event["into_id"]), source] = 1.0
        f[source, source] = 0.0
        self.linear(f, np.zeros_like(f))

    def reset(self, tank: int, mean: float, variance: float) -> None:
        f = np.eye(self.mean.size)
        f[tank, tank] = 0.0
        e = np.eye(self.mean.size)[tank]
        self.linear(f, variance * np.outer(e, e), mean * e)

    def _start(self, event: Json) -> None:
        self.reset(self.tank(event["tank_id"]), event["litres_l"], event["litres_u_l"] ** 2)

    def _missed(self, event: Json) -> None:
        tank = self.tank(event["tank_id"])
        capacity = self.model["capacity_l"][tank]
        self.reset(tank, capacity / 2, capacity**2 / 12)

    def _change(self, event: Json) -> None:
        rates = np.concatenate([np.zeros(self.tanks), self.rate0])
        self.cov = self.cov + event.get("rate_u", 0.15) ** 2 * np.outer(rates, rates)

    def _rescale(self, event: Json) -> None:
        f = np.diag([1.0] * self.tanks + [event["ratio"]] * (self.mean.size - self.tanks))
        self.linear(f, np.zeros_like(f))
        self.scale *= event["ratio"]

    def expected(self, event: Json) -> tuple[Array, float, float]:
        s, n = self.model["settings"], self.mean.size
        names = event["tank_ids"] if event["kind"] == "full" else [event["tank_id"]]
        places = [self.tank(name) for name in names]
        h = np.eye(n)[places].sum(axis=0)
        capacity = sum(self.model["capacity_l"][t] for t in places)
        if event["kind"] == "full":
            own = event.get("litres_u_l")
            return h, capacity, len(places) * s["full_u_l"] ** 2 if own is None else own**2
        if event["kind"] == "level":
            return h, event["litres_l"], event["litres_u_l"] ** 2
        share = event.get("fraction_u")
        return h, event["fraction"] * capacity, ((s["gauge_u"] if share is None else share) * capacity) ** 2

    def innovation(self, event: Json) -> tuple[float, float]:
        h, y, r = self.expected(event)
        return y - h @ self.mean, h @ self.cov @ h + r

    def _full(self, event: Json) -> None:
        h, y, r = self.expected(event)
        nu, variance = self.innovation(event)
        self.log_likelihood += norm.logpdf(nu, scale=variance**0.5)
        information = np.linalg.inv(self.cov)
        after = np.linalg.inv(information + np.outer(h, h) / r)
        self.mean = after @ (information @ self.mean + h * y / r)
        self.cov = after

    _gauge = _level = _full


def run(model: Json, kappa: float, events: list[Json]) -> Slow:
    """From the prior through all events."""
    slow = Slow(model, kappa)
    for event in events:
        slow.apply(event)
    return slow


def weights(bank: list[Slow]) -> Array:
    """Weights of the bank, by log-sum-exp."""
    logs = np.array([one.log_likelihood for one in bank])
    return np.exp(logs - np.logaddexp.reduce(logs))


def left(one: Slow, mix: Json, amount: float, factor: float, factor_u: float) -> tuple[float, float]:
    """Mean and variance after an evenly mixed way: the noise integrals taken term by term."""
    s, t, d = one.model["settings"], one.tanks, amount / factor
    parts = np.array([d * mix.get(name, 0.0) for name in one.model["class_ids"]])
    g = np.concatenate([np.ones(t), -parts / s["per"]])
    b0, used = one.rate0, one.mean[t:] @ parts / s["per"]
    variance = g @ one.cov @ g
    variance += sum((s["walk_class"] * b0) ** 2 * parts**3 / (3 * s["per"] ** 2 * s["walk_ref"]))
    variance += sum((one.kappa * b0 / s["per"]) ** 2 * s["ell"] * parts)
    variance += s["walk"] ** 2 * (b0 @ parts) ** 2 * d / (3 * s["per"] ** 2 * s["walk_ref"])
    return one.mean[:t].sum() - used, variance + (used * factor_u / factor) ** 2


def reach(bank: list[Slow], mix: Json, amount: float, counting: Json) -> float:
    """Probability that the reserve is untouched."""
    factor, factor_u = counting.get("factor", 1.0), counting.get("factor_u", 0.0)
    parts = [left(one, mix, amount, factor, factor_u) for one in bank]
    reserve = counting.get("reserve_l", 0.0)
    return float(
        sum(w * norm.cdf((m - reserve) / v**0.5) for w, (m, v) in zip(weights(bank), parts, strict=True))
    )


def range_at(bank: list[Slow], mix: Json, p: float, counting: Json) -> float:
    """Distance at which `reach` is p, 0 if it is never."""
    if reach(bank, mix, 0.0, counting) < p:
        return 0.0
    return float(brentq(lambda d: reach(bank, mix, d, counting) - p, 0.0, 5_000.0, xtol=1e-12, rtol=1e-14))
