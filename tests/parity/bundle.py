"""The browser's domain, bundled once per state of its sources, and asked by one Node process."""

import hashlib
import json
import os
import shutil
import subprocess
import tempfile
from pathlib import Path
from typing import Any

WEB = Path(__file__).resolve().parents[2] / "web"
CONFIG = "vite.parity.config.ts"


def bundle() -> Path:
    """The bundle for the sources as they are; built beside and moved into place, so that workers may race."""
    sources = [
        *sorted((WEB / "src" / "domain").glob("*.ts")),
        *sorted((WEB / "tools").glob("*.ts")),
        WEB / CONFIG,
    ]
    mark = hashlib.sha256(b"\0".join(file.read_bytes() for file in sources)).hexdigest()[:16]
    place = WEB / ".parity" / mark
    if not place.is_dir():
        place.parent.mkdir(exist_ok=True)
        fresh = tempfile.mkdtemp(dir=place.parent)
        command = [
            shutil.which("npx") or "npx",
            "vite",
            "build",
            "--config",
            CONFIG,
            "--outDir",
            fresh,
            "--emptyOutDir",
        ]
        subprocess.run(command, cwd=WEB, check=True, stdout=subprocess.DEVNULL)
        try:
            Path(fresh).rename(place)
        except OSError:  # another worker was first
            shutil.rmtree(fresh)
        for old in place.parent.iterdir():
            if old != place and len(old.name) == len(mark):  # bundles of earlier sources
                shutil.rmtree(old, ignore_errors=True)
    return place / "parity.mjs"


def ask(calls: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """What the browser's domain answers to each call: {"out"} or {"error"}."""
    node = shutil.which("node") or "node"
    done = subprocess.run(
        [node, os.fspath(bundle())], input=json.dumps(calls), capture_output=True, text=True, check=False
    )
    if done.returncode:
        raise RuntimeError(done.stderr)
    answers: list[dict[str, Any]] = json.loads(done.stdout)
    return answers
