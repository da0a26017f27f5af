"""Vectors of reconcile: the worked example, and the whole state conditioned in rational arithmetic."""

from collections.abc import Sequence
from fractions import Fraction
from typing import Any

import numpy as np
from vectors.exact import Exact, column, floats, inverse, matrix, plus, times, turned
from vectors.frame import case, function, refused, then
from vectors.makers.axles import L
from vectors.makers.bridge import FINE, PUBLIC
from vectors.makers.statics import BASE, BOX, CARRIER, WATER, Part, on_two_axles
from vectors.makers.statics import slow as sums
from vectors.makers.weighing import SETUP

COPIES = [
    {"id": f"copy_{i}", "mass_kg": 25.0, "mass_u_kg": 4.0, "x_m": x, "article": "crate"}
    for i, x in enumerate((1.5, 3.8))
]
LASTING = [*BASE, BOX, CARRIER, *COPIES]
DRIVER = {"id": "driver", "mass_kg": 82.0, "mass_u_kg": 3.0, "x_m": 1.2, "x_u_m": 0.02}


def conditioned(
    mean: list[float], prior: Exact, design: Exact, readings: list[float], noise: Exact
) -> tuple[Exact, Exact, float]:
    """Mean and covariance given the readings, by the textbook formula without rounding; and chi2."""
    cross = times(prior, turned(design))
    inv = inverse(plus(times(design, cross), noise))
    rest = plus(column(readings), times(design, column(mean)), -1)
    gain = times(cross, inv)
    after = plus(prior, times(gain, design, prior), -1)
    return plus(column(mean), times(gain, rest)), after, float(times(turned(rest), inv, rest)[0][0])


def updates(rng: np.random.Generator) -> list[dict[str, Any]]:
    root = rng.normal(size=(5, 5)).round(2)
    prior = (root @ root.T).round(4).tolist()
    design = rng.normal(size=(3, 5)).round(2).tolist()
    noise = np.diag([0.5, 0.25, 1.0]).tolist()
    mean, readings = rng.normal(size=5).round(2).tolist(), rng.normal(size=3).round(2).tolist()
    mu, cov, chi2 = conditioned(mean, matrix(prior), matrix(design), readings, matrix(noise))
    wide = {
        "mean": [500.0, 40.0],
        "cov": [[1e12, 0.0], [0.0, 1e12]],
        "design": [[1.0, 0.0], [0.25, 1.0]],
        "readings": [510.0, 180.0],
    }
    sharp = [[1e-6, 0.0], [0.0, 1e-6]]
    wide_mu, wide_cov, wide_chi2 = conditioned(
        wide["mean"], matrix(wide["cov"]), matrix(wide["design"]), wide["readings"], matrix(sharp)
    )
    return [
        case(
            "five masses",
            [[float(x[0]) for x in mu], floats(cov), chi2],
            mean=mean,
            cov=prior,
            design=design,
            readings=readings,
            noise=noise,
        ),
        case(
            "a prior of 1e6 against readings of 1e-3",
            [[float(x[0]) for x in wide_mu], floats(wide_cov), wide_chi2],
            **wide,
            noise=sharp,
            rel=1e-3,
        ),
        case(
            "a sure mass stays",
            [[50.0, 40.0], [[0.0, 0.0], [0.0, 12.5]]],
            mean=[50.0, 30.0],
            cov=[[0.0, 0.0], [0.0, 25.0]],
            design=[[1.0, 1.0]],
            readings=[100.0],
            noise=[[25.0]],
        )
        | {"out": [[50.0, 40.0], [[0.0, 0.0], [0.0, 12.5]], 8.0]},
        refused(
            "twice the same without error",
            "Redundant",
            "readings",
            mean=[1.0],
            cov=[[1.0]],
            design=[[1.0], [1.0]],
            readings=[1.0, 1.0],
            noise=[[0.0, 0.0], [0.0, 0.0]],
        ),
    ]


class Slow:
    """The state of a solo vehicle on two axles written out, conditioned on all its sessions at once."""

    def __init__(self, lasting: list[Part], sessions: list[dict[str, Any]]) -> None:
        self.names: list[str] = []
        self.prior: list[tuple[float, Fraction, str | None]] = []
        for part in lasting:
            self._part(part, "")
        for session in sessions:
            for part in session["lasting"]:
                self._part(part, "")
            for part in session["passing"]:
                self._part(part, session["id"])
        rows, values, blocks = [], [], []
        for session in sessions:
            for reading in session["readings"]:
                rows.append(self._reading(session, reading))
                values.append(reading["value_kg"])
            blocks.append((len(session["readings"]), _noise(session)))
        size = len(self.names)
        design = [[row.get(name, Fraction(0)) for name in self.names] for row in rows]
        cov = [[self._cov(i, j) for j in range(size)] for i in range(size)]
        noise = [[Fraction(0)] * len(rows) for _ in rows]
        at = 0
        for count, block in blocks:
            for i in range(count):
                noise[at + i][at : at + count] = block[i]
            at += count
        self.mean, self.cov, self.chi2 = conditioned(
            [one[0] for one in self.prior], cov, design, values, noise
        )

    def loads(self, parts: list[Part], passing: Sequence[Part] = (), session: str = "") -> dict[str, Any]:
        """Loads with the lasting parts, and with the passing ones of a session."""
        rows = []
        for axle in ("front", "rear"):
            row = self._row(parts, {axle}, "") | self._row(list(passing), {axle}, session)
            rows.append([row.get(name, Fraction(0)) for name in self.names])
        return {
            "mean_kg": [float(x[0]) for x in times(rows, self.mean)],
            "cov_kg2": floats(times(rows, self.cov, turned(rows))),
        }

    def learnt(self, name: str) -> dict[str, Any]:
        i = self.names.index(name)
        return {
            "now_kg": float(self.mean[i][0]),
            "now_u_kg": float(self.cov[i][i]) ** 0.5,
            "told": float(1 - self.cov[i][i] / self.prior[i][1] ** 2),
        }

    def _add(self, name: str, mean: float, u: Fraction, article: str | None = None) -> None:
        if name not in self.names:
            self.names.append(name)
            self.prior.append((mean, u, article))

    def _part(self, part: Part, session: str) -> None:
        u = Fraction(part["mass_u_kg"])
        self._add(session + part["id"], part["mass_kg"], u, part.get("article"))
        if part.get("x_u_m"):
            size = Fraction((part["mass_kg"] ** 2 + part["mass_u_kg"] ** 2) ** 0.5 * part["x_u_m"])
            self._add(f"{session}{part['id']} at {part['x_m']}", 0.0, size)

    def _row(self, parts: list[Part], axles: set[str], session: str) -> dict[str, Fraction]:
        out: dict[str, Fraction] = {}
        per_m = 1 / Fraction(L["wheelbase_m"])
        both = {"front", "rear"} <= axles
        for part in parts:
            rear = Fraction(part["x_m"]) * per_m
            sign = -1 if part.get("taken_off") else 1
            out[session + part["id"]] = sign * (
                Fraction(1) if both else rear if "rear" in axles else 1 - rear
            )
            slope = Fraction(0) if both else per_m if "rear" in axles else -per_m
            out[f"{session}{part['id']} at {part['x_m']}"] = sign * slope
        return out

    def _reading(self, session: dict[str, Any], reading: dict[str, Any]) -> dict[str, Fraction]:
        gone = reading.get("without", [])
        axles, value = set(reading["axles"]), reading["value_kg"]
        row = self._row([one for one in session["lasting"] if one["id"] not in gone], axles, "")
        row |= self._row([one for one in session["passing"] if one["id"] not in gone], axles, session["id"])
        gain, own = f"gain {session['bridge']['key']}", f"own {session['bridge']['key']} {sorted(axles)}"
        self._add(gain, 0.0, Fraction(_gain(session["bridge"]) / 3**0.5))
        self._add(own, 0.0, Fraction(1))
        row[gain], row[own] = Fraction(value), Fraction((0.5 * _own(session["bridge"], value)) ** 0.5)
        return row

    def _cov(self, i: int, j: int) -> Fraction:
        alike = self.prior[i][2] is not None and self.prior[i][2] == self.prior[j][2]
        return self.prior[i][1] * self.prior[j][1] if i == j or alike else Fraction(0)


def _gain(bridge: dict[str, Any]) -> float:
    """Least relative error over the steps: e 20, Max 60 t: 40/40 000; e 10, Max 40 t: 30/40 000."""
    return {20.0: 0.001, 10.0: 0.00075}[bridge["interval_kg"]]


def _own(bridge: dict[str, Any], value: float) -> float:
    e = bridge["interval_kg"]
    permitted = e if value <= 500 * e else 2 * e
    return permitted**2 / 3 - (_gain(bridge) * value) ** 2 / 3 - (0.25 * e) ** 2 / 3


def _noise(session: dict[str, Any]) -> Exact:
    e, readings, setup = session["bridge"]["interval_kg"], session["readings"], session.get("setup")
    zero = Fraction((0.25 * e) ** 2 / 3)
    out = [[zero] * len(readings) for _ in readings]
    for i, one in enumerate(readings):
        alone = e**2 / 12 + 0.5 * _own(session["bridge"], one["value_kg"])
        if one.get("split"):
            tilt = setup["total_kg"] * setup["cg_height_m"] * 0.02 / setup["wheelbase_m"] ** 2
            alone += tilt**2 + (0.003 * one["value_kg"]) ** 2
        out[i][i] = zero + Fraction(alone)
    return out


def reading(name: str, axles: list[str], value: float, **more: Any) -> dict[str, Any]:
    return {"id": name, "axles": axles, "value_kg": value, **more}


SESSIONS: list[dict[str, Any]] = [
    {
        "id": "may",
        "lasting": LASTING,
        "passing": [WATER, DRIVER],
        "bridge": PUBLIC,
        "setup": SETUP,
        "readings": [
            reading("f", ["front"], 1380.0, split=True),
            reading("r", ["rear"], 1360.0, split=True),
            reading("w", ["front", "rear"], 2720.0),
            reading("alone", ["front", "rear"], 2640.0, without=["driver"]),
        ],
    },
    {
        "id": "june",
        "lasting": [*BASE, {**BOX, "x_m": 2.2}, *COPIES],
        "passing": [{**DRIVER, "mass_kg": 80.0}],
        "bridge": PUBLIC,
        "setup": SETUP,
        "readings": [reading("r", ["rear"], 1240.0, split=True), reading("w", ["front", "rear"], 2600.0)],
    },
    {
        "id": "july",
        "lasting": LASTING,
        "passing": [],
        "bridge": {**FINE, "key": "another"},
        "readings": [reading("w", ["front", "rear"], 2590.0)],
    },
]


def whole_states() -> list[dict[str, Any]]:
    slow = Slow(LASTING, SESSIONS)
    start = case("", None, lasting=LASTING, geometry=L, sessions=SESSIONS)
    away = [part for part in LASTING if part["id"] != "carrier"]
    rows = ["front", "rear"]
    prior = case("no weighing", None, lasting=LASTING, geometry=L, sessions=[])
    may = {"lasting": LASTING, "passing": [WATER, DRIVER], "session": "may"}
    planned = sums(LASTING, on_two_axles(LASTING, L["wheelbase_m"]))
    return [
        then(
            {**start, "name": "loads as packed"},
            "loads",
            slow.loads(LASTING),
            lasting=LASTING,
            passing=[],
            rows=rows,
        ),
        then(
            {**start, "name": "loads without the carrier"},
            "loads",
            slow.loads(away),
            lasting=away,
            passing=[],
            rows=rows,
        ),
        then(
            {**start, "name": "loads of the day of May"},
            "loads",
            slow.loads(LASTING, [WATER, DRIVER], "may"),
            rows=rows,
            **may,
        ),
        *(
            then({**start, "name": f"learnt: {name}"}, "learnt", slow.learnt(name), name)
            for name in ("base_front", "box", "copy_0")
        ),
        {**start, "name": "the global test", "out": {"chi2": slow.chi2, "dof": 7}},
        then(prior, "loads", planned, lasting=LASTING, passing=[], rows=rows),
    ]


def functions(rng: np.random.Generator) -> list[dict[str, Any]]:
    example = {
        "mean": [50.0, 30.0],
        "cov": [[100.0, 0.0], [0.0, 25.0]],
        "design": [[0.5, -0.25], [0.5, 1.25]],
        "readings": [22.0, 70.0],
    }
    out = [[55.97888, 31.71633], [[46.24670, -7.54432], [-7.54432, 12.97624]], 0.735194]
    return [
        function(
            "update",
            "worked example C",
            case("example C", out, **example, noise=[[36.0, 0.0], [0.0, 36.0]], rel=0.0, abs=5.5e-6),
            case(
                "without a reading the prior is the answer",
                [example["mean"], example["cov"], 0.0],
                **{**example, "design": [], "readings": []},
                noise=[],
            ),
            refused(
                "text for a reading",
                "DomainError",
                "readings",
                **{**example, "readings": ["22", 70.0]},
                noise=[],
            ),
        ),
        function("update", "textbook formula in rational arithmetic", *updates(rng)),
        function("reconcile", "the whole state conditioned in rational arithmetic", *whole_states()),
        function(
            "reconcile",
            "by hand",
            refused(
                "one session twice",
                "Duplicate",
                "session",
                lasting=LASTING,
                geometry=L,
                sessions=[SESSIONS[0], SESSIONS[0]],
            ),
            refused(
                "more of an own error than there is",
                "OutOfRange",
                "own_repeats",
                lasting=LASTING,
                geometry=L,
                sessions=[{**SESSIONS[0], "bridge": {**PUBLIC, "own_repeats": 1.5}}],
            ),
            refused(
                "without what is not aboard",
                "Unknown",
                "without",
                lasting=LASTING,
                geometry=L,
                sessions=[{**SESSIONS[0], "readings": [reading("w", ["rear"], 900.0, without=["dog"])]}],
            ),
        ),
    ]
