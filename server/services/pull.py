"""What is new for a device: the versions of its user's books since its checkpoints."""

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Any

from server.store import books, heard, versions
from server.store.books import MemberOf, Shared
from server.store.engine import Connection, reading
from server.store.heard import HeardOf
from server.sync.mutation import Role
from server.sync.redact import redact, redacts

from .accounts import Account
from .clock import moment_of, stamp

VERSIONS_AT_ONCE = 1_000
LETTERS_AT_ONCE = 4_000_000
_OVERLAP = timedelta(minutes=10)  # a note bears the time of its request and is there a little later (assumed)
_NEVER = datetime(2000, 1, 1, tzinfo=UTC)

# A version as it travels: the fields of `Version` in their order, the body as JSON text.
Seen = tuple[Any, ...]
_KIND, BODY = 3, 7


@dataclass(frozen=True, slots=True)
class BookNews:
    """One book's news; `more` says that the page ended before the log did."""

    book: str
    role: Role
    checkpoint: int
    more: bool
    members: Sequence[MemberOf]
    versions: Sequence[Seen]


@dataclass(frozen=True, slots=True)
class News:
    """What a device is told."""

    generation: str
    books: Sequence[BookNews]
    gone: Sequence[str]
    heard: Sequence[HeardOf]


@dataclass(frozen=True, slots=True)
class Reader:
    """Whose device asks: its books with their checkpoints, and up to when it knows who was heard."""

    user: Account
    device: str
    checkpoints: Mapping[str, int]
    heard_since: str | None = None


def pull(reader: Reader) -> News:
    """The next page of news; a book without a checkpoint is read from its beginning.

    `gone` names those of the device's books that the user could see once; of others nothing is said. `heard` speaks
    only of books that this page reads to their end, so that nothing it stands for is still to come.
    """
    user, checkpoints = reader.user, reader.checkpoints
    with reading() as connection:
        others = _heard(connection, reader)  # first: what is read after it holds all that it stands for
        page = _Page(connection)
        shared = books.books_of(connection, user.id)
        told = [news for one in shared if (news := page.of(one, checkpoints.get(one.book, 0)))]
        lost = checkpoints.keys() - {one.book for one in shared}
        gone = books.left_books(connection, user=user.id, among=lost)
        unread = {one.book for one in told if one.more}
        return News(
            books.generation(connection), told, gone, [one for one in others if one.book not in unread]
        )


def _heard(connection: Connection, reader: Reader) -> list[HeardOf]:
    since = max(moment_of(reader.heard_since), _NEVER) if reader.heard_since else _NEVER
    known = {book for book, seq in reader.checkpoints.items() if seq > 0}
    return heard.others(
        connection,
        user=reader.user.id,
        device=reader.device,
        since=stamp(since - _OVERLAP),
        known=known,
    )


class _Page:
    """Fills one answer up to its limits, book by book."""

    def __init__(self, connection: Connection) -> None:
        self.connection = connection
        self.count, self.size = VERSIONS_AT_ONCE, LETTERS_AT_ONCE

    def of(self, shared: Shared, checkpoint: int) -> BookNews | None:
        after = 0 if checkpoint > shared.seq else checkpoint  # ahead of the counter: from before a restore
        if after == shared.seq and checkpoint == after:
            return None
        members = books.members(self.connection, shared.book)
        if self.count <= 0 or self.size <= 0:
            return BookNews(shared.book, shared.role, after, True, members, ())
        end, whole = versions.page_end(
            self.connection, book=shared.book, after=after, limit=self.count, size=self.size
        )
        rows = versions.stretch(self.connection, book=shared.book, after=after, up_to=end)
        self.count -= len(rows)
        self.size -= sum(len(row[BODY]) for row in rows)
        # the counter also counts changes of members, which have no version
        reached = max(end, shared.seq) if whole else end
        seen = [seen_by(shared.role, row) for row in rows]
        return BookNews(shared.book, shared.role, reached, not whole, members, seen)


def seen_by(role: Role, row: Sequence[Any]) -> Seen:
    """A stored version as a role may see it."""
    kind = row[_KIND]
    if not redacts(kind=kind, role=role):
        return tuple(row)
    body = redact(kind=kind, body=json.loads(row[BODY]), role=role)
    return (*row[:BODY], json.dumps(body, separators=(",", ":")), *row[BODY + 1 :])
