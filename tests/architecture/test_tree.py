"""What may lie where, and what no file may say."""

import re

from architecture.rooms import PLACES, TOP
from architecture.tree import ROOT, files, line_of, report, text

# Written so that this file does not match itself.
MACHINE_PATH = re.compile(r"(?<![\w.}>)-])/(?:work|farm|tmp|root|home|Users)/\w|\b[A-Z]:\\Users")
REGISTRY = re.compile(
    r"registry\.(?:npmjs|yarnpkg)|\bpypi\.org|pythonhosted\.|deb\.debian\.|\bjsr\.io|"
    r"\bunpkg\.com|jsdelivr\.net|proxy\.golang|/pypi/simpl[e]"
)
LEFT_OPEN = re.compile(r"\b(?:TO[D]O|FIX[M]E|XX[X]|HAC[K])\b|\bNotImplementedErro[r]\b")


def found(pattern: re.Pattern[str], rule: str) -> list[str]:
    return [
        f"{name}:{line_of(text(name), match.start())}: {rule}: {match[0]}"
        for name in files()
        for match in pattern.finditer(text(name))
    ]


def test_only_the_agreed_entries_stand_at_the_top() -> None:
    entries = {name.split("/")[0] for name in files()}
    report([f"{entry}: not agreed at the top" for entry in entries - TOP if not entry.startswith(".")])


def test_every_room_is_there() -> None:
    empty = [place for place in PLACES if not any(name.startswith(f"{place}/") for name in files())]
    report([f"{place}: the room is missing or empty" for place in empty])


def test_no_machine_paths() -> None:
    report(found(MACHINE_PATH, "a path of one machine"))


def test_no_registry_hosts() -> None:
    report(found(REGISTRY, "a registry's host"))


def test_the_lock_file_names_no_download_host() -> None:
    lock = (ROOT / "web/package-lock.json").read_text()
    assert '"integrity"' in lock
    assert '"resolved"' not in lock


def test_nothing_is_left_open() -> None:
    report(found(LEFT_OPEN, "left open"))


def test_nothing_generated_is_tracked() -> None:
    generated = re.compile(
        r"(?:^|/)(?:node_modules|__pycache__|dist)/|^server/static/|\.(?:pyc|sqlite3?|db|map)$"
    )
    report([f"{name}: generated, not written" for name in files() if generated.search(name)])
