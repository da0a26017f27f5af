"""Current records of a book, page by page, and a book opened for the domain."""

import json
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from server.domain.book import Book, Edit, Row, open_book
from server.store import versions
from server.store.engine import reading
from server.sync.mutation import PLAN_KINDS, Version

from .accounts import Account
from .members import role_in
from .pull import BODY, Seen, seen_by

_ID = 4


@dataclass(frozen=True, slots=True)
class Page:
    """Records as they stand, in the order of their ids; `next` is where to go on, None at the end."""

    records: Sequence[Seen]
    next: str | None


def list_records(*, book: str, user: Account, after: str, limit: int, kind: str | None) -> Page:
    """One page of what a user may see of a book."""
    with reading() as connection:
        role = role_in(connection, book=book, user=user)
        rows = versions.records(connection, book=book, after=after, limit=limit + 1, kind=kind)
    shown = [seen_by(role, row) for row in rows[:limit]]
    return Page(shown, shown[-1][_ID] if len(rows) > limit else None)


def opened_book(*, book: str, user: Account) -> Book:
    """A book as the domain reads it, with what the user may see of it and all versions of the plan."""
    with reading() as connection:
        role = role_in(connection, book=book, user=user)
        log = [_version(seen_by(role, row)) for row in versions.all_of(connection, book)]
    begun: dict[str, int] = {}
    current: dict[str, Version] = {}
    for one in log:
        begun.setdefault(one.id, one.seq)
        if one.standing == "applied":
            current[one.id] = one
    rows = [Row(one.id, one.kind, one.rev, one.body, begun[one.id], one.author) for one in current.values()]
    plan = [one for one in log if one.kind in PLAN_KINDS]
    edits = [_edit(one) for one in plan if one.standing == "applied"]
    return open_book(rows=rows, revisions={one.rev: one.body for one in plan}, edits=edits)


def _edit(one: Version) -> Edit:
    there = datetime.fromisoformat(one.made_at) + timedelta(minutes=one.utc_offset_min)
    return Edit(one.id, one.kind, one.rev, one.author, one.made_at, one.body, there.date().isoformat())


def _version(row: Seen) -> Version:
    values = list(row)
    values[BODY] = json.loads(values[BODY])
    return Version(*values)
