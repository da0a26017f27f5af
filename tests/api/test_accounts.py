"""Sign up, sign in, who am I, sign out."""

import hashlib
from collections.abc import Callable
from dataclasses import replace

import pytest
from argon2 import PasswordHasher, extract_parameters
from factories import HEADERS, PASSWORD, Clock, Person
from flask import Flask
from flask.testing import FlaskClient
from sqlalchemy import select, update

from server.config import Rates, Settings
from server.services.passwords import Passwords
from server.store.engine import reading, writing
from server.store.models import session as sessions
from server.store.models import user as users

COOKIE = "__Host-tareway"
Start = Callable[[Settings], Flask]


def enter(client: FlaskClient, path: str, name: str, password: str = PASSWORD):  # type: ignore[no-untyped-def]
    return client.post(path, json={"name": name, "password": password}, headers=HEADERS)


def test_the_cookie_is_for_this_host_and_no_script(app: Flask) -> None:
    answer = enter(app.test_client(), "/api/accounts", "Cookie reader")
    cookie = answer.headers["Set-Cookie"]
    parts = {part.split("=")[0].strip() for part in cookie.split(";")}
    assert cookie.startswith(f"{COOKIE}=")
    assert parts == {COOKIE, "Expires", "Max-Age", "Secure", "HttpOnly", "Path", "SameSite"}
    assert "Path=/;" in cookie
    assert "SameSite=Lax" in cookie
    assert f"Max-Age={365 * 86_400}" in cookie


def test_only_hashes_are_stored(app: Flask) -> None:
    client = app.test_client()
    enter(client, "/api/accounts", "Hashed")
    cookie = client.get_cookie(COOKIE)
    assert cookie is not None
    with app.app_context(), reading() as session:
        user = session.execute(select(users).where(users.c.name == "Hashed")).one()
        row = session.execute(select(sessions).where(sessions.c.user_id == user.id)).one()
        assert user.password_hash.startswith("$argon2id$v=19$m=19456,t=2,p=1$")
        assert row.token_hash == hashlib.sha256(cookie.value.encode()).hexdigest()
    assert len(cookie.value) >= 43  # 256 bits


def test_signing_in_makes_a_new_token_and_ends_the_old_one(app: Flask, person: Callable[[], Person]) -> None:
    ada = person()
    before = ada.client.get_cookie(COOKIE)
    assert before is not None
    assert enter(ada.client, "/api/session", ada.name).status_code == 201
    after = ada.client.get_cookie(COOKIE)
    assert after is not None
    assert after.value != before.value
    ada.client.set_cookie(COOKIE, before.value)
    assert ada.ask("GET", "/api/session").status_code == 401


def test_a_token_from_elsewhere_is_not_taken_over(app: Flask, person: Callable[[], Person]) -> None:
    ada, client = person(), app.test_client()
    client.set_cookie(COOKIE, "chosen-by-an-attacker")
    enter(client, "/api/session", ada.name)
    cookie = client.get_cookie(COOKIE)
    assert cookie is not None
    assert cookie.value != "chosen-by-an-attacker"


def test_signing_out_ends_the_session_at_the_server(person: Callable[[], Person]) -> None:
    ada = person()
    kept = ada.client.get_cookie(COOKIE)
    assert kept is not None
    assert ada.ask("DELETE", "/api/session").status_code == 204
    assert ada.client.get_cookie(COOKIE) is None
    ada.client.set_cookie(COOKIE, kept.value)
    assert ada.ask("GET", "/api/session").status_code == 401


def test_names_are_alike_without_regard_to_case_and_composition(app: Flask) -> None:
    client = app.test_client()
    assert enter(client, "/api/accounts", "  Zo\u00eb   Ash ").json["user"]["name"] == "Zo\u00eb Ash"
    assert enter(client, "/api/session", "zoe\u0308 ASH").status_code == 201
    taken = enter(client, "/api/accounts", "ZOE\u0308 ash")
    assert (taken.status_code, list(taken.json["fields"])) == (422, ["name"])


@pytest.mark.parametrize(
    ("name", "password", "fields"),
    [
        ("Short", "seven77", ["password"]),
        ("Long", "x1" * 65, ["password"]),
        ("Common", "Password123", ["password"]),
        ("Same letter", "zzzzzzzzzz", ["password"]),
        ("Own name is it", "own name IS it", ["password"]),
        ("Broken", "half \ud83d pair", ["password"]),
        ("   ", PASSWORD, ["name"]),
        ("x" * 61, PASSWORD, ["name"]),
        ("line\x00end", PASSWORD, ["name"]),
        ("half \ud83d pair", PASSWORD, ["name"]),
        ("\U0001d160" * 60, PASSWORD, ["name"]),
        ("   ", "short", ["name", "password"]),
    ],
)
def test_what_cannot_be_an_account(app: Flask, name: str, password: str, fields: list[str]) -> None:
    answer = enter(app.test_client(), "/api/accounts", name, password)
    assert (answer.status_code, answer.json["code"], sorted(answer.json["fields"])) == (
        422,
        "invalid",
        fields,
    )


@pytest.mark.parametrize("password", ["       8", "äöüß€漢字🜁", "x1" * 64, "a\tb\nc d'\";--"])
def test_any_letters_make_a_password(app: Flask, password: str) -> None:
    name = hashlib.sha256(password.encode()).hexdigest()[:20]
    assert enter(app.test_client(), "/api/accounts", name, password).status_code == 201
    assert enter(app.test_client(), "/api/session", name, password).status_code == 201
    assert enter(app.test_client(), "/api/session", name, password + "x").status_code == 401


def test_an_unknown_name_and_a_wrong_password_get_one_answer(
    app: Flask, person: Callable[[], Person]
) -> None:
    ada = person()
    wrong = enter(app.test_client(), "/api/session", ada.name, "not the password")
    unknown = enter(app.test_client(), "/api/session", "nobody of this name", "not the password")
    assert (wrong.status_code, wrong.data, unknown.status_code) == (401, unknown.data, 401)
    assert wrong.json["code"] == "wrong_name_or_password"


def test_they_also_take_as_long(monkeypatch: pytest.MonkeyPatch) -> None:
    tried = []
    verify = PasswordHasher.verify

    def counted(self: PasswordHasher, hashed: str, password: str) -> bool:
        tried.append(extract_parameters(hashed))
        return verify(self, hashed, password)

    monkeypatch.setattr(PasswordHasher, "verify", counted)
    passwords = Passwords()
    assert not passwords.verify(passwords.hash(PASSWORD), "not the password")
    assert not passwords.verify(None, "not the password")
    known, unknown = tried
    assert known == unknown, "one hash each, of the same cost"


def test_a_hash_of_weaker_parameters_is_renewed(app: Flask, person: Callable[[], Person]) -> None:
    ada = person()
    weak = Passwords(time_cost=1, memory_kib=8_192).hash(PASSWORD)
    with app.app_context(), writing() as session:
        session.execute(update(users).where(users.c.id == ada.id).values(password_hash=weak))
    assert enter(ada.client, "/api/session", ada.name).status_code == 201
    with app.app_context(), reading() as session:
        stored = session.scalars(select(users.c.password_hash).where(users.c.id == ada.id)).one()
    assert "m=19456,t=2,p=1" in stored


def test_a_session_lives_90_days_unused_and_365_at_all(person: Callable[[], Person], clock: Clock) -> None:
    ada = person()
    for _ in range(4):
        clock.move(days=89)
        assert ada.ask("GET", "/api/session").status_code == 200
    clock.move(days=9)
    assert ada.ask("GET", "/api/session").status_code == 401


def test_a_session_that_is_not_used_ends(person: Callable[[], Person], clock: Clock) -> None:
    ada = person()
    clock.move(days=90)
    assert ada.ask("GET", "/api/session").status_code == 401
    assert enter(ada.client, "/api/session", ada.name).json["ends_at"] == "2027-06-02T05:06:07.000Z"


def test_the_eleventh_try_in_a_minute_waits(start: Start, settings: Settings, clock: Clock) -> None:
    client = start(replace(settings, rates=Rates())).test_client()
    enter(client, "/api/accounts", name := "Tried often")
    tries = [enter(client, "/api/session", name, "wrong password").status_code for _ in range(10)]
    refused = enter(client, "/api/session", name.upper())
    assert (set(tries), refused.status_code, refused.headers["Retry-After"]) == ({401}, 429, "60")
    assert refused.json["code"] == "too_often"
    clock.move(seconds=60)
    assert enter(client, "/api/session", name).status_code == 201


def test_an_address_has_30_tries_however_it_calls_itself(start: Start, settings: Settings) -> None:
    client = start(replace(settings, rates=Rates())).test_client()
    answers = [
        client.post(
            "/api/session",
            json={"name": f"guess {number}", "password": "wrong password"},
            headers={**HEADERS, "X-Forwarded-For": f"192.0.2.{number}"},
        ).status_code
        for number in range(31)
    ]
    assert answers == [401] * 30 + [429]


def test_behind_a_named_number_of_proxies_their_address_counts(start: Start, settings: Settings) -> None:
    client = start(replace(settings, rates=Rates(sign_in_per_address=1), proxy_hops=1)).test_client()

    def attempt(forwarded: str) -> int:
        body = {"name": "nobody", "password": "wrong password"}
        headers = {**HEADERS, "X-Forwarded-For": forwarded}
        return client.post("/api/session", json=body, headers=headers).status_code

    assert [attempt("192.0.2.1"), attempt("192.0.2.2")] == [401, 401]
    assert attempt("192.0.2.9, 192.0.2.2") == 429  # what stands before the proxy's own word is anybody's
