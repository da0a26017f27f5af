"""Many at once: nothing lost, nothing twice, no reader passed by a number that was not there yet."""

import itertools
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from threading import Barrier, Event
from typing import Any

from factories import Person, edit, fill, seat
from flask import Flask

PHONES, ROUNDS = 6, 8
People = Callable[[], Person]


def phones(app: Flask, owner: Person, count: int) -> list[Person]:
    """Several phones of people who all own the book."""
    made = [Person(app) for _ in range(count)]
    for one in made:
        owner.share(one, "owner")
        one.book = owner.book
    return made


def until_answered(person: Person, *mutations: dict[str, Any]) -> list[str]:
    """A phone's patience: a server that is busy is asked again."""
    body = {"device": person.device, "mutations": list(mutations), "books": []}
    for _ in range(50):
        answer = person.ask("POST", "/api/sync", body)
        if answer.status_code != 503:
            return [one["outcome"] for one in answer.json["answers"]]
    raise AssertionError("busy for ever")


def test_writers_of_one_book_lose_nothing(app: Flask, owner: Person) -> None:
    made = seat(owner.book)
    owner.sync(made)

    def write(person: Person) -> list[str]:
        base, outcomes = made["mut"], []
        for number in range(ROUNDS):
            change = edit(made, base, x_m=number / 10)
            outcomes += until_answered(person, change, fill(owner.book))
            base = change["mut"]
        return outcomes

    with ThreadPoolExecutor(PHONES) as pool:
        outcomes = [one for part in pool.map(write, phones(app, owner, PHONES)) for one in part]
    assert len(outcomes) == 2 * PHONES * ROUNDS
    assert set(outcomes) == {"applied", "conflict"}
    versions = owner.versions(owner.book)
    assert len(versions) == 2 + len(outcomes)
    assert one_line_of_applied([one for one in versions if one["id"] == made["id"]])


def one_line_of_applied(versions: list[dict[str, Any]]) -> bool:
    """Each applied edit starts from the applied one before it: nobody's was overwritten unseen."""
    applied = [one for one in versions if one["standing"] == "applied"]
    return all(later["base_rev"] == earlier["rev"] for earlier, later in itertools.pairwise(applied))


def test_one_mutation_sent_twice_at_once_is_kept_once(app: Flask, owner: Person) -> None:
    for _ in range(10):
        together = Barrier(2)
        sent = fill(owner.book)

        def send(_: int, sent: dict[str, Any] = sent, together: Barrier = together) -> list[str]:
            other = Person.__new__(Person)
            other.__dict__.update({**owner.__dict__, "client": app.test_client()})
            cookie = owner.client.get_cookie("__Host-tareway")
            assert cookie is not None
            other.client.set_cookie("__Host-tareway", cookie.value)
            together.wait()
            return until_answered(other, sent)

        with ThreadPoolExecutor(2) as pool:
            assert sorted(one for part in pool.map(send, range(2)) for one in part) == [
                "applied",
                "duplicate",
            ]


def test_a_reader_is_never_passed_by(app: Flask, owner: Person) -> None:
    done = Event()
    writers = phones(app, owner, 4)

    def read() -> set[int]:
        seen: set[int] = set()
        reached, last_look = 0, False
        while not last_look:
            last_look = done.is_set()
            for news in owner.sync(at={owner.book: reached} if reached else None)["books"]:
                seen |= {one["seq"] for one in news["versions"]}
                reached = news["checkpoint"]
        return seen

    with ThreadPoolExecutor(5) as pool:
        reading = pool.submit(read)
        list(pool.map(lambda one: [until_answered(one, fill(owner.book)) for _ in range(12)], writers))
        done.set()
        seen = reading.result()
    assert seen == {one["seq"] for one in owner.versions(owner.book)}


def test_two_make_the_same_book_and_one_gets_it(app: Flask, person: People) -> None:
    from factories import new_id, vehicle

    for _ in range(5):
        pair, book, together = [person(), person()], new_id(), Barrier(2)

        def make(one: Person, book: str = book, together: Barrier = together) -> list[str]:
            together.wait()
            return until_answered(one, vehicle(book))

        with ThreadPoolExecutor(2) as pool:
            outcomes = [one for part in pool.map(make, pair) for one in part]
        assert sorted(outcomes) == ["applied", "wait"]


def test_two_owners_who_take_each_other_out_leave_one(app: Flask, owner: Person, person: People) -> None:
    for _ in range(5):
        ben = person()
        owner.begin_book()
        owner.share(ben, "owner")
        together = Barrier(2)

        def leave(one: Person, together: Barrier = together) -> int:
            together.wait()
            return one.ask("DELETE", f"/api/books/{owner.book}/members/{one.id}").status_code

        with ThreadPoolExecutor(2) as pool:
            assert sorted(pool.map(leave, [owner, ben])) == [204, 409]
