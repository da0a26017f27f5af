"""What a phone is told: all that is new, nothing that is not its user's."""

from collections.abc import Callable
from typing import Any

import pytest
from factories import AT, Person, edit, fill, mutation, new_id, seat, vehicle, weighing
from flask import Flask

from server.services import pull

People = Callable[[], Person]


def only(answer: dict[str, Any]) -> dict[str, Any]:
    (news,) = answer["books"]
    return dict(news)


def test_nothing_new_is_nothing_said(owner: Person) -> None:
    answer = owner.sync(at={owner.book: 1})
    assert (answer["books"], answer["gone"], answer["answers"]) == ([], [], [])


def test_a_phone_is_told_what_came_after_its_checkpoint(owner: Person) -> None:
    owner.sync(seat(owner.book), seat(owner.book))
    news = only(owner.sync(at={owner.book: 2}))
    assert [one["seq"] for one in news["versions"]] == [3]
    assert news["checkpoint"] == 3


def test_pages_follow_each_other(owner: Person, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pull, "VERSIONS_AT_ONCE", 2)
    owner.sync(*(seat(owner.book, f"seat {number}") for number in range(4)))
    seen, reached, more = [], 0, True
    while more:
        news = only(owner.sync(at={owner.book: reached}))
        seen += [one["seq"] for one in news["versions"]]
        reached, more = news["checkpoint"], news["more"]
    assert seen == [1, 2, 3, 4, 5]


def test_a_page_has_an_end_in_letters_too(owner: Person, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pull, "LETTERS_AT_ONCE", 150)
    owner.sync(*(seat(owner.book, note="x" * 100) for _ in range(3)))
    news = only(owner.sync(at={owner.book: 1}))
    assert (len(news["versions"]), news["more"], news["checkpoint"]) == (1, True, 2)


def test_a_page_that_one_book_fills_leaves_the_next_to_be_asked_for(
    owner: Person, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(pull, "VERSIONS_AT_ONCE", 1)
    owner.begin_book()
    first, second = owner.sync()["books"]
    assert [len(one["versions"]) for one in (first, second)] == [1, 0]
    assert (first["more"], second["more"], second["checkpoint"]) == (False, True, 0)


def test_a_checkpoint_from_before_a_restore_reads_from_the_start(owner: Person) -> None:
    news = only(owner.sync(at={owner.book: 900}))
    assert (len(news["versions"]), news["checkpoint"]) == (1, 1)


def test_the_generation_stays_until_a_restore(owner: Person, person: People) -> None:
    assert owner.sync()["generation"] == person().sync()["generation"]


def test_who_joins_is_told_everything_and_who_was_there_of_him(owner: Person, person: People) -> None:
    ben = person()
    assert ben.sync()["books"] == []
    owner.share(ben, "co_driver")
    assert [one["kind"] for one in only(ben.sync())["versions"]] == ["vehicle"]
    news = only(owner.sync(at={owner.book: 1}))
    assert (news["versions"], news["checkpoint"]) == ([], 2)
    assert {one["name"]: one["role"] for one in news["members"]} == {
        owner.name: "owner",
        ben.name: "co_driver",
    }


def test_who_leaves_is_told_once_more_that_the_book_is_gone(owner: Person, person: People) -> None:
    ben = person()
    owner.share(ben, "co_driver")
    owner.ask("DELETE", f"/api/books/{owner.book}/members/{ben.id}")
    answer = ben.sync(fill(owner.book), at={owner.book: 2})
    assert (answer["gone"], answer["books"]) == ([owner.book], [])
    assert answer["answers"][0]["error"]["code"] == "not_a_member"
    owner.share(ben, "fitter")
    assert only(ben.sync())["role"] == "fitter"


def test_another_s_book_is_like_none(owner: Person, person: People) -> None:
    stranger, nowhere = person(), new_id()
    tries = [
        [stranger.answer(make(book)) for make in (seat, fill, vehicle)] for book in (owner.book, nowhere)
    ]
    for answers in tries:
        for answer in answers:
            answer.pop("mut")
    assert tries[0][:2] == tries[1][:2]
    assert (tries[0][2]["outcome"], tries[1][2]["outcome"]) == ("wait", "applied")
    answer = stranger.sync(at={owner.book: 0})
    assert (owner.book in answer["gone"], owner.book in [one["book"] for one in answer["books"]]) == (
        False,
        False,
    )


def test_a_fitter_is_shown_people_without_names_and_places_roughly(owner: Person, person: People) -> None:
    ben, cleo = person(), person()
    owner.share(ben, "fitter")
    owner.share(cleo, "co_driver")
    place = {"name": "by the river", "latitude_deg": -12.34567, "longitude_deg": 130.98765}
    body = {"nature": "person", "mass_kg": 81.5, "mass_u_kg": 1, "as_typed": {"mass_kg": ["81.5", "kg"]}}
    someone = mutation(owner.book, "person", {"name": "Dora", "note": "private", "water_share": 1, **body})
    owner.sync(someone, weighing(owner.book, place=place), edit(someone, mass_kg=82, note="still private"))
    shown = {one["kind"]: one["body"] for one in ben.versions(owner.book)}
    assert shown["person"] == {"name": "", "nature": "person", "mass_kg": 82, "mass_u_kg": 1}
    assert shown["weighing"]["place"] == {
        "name": "by the river",
        "latitude_deg": -12.35,
        "longitude_deg": 130.99,
    }
    assert {one["kind"]: one["body"] for one in cleo.versions(owner.book)}["weighing"]["place"] == place


def test_the_service_opens_a_book_for_the_domain(app: Flask, owner: Person) -> None:
    from server.services.accounts import Account
    from server.services.records import opened_book

    made, log = seat(owner.book), fill(owner.book)
    changed = edit(made, name="changed")
    owner.sync(made, log, changed, edit(made, name="beside"), fill(owner.book, 39, corrects=log["id"]))
    with app.app_context():
        book = opened_book(book=owner.book, user=Account(owner.id, owner.name))
    assert book.vehicle is not None
    assert [(row.body["name"], row.rev, row.order) for row in book.seats] == [("changed", changed["mut"], 2)]
    assert [row.body["lines"][0]["litres_l"] for row in book.fills] == [39]
    assert {body["name"] for body in book.revisions.values()} == {"Blue wagon", "driver", "changed", "beside"}
    assert AT["zone"] == book.fills[0].body["zone"]
    edits = [(one.body["name"], one.author, one.at, one.day) for one in book.edits]
    at = ("2026-03-04T05:06:07Z", "2026-03-04")
    assert edits == [(name, owner.id, *at) for name in ("Blue wagon", "driver", "changed")]


def test_an_edit_has_the_day_where_it_was_made(app: Flask, owner: Person) -> None:
    from server.services.accounts import Account
    from server.services.records import opened_book

    owner.sync({**seat(owner.book), "made_at": "2026-03-04T15:06:07Z"})  # 00:36 there
    with app.app_context():
        book = opened_book(book=owner.book, user=Account(owner.id, owner.name))
    assert book.edits[-1].day == "2026-03-05"
