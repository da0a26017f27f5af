"""The files that the rules are read against: what git tracks or would track, never what is generated."""

import subprocess
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
GENERATED = {"web/src/contract.ts", "web/package-lock.json"}


@cache
def files() -> tuple[str, ...]:
    """Every file of the project by its path from the top, git-ignored ones left out."""
    command = ["git", "ls-files", "--cached", "--others", "--exclude-standard"]
    listed = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True).stdout.splitlines()
    return tuple(sorted({name for name in listed if (ROOT / name).is_file()}))


def under(*folders: str, suffixes: tuple[str, ...] = ()) -> list[str]:
    """Written files below some folders, of some suffixes."""
    return [
        name
        for name in files()
        if name.startswith(tuple(f"{folder}/" for folder in folders))
        and (not suffixes or name.endswith(suffixes))
        and name not in GENERATED
    ]


@cache
def text(name: str) -> str:
    """A file's text; empty for one that is not text."""
    try:
        return (ROOT / name).read_text(encoding="utf-8")
    except UnicodeDecodeError:
        return ""


def line_of(source: str, position: int) -> int:
    """The line number of a position, counted from 1."""
    return source.count("\n", 0, position) + 1


def report(broken: list[str]) -> None:
    """Fail with every broken rule, each as `file:line: rule`."""
    assert not broken, "\n" + "\n".join(broken)
