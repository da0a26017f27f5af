"""One body for every failure, and the same headers on every answer."""

from collections.abc import Callable

import pytest
from factories import HEADERS, Person, new_id
from flask import Flask
from flask.testing import FlaskClient
from sqlalchemy.exc import OperationalError

from server.api.headers import SECURITY_HEADERS
from server.schemas.error import ErrorBody
from server.services import pull, push
from server.services.errors import BusyError

METHODS = ("GET", "POST", "PUT", "PATCH", "DELETE", "TRACE")


def paths(app: Flask) -> list[str]:
    rules = [rule.rule for rule in app.url_map.iter_rules()]
    return [rule.replace("<id:book>", new_id()).replace("<id:whom>", new_id()) for rule in rules]


def test_all_routes_fail_in_one_form(app: Flask, owner: Person) -> None:
    failures = set()
    for path in [*paths(app), "/api/nothing/here", "/api/books/no-id/members", "/api"]:
        for method in METHODS:
            for client in (owner.client, app.test_client()):
                for raw in (b"", b"{", b'{"x": 1}'):
                    answer = client.open(
                        path, method=method, data=raw, headers=HEADERS, content_type="application/json"
                    )
                    if answer.status_code >= 400:
                        assert ErrorBody().validate(answer.json) == {}, (method, path)
                        assert answer.json["status"] == answer.status_code
                        failures.add(answer.status_code)
    assert failures == {400, 401, 404, 405, 422}


def test_every_answer_has_the_headers(app: Flask, owner: Person) -> None:
    answers = [client.get(path) for path in paths(app) for client in (owner.client, app.test_client())]
    answers += [
        owner.client.post("/api/sync"),
        owner.client.put("/api/session"),
        owner.client.get("/api/nope"),
    ]
    answers += [owner.client.get("/api/health", headers={"Host": "elsewhere.example"})]
    for answer in answers:
        assert {name: answer.headers.get(name) for name in SECURITY_HEADERS} == SECURITY_HEADERS
        assert answer.headers["Cache-Control"] == "no-store"
        assert not [name for name, _ in answer.headers if name.startswith("Access-Control")]


def test_a_wrong_method_says_the_right_ones(client: FlaskClient) -> None:
    answer = client.patch("/api/session")
    assert (answer.status_code, answer.headers["Allow"]) == (405, "DELETE, GET, HEAD, OPTIONS, POST")


def test_a_fault_of_ours_tells_nothing_of_the_inside(owner: Person, monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(*_: object, **__: object) -> None:
        raise ValueError("an inner secret")

    monkeypatch.setattr(pull.books, "books_of", fail)
    answer = owner.ask("GET", "/api/session")
    assert answer.status_code == 200
    answer = owner.ask("POST", "/api/sync", {"device": new_id(), "mutations": [], "books": []})
    assert (answer.status_code, answer.json["code"]) == (500, "server_fault")
    assert b"secret" not in answer.data


def test_a_fault_in_one_mutation_stops_only_that_one(owner: Person, monkeypatch: pytest.MonkeyPatch) -> None:
    from factories import fill, seat

    real = push.receive

    def fail_on_fills(**known):  # type: ignore[no-untyped-def]
        if known["mutation"].kind == "fill":
            raise ValueError("a fault of ours")
        return real(**known)

    monkeypatch.setattr(push, "receive", fail_on_fills)
    answers = owner.sync(seat(owner.book), fill(owner.book), seat(owner.book))["answers"]
    assert [one["outcome"] for one in answers] == ["applied", "wait", "applied"]
    assert answers[1]["error"]["code"] == "server_fault"


TROUBLES: list[tuple[Exception, int, str]] = [
    (OperationalError("x", {}, Exception("database is locked")), 503, "busy"),
    (OperationalError("x", {}, Exception("database or disk is full")), 507, "storage_full"),
    (BusyError("busy", "Too many."), 503, "busy"),
]


@pytest.mark.parametrize(("trouble", "status", "code"), TROUBLES)
def test_trouble_with_the_database_asks_to_come_back(
    owner: Person, monkeypatch: pytest.MonkeyPatch, trouble: Exception, status: int, code: str
) -> None:
    def fail(*_: object, **__: object) -> Callable[[], None]:
        raise trouble

    monkeypatch.setattr(pull.books, "books_of", fail)
    answer = owner.ask("POST", "/api/sync", {"device": new_id(), "mutations": [], "books": []})
    assert (answer.status_code, answer.json["code"], answer.headers["Retry-After"]) == (status, code, "2")
