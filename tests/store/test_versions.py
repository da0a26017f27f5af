"""The change log: pages, counters, and what two transactions see of each other."""

from collections.abc import Callable
from typing import Any

import pytest
from factories import Person, edit, fill, seat
from flask import Flask
from sqlalchemy import text

from server.extensions import db
from server.store import books, engine, versions
from server.store.engine import TakenError, reading, writing


@pytest.fixture
def inside(app: Flask) -> Any:
    with app.app_context():
        yield


pytestmark = pytest.mark.usefixtures("inside")


def end_of(book: str, **asked: int) -> tuple[int, bool]:
    with reading() as session:
        return versions.page_end(session, book=book, **asked)


def test_a_page_ends_at_its_limits_or_with_the_log(owner: Person) -> None:
    owner.sync(*(seat(owner.book, note="x" * 100) for _ in range(4)))
    assert end_of(owner.book, after=0, limit=10, size=10_000) == (5, True)
    assert end_of(owner.book, after=0, limit=5, size=10_000) == (5, True)
    assert end_of(owner.book, after=0, limit=4, size=10_000) == (4, False)
    assert end_of(owner.book, after=1, limit=10, size=260) == (3, False)
    assert end_of(owner.book, after=1, limit=10, size=1) == (2, False)
    assert end_of(owner.book, after=5, limit=10, size=10_000) == (5, True)


def test_many_ids_are_looked_up_in_parts(owner: Person, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(versions, "_AT_ONCE", 2)
    made = [seat(owner.book) for _ in range(5)]
    owner.sync(*made)
    with reading() as session:
        found = versions.versions_by_rev(session, book=owner.book, revs={one["mut"] for one in made})
        current = versions.current_versions(session, book=owner.book, ids={one["id"] for one in made})
    assert set(found) == {one["mut"] for one in made}
    assert {one.rev for one in current.values()} == set(found)


def test_the_counter_moves_only_from_where_it_was_seen(owner: Person) -> None:
    with writing() as session:
        seen = books.counter(session, owner.book)
        assert seen == 1
        assert books.advance(session, book=owner.book, seen=seen, by=3) == 4
        assert books.advance(session, book=owner.book, seen=seen, by=1) is None


def test_a_failure_leaves_nothing_behind(owner: Person) -> None:
    with pytest.raises(RuntimeError), writing() as session:
        books.count_up(session, owner.book)
        raise RuntimeError("in the middle")
    with reading() as session:
        assert books.counter(session, owner.book) == 1


def test_a_version_is_there_once(owner: Person) -> None:
    owner.sync(fill(owner.book))
    with reading() as session:
        rev = versions.all_of(session, owner.book)[-1].rev
        kept = versions.versions_by_rev(session, book=owner.book, revs={rev})[rev]
    with pytest.raises(TakenError), writing() as session:
        versions.append(session, [kept], 3)


def test_the_counter_is_the_number_of_the_last_version(owner: Person) -> None:
    made = seat(owner.book)
    owner.sync(made, edit(made, x_m=1.0), edit(made, x_m=2.0), fill(owner.book))
    with reading() as session:
        log = versions.all_of(session, owner.book)
        assert [row.seq for row in log] == [1, 2, 3, 4, 5]
        assert books.counter(session, owner.book) == 5


def test_a_reader_does_not_wait_for_a_writer(owner: Person) -> None:
    with writing() as session:
        books.count_up(session, owner.book)
        with reading() as other:
            assert books.counter(other, owner.book) == 1


def test_a_busy_database_is_answered_with_503(app: Flask, owner: Person) -> None:
    if db.engine.dialect.name != "sqlite":
        pytest.skip("PostgreSQL locks rows: writers of different books do not wait at all")
    db.engine.dispose()
    with writing() as session:
        session.execute(text("SELECT 1"))
        set_timeout = short_timeout()
        try:
            answer = owner.ask(
                "POST",
                "/api/sync",
                {"device": owner.device, "mutations": [fill(owner.book)], "books": []},
            )
        finally:
            set_timeout()
    assert (answer.status_code, answer.json["code"]) == (503, "busy")
    assert owner.outcomes(fill(owner.book)) == ["applied"]


def short_timeout() -> Callable[[], None]:
    """Lets new connections wait 50 ms only; the returned function ends that."""
    from sqlalchemy import event

    def hurry(connection: Any, _: Any) -> None:
        connection.execute("PRAGMA busy_timeout=50")

    event.listen(db.engine, "connect", hurry)

    def end() -> None:
        event.remove(db.engine, "connect", hurry)
        db.engine.dispose()

    return end


def test_the_options_of_each_database() -> None:
    assert engine.engine_options("sqlite:///x")["connect_args"]["timeout"] == engine.BUSY_TIMEOUT_S
    assert engine.engine_options("postgresql+psycopg://x") == {"pool_pre_ping": True}
