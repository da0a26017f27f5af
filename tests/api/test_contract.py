"""The description of the API: it covers every route and kind, and the browser's types come from it."""

import json
import os
import subprocess
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from factories import Person, fill, seat
from flask import Flask
from jsonschema_rs import Draft202012Validator

from server import build_web
from server.api import contract
from server.schemas.register import KINDS, PLAN_KINDS

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="module")
def document() -> dict[str, Any]:
    return dict(json.loads(contract.text()))


def test_every_route_is_described(document: dict[str, Any], app: Flask) -> None:
    described = {(method.upper(), path) for path, item in document["paths"].items() for method in item}
    served = {
        (method, rule.rule.replace("<id:", "{").replace(">", "}"))
        for rule in app.url_map.iter_rules()
        for method in (rule.methods or set()) - {"HEAD", "OPTIONS"}
        if rule.endpoint != "api-docs.openapi_json"
    }
    assert {one for one in described if one[1] != "parameters" and one[0] != "PARAMETERS"} == served


def test_every_kind_is_described(document: dict[str, Any]) -> None:
    schemas = document["components"]["schemas"]
    assert document["x-kinds"] == {kind: schema.__name__ for kind, schema in KINDS.items()}
    for kind, schema in KINDS.items():
        assert schemas[schema.__name__]["additionalProperties"] is False
        assert (f"{schema.__name__}Change" in schemas) == (kind in PLAN_KINDS)


def test_every_operation_says_how_it_fails(document: dict[str, Any]) -> None:
    for path, item in document["paths"].items():
        for method, operation in item.items():
            if method != "parameters":
                assert "default" in operation["responses"], (method, path)


def test_answers_are_as_described(document: dict[str, Any], owner: Person) -> None:
    answer = owner.sync(seat(owner.book), fill(owner.book), seat(owner.book, ""))
    schema = {"$ref": "#/components/schemas/SyncAnswer", "components": document["components"]}
    assert [str(error) for error in Draft202012Validator(schema).iter_errors(answer)] == []


def test_mutations_are_as_described(document: dict[str, Any], owner: Person) -> None:
    schema = {"$ref": "#/components/schemas/Mutation", "components": document["components"]}
    judge = Draft202012Validator(schema)
    assert judge.is_valid(fill(owner.book))
    assert not judge.is_valid({**fill(owner.book), "kind": "cloud"})
    assert not judge.is_valid(fill(owner.book, unheard_of=1))


def test_the_browser_s_types_are_of_today(node: Callable[..., str]) -> None:
    made = node(ROOT / "web" / "tools" / "contract.mjs", stdin=contract.text())
    assert made == (ROOT / "web" / "src" / "contract.ts").read_text(encoding="utf-8")


@pytest.fixture
def node() -> Callable[..., str]:
    """Runs a script with the Node that builds the web application."""
    folder, _ = build_web.system_node() or build_web.packaged_node()

    def run(script: Path, stdin: str) -> str:
        path = f"{folder}{os.pathsep}{os.environ['PATH']}"
        done = subprocess.run(
            ["node", str(script)],
            input=stdin,
            env={**os.environ, "PATH": path},
            capture_output=True,
            text=True,
            check=False,
        )
        assert done.returncode == 0, done.stderr
        return done.stdout

    return run
