"""When the web application is built anew, and with which Node."""

import json
from pathlib import Path

import pytest

from server import build_web


@pytest.fixture
def tree(tmp_path: Path) -> Path:
    for name in ("web/package.json", "web/src/main.ts", "service_worker/sw.ts", "server/static/index.html"):
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(name)
    (tmp_path / "server" / ".web-stamp").write_text(build_web.fingerprint(tmp_path))
    return tmp_path


def test_what_is_built_of_today_s_sources_stays(tree: Path) -> None:
    assert not build_web.stale(tree)


@pytest.mark.parametrize(
    "name", ["web/src/main.ts", "service_worker/sw.ts", "web/src/new.css", "web/package.json"]
)
def test_a_changed_source_is_built_anew(tree: Path, name: str) -> None:
    (tree / name).write_text("changed")
    assert build_web.stale(tree)


def test_a_moved_source_is_built_anew(tree: Path) -> None:
    (tree / "web/src/main.ts").rename(tree / "web/src/other.ts")
    assert build_web.stale(tree)


@pytest.mark.parametrize("name", ["server/static/index.html", "server/.web-stamp"])
def test_what_is_missing_is_built(tree: Path, name: str) -> None:
    (tree / name).unlink()
    assert build_web.stale(tree)


def test_packages_and_tools_are_no_sources(tree: Path) -> None:
    for name in ("web/node_modules/x/index.js", "web/tools/contract.mjs"):
        (tree / name).parent.mkdir(parents=True)
        (tree / name).write_text("x")
    assert not build_web.stale(tree)


def test_an_archive_without_sources_brings_the_built_files(tree: Path) -> None:
    (tree / "web" / "package.json").unlink()
    assert not build_web.stale(tree)


LOCK = {
    "": {"name": "web"},
    "node_modules/a": {"integrity": "sha512-a"},
    "node_modules/tool": {"integrity": "sha512-t", "dev": True},
    "node_modules/other-system": {"integrity": "sha512-o", "optional": True},
}
A = {"node_modules/a": {"integrity": "sha512-a"}}
TOOL = {"node_modules/tool": {"integrity": "sha512-t", "dev": True}}


@pytest.mark.parametrize(
    ("there", "fetched"),
    [
        (A, False),
        ({**A, **TOOL}, False),
        ({}, True),
        (TOOL, True),
        ({"node_modules/a": {"integrity": "sha512-older"}}, True),
        ({**A, "node_modules/dropped": {"integrity": "sha512-d"}}, True),
    ],
)
def test_packages_are_fetched_when_others_are_there(
    tree: Path, there: dict[str, dict[str, object]], fetched: bool
) -> None:
    for name, packages in (("package-lock.json", LOCK), ("node_modules/.package-lock.json", there)):
        path = tree / "web" / name
        path.parent.mkdir(exist_ok=True)
        path.write_text(json.dumps({"packages": packages}))
    assert bool(build_web._install(tree / "web")) == fetched


@pytest.mark.parametrize(
    ("said", "fit"), [("v20.19.0", True), ("v22.1.0", True), ("v20.18.9", False), ("v8.0.0", False)]
)
def test_an_old_node_is_left_alone(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, said: str, fit: bool
) -> None:
    for name in ("node", "npm"):
        (tmp_path / name).write_text(f"#!/bin/sh\necho {said}\n")
        (tmp_path / name).chmod(0o755)
    monkeypatch.setenv("PATH", str(tmp_path), prepend=":")
    assert (build_web.system_node() is not None) == fit


def test_without_a_node_the_packaged_one_is_asked_for(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    assert build_web.system_node() is None
    folder, npm = build_web.packaged_node()
    assert Path(folder).is_dir()
    assert all(Path(part).is_file() for part in npm)
