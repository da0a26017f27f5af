"""The built web application: its files, its first page, and what is said when it is not built."""

import gzip
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from flask import Flask
from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from server.api.headers import SECURITY_HEADERS
from server.config import Settings

PAGE = b"<!doctype html><title>Tareway</title>"
SCRIPT = b"export const answer = 42; // " + b"x" * 2_000


@pytest.fixture
def site(start: Callable[[Settings], Flask], settings: Settings) -> FlaskClient:
    folder = settings.static
    for name, content in {
        "index.html": PAGE,
        "sw.js": b"// worker",
        "assets/app-1a2b3c.js": SCRIPT,
        "assets/app-1a2b3c.js.gz": gzip.compress(SCRIPT),
    }.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
    return start(replace(settings, static=folder)).test_client()


def get(client: FlaskClient, path: str, **headers: str) -> TestResponse:
    return client.get(path, headers=headers, buffered=True)


@pytest.mark.parametrize(
    "path", ["/", "/index.html", "/weigh", "/b/0199/weigh", "/apiary", "/a/../b", "/%2e%2e/x"]
)
def test_the_application_s_own_addresses_open_its_first_page(site: FlaskClient, path: str) -> None:
    answer = get(site, path)
    assert (answer.status_code, answer.data, answer.mimetype) == (200, PAGE, "text/html")
    assert answer.headers["Cache-Control"] == "no-cache"


def test_files_with_a_hash_in_their_name_are_kept_for_good(site: FlaskClient) -> None:
    answer = get(site, "/assets/app-1a2b3c.js", **{"Accept-Encoding": "gzip"})
    assert answer.headers["Cache-Control"] == "public, max-age=31536000, immutable"
    assert (answer.headers["Content-Encoding"], answer.headers["Vary"]) == ("gzip", "Accept-Encoding")
    assert gzip.decompress(answer.data) == SCRIPT


def test_the_service_worker_is_asked_for_each_time(site: FlaskClient) -> None:
    answer = get(site, "/sw.js")
    assert (answer.status_code, answer.headers["Cache-Control"]) == (200, "no-cache")
    assert answer.mimetype == "text/javascript"


def test_a_file_of_an_older_build_is_not_a_page(site: FlaskClient) -> None:
    answer = get(site, "/assets/app-000000.js")
    assert (answer.status_code, answer.json["code"]) == (404, "not_found")


@pytest.mark.parametrize(
    "path", ["/", "/sw.js", "/assets/app-1a2b3c.js", "/assets/none.js", "/api/health", "/api/no"]
)
def test_every_answer_has_the_headers(site: FlaskClient, path: str) -> None:
    headers = get(site, path).headers
    assert {name: headers.get(name) for name in SECURITY_HEADERS} == SECURITY_HEADERS
    assert "Access-Control-Allow-Origin" not in headers


def test_only_get_and_head_open_the_page(site: FlaskClient) -> None:
    assert site.head("/weigh", buffered=True).status_code == 200
    assert site.post("/weigh").status_code == 404


def test_not_built_is_said_in_a_sentence(client: FlaskClient) -> None:
    answer = client.get("/weigh")
    assert answer.status_code == 503
    assert "python -m server.build_web" in answer.text
    assert answer.headers["Content-Security-Policy"] == SECURITY_HEADERS["Content-Security-Policy"]
    assert client.get("/api/health").status_code == 200


def test_nothing_outside_the_folder_is_handed_out(site: FlaskClient, settings: Settings) -> None:
    (settings.static.parent / "secret.txt").write_text("secret")
    (Path(settings.static) / "..hidden").write_text("seen")
    for path in (
        "/../secret.txt",
        "/%2e%2e/secret.txt",
        "/assets/../../secret.txt",
        "/assets/..%2f..%2fsecret.txt",
    ):
        assert b"secret" not in get(site, path).data
