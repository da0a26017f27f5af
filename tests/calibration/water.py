"""Water logs on the road: for how many days the water truly lasts, against the days to count on.

Set-up as in J.2: 3 to 24 days, one to four people, use that changes from day to day (gamma), a rate that nobody knows
beforehand (lognormal, 0.4), a gauge on two days of five. The truth is its own arithmetic and knows nothing of the
filter.
"""

from collections.abc import Mapping, Sequence
from math import sqrt

import numpy as np

from server.domain.bank import bank_advance, bank_total, bank_weights
from server.domain.entries import DipEntry, WaterEntry
from server.domain.filter import total_left
from server.domain.fuel import TankSpec
from server.domain.journal import Part, plan_way
from server.domain.normal import cdf
from server.domain.water import CLASS, DAY_S, WATER_RATE, Presence
from server.domain.water_answer import water_answer
from server.domain.water_log import WaterLogEntry, WaterSetup, read_water_log
from tests.calibration.figures import Figure, Result, Results, repeat, root_mean_square, share

RUNS = 1_000
CAPACITY_L = 160.0
# truth's cv of a day, and J.2's figures: the days held, the two-sided 90 %
CASES = ((0.2, "96.5", "97"), (0.4, "95.3", "92"), (0.7, "93.8", "89"))


class Camp:
    """The truth: so many people, a rate of their own, days that differ."""

    def __init__(self, chance: np.random.Generator, cv: float) -> None:
        self.chance, self.cv = chance, cv
        self.people = int(chance.integers(1, 5))
        self.rate = WATER_RATE * float(np.exp(0.4 * chance.normal()))
        self.level_l, self.day = CAPACITY_L, 0
        self.entries: list[WaterLogEntry] = [self._fill(CAPACITY_L / 2)]

    def live(self) -> float:
        """One day's use: each person's is a gamma of the same cv."""
        shape = 1 / self.cv**2
        return float(self.rate / shape * self.chance.gamma(shape, size=self.people).sum())

    def through(self, days: int) -> None:
        """So many days with their entries: the gauge on two of five, a fill to the brim where the tank is low."""
        for _ in range(days):
            self.level_l -= self.live()
            self.day += 1
            if self.level_l < 0.3 * CAPACITY_L:
                litres, self.level_l = CAPACITY_L - self.level_l, CAPACITY_L
                self.entries.append(self._fill(litres * (1 + 0.02 * self.chance.normal())))
            elif self.chance.random() < 0.4:
                self.entries.append(self._dip())

    def lasts(self) -> float:
        """Days from now until the last litre."""
        level, days = self.level_l, 0.0
        while True:
            used = self.live()
            if used >= level:
                return days + level / used
            level, days = level - used, days + 1.0

    def _fill(self, litres: float) -> WaterEntry:
        n = len(getattr(self, "entries", ()))
        return WaterEntry(str(n), self.day * DAY_S, n, "tank", "fill", litres, full=True, drinkable="yes")

    def _dip(self) -> DipEntry:
        shown = self.level_l / CAPACITY_L + 0.05 * self.chance.normal()
        level, n = min(max(shown, 0.0), 1.0), len(self.entries)
        return DipEntry(str(n), self.day * DAY_S, n, None, "tank", level=level)


def trial(chance: np.random.Generator) -> Result:
    """Each case with a camp of its own."""
    return {f"{cv} {key}": value for cv, _, _ in CASES for key, value in _case(chance, cv).items()}


def _case(chance: np.random.Generator, cv: float) -> dict[str, float]:
    camp = Camp(chance, cv)
    camp.through(int(chance.integers(3, 25)))
    setup = WaterSetup((TankSpec("tank", CAPACITY_L),), (Presence(float(camp.people), 0.0),))
    now = camp.day * DAY_S
    log = read_water_log(setup=setup, entries=camp.entries, now_s=now)
    answer = water_answer(log=log, now_s=now, reserve_l=0.0)
    bank = log.journal.state.main.bank
    since = now - (log.until_s or 0.0)
    ahead = int(chance.integers(1, 6))
    for event in plan_way(bank=bank, way=[Part(CLASS, camp.people * (since / DAY_S + ahead))]):
        bank = bank_advance(bank=bank, event=event)
    truth = camp.level_l - sum(camp.live() for _ in range(ahead))
    below = sum(
        weight * cdf((truth - mean) / sqrt(variance))
        for weight, (mean, variance) in zip(
            bank_weights(bank=bank),
            [total_left(model=bank.model, estimate=one) for one in bank.estimates],
            strict=True,
        )
    )
    lasts = camp.lasts()
    by_figure = answer.stands.litres.mean / (WATER_RATE * camp.people)
    return {
        "held": float(lasts >= (answer.stands.count_on_days or 0.0)),
        "likely": float(lasts >= (answer.stands.likely_days or 0.0)),
        "within 90": float(abs(below - 0.5) <= 0.45),
        "by figure": float(lasts >= by_figure),
        "litres": bank_total(bank=bank).mean - truth,
        "figure litres": answer.stands.litres.mean - WATER_RATE * camp.people * ahead - truth,
    }


def figures(results: Results) -> dict[str, list[Figure]]:
    """What J.2 says for each unsteadiness of the days."""
    return {f"Water, days that differ by {cv}": _figures(results, *rest) for cv, *rest in _named()}


def _named() -> list[tuple[float, str, str, str]]:
    return [(cv, str(cv), held, within) for cv, held, within in CASES]


def _figures(results: Results, cv: str, held: str, within: str) -> list[Figure]:
    steady = float(cv) <= 0.4
    return [
        share(
            results,
            f"{cv} held",
            "the days to count on are held",
            printed=held,
            least=95.0 if steady else 93.0,
        ),
        share(
            results,
            f"{cv} within 90",
            "litres within the 90 % interval",
            printed=within,
            least=90.0 if steady else 86.0,
        ),
        share(results, f"{cv} likely", "the likely days are held"),
        share(results, f"{cv} by figure", "days by the planning figure are held", printed="53-57"),
        root_mean_square(results, f"{cv} litres", "rms error of litres after 1 to 5 days", unit="L"),
        root_mean_square(
            results, f"{cv} figure litres", "the same by the planning figure", unit="L", printed="22-26"
        ),
    ]


def measure(*, runs: int = RUNS, seed: int = 1, jobs: int = 1) -> Mapping[str, Sequence[Figure]]:
    """The whole campaign."""
    return figures(repeat(trial, runs=runs, seed=seed, jobs=jobs))
