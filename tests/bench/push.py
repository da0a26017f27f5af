"""What a push through the whole server costs, beside the least endpoint that could take the same entries.

Three takers of the same batches of 100 fills, over WSGI in one process, each on a SQLite file of its own that is
synced to the disk: one that parses and inserts, one that also passes each body through its schema once, and
`POST /api/sync` with sign-in, rights, schemas, versions and what the caller's checkpoint had. Ratio: entries per
second against the second of them.
"""

import json
import sqlite3
import statistics
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from flask import Flask, jsonify, request

from server.app import create_app
from server.config import Rates, Settings, sqlite_url
from server.extensions import db
from server.schemas.register import KINDS
from tests.bench.frame import Row
from tests.factories import HEADERS, Clock, Person, fill

BATCH, ROUNDS, WARM = 100, 40, 5
BAR = 0.6
GENEROUS = Rates(requests_per_user=1_000_000)
Post = Callable[[bytes], Any]


def least(folder: Path, *, validate: bool) -> Post:
    """The least endpoint that keeps what it is given."""
    app = Flask(__name__)
    database = sqlite3.connect(
        folder / f"least-{validate}.sqlite3", isolation_level=None, check_same_thread=False
    )
    for pragma in ("journal_mode=WAL", "synchronous=FULL"):
        database.execute(f"PRAGMA {pragma}")
    database.execute("CREATE TABLE entry (mut TEXT PRIMARY KEY, book TEXT, kind TEXT, body TEXT)")
    schemas = {kind: schema() for kind, schema in KINDS.items()}

    @app.post("/push")
    def push() -> Any:
        mutations = json.loads(request.get_data())["mutations"]
        if validate:
            for one in mutations:
                assert not schemas[one["kind"]].validate(one["body"])
        rows = [(one["mut"], one["book"], one["kind"], json.dumps(one["body"])) for one in mutations]
        database.execute("BEGIN IMMEDIATE")
        database.executemany("INSERT INTO entry VALUES (?, ?, ?, ?)", rows)
        database.execute("COMMIT")
        return jsonify(answers=[{"mut": one["mut"], "outcome": "applied"} for one in mutations])

    client = app.test_client()
    return lambda payload: client.post("/push", data=payload, content_type="application/json").json["answers"]


@contextmanager
def whole(folder: Path) -> Iterator[tuple[Post, Person]]:
    """The server itself, and somebody with a book who is signed in."""
    app = create_app(Settings(data=folder, database_url=sqlite_url(folder), rates=GENEROUS), clock=Clock())
    owner = Person(app)
    owner.begin_book()

    def post(payload: bytes) -> Any:
        answer = owner.client.post(
            "/api/sync", data=payload, content_type="application/json", headers=HEADERS
        )
        return answer.json["answers"]

    yield post, owner
    with app.app_context():
        db.engine.dispose()


def payloads(owner: Person) -> list[bytes]:
    """Batches of entries that nobody has sent yet; the device has seen what it sent, so nothing comes back."""
    batches = [[fill(owner.book, litres_l=40 + i / 10) for i in range(BATCH)] for _ in range(ROUNDS + WARM)]
    seen = [1 + BATCH * (n + 1) for n in range(len(batches))]
    return [
        json.dumps(
            {
                "device": owner.device,
                "mutations": batch,
                "books": [{"book": owner.book, "checkpoint": checkpoint}],
            }
        ).encode()
        for batch, checkpoint in zip(batches, seen, strict=True)
    ]


def rate(posts: dict[str, Post], asked: list[bytes]) -> dict[str, float]:
    """Entries per second of each taker, by the median batch; they take turns, so that a busy moment meets all."""
    times: dict[str, list[float]] = {name: [] for name in posts}
    for payload in asked:
        for name, post in posts.items():
            began = time.perf_counter()
            answers = post(payload)
            times[name].append(time.perf_counter() - began)
            assert [one["outcome"] for one in answers] == ["applied"] * BATCH, answers
    return {name: BATCH / statistics.median(took[WARM:]) for name, took in times.items()}


def measure() -> list[Row]:
    """All three in turns."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        with whole(folder) as (post, owner):
            posts = {
                "least endpoint": least(folder, validate=False),
                "least endpoint + one schema pass": least(folder, validate=True),
                "POST /api/sync": post,
            }
            rates = rate(posts, payloads(owner))
    base = rates["least endpoint + one schema pass"]
    bars = {"POST /api/sync": BAR}
    return [
        Row(name, per_s, "entries/s", per_s / base, bar=bars.get(name), at_least=True)
        for name, per_s in rates.items()
    ]
