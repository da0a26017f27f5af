"""Records as they stand, page by page."""

from collections.abc import Callable
from typing import Any

from factories import Person, edit, fill, mutation, seat

from server.schemas.record import Records


def page(person: Person, book: str, **query: Any) -> dict[str, Any]:
    answer = person.ask("GET", f"/api/books/{book}/records", query_string=query)
    assert answer.status_code == 200, answer.json
    assert Records().validate(answer.json) == {}
    return dict(answer.json)


def test_a_record_stands_as_its_last_applied_edit_left_it(owner: Person) -> None:
    made = seat(owner.book)
    changed = edit(made, x_m=1.5)
    owner.sync(made, changed, edit(made, name="beside"))
    (kept,) = page(owner, owner.book, kind="seat")["records"]
    assert kept == {
        "id": made["id"],
        "kind": "seat",
        "rev": changed["mut"],
        "seq": 3,
        "body": {"name": "driver", "x_m": 1.5},
    }


def test_pages_follow_each_other_to_the_end(owner: Person) -> None:
    owner.sync(*(seat(owner.book, f"seat {number}") for number in range(6)), fill(owner.book))
    ids, query = [], {"limit": 3}
    while True:
        answer = page(owner, owner.book, **query)
        ids += [one["id"] for one in answer["records"]]
        if answer["next"] is None:
            break
        query["after"] = answer["next"]
    assert len(ids) == len(set(ids)) == 8
    assert ids == sorted(ids)


def test_a_page_has_an_agreed_size(owner: Person) -> None:
    for limit in (0, 1_001, "x"):
        answer = owner.ask("GET", f"/api/books/{owner.book}/records", query_string={"limit": limit})
        assert (answer.status_code, list(answer.json["fields"])) == (422, ["limit"])


def test_a_fitter_is_shown_no_names(owner: Person, person: Callable[[], Person]) -> None:
    ben = person()
    owner.share(ben, "fitter")
    owner.sync(mutation(owner.book, "person", {"name": "Dora", "nature": "person"}))
    (kept,) = page(ben, owner.book, kind="person")["records"]
    assert kept["body"]["name"] == ""
