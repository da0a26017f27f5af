"""People with phones, and what they enter."""

import secrets
import time
from collections.abc import Mapping
from datetime import UTC, datetime, timedelta
from typing import Any
from uuid import UUID, uuid4

from flask import Flask
from werkzeug.test import TestResponse

HEADERS = {"X-Tareway": "1"}
PASSWORD = "seven tents by the river"
AT = {"at": "2026-03-04T05:06:07Z", "zone": "Australia/Darwin"}


def new_id() -> str:
    """An id as devices make them, UUIDv7: they rise with time, which is what a database's indexes meet."""
    bits = (time.time_ns() // 1_000_000) << 80 | secrets.randbits(80)
    return str(UUID(int=bits & ~(0xF << 76 | 0b11 << 62) | 7 << 76 | 0b10 << 62))


def mutation(book: str, kind: str, body: Mapping[str, Any], **other: Any) -> dict[str, Any]:
    """A mutation that makes a record, unless told otherwise."""
    return {
        "mut": new_id(),
        "book": book,
        "kind": kind,
        "id": new_id(),
        "base_rev": None,
        "body": dict(body),
        "made_at": "2026-03-04T05:06:07Z",
        "utc_offset_min": 570,
        "device_seq": 1,
        "schema": 1,
        **other,
    }


def vehicle(book: str, **body: Any) -> dict[str, Any]:
    """The mutation that makes a book."""
    return mutation(book, "vehicle", {"name": "Blue wagon", **body}, id=book)


def seat(book: str, name: str = "driver", **body: Any) -> dict[str, Any]:
    return mutation(book, "seat", {"name": name, **body})


def edit(of: Mapping[str, Any], base_rev: str | None = None, **body: Any) -> dict[str, Any]:
    """An edit of the record that a mutation made, from that mutation or a later revision on."""
    return mutation(of["book"], of["kind"], body, id=of["id"], base_rev=base_rev or of["mut"])


def fill(book: str, litres_l: float = 40.5, **body: Any) -> dict[str, Any]:
    line = {"tank_id": new_id(), "litres_l": litres_l, "full": True}
    return mutation(book, "fill", {**AT, "lines": [line], **body})


def weighing(book: str, value_kg: float = 2_310, **body: Any) -> dict[str, Any]:
    reading = {"id": new_id(), "on_deck": ["front", "rear"], "value_kg": value_kg}
    return mutation(
        book, "weighing", {**AT, "bridge": {"form": "single_deck"}, "readings": [reading], **body}
    )


class Clock:
    """A clock that stands until it is moved."""

    def __init__(self) -> None:
        self.time = datetime(2026, 3, 4, 5, 6, 7, tzinfo=UTC)

    def __call__(self) -> datetime:
        return self.time

    def move(self, **by: float) -> None:
        self.time += timedelta(**by)


class Person:
    """Somebody with an account and a phone."""

    def __init__(self, app: Flask, name: str | None = None) -> None:
        self.app = app
        self.client = app.test_client()
        self.name = name or f"Person {uuid4().hex[:12]}"
        self.device = new_id()
        self.book = ""
        answer = self.ask("POST", "/api/accounts", {"name": self.name, "password": PASSWORD})
        assert answer.status_code == 201, answer.json
        assert answer.json
        self.id: str = answer.json["user"]["id"]

    def ask(self, method: str, path: str, body: Any = None, **other: Any) -> TestResponse:
        return self.client.open(path, method=method, json=body, headers=HEADERS, **other)

    def begin_book(self) -> str:
        self.book = new_id()
        assert self.outcomes(vehicle(self.book)) == ["applied"]
        return self.book

    def sync(self, *mutations: Any, at: Mapping[str, int] | None = None) -> dict[str, Any]:
        """One request; `at` names the checkpoints that the phone has."""
        marks = [{"book": book, "checkpoint": seq} for book, seq in (at or {}).items()]
        asked = {"device": self.device, "mutations": list(mutations), "books": marks}
        answer = self.ask("POST", "/api/sync", asked)
        assert answer.status_code == 200, answer.json
        return dict(answer.json or {})

    def outcomes(self, *mutations: Any) -> list[str]:
        return [one["outcome"] for one in self.sync(*mutations)["answers"]]

    def answer(self, one: Any) -> dict[str, Any]:
        answers: list[dict[str, Any]] = self.sync(one)["answers"]
        return answers[0]

    def versions(self, book: str) -> list[dict[str, Any]]:
        """All versions that this person may see of a book."""
        news = {one["book"]: one for one in self.sync()["books"]}
        return list(news[book]["versions"]) if book in news else []

    def share(self, whom: "Person", role: str) -> None:
        answer = self.ask("POST", f"/api/books/{self.book}/members", {"name": whom.name, "role": role})
        assert answer.status_code == 200, answer.json
