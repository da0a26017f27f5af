"""What every campaign shares: figures with their sampling error, the bars that they have to keep, and the table."""

from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import partial
from math import inf, sqrt

import numpy as np
from numpy.typing import NDArray

Result = Mapping[str, float]  # what one trial counted and measured
Results = Mapping[str, NDArray[np.float64]]  # the same of all trials
Trial = Callable[[np.random.Generator], Result]

SPREAD = 2.6  # a bar is missed when it lies this many standard errors away: one in a hundred by chance alone
CHUNK = 50


@dataclass(frozen=True)
class Figure:
    """One figure with its standard error; `printed` is what was measured elsewhere, `least` and `most` the bar.

    A share knows its `trials`: it is held against the error that it would have at the bar, for its own error is too
    small where it happens to be near 100 %.
    """

    name: str
    value: float
    se: float
    unit: str = "%"
    printed: str = ""
    least: float = -inf
    most: float = inf
    note: str = ""
    trials: int = 0

    @property
    def has_bar(self) -> bool:
        """Whether anything is asked of it."""
        return self.least > -inf or self.most < inf

    def holds(self, spread: float = SPREAD) -> bool:
        """Whether the bar lies within so many standard errors."""
        return self._room(self.least, spread) >= self.least - self.value and (
            self._room(self.most, spread) >= self.value - self.most
        )

    def _room(self, bar: float, spread: float) -> float:
        if not self.trials or abs(bar) == inf:
            return spread * self.se
        return spread * sqrt(bar * (100 - bar) / self.trials)


def share(results: Results, key: str, name: str, **about: object) -> Figure:
    """How often something held, in percent, with its binomial standard error; never an error of nothing."""
    n = len(results[key])
    p = float(results[key].mean())
    kept = min(max(p, 0.5 / n), 1 - 0.5 / n)
    return Figure(name, 100 * p, 100 * sqrt(kept * (1 - kept) / n), trials=n, **about)  # type: ignore[arg-type]


def mean_of(results: Results, key: str, name: str, **about: object) -> Figure:
    """A mean over the trials."""
    values = results[key]
    return Figure(name, float(values.mean()), float(values.std()) / sqrt(len(values)), **about)  # type: ignore[arg-type]


def root_mean_square(results: Results, key: str, name: str, unit: str = "kg", **about: object) -> Figure:
    """The size of an error."""
    squares = results[key] ** 2
    size = sqrt(float(squares.mean()))
    se = float(squares.std()) / sqrt(len(squares)) / (2 * size)
    return Figure(name, size, se, unit, **about)  # type: ignore[arg-type]


def median_of(values: NDArray[np.float64], name: str, **about: object) -> Figure:
    """A median; its standard error is half the distance of the order statistics one binomial sd away."""
    if len(values) < 10:
        return Figure(name, float("nan"), inf, note="too few trials")
    half = 0.5 / sqrt(len(values))
    low, middle, high = (float(one) for one in np.quantile(values, [0.5 - half, 0.5, 0.5 + half]))
    return Figure(name, middle, (high - low) / 2, **about)  # type: ignore[arg-type]


def repeat(trial: Trial, *, runs: int, seed: int, jobs: int) -> dict[str, NDArray[np.float64]]:
    """Run trials, each with a chance of its own, so that their number of processes changes no figure."""
    starts = range(0, runs, CHUNK)
    work = partial(_some, trial, seed, runs)
    if jobs == 1:
        done = [work(start) for start in starts]
    else:
        with ProcessPoolExecutor(jobs) as pool:
            done = list(pool.map(work, starts))
    found = [result for some in done for result in some]
    return {key: np.array([result[key] for result in found]) for key in found[0]}


def _some(trial: Trial, seed: int, runs: int, start: int) -> list[Result]:
    return [trial(np.random.default_rng([seed, run])) for run in range(start, min(start + CHUNK, runs))]


def table(groups: Mapping[str, Sequence[Figure]], spread: float = SPREAD) -> str:
    """All figures under their headings, each with its error, what was printed, and whether its bar holds."""
    wide = max(len(one.name) for figures in groups.values() for one in figures)
    lines = []
    for heading, figures in groups.items():
        lines += ["", heading]
        lines += [_line(one, wide, spread) for one in figures]
    return "\n".join(lines)


def _line(one: Figure, wide: int, spread: float) -> str:
    text = f"  {one.name:<{wide}}  {one.value:8.2f} ± {one.se:5.2f} {one.unit:<2}  printed {one.printed or '-':<9}"
    if one.has_bar:
        low = "" if one.least == -inf else f"{one.least:.1f}"
        high = "" if one.most == inf else f"{one.most:.1f}"
        text += f"  bar {low}..{high} {'holds' if one.holds(spread) else 'MISSED'}"
    return f"{text}  {one.note}".rstrip()
