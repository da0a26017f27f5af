"""Fuel logs as people keep them: litres left after the next three legs, foretold by the log and by naive averages.

Set-up as in J.1: 20 to 70 legs on three surfaces (60, 27, 13 % of the way), fills full and partial and some of them
missed, a gauge after half of the legs with noise and a bend that nobody models, rates that drift with the weather, and
an unsteadiness from leg to leg that the filter has to learn. The truth is its own arithmetic and knows nothing of the
filter.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import sqrt

import numpy as np

from server.domain.bank import Bank, bank_advance, bank_total, bank_weights
from server.domain.entries import DipEntry, FillEntry, FillLine
from server.domain.filter import total_left
from server.domain.fuel import TankSpec
from server.domain.fuel_log import FuelEntry, FuelSetup, read_fuel_log
from server.domain.journal import Part, plan_way
from server.domain.normal import cdf
from tests.calibration.figures import Figure, Result, Results, repeat, root_mean_square, share

RUNS = 700
CAPACITY_L = 140.0
SURFACES, SHARES = ("sealed", "gravel", "sand"), (0.60, 0.27, 0.13)
TRUE_RATES = {"sealed": 11.5, "gravel": 13.0, "sand": 20.0}
LEGS_AHEAD = 3


@dataclass(frozen=True)
class Case:
    """How unsteady the driver truly is, on one surface or three; the rest are J.1's printed figures."""

    name: str
    kappa: float
    mixed: bool
    rmse: str
    one_sided: str
    two_sided: str


CASES = (
    Case("kappa 0.05", 0.05, True, "4.6 / 14.3 / 16.0", "98", "96"),
    Case("kappa 0.10", 0.10, True, "5.8 / 13.7 / 15.1", "97", "94"),
    Case("kappa 0.18", 0.18, True, "8.5 / 16.8 / 17.8", "95", "88"),
    Case("one surface, kappa 0.10", 0.10, False, "4.6 / 4.2 / 4.6", "96", "93"),
)


@dataclass(frozen=True)
class Way:
    """One leg: its surface, and how far."""

    surface: str
    km: float


class Road:
    """The truth: a tank that is driven empty and filled, and what its driver writes down."""

    def __init__(self, chance: np.random.Generator, case: Case) -> None:
        self.chance, self.case = chance, case
        self.level_l, self.odometer_km = CAPACITY_L, 1_000.0
        self.rates = {name: rate * float(np.exp(0.12 * chance.normal())) for name, rate in TRUE_RATES.items()}
        self.weather = 0.0
        self.entries: list[FuelEntry] = []
        self.untold: list[Way] = []
        self.missed = False
        self._write_fill(1.0, full=True)

    def leg(self) -> Way:
        """A leg of 10 km and more, 130 km in the mean."""
        name = str(self.chance.choice(SURFACES, p=SHARES)) if self.case.mixed else "sealed"
        return Way(name, float(self.chance.gamma(4.0, 30.0)) + 10.0)

    def drive(self, way: Way) -> None:
        """A leg takes its surface's rate, the slow weather, and its own luck, which is smaller on a longer one."""
        self.weather = 0.97 * self.weather + 0.012 * self.chance.normal()
        luck = self.case.kappa * sqrt(100.0 / way.km) * self.chance.normal()
        self.level_l -= way.km / 100 * self.rates[way.surface] * (1 + self.weather) * max(1 + luck, 0.2)
        self.odometer_km += way.km
        self.untold.append(way)

    def stop(self) -> None:
        """What is written down after a leg: the gauge after half of them, a fill where the tank is low."""
        if (
            self.chance.random() < 0.5 and not self.missed
        ):  # a fill that is forgotten is said with the next one
            self._write_dip()
        if self.level_l < 50.0:
            self._pump(full=self.chance.random() < 0.75)

    def _pump(self, *, full: bool) -> None:
        room = CAPACITY_L - self.level_l
        litres = room + self.chance.normal() if full else room * self.chance.uniform(0.4, 0.8)
        self.level_l += litres
        if self.chance.random() < 0.06 and not self.missed:
            self.missed = True
        else:
            self._write_fill(float(litres) * (1 + self.chance.uniform(-0.005, 0.005)), full=full)

    def _write_fill(self, litres: float, *, full: bool) -> None:
        line = (FillLine("main", litres, full),)
        n = len(self.entries)
        self.entries.append(
            FillEntry(str(n), 60.0 * n, n, self.odometer_km, line, self.missed, self._surface(), False)
        )
        self.missed = False

    def _write_dip(self) -> None:
        """A gauge with 5 % noise and a bend that nobody knows of."""
        true, n = self.level_l / CAPACITY_L, len(self.entries)
        shown = true + 0.03 * float(np.sin(2 * np.pi * true)) + 0.05 * self.chance.normal()
        level, surface = min(max(shown, 0.0), 1.0), self._surface()
        self.entries.append(
            DipEntry(
                str(n), 60.0 * n, n, self.odometer_km, "main", level=level, surface=surface, towing=False
            )
        )

    def _surface(self) -> dict[str, float] | None:
        """Shares of the way since the entry before, as its driver tags it."""
        whole = sum(way.km for way in self.untold)
        told = {name: sum(w.km for w in self.untold if w.surface == name) for name in SURFACES}
        self.untold = []
        return {name: km / whole for name, km in told.items() if km > 0} if whole > 0 else None


def trial(chance: np.random.Generator) -> Result:
    """Each case with a vehicle and a road of its own."""
    return {f"{case.name} {key}": value for case in CASES for key, value in _case(chance, case).items()}


def _case(chance: np.random.Generator, case: Case) -> dict[str, float]:
    road = Road(chance, case)
    legs = int(chance.integers(20, 71))
    while legs > 0 or road.missed:
        road.drive(road.leg())
        road.stop()
        legs -= 1
    written, told = list(road.entries), list(road.untold)
    ahead = [road.leg() for _ in range(LEGS_AHEAD)]
    for way in ahead:
        road.drive(way)
    truth = road.level_l
    now, low, mean = _foretold(written, [*told, *ahead], truth)
    km = sum(way.km for way in (*told, *ahead))
    found = {"bank": mean - truth, "over": float(low >= 0.05)}
    found |= {f"within {p}": float(abs(low - 0.5) <= p / 200) for p in (50, 80, 90, 95)}
    for name, last in (("average", None), ("last three", 3)):
        found[name] = now - _naive_rate(written, last) * km - truth
    return found


def _foretold(written: Sequence[FuelEntry], ways: Sequence[Way], truth: float) -> tuple[float, float, float]:
    """Litres at the last entry, the probability that less is left than truly is, and the mean of what is left.

    The surfaces ahead are known, as on a map.
    """
    setup = FuelSetup(tanks=(TankSpec("main", CAPACITY_L),), base_rate=12.0, ahead=SURFACES)
    log = read_fuel_log(setup=setup, entries=written)
    bank: Bank = log.journal.state.main.bank
    now = bank_total(bank=bank).mean
    for event in plan_way(bank=bank, way=[Part(way.surface, way.km) for way in ways]):
        bank = bank_advance(bank=bank, event=event)
    left = [total_left(model=bank.model, estimate=one) for one in bank.estimates]
    weights = bank_weights(bank=bank)
    below = sum(
        w * cdf((truth - mean) / sqrt(variance)) for w, (mean, variance) in zip(weights, left, strict=True)
    )
    return now, below, sum(w * mean for w, (mean, _) in zip(weights, left, strict=True))


def _naive_rate(written: Sequence[FuelEntry], last: int | None) -> float:
    """Litres by kilometres from full to full, of all tanks or the last few: what a driver reckons without a filter.

    He is given the litres of the log at its last entry, so that his rate alone is on trial.
    """
    litres, start = 0.0, None
    fulls: list[tuple[float, float]] = []
    for one in written:
        if not isinstance(one, FillEntry) or one.odometer_km is None:
            continue
        if one.missed_before:
            start = None
        line = one.lines[0]
        litres += line.litres_l
        if line.full:
            if start is not None:
                fulls.append((litres, one.odometer_km - start))
            start, litres = one.odometer_km, 0.0
    chosen = fulls if last is None else fulls[-last:]
    return sum(one for one, _ in chosen) / sum(way for _, way in chosen) if chosen else 0.12


def figures(results: Results) -> dict[str, list[Figure]]:
    """What J.1 says of each kind of log."""
    return {f"Litres left after three legs: {case.name}": _figures(results, case) for case in CASES}


def _figures(results: Results, case: Case) -> list[Figure]:
    bank, average, three = case.rmse.split(" / ")
    steady = case.kappa <= 0.10
    return [
        root_mean_square(results, f"{case.name} bank", "rms error, the log's bank", unit="L", printed=bank),
        root_mean_square(
            results, f"{case.name} average", "rms error, lifetime average", unit="L", printed=average
        ),
        root_mean_square(
            results, f"{case.name} last three", "rms error, last three tanks", unit="L", printed=three
        ),
        share(
            results,
            f"{case.name} over",
            "at or above the count-on figure",
            printed=case.one_sided,
            least=95.0 if steady else 93.0,
        ),
        share(
            results,
            f"{case.name} within 90",
            "within the 90 % interval",
            printed=case.two_sided,
            least=90.0 if steady else 85.0,
        ),
        *(share(results, f"{case.name} within {p}", f"within the {p} % interval") for p in (50, 80, 95)),
    ]


def measure(*, runs: int = RUNS, seed: int = 1, jobs: int = 1) -> Mapping[str, Sequence[Figure]]:
    """The whole campaign."""
    return figures(repeat(trial, runs=runs, seed=seed, jobs=jobs))
