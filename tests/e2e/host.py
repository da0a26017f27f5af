"""The server that a browser test talks to, and a way to count what has arrived there."""

import json
import re
import subprocess
import sys
import urllib.request
from dataclasses import dataclass, field
from http.cookiejar import CookieJar
from pathlib import Path
from typing import Any
from uuid import uuid4

ROOT = Path(__file__).resolve().parent.parent.parent
PASSWORD = "seven tents by the river"


@dataclass
class Site:
    """One server process, with a data folder of its own."""

    data: Path
    static: Path | None = None
    port: int = 0
    process: subprocess.Popen[str] | None = field(default=None, repr=False)

    @property
    def url(self) -> str:
        return f"http://127.0.0.1:{self.port}"

    def start(self) -> "Site":
        """Start it, at the same address as before if it was started before."""
        built = [str(self.static)] if self.static else []
        command = [sys.executable, "-m", "tests.e2e.serve", str(self.data), str(self.port), *built]
        self.process = subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, text=True)
        assert self.process.stdout is not None
        said = self.process.stdout.readline()
        found = re.search(r"http://127\.0\.0\.1:(\d+)", said)
        if not found:
            self.stop()
            raise RuntimeError(f"the server did not start: it said {said!r}")
        self.port = int(found[1])
        return self

    def stop(self) -> None:
        """Kill it, as a failing machine would."""
        if self.process is not None:
            self.process.kill()
            self.process.communicate()
            self.process = None


class Account:
    """Somebody who asks the server directly, past any browser."""

    def __init__(self, site: Site, name: str) -> None:
        self.site = site
        self._open = urllib.request.build_opener(_LoopbackCookies()).open
        self.ask("POST", "/api/session", {"name": name, "password": PASSWORD})

    def ask(self, method: str, path: str, body: Any = None) -> Any:
        """One request; its JSON."""
        data = None if body is None else json.dumps(body).encode()
        headers = {"X-Tareway": "1", "Content-Type": "application/json", "Origin": self.site.url}
        request = urllib.request.Request(self.site.url + path, data, headers, method=method)
        with self._open(request) as answer:
            return json.loads(answer.read() or b"null")

    def versions(self, kind: str | None = None) -> list[dict[str, Any]]:
        """Every version of every record that this person may read, in order."""
        request: dict[str, Any] = {"device": str(uuid4()), "mutations": [], "books": []}
        found: list[dict[str, Any]] = []
        while True:
            answer = self.ask("POST", "/api/sync", request)
            for book in answer["books"]:
                found += book["versions"]
            request["books"] = [
                {name: one[name] for name in ("book", "checkpoint")} for one in answer["books"]
            ]
            if not any(one["more"] for one in answer["books"]):
                return [one for one in found if kind in (None, one["kind"])]


class _LoopbackCookies(urllib.request.HTTPCookieProcessor):
    """The cookie is for secure connections only; browsers count loopback among them, the library does not."""

    def __init__(self) -> None:
        super().__init__(CookieJar())
        self._token = ""

    def http_request(self, request: urllib.request.Request) -> urllib.request.Request:
        if self._token:
            request.add_unredirected_header("Cookie", self._token)
        return request

    def http_response(self, request: urllib.request.Request, response: Any) -> Any:
        said = response.headers.get("Set-Cookie")
        if said:
            self._token = said.split(";")[0]
        return response
