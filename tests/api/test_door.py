"""What a request must be before any route sees it."""

import gzip
import json
from collections.abc import Callable, Iterator
from dataclasses import replace

import pytest
from factories import HEADERS, Person, fill, new_id, seat
from flask import Flask
from flask.testing import FlaskClient

from server.api import bodies
from server.config import Settings

EMPTY = {"device": new_id(), "mutations": [], "books": []}
JSON = {"Content-Type": "application/json"}
CHANGING = [
    ("POST", "/api/accounts"),
    ("POST", "/api/session"),
    ("DELETE", "/api/session"),
    ("POST", "/api/sync"),
]


def send(person: Person, raw: bytes) -> tuple[int, dict[str, object]]:
    answer = person.client.post("/api/sync", data=raw, headers={**HEADERS, **JSON})
    return answer.status_code, dict(answer.json or {})


def raw_of(mutation: dict[str, object]) -> str:
    return json.dumps({"device": new_id(), "mutations": [mutation], "books": []})


@pytest.mark.parametrize(("method", "path"), CHANGING)
@pytest.mark.parametrize(
    "headers",
    [
        {},
        {"X-Tareway": "2"},
        {**HEADERS, "Origin": "https://elsewhere.example"},
        {**HEADERS, "Origin": "null"},
        {**HEADERS, "Sec-Fetch-Site": "cross-site"},
        {**HEADERS, "Sec-Fetch-Site": "same-site"},
    ],
)
def test_another_site_s_page_changes_nothing(
    owner: Person, method: str, path: str, headers: dict[str, str]
) -> None:
    answer = owner.client.open(path, method=method, json=EMPTY, headers=headers)
    assert (answer.status_code, answer.json["code"]) == (403, "foreign_request")


def test_our_own_pages_may(owner: Person) -> None:
    headers = {**HEADERS, "Origin": "http://localhost", "Sec-Fetch-Site": "same-origin"}
    assert owner.client.post("/api/sync", json=EMPTY, headers=headers).status_code == 200


@pytest.mark.parametrize(
    "type_", ["text/plain", "application/x-www-form-urlencoded", "multipart/form-data", ""]
)
def test_only_json_comes_in(owner: Person, type_: str) -> None:
    answer = owner.client.post("/api/sync", data=json.dumps(EMPTY), headers=HEADERS, content_type=type_)
    assert (answer.status_code, answer.json["code"]) == (415, "not_json_type")


def test_compressed_bodies_are_refused(owner: Person) -> None:
    bomb = gzip.compress(b"[" * 50_000_000)
    headers = {**HEADERS, **JSON, "Content-Encoding": "gzip"}
    answer = owner.client.post("/api/sync", data=bomb, headers=headers)
    assert answer.status_code == 415


def test_a_body_has_at_most_a_megabyte(owner: Person) -> None:
    assert send(owner, b" " * 999_000 + b"{}")[0] == 422
    assert send(owner, b" " * 1_000_001)[0] == 413


def test_a_batch_has_at_most_500(owner: Person) -> None:
    status, answer = send(owner, json.dumps({**EMPTY, "mutations": [0] * 501}).encode())
    assert (status, answer["fields"]) == (422, {"mutations": ["Longer than maximum length 500."]})


@pytest.mark.parametrize(
    "raw",
    [
        b"",
        b"{",
        b"\xff",
        b'{"a": NaN}',
        b'{"a": -Infinity}',
        b"[" * 100_000,
        b"nul",
        b"'a'",
        b"\xef\xbb\xbf{}",
    ],
)
def test_what_is_not_json(owner: Person, raw: bytes) -> None:
    assert send(owner, raw)[1]["code"] == "not_json"


def test_nesting_has_an_end(owner: Person) -> None:
    assert send(owner, b"[" * 10 + b"]" * 10)[0] == 422
    assert send(owner, b"[" * 11 + b"]" * 11)[1]["code"] == "too_deep"


@pytest.mark.parametrize("number", ["1e400", "-1e400", "9" * 400, "9" * 5_000, "1" * 16 + "e0"])
def test_numbers_out_of_this_world_stop_only_their_entry(owner: Person, number: str) -> None:
    raw = raw_of(fill(owner.book)).replace("40.5", number)
    status, answer = send(owner, raw.encode())
    assert (status, answer["answers"][0]["outcome"]) == (200, "rejected")  # type: ignore[index]


def test_minus_nothing_is_nothing(owner: Person) -> None:
    assert send(owner, raw_of(seat(owner.book, x_m=-0.0)).encode())[0] == 200
    assert str(owner.versions(owner.book)[-1]["body"]["x_m"]) == "0.0"


def test_half_a_letter_stops_only_its_entry(owner: Person) -> None:
    status, answer = send(owner, raw_of(seat(owner.book, "half \ud83d pair")).encode())
    assert (status, answer["answers"][0]["outcome"]) == (200, "rejected")  # type: ignore[index]


@pytest.mark.parametrize(
    "host", ["elsewhere.example", "127.0.0.1.elsewhere.example", "localhost@x", "[::2]:80"]
)
def test_only_its_own_host_names_are_answered(client: FlaskClient, host: str) -> None:
    answer = client.get("/api/health", headers={"Host": host})
    assert answer.status_code == 400


@pytest.mark.parametrize("host", ["localhost", "127.0.0.1:8000", "[::1]:8000", "LOCALHOST:80"])
def test_the_loopback_is_its_own(client: FlaskClient, host: str) -> None:
    assert client.get("/api/health", headers={"Host": host}).status_code == 200


def test_other_host_names_are_set(start: Callable[[Settings], Flask], settings: Settings) -> None:
    client = start(replace(settings, hosts=("book.example",))).test_client()
    answers = [client.get("/api/health", headers={"Host": host}) for host in ("book.example", "localhost")]
    assert [one.status_code for one in answers] == [200, 400]


def test_get_changes_nothing(app: Flask) -> None:
    changing = {"GET", "HEAD", "OPTIONS"}
    views = {rule.endpoint for rule in app.url_map.iter_rules() if rule.methods and rule.methods <= changing}
    assert views == {
        "api-docs.openapi_json",
        "health.health",
        "session.who",
        "members.list_members",
        "records.list_records",
        "comparison.compare_weighing",
    }


def test_long_answers_are_compressed(owner: Person) -> None:
    owner.sync(*(seat(owner.book, f"seat {number}") for number in range(30)))
    asked = {"json": EMPTY, "headers": {**HEADERS, "Accept-Encoding": "br, gzip;q=0.5"}}
    answer = owner.client.post("/api/sync", **asked)  # type: ignore[arg-type]
    assert answer.headers["Content-Encoding"] == "gzip"
    assert len(json.loads(gzip.decompress(answer.data))["books"][0]["versions"]) == 31
    assert len(answer.data) < 0.4 * len(owner.client.post("/api/sync", json=EMPTY, headers=HEADERS).data)


def nested(levels: int) -> object:
    value: object = 1
    for level in range(levels):
        value = [value] if level % 2 else {"a": value}
    return value


@pytest.mark.parametrize("levels", range(8, 13))
def test_levels_are_counted_through_lists_and_objects(levels: int) -> None:
    raw = json.dumps(nested(levels)).encode()
    if levels <= bodies.DEEPEST:
        assert bodies.strict_json(raw) == nested(levels)
    else:
        with pytest.raises(bodies.RefusedError, match="nested"):
            bodies.strict_json(raw)


def test_requests_have_a_limit_for_each_user(
    start: Callable[[Settings], Flask], settings: Settings, clock: Callable[[], object]
) -> None:
    rates = replace(settings.rates, requests_per_user=3)
    ada = Person(start(replace(settings, rates=rates)))
    assert list(statuses(ada, 4)) == [200, 200, 200, 429]


def statuses(person: Person, times: int) -> Iterator[int]:
    for _ in range(times):
        yield person.ask("GET", "/api/session").status_code
