"""What every benchmark shares: rows with their ratio, and the machine that they were taken on.

Absolute times say little (another machine, another load): a row is read by its ratio to the first one, or to
its bar where it has one.
"""

import os
import platform
import sqlite3
import statistics
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True)
class Row:
    """One measured thing. `bar` is the most that it may be, or with `at_least` the least."""

    name: str
    value: float
    unit: str
    ratio: float
    bar: float | None = None
    at_least: bool = False

    @property
    def within(self) -> bool:
        """Whether the bar holds; a row without one always does."""
        if self.bar is None:
            return True
        return self.ratio >= self.bar if self.at_least else self.ratio <= self.bar


def machine() -> str:
    """The machine in one line."""
    model = platform.processor() or platform.machine()
    info = Path("/proc/cpuinfo")
    if info.exists():
        models = [
            line.split(":")[1].strip() for line in info.read_text().splitlines() if "model name" in line
        ]
        model = models[0] if models else model
    load = f"{os.getloadavg()[0]:.1f}" if hasattr(os, "getloadavg") else "unknown"
    return (
        f"{model}, {os.cpu_count()} cores, load {load}; {platform.system()} {platform.release()}; "
        f"Python {platform.python_version()}, SQLite {sqlite3.sqlite_version}"
    )


def median_s(task: Callable[[], object], *, rounds: int = 7, warm: int = 1) -> float:
    """Median time of one call in seconds, after calls that warm up."""
    for _ in range(warm):
        task()
    times = []
    for _ in range(rounds):
        began = time.perf_counter()
        task()
        times.append(time.perf_counter() - began)
    return statistics.median(times)


def table(title: str, rows: Sequence[Row]) -> str:
    """Rows side by side, each with its ratio and what its bar asks."""
    lines = [title, machine(), ""]
    wide = max(len(row.name) for row in rows)
    for row in rows:
        bar = "" if row.bar is None else f"  bar {'>=' if row.at_least else '<='} {row.bar:.2f}"
        verdict = "" if row.bar is None else ("  holds" if row.within else "  MISSED")
        lines.append(f"{row.name:<{wide}}  {row.value:12.3f} {row.unit:<8}  x {row.ratio:6.2f}{bar}{verdict}")
    return "\n".join(lines)
