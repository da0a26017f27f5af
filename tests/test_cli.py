"""The command as somebody types it, and a server that is killed in the middle of its work."""

import http.client
import json
import os
import re
import signal
import subprocess
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from factories import HEADERS, PASSWORD, fill, new_id, vehicle

from server import cli


def run(*words: str, **environ: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "server.cli", *words]
    return subprocess.run(
        command, env={**os.environ, **environ}, capture_output=True, text=True, timeout=60, check=False
    )


class Server:
    """A server of its own, and one signed-in user of it."""

    def __init__(self, data: Path) -> None:
        command = [sys.executable, "-m", "server.cli", "serve", "--port", "0"]
        environ = {**os.environ, "TAREWAY_DATA": str(data)}
        environ.pop("DATABASE_URL", None)
        # tests that run in the background ignore the interrupt, and what they start would inherit that
        before = signal.signal(signal.SIGINT, signal.default_int_handler)
        self.process = subprocess.Popen(command, env=environ, stdout=subprocess.PIPE, text=True)
        signal.signal(signal.SIGINT, before)
        assert self.process.stdout
        said = re.search(r"127\.0\.0\.1:(\d+)", self.process.stdout.readline())
        assert said
        self.port = int(said[1])

    def ask(self, method: str, path: str, body: Any = None, cookie: str = "") -> tuple[int, Any, str]:
        headers = {**HEADERS, "Content-Type": "application/json", "Cookie": cookie}
        raw = json.dumps(body) if body is not None else None
        with closing(http.client.HTTPConnection("127.0.0.1", self.port, timeout=20)) as connection:
            connection.request(method, path, raw, headers)
            with connection.getresponse() as answer:
                cookies = answer.headers.get("Set-Cookie") or ""
                return answer.status, json.loads(answer.read()), cookies.split(";")[0]

    def end(self, by: signal.Signals) -> None:
        self.process.send_signal(by)
        self.process.wait(30)
        assert self.process.stdout
        self.process.stdout.close()


@pytest.fixture
def start(tmp_path: Path) -> Iterator[Callable[[], Server]]:
    """Starts servers on one folder of data; none outlives the test."""
    started: list[Server] = []

    def begin() -> Server:
        started.append(Server(tmp_path))
        return started[-1]

    yield begin
    for server in started:
        if server.process.poll() is None:
            server.end(signal.SIGKILL)


def test_serve_says_where_and_stops_on_a_signal(start: Callable[[], Server]) -> None:
    server = start()
    assert server.ask("GET", "/api/health")[0] == 200
    assert server.ask("GET", "/api/session")[1]["code"] == "sign_in_required"
    server.end(signal.SIGINT)
    assert server.process.returncode == 0


def test_all_that_was_acknowledged_is_there_after_a_kill(start: Callable[[], Server]) -> None:
    server, book = start(), new_id()
    credentials = {"name": "Ada", "password": PASSWORD}
    cookie = server.ask("POST", "/api/accounts", credentials)[2]
    acknowledged: set[str] = push(server, cookie, [vehicle(book)])
    for _ in range(4):
        kill = threading.Timer(0.4, server.process.kill)
        kill.start()
        while batch := [fill(book) for _ in range(20)]:
            try:
                acknowledged |= push(server, cookie, batch)
            except (OSError, http.client.HTTPException):
                break
        kill.join()
        server.end(signal.SIGKILL)
        server = start()
        assert acknowledged <= revisions(server, cookie, book)
    server.end(signal.SIGINT)
    assert len(acknowledged) > 20


def push(server: Server, cookie: str, batch: list[dict[str, Any]]) -> set[str]:
    body = {"device": new_id(), "mutations": batch, "books": []}
    status, answer, _ = server.ask("POST", "/api/sync", body, cookie)
    assert status == 200
    return {one["mut"] for one in answer["answers"] if one["outcome"] == "applied"}


def revisions(server: Server, cookie: str, book: str) -> set[str]:
    """All that the server has of a book."""
    found: set[str] = set()
    reached, more = 0, True
    while more:
        marks = [{"book": book, "checkpoint": reached}] if reached else []
        body = {"device": new_id(), "mutations": [], "books": marks}
        (news,) = server.ask("POST", "/api/sync", body, cookie)[1]["books"] or [None]
        if news is None:
            break
        revs = [one["rev"] for one in news["versions"]]
        assert len(revs) == len(set(revs) - found)
        found |= set(revs)
        reached, more = news["checkpoint"], news["more"]
    return found


def test_migrate_makes_the_database(tmp_path: Path) -> None:
    done = run("migrate", TAREWAY_DATA=str(tmp_path / "new" / "folder"))
    assert (done.returncode, done.stderr) == (0, "")
    assert (tmp_path / "new" / "folder" / "tareway.sqlite3").is_file()


def test_contract_is_json() -> None:
    assert json.loads(run("contract").stdout)["openapi"] == "3.1.0"


@pytest.mark.parametrize(
    ("words", "environ", "told"),
    [
        (["serve", "--host", "0.0.0.0"], {}, "TAREWAY_HOSTS"),
        (["serve"], {"TAREWAY_PORT": "many"}, "TAREWAY_PORT"),
        (["migrate"], {"DATABASE_URL": "mysql://x"}, "DATABASE_URL"),
        (["serve", "--host", "192.0.2.1"], {"TAREWAY_HOSTS": "x.example"}, "Cannot start"),
    ],
)
def test_what_is_wrong_is_said_in_a_sentence(
    tmp_path: Path, words: list[str], environ: dict[str, str], told: str
) -> None:
    done = run(*words, TAREWAY_DATA=str(tmp_path), **environ)
    assert done.returncode in (1, 2)
    assert told in done.stderr
    assert "Traceback" not in done.stderr


def test_blas_keeps_to_one_thread() -> None:
    assert os.environ["OPENBLAS_NUM_THREADS"] == "1"
    assert cli.THREADS == 8
