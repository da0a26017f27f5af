"""`python -m tests.bench <name>`: one benchmark, or a list of them without a name."""

import importlib
import pkgutil
import sys
from pathlib import Path

from tests.bench.frame import table

FRAME = {"frame", "__main__"}


def names() -> list[str]:
    """Modules beside this one that can `measure`."""
    return sorted(
        found.name
        for found in pkgutil.iter_modules([str(Path(__file__).parent)])
        if found.name not in FRAME and not found.name.startswith("test_")
    )


def main(arguments: list[str]) -> int:
    """Print the table of the benchmark named; the exit status tells whether every bar holds."""
    if len(arguments) != 1 or arguments[0] not in names():
        print("Benchmarks:", ", ".join(names()))
        return 2
    module = importlib.import_module(f"tests.bench.{arguments[0]}")
    rows = module.measure()
    print(table(str(module.__doc__).strip().splitlines()[0], rows))
    return 0 if all(row.within for row in rows) else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
