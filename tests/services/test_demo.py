"""The demo written through the services: all of it, once, as its people's own entries."""

from collections import Counter
from datetime import UTC, date, datetime
from functools import cache
from pathlib import Path

from factories import HEADERS, Clock
from flask import Flask
from sqlalchemy import func, select

from server.demo.folder import SEED, Made, forget, made, remember
from server.demo.people import USERS
from server.demo.scenario import Scenario, generate
from server.demo.write import Written, fill, write
from server.extensions import db

TODAY = date(2026, 3, 4)
NOW = datetime(2026, 3, 4, 5, 6, 7, tzinfo=UTC)


@cache
def scenario() -> Scenario:
    return generate(SEED, TODAY)


def written(app: Flask, now: datetime = NOW) -> Written:
    with app.app_context():
        return write(scenario(), now=now)


def rows(app: Flask) -> dict[str, int]:
    """How many rows each table has."""
    with app.app_context(), db.engine.connect() as connection:
        tables = db.metadatas[None].sorted_tables
        return {one.name: connection.scalar(select(func.count()).select_from(one)) or 0 for one in tables}


def signed_in(app: Flask, name: str):
    client = app.test_client()
    password = next(user.password for user in USERS if user.name == name)
    answer = client.post("/api/session", json={"name": name, "password": password}, headers=HEADERS)
    assert answer.status_code == 201, answer.json
    return client


def kinds_seen(client, book: str) -> Counter[str]:
    answer = client.get(f"/api/books/{book}/records?limit=1000")
    assert answer.status_code == 200, answer.json
    return Counter(one["kind"] for one in answer.json["records"])


def test_every_mutation_is_kept_and_a_second_time_adds_no_row(app):
    first = written(app)
    before = rows(app)
    second = written(app)
    assert first.applied + first.already == len(scenario().records)
    assert second == Written(already=len(scenario().records))
    assert rows(app) == before
    assert before["user"] == len(USERS) and before["book"] == 3
    assert before["version"] == len(scenario().records)


def test_each_book_has_the_records_of_the_scenario(app):
    written(app)
    for told in scenario().truth.vehicles.values():
        book, owner = told.entered.book, told.sheet.owner
        mutations = [one.mutation for one in scenario().records if one.mutation["book"] == book]
        expected = Counter(one["kind"] for one in mutations if one["base_rev"] is None)
        assert kinds_seen(signed_in(app, owner), book) == expected
        assert kinds_seen(signed_in(app, "brannock"), book) == expected


def test_a_book_is_not_there_for_another_owner(app):
    written(app)
    book = scenario().truth.vehicles["van"].entered.book
    assert signed_in(app, "tevrin").get(f"/api/books/{book}/records").status_code == 404
    assert signed_in(app, "minnow").get(f"/api/books/{book}/records").status_code == 200


def test_writing_again_signs_nobody_out(app, clock: Clock):
    written(app, clock())
    browser = signed_in(app, "jelka")
    clock.move(hours=5)
    written(app, clock())
    assert browser.get("/api/session").status_code == 200


def test_an_interrupted_demo_goes_on_with_its_own_day(app, tmp_path: Path):
    remember(tmp_path, Made(SEED, TODAY.isoformat()))
    with app.app_context():
        done = fill(tmp_path, datetime(2026, 3, 9, tzinfo=UTC))
    assert done.applied + done.already == len(scenario().records)
    assert made(tmp_path, date(2026, 3, 9)) == Made(SEED, "2026-03-04", complete=True)


def test_a_complete_demo_is_left_as_its_users_made_it(app, tmp_path: Path):
    remember(tmp_path, Made(SEED, TODAY.isoformat(), complete=True))
    before = rows(app)
    with app.app_context():
        assert fill(tmp_path, NOW) == Written()
    assert rows(app) == before


def test_forgetting_removes_the_demos_own_files_alone(tmp_path: Path):
    remember(tmp_path, Made(SEED, TODAY.isoformat()))
    for name in ("tareway.sqlite3", "tareway.sqlite3-wal", "letter.txt"):
        (tmp_path / name).write_text("x")
    forget(tmp_path)
    assert [path.name for path in tmp_path.iterdir()] == ["letter.txt"]
