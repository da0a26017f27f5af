"""`python -m tests.calibration weighing`: one campaign of seeded simulations, with the bars that it has to keep."""

import argparse
import os
import sys
import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from tests.bench.frame import machine
from tests.calibration import fuel, water, weighing
from tests.calibration.figures import SPREAD, Figure, table

SEED = 1


@dataclass(frozen=True)
class Campaign:
    """What can be asked for by name."""

    title: str
    measure: Callable[..., Mapping[str, Sequence[Figure]]]
    runs: int


CAMPAIGNS = {
    "weighing": Campaign(str(weighing.__doc__), weighing.measure, weighing.RUNS),
    "fuel": Campaign(str(fuel.__doc__), fuel.measure, fuel.RUNS),
    "water": Campaign(str(water.__doc__), water.measure, water.RUNS),
}


def main(arguments: Sequence[str]) -> int:
    """Print the figures of a campaign; the exit status tells whether every bar holds."""
    parser = argparse.ArgumentParser(prog="python -m tests.calibration", description=__doc__)
    parser.add_argument("campaign", choices=CAMPAIGNS)
    parser.add_argument("--runs", type=int, help="trials; without it enough for a standard error of 0.5 %%")
    parser.add_argument("--seed", type=int, default=SEED)
    parser.add_argument("--jobs", type=int, default=os.cpu_count() or 1, help="processes")
    asked = parser.parse_args(arguments)
    campaign = CAMPAIGNS[asked.campaign]
    runs, began = asked.runs or campaign.runs, time.perf_counter()
    groups = campaign.measure(runs=runs, seed=asked.seed, jobs=asked.jobs)
    print(campaign.title)
    print(machine())
    print(f"seed {asked.seed}, {runs} runs, {asked.jobs} jobs, {time.perf_counter() - began:.0f} s")
    print(table(groups))
    missed = [one for made in groups.values() for one in made if not one.holds()]
    print(f"\n{len(missed)} bars missed by more than {SPREAD} standard errors")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
