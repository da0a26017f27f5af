"""Writes tests/vectors/*.json: `python tests/vectors/generate.py`, or `--check` to see whether they are current.

Each module in `makers` gives one file by its functions(rng). Chance is seeded with the module's name, so that a
new module changes no other file.
"""

import argparse
import importlib
import json
import pkgutil
import sys
import zlib
from pathlib import Path

import numpy as np

HERE = Path(__file__).resolve().parent


def books() -> dict[str, str]:
    """File name -> text."""
    makers = importlib.import_module("vectors.makers")
    out = {}
    for found in pkgutil.iter_modules(makers.__path__):
        maker = importlib.import_module(f"vectors.makers.{found.name}")
        rng = np.random.default_rng(zlib.crc32(found.name.encode()))
        book = {"module": found.name, "functions": maker.functions(rng)}
        out[f"{found.name}.json"] = json.dumps(book, indent=1, allow_nan=False) + "\n"
    return out


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--check", action="store_true", help="write nothing, fail if a file is not current")
    check = parser.parse_args().check
    stale = 0
    for name, text in books().items():
        file = HERE / name
        if file.exists() and file.read_text() == text:
            continue
        stale += 1
        print(name, "is not current" if check else "written")
        if not check:
            file.write_text(text)
    return stale if check else 0


if __name__ == "__main__":
    sys.path[:0] = [str(HERE.parent), str(HERE.parent.parent)]
    sys.exit(main())
