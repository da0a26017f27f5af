"""Versions as JSON text. Their bodies lie in the database as text and are put in as they are."""

import json
from collections.abc import Iterable
from dataclasses import asdict
from typing import Any

from server.services.pull import BookNews, Seen
from server.services.records import Page

# All but the body are ids, numbers, instants and words that were checked when they came in.
_VERSION = (
    '{{"book":"{}","seq":{},"rev":"{}","kind":"{}","id":"{}","base_rev":{},"standing":"{}","body":{},'
    '"author":"{}","device":"{}","device_seq":{},"made_at":"{}","utc_offset_min":{},"received_at":"{}"}}'
)
_BASE_REV = 5


def news_text(news: Iterable[BookNews]) -> str:
    """The `books` of a sync answer."""
    return _list(
        _object(
            book=_json(one.book),
            role=_json(one.role),
            checkpoint=str(one.checkpoint),
            more=_json(one.more),
            members=_json([asdict(member) for member in one.members]),
            versions=_list(_version(row) for row in one.versions),
        )
        for one in news
    )


def records_text(page: Page) -> str:
    """One page of current records."""
    return _object(records=_list(_record(row) for row in page.records), next=_json(page.next))


def _version(row: Seen) -> str:
    base = row[_BASE_REV]
    return _VERSION.format(*row[:_BASE_REV], "null" if base is None else f'"{base}"', *row[_BASE_REV + 1 :])


def _record(row: Seen) -> str:
    _, seq, rev, kind, id_, _, _, body, *_ = row
    return f'{{"id":"{id_}","kind":"{kind}","rev":"{rev}","seq":{seq},"body":{body}}}'


def _object(**texts: str) -> str:
    return "{" + ",".join(f'"{name}":{text}' for name, text in texts.items()) + "}"


def _list(texts: Iterable[str]) -> str:
    return "[" + ",".join(texts) + "]"


def _json(value: Any) -> str:
    return json.dumps(value, separators=(",", ":"))
