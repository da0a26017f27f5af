"""When other devices of a book were last heard: who is told, of whom, and how often it is written down."""

from collections.abc import Callable, Mapping
from typing import Any

import pytest
from factories import Clock, Person, edit, fill, mutation, new_id, seat
from flask import Flask
from sqlalchemy import text

from server.extensions import db
from server.services import heard as service
from server.services import pull
from server.store import heard as store
from server.store.engine import DatabaseError

People = Callable[[], Person]
AT = "2026-03-04T05:06:07.000Z"


@pytest.fixture
def ben(owner: Person, person: People) -> Person:
    """A co-driver of the owner's book."""
    made = person()
    owner.share(made, "co_driver")
    return made


def ask(who: Person, *mutations: Any, unsent: int | None = 0, **other: Any) -> dict[str, Any]:
    """One request of a phone that knows the book and says what it still holds."""
    mark = {"book": other.pop("book", who.book), "checkpoint": other.pop("checkpoint", 1)}
    marks = [mark if unsent is None else {**mark, "unsent": unsent}]
    asked = {"device": who.device, "mutations": list(mutations), "books": marks, **other}
    answer = who.ask("POST", "/api/sync", asked)
    assert answer.status_code == 200, answer.json
    return dict(answer.json or {})


def told(answer: Mapping[str, Any]) -> list[tuple[str, str, int | None]]:
    return [(one["device"], one["at"], one["unsent"]) for one in answer["heard"]]


def test_a_member_is_told_when_another_s_phone_was_heard(owner: Person, ben: Person) -> None:
    ask(owner)
    (one,) = ask(ben, book=owner.book)["heard"]
    assert one == {"book": owner.book, "user": owner.id, "device": owner.device, "at": AT, "unsent": 0}


def test_a_phone_is_not_told_of_itself_but_of_its_owner_s_other_one(owner: Person) -> None:
    ask(owner)
    first, owner.device = owner.device, new_id()
    assert told(ask(owner)) == [(first, AT, 0)]


def test_who_does_not_share_the_book_is_told_nothing(owner: Person, ben: Person, person: People) -> None:
    stranger = person()
    ask(owner)
    assert ask(stranger, book=owner.book)["heard"] == []
    ask(ben, book=owner.book)
    owner.ask("DELETE", f"/api/books/{owner.book}/members/{ben.id}")
    assert ask(ben, book=owner.book)["heard"] == []
    assert ask(owner)["heard"] == []


def test_a_stranger_s_request_leaves_no_note(app: Flask, owner: Person, person: People) -> None:
    stranger = person()
    ask(stranger, book=owner.book)
    with app.app_context(), db.engine.connect() as connection:
        query = text("SELECT count(*) FROM heard WHERE user_id = :user")
        assert connection.scalar(query, {"user": stranger.id}) == 0


def test_a_phone_that_has_just_fetched_the_book_is_heard_and_has_told_nothing(
    owner: Person, ben: Person, clock: Clock
) -> None:
    ben.sync()
    assert told(ask(owner)) == [(ben.device, AT, None)]
    ask(ben, book=owner.book)
    clock.move(hours=1)
    ben.sync()  # what it once told stands until it names the book again
    assert told(ask(owner)) == [(ben.device, AT, 0)]


def test_what_was_not_taken_is_still_on_the_phone(owner: Person, ben: Person) -> None:
    later = edit(seat(owner.book), name="before its record")
    refused = mutation(owner.book, "fill", {"nothing": "right"})
    foreign = seat("not even an id")
    ask(ben, fill(owner.book), later, refused, foreign, "no mutation", book=owner.book, unsent=3)
    assert told(ask(owner)) == [(ben.device, AT, 5)]


def test_an_app_that_does_not_tell_is_said_not_to_have_told(owner: Person, ben: Person) -> None:
    ask(ben, fill(owner.book), "no mutation", book=owner.book, unsent=None)
    assert told(ask(owner)) == [(ben.device, AT, None)]


def test_a_note_is_written_again_after_minutes_or_when_it_says_something_else(
    owner: Person, ben: Person, clock: Clock
) -> None:
    ask(ben, book=owner.book)
    clock.move(minutes=4)
    ask(ben, book=owner.book)
    assert told(ask(owner)) == [(ben.device, AT, 0)]
    ask(ben, book=owner.book, unsent=1)
    assert told(ask(owner)) == [(ben.device, "2026-03-04T05:10:07.000Z", 1)]
    clock.move(minutes=5)
    ask(ben, book=owner.book, unsent=1)
    assert told(ask(owner)) == [(ben.device, "2026-03-04T05:15:07.000Z", 1)]


def test_only_what_was_heard_since_is_told_but_of_a_new_book_all(
    owner: Person, ben: Person, clock: Clock
) -> None:
    ask(ben, book=owner.book)
    clock.move(hours=1)
    later = "2026-03-04T06:06:07.000Z"
    assert ask(owner, heard_since=later)["heard"] == []
    assert len(ask(owner, heard_since=later, checkpoint=0)["heard"]) == 1
    assert len(ask(owner, heard_since="0001-01-01T00:00:00Z")["heard"]) == 1
    ask(ben, book=owner.book)
    assert told(ask(owner, heard_since=later)) == [(ben.device, later, 0)]


def test_a_note_that_was_written_late_is_not_missed(owner: Person, ben: Person, clock: Clock) -> None:
    clock.move(minutes=1)
    now = ask(owner)["now"]
    clock.move(minutes=-1)  # came before, and was written down after the owner had read
    ask(ben, book=owner.book)
    clock.move(minutes=2)
    assert told(ask(owner, heard_since=now)) == [(ben.device, AT, 0)]


def test_nothing_is_told_of_a_book_that_is_not_read_to_its_end(
    owner: Person, ben: Person, monkeypatch: pytest.MonkeyPatch
) -> None:
    ask(ben, fill(owner.book), fill(owner.book), book=owner.book)
    monkeypatch.setattr(pull, "VERSIONS_AT_ONCE", 1)
    first = ask(owner, checkpoint=2)
    assert (first["books"][0]["more"], first["heard"]) == (True, [])
    last = ask(owner, checkpoint=3)
    assert (last["books"][0]["more"], len(last["heard"])) == (False, 1)


def test_a_fitter_is_told_no_more_than_others(owner: Person, person: People) -> None:
    cleo = person()
    owner.share(cleo, "fitter")
    ask(owner)
    (one,) = ask(cleo, book=owner.book)["heard"]
    assert set(one) == {"book", "user", "device", "at", "unsent"}


def test_of_many_devices_the_longest_silent_are_forgotten(
    owner: Person, clock: Clock, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(store, "DEVICES_AT_MOST", 3)
    devices = [new_id() for _ in range(5)]
    for owner.device in devices:
        ask(owner)
        clock.move(minutes=1)
    assert {one for one, _, _ in told(ask(owner))} == {*devices[2:4]}


def test_a_busy_database_costs_the_note_and_not_the_answer(
    owner: Person, ben: Person, monkeypatch: pytest.MonkeyPatch
) -> None:
    def busy(*_: Any, **__: Any) -> None:
        raise DatabaseError("busy", None, Exception())

    monkeypatch.setattr(service.heard, "put", busy)
    answer = ask(ben, fill(owner.book), book=owner.book)
    assert [one["outcome"] for one in answer["answers"]] == ["applied"]
    assert ask(owner)["heard"] == []
