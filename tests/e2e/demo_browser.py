"""A server with the demo in a folder of its own, and browser profiles that can be closed and opened again."""

import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from e2e.device import WORKER_ANSWERS
from e2e.launch import launching
from playwright.sync_api import BrowserContext, BrowserType, Page

ROOT = Path(__file__).parent.parent.parent
PHONE = {"width": 390, "height": 844}


@contextmanager
def demo_server(folder: Path) -> Iterator[str]:
    """Serves the demo; gives its address."""
    command = [sys.executable, "-m", "server.cli", "demo", "--port", "0"]
    environment = {**os.environ, "TAREWAY_DATA": str(folder)}
    with subprocess.Popen(command, cwd=ROOT, env=environment, stdout=subprocess.PIPE, text=True) as process:
        try:
            assert process.stdout
            first = process.stdout.readline()
            assert "http://" in first, first
            yield first.split()[-1]
        finally:
            process.terminate()


class Profiles:
    """Phones by name: the same name again is the same phone. `troubles` collects what the browser complains of."""

    def __init__(self, chromium: BrowserType, folder: Path) -> None:
        self._chromium, self._folder = chromium, folder
        self.troubles: list[str] = []

    @contextmanager
    def open(self, name: str) -> Iterator[BrowserContext]:
        """A browser on a profile, closed at the end."""
        context = self._chromium.launch_persistent_context(
            str(self._folder / name),
            viewport=PHONE,  # type: ignore[arg-type]
            locale="en-GB",
            **launching(),  # type: ignore[arg-type]
        )
        context.set_default_timeout(15_000)
        context.on("weberror", lambda one: self.troubles.append(str(one.error)))
        context.on("console", lambda one: self._note(one.type, one.text))
        try:
            yield context
        finally:
            context.close()

    def _note(self, kind: str, text: str) -> None:
        # a request that finds no network is logged by the browser itself, and is part of being offline
        if kind == "error" and "ERR_INTERNET_DISCONNECTED" not in text:
            self.troubles.append(text)


def sign_in(page: Page, address: str, name: str, password: str) -> None:
    """Sign in as one of the demo's people."""
    page.goto(address + "/sign-in")
    page.get_by_label("Sign-in name").fill(name)
    page.get_by_role("button", name="Next").click()
    page.get_by_label("Password").fill(password)
    page.get_by_role("button", name="Sign in").click()
    page.get_by_role("heading", name="Vehicles").wait_for()
    page.evaluate(WORKER_ANSWERS)
