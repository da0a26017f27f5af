"""Whatever a developer can meet is described: words, settings, routes, error codes, record kinds."""

import re
from collections.abc import Iterable
from pathlib import Path

from docs.codes import error_codes
from docs.pages import DEVELOPERS, ROOT, described, section
from flask import Flask

from server.schemas.register import KINDS

SETTING = re.compile(r"\bTAREWAY_[A-Z][A-Z_]*\b")
CODE = (".py", ".ts", ".tsx")


def sources(*folders: str) -> Iterable[Path]:
    """Written code below some folders."""
    for folder in folders:
        for path in (ROOT / folder).rglob("*"):
            if path.suffix in CODE and not {"node_modules", "static"} & set(path.parts):
                yield path


def missing(names: Iterable[str]) -> list[str]:
    """Names that no page holds between backticks, alone or as part of a longer piece of code."""
    pieces = re.findall(r"```.*?```|`[^`\n]+`", described(), re.DOTALL)
    known = set(re.findall(r"[\w/<>.:-]+", "\n".join(pieces)))
    return sorted(name for name in names if name not in known)


def test_every_record_kind_is_described() -> None:
    assert missing(KINDS) == []


def test_every_setting_is_described_and_none_else() -> None:
    used = {
        name for path in sources("server", "web/src", "tests") for name in SETTING.findall(path.read_text())
    }
    assert missing(used) == []
    assert set(SETTING.findall(described())) <= used


def test_every_error_code_is_described() -> None:
    assert missing(error_codes()) == []


def test_every_route_is_described_with_its_methods(app: Flask) -> None:
    table = section(DEVELOPERS, "Routes")
    written = {tuple(found) for found in re.findall(r"^\| `([A-Z]+) (/[^`]*)`", table, re.MULTILINE)}
    served = {
        (method, re.sub(r"<(?:\w+:)?(\w+)>", r"<\1>", rule.rule))
        for rule in app.url_map.iter_rules()
        for method in (rule.methods or set()) - {"HEAD", "OPTIONS"}
        if rule.rule.startswith("/api")
    }
    assert written == served


def test_every_name_of_the_glossary_is_in_the_code() -> None:
    names = re.findall(r"^\| `(\w+)`", section(DEVELOPERS, "Words and units"), re.MULTILINE)
    assert len(names) >= 20
    python = "\n".join(path.read_text() for path in sources("server"))
    typescript = "\n".join(path.read_text() for path in sources("web/src"))
    gone = [name for name in names if not re.search(rf"\b{name}\b", python)]
    gone += [f"{name} (TypeScript)" for name in names if not re.search(rf"\b{name}\b", typescript)]
    assert gone == []


def test_every_folder_of_the_map_is_there() -> None:
    named = re.findall(r"`((?:server|web|service_worker|tests)/[\w./]*)`", described())
    assert named
    gone = {name for name in named if not (ROOT / name).exists()}
    assert gone <= {"server/static/"}  # built, not written
