"""Offline means all of it: the worker's list names every file of the built shell, and nothing else."""

import re

import pytest
from architecture.tree import ROOT, report

STATIC = ROOT / "server" / "static"
NOT_LISTED = re.compile(r"(?:^sw\.js|\.map|\.br|\.gz)$")
ENTRY = re.compile(r"""url["']?:\s*["'`](/[^"'`]*)["'`]""")

LATER = re.compile(r"""["'`](/assets/desk-[^"'`]*)["'`]""")


@pytest.fixture
def worker() -> str:
    if not (STATIC / "sw.js").is_file():
        pytest.skip("server/static is not built; the test command builds it")
    return (STATIC / "sw.js").read_text()


def test_the_worker_lists_every_file(worker: str) -> None:
    built = {"/" + path.relative_to(STATIC).as_posix() for path in STATIC.rglob("*") if path.is_file()}
    wanted = {url for url in built if not NOT_LISTED.search(url[1:])}
    listed = {*ENTRY.findall(worker), *LATER.findall(worker)}
    report([f"server/static{url}: not in the worker's list" for url in sorted(wanted - listed)])
    report([f"server/static/sw.js: lists {url}, which is not there" for url in sorted(listed - wanted)])


def test_what_changes_in_place_has_a_revision(worker: str) -> None:
    hashed = re.compile(r"-[\w-]{8,}\.\w+$")
    entries = re.findall(r"""\{[^{}]*url["']?:[^{}]*\}""", worker)
    assert entries
    report(
        [
            f"server/static/sw.js: {entry} is named the same when its content changes"
            for entry in entries
            if re.search(r"revision[\"']?:\s*null", entry) and not hashed.search(ENTRY.findall(entry)[0])
        ]
    )
