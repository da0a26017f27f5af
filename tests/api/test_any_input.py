"""Input that nobody thought of: no fault of ours, only described answers, and its neighbours are kept."""

from typing import Any

import pytest
import schemathesis
from factories import HEADERS, Person, fill, new_id, seat, vehicle, weighing
from flask import Flask
from hypothesis import HealthCheck, given, seed, settings
from hypothesis import strategies as st
from schemathesis.checks import not_a_server_error
from schemathesis.specs.openapi import checks

from server.api import RESOURCES

CHECKS = [
    not_a_server_error,
    checks.status_code_conformance,
    checks.content_type_conformance,
    checks.response_schema_conformance,
    checks.allow_header_conformance,
]
OPERATIONS = [
    *(("GET", "/api/health"), ("POST", "/api/accounts"), ("POST", "/api/session"), ("GET", "/api/session")),
    *(("DELETE", "/api/session"), ("POST", "/api/sync")),
    *(("GET", "/api/books/{book}/members"), ("POST", "/api/books/{book}/members")),
    *(("DELETE", "/api/books/{book}/members/{whom}"), ("GET", "/api/books/{book}/records")),
    ("GET", "/api/books/{book}/comparison"),
]
RELAXED = settings(
    max_examples=40,
    deadline=None,
    suppress_health_check=list(HealthCheck),
    database=None,
)


@pytest.mark.parametrize(("method", "path"), OPERATIONS)
def test_what_the_description_allows_and_what_it_does_not(app: Flask, method: str, path: str) -> None:
    owner = Person(app)
    owner.begin_book()
    cookie = owner.client.get_cookie("__Host-tareway")
    assert cookie is not None
    operation = schemathesis.openapi.from_wsgi("/api/openapi.json", app)[path][method]

    @RELAXED
    @seed(20_260_304)
    @given(case=operation.as_strategy())
    def ask(case: schemathesis.Case) -> None:
        if "book" in case.path_parameters:
            case.path_parameters["book"] = owner.book
        headers = {**HEADERS, "Accept-Encoding": "identity"}
        answer = case.call(headers=headers, cookies={"__Host-tareway": cookie.value})
        case.validate_response(answer, checks=CHECKS)

    ask()


def test_every_resource_takes_part(app: Flask) -> None:
    ours = {resource.routes.name for resource in RESOURCES}
    rules = [rule for rule in app.url_map.iter_rules() if rule.endpoint.split(".")[0] in ours]
    served = {
        (method, rule.rule.replace("<id:", "{").replace(">", "}"))
        for rule in rules
        for method in (rule.methods or set()) - {"HEAD", "OPTIONS"}
    }
    assert served == set(OPERATIONS)


SCALARS = (
    st.none()
    | st.booleans()
    | st.integers()
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(st.characters(codec=None))
    | st.sampled_from(
        [2**64, 1e308, -0.0, "NaN", "\x00", "\ud800", "1 kg", "m**9999999", "__proto__", "constructor"]
    )
)
ANYTHING = st.recursive(
    SCALARS,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3),
)


def paths(value: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """All places in a JSON value."""
    below: list[tuple[Any, ...]] = []
    if isinstance(value, dict | list):
        for key in value if isinstance(value, dict) else range(len(value)):
            below += paths(value[key], (*path, key))
    return [path, *below] if path else below


def put(value: Any, path: tuple[Any, ...], new: Any) -> None:
    for key in path[:-1]:
        value = value[key]
    value[path[-1]] = new


@st.composite
def spoiled(draw: st.DrawFn, book: str) -> Any:
    """A mutation with one or two places replaced by anything at all."""
    make = draw(st.sampled_from([seat, fill, weighing, vehicle]))
    made = make(book)
    made["body"]["as_typed"] = {"x_m": ["1.5", "m"]}
    for _ in range(draw(st.integers(1, 2))):
        put(made, draw(st.sampled_from(paths(made))), draw(ANYTHING))
    return made


def test_a_spoiled_mutation_stops_itself_alone(app: Flask) -> None:
    owner = Person(app)
    owner.begin_book()

    @settings(RELAXED, max_examples=200)
    @seed(20_260_304)
    @given(spoiled(owner.book))
    def send(one: Any) -> None:
        body = {"device": new_id(), "mutations": [seat(owner.book), one, fill(owner.book)], "books": []}
        answer = owner.ask("POST", "/api/sync", body)
        if answer.status_code == 400:
            assert answer.json["code"] == "too_deep"
            return
        outcomes = [given["outcome"] for given in answer.json["answers"]]
        assert (outcomes[0], outcomes[2]) == ("applied", "applied")
        assert answer.json["answers"][1].get("error", {}).get("code") != "server_fault"

    send()
