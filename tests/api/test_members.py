"""Sharing a book: owners give and take roles, and one owner always stays."""

from collections.abc import Callable

import pytest
from factories import Person

People = Callable[[], Person]


def members(person: Person, book: str) -> dict[str, str]:
    answer = person.ask("GET", f"/api/books/{book}/members")
    return {one["name"]: one["role"] for one in answer.json["members"]}


def give(owner: Person, name: str, role: str):  # type: ignore[no-untyped-def]
    return owner.ask("POST", f"/api/books/{owner.book}/members", {"name": name, "role": role})


def take(owner: Person, whom: Person, book: str):  # type: ignore[no-untyped-def]
    return owner.ask("DELETE", f"/api/books/{book}/members/{whom.id}")


@pytest.mark.parametrize("role", ["owner", "co_driver", "fitter"])
def test_an_owner_shares_by_sign_in_name(owner: Person, person: People, role: str) -> None:
    ben = person()
    answer = give(owner, f" {ben.name.upper()} ", role)
    assert {one["user"]: one["role"] for one in answer.json["members"]} == {owner.id: "owner", ben.id: role}
    assert members(ben, owner.book) == {owner.name: "owner", ben.name: role}


def test_a_role_changes(owner: Person, person: People) -> None:
    ben = person()
    owner.share(ben, "fitter")
    owner.share(ben, "co_driver")
    assert members(owner, owner.book)[ben.name] == "co_driver"


def test_the_same_role_again_is_no_news(owner: Person, person: People) -> None:
    ben = person()
    owner.share(ben, "fitter")
    before = owner.sync()["books"][0]["checkpoint"]
    owner.share(ben, "fitter")
    assert owner.sync()["books"][0]["checkpoint"] == before


def test_nobody_of_this_name(owner: Person) -> None:
    answer = give(owner, "nobody of this name", "fitter")
    assert (answer.status_code, answer.json["fields"]) == (422, {"name": ["Nobody signs in with this name."]})


def test_an_unknown_role(owner: Person, person: People) -> None:
    answer = give(owner, person().name, "king")
    assert answer.json["fields"] == {"role": ["king is not one of owner, co_driver, fitter."]}


def test_the_last_owner_stays(owner: Person, person: People) -> None:
    ben = person()
    assert take(owner, owner, owner.book).json["code"] == "last_owner"
    assert give(owner, owner.name, "fitter").json["code"] == "last_owner"
    owner.share(ben, "owner")
    assert take(owner, owner, owner.book).status_code == 204
    assert members(ben, owner.book) == {ben.name: "owner"}


def test_anybody_may_leave(owner: Person, person: People) -> None:
    ben = person()
    owner.share(ben, "co_driver")
    assert take(ben, ben, owner.book).status_code == 204
    assert members(owner, owner.book) == {owner.name: "owner"}


def test_who_does_not_share_cannot_be_taken_out(owner: Person, person: People) -> None:
    assert take(owner, person(), owner.book).json["code"] == "no_such_member"
