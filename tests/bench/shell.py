"""What the phone has to fetch before the app works offline, gzip, against its budget.

A ratio is the share of the budget. Faces and pictures count as they are, for they do not compress.
"""

import gzip
import re
from pathlib import Path

from tests.bench.frame import Row

STATIC = Path(__file__).parent.parent.parent / "server" / "static"
FIRST_JS_BYTES, SHELL_BYTES = 90_000, 250_000
STATIC_IMPORT = re.compile(r"""(?:\bfrom|\bimport)\s*["'`](\./[^"'`]+\.js)["'`]""")
ENTRY = re.compile(r"""url["']?:\s*["'`](/[^"'`]*)["'`]""")


def packed_bytes(path: Path) -> int:
    """Size on the wire: gzip at level 9, or as it is where that is smaller."""
    content = path.read_bytes()
    return min(len(content), len(gzip.compress(content, 9)))


def first_scripts() -> set[Path]:
    """The scripts that the first page runs, with everything that they import at once."""
    page = (STATIC / "index.html").read_text()
    todo = [STATIC / src.lstrip("/") for src in re.findall(r"""(?:src|href)=["'](/[^"']+\.js)["']""", page)]
    seen: set[Path] = set()
    while todo:
        script = todo.pop()
        if script not in seen:
            seen.add(script)
            todo += [script.parent / path for path in STATIC_IMPORT.findall(script.read_text())]
    return seen


def shell() -> set[Path]:
    """Everything in the worker's list, and the worker."""
    worker = STATIC / "sw.js"
    return {worker, *(STATIC / url.lstrip("/") for url in ENTRY.findall(worker.read_text()))}


def later() -> set[Path]:
    """The pages of the desk, which the worker keeps after the shell."""
    return set(STATIC.glob("assets/desk-*.js"))


def measure() -> list[Row]:
    """Both sizes against their budgets."""
    sizes = {
        "first JavaScript": (first_scripts(), FIRST_JS_BYTES),
        "whole shell": (shell(), SHELL_BYTES),
    }
    totals = {name: (sum(map(packed_bytes, paths)), budget) for name, (paths, budget) in sizes.items()}
    rows = [Row(name, size / 1000, "kB", size / budget, bar=1.0) for name, (size, budget) in totals.items()]
    after = sum(map(packed_bytes, later()))
    return [*rows, Row("pages of the desk, after the shell", after / 1000, "kB", after / SHELL_BYTES)]
