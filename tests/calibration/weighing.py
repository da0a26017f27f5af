"""Weighings: what is said of masses, loads, wrong entries and places, against truths that the model does not know."""

from tests.calibration import coverage, gross, kinds, place, visits
from tests.calibration.figures import Figure, Result, repeat
from tests.calibration.world import Chance

RUNS = 10_000  # the standard error of any share is then at most 0.5 %
PARTS = (coverage, kinds, visits, gross, place)


def trial(chance: Chance) -> Result:
    """One of everything, each part with a stream of its own."""
    streams = chance.spawn(len(PARTS))
    return {
        key: value
        for part, stream in zip(PARTS, streams, strict=True)
        for key, value in part.trial(stream).items()
    }


def measure(*, runs: int, seed: int, jobs: int) -> dict[str, list[Figure]]:
    """All figures, by heading."""
    results = repeat(trial, runs=runs, seed=seed, jobs=jobs)
    return {heading: made for part in PARTS for heading, made in part.figures(results).items()}
