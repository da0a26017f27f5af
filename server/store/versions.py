"""The change log and the current records."""

import json
from collections.abc import Collection, Iterator, Sequence
from typing import Any

from sqlalchemy import Connection, Row, Select, bindparam, func, insert, select, update

from server.sync.mutation import Version

from .models import record as records_
from .models import version as log

_AT_ONCE = 500  # ids in one statement
_COLUMNS = (
    *(log.c.book_id, log.c.seq, log.c.rev, log.c.kind, log.c.record_id, log.c.base_rev, log.c.standing),
    *(log.c.body, log.c.author_id, log.c.device, log.c.device_seq, log.c.made_at, log.c.utc_offset_min),
    log.c.received_at,
)
_BODY = 7  # where the body stands in a row
Query = Select[*tuple[Any, ...]]
Stored = Row[
    *tuple[Any, ...]
]  # the columns above: the fields of Version in order, with the body as JSON text

# Asked in every sync: built once, for building costs as much as running.
_LOG: Query = select(*_COLUMNS).where(log.c.book_id == bindparam("book"))
_CURRENT: Query = (
    select(*_COLUMNS)
    .join(records_, (log.c.book_id == records_.c.book_id) & (log.c.seq == records_.c.seq))
    .where(records_.c.book_id == bindparam("book"))
)
_KEPT: Query = select(log.c.rev, log.c.kind, log.c.record_id, log.c.base_rev, log.c.author_id).where(
    log.c.book_id == bindparam("book"), log.c.rev.in_(bindparam("among", expanding=True))
)
_BY_REV = _LOG.where(log.c.rev.in_(bindparam("among", expanding=True)))
_BY_ID = _CURRENT.where(records_.c.id.in_(bindparam("among", expanding=True)))
_INSERT, _BEGIN = insert(log), insert(records_)
_MOVE = (
    update(records_)
    .where(records_.c.book_id == bindparam("of_book"), records_.c.id == bindparam("of_id"))
    .values(seq=bindparam("to_seq"))
)


def kept(
    connection: Connection, *, book: str, revs: Collection[str]
) -> dict[str, tuple[str, str, str | None, str]]:
    """Kind, id, base revision and author of those of some mutations that a book has kept, by their name."""
    return {
        rev: (kind, id_, base, author)
        for rev, kind, id_, base, author in _in_parts(connection, _KEPT, book, revs)
    }


def versions_by_rev(connection: Connection, *, book: str, revs: Collection[str]) -> dict[str, Version]:
    """Those of some revisions that a book has, by revision."""
    return {row.rev: _version(row) for row in _in_parts(connection, _BY_REV, book, revs)}


def current_versions(connection: Connection, *, book: str, ids: Collection[str]) -> dict[str, Version]:
    """The current version of those of some records that a book has, by id."""
    return {row.record_id: _version(row) for row in _in_parts(connection, _BY_ID, book, ids)}


def records(
    connection: Connection, *, book: str, after: str, limit: int, kind: str | None
) -> Sequence[Stored]:
    """One page of current records in the order of ids."""
    query = _CURRENT.where(records_.c.id > after).order_by(records_.c.id).limit(limit)
    chosen = query if kind is None else query.where(records_.c.kind == kind)
    return connection.execute(chosen, {"book": book}).all()


def append(connection: Connection, versions: Sequence[Version], first: int) -> None:
    """Store versions of one book, numbered on from `first`, and make the applied ones current.

    TakenError when one of them, or a record that they begin, is there.
    """
    numbered = list(enumerate(versions, first))
    connection.execute(_INSERT, [_row(version, seq) for seq, version in numbered])
    applied = [(seq, one) for seq, one in numbered if one.standing == "applied"]
    new = {one.id for _, one in applied if one.base_rev is None}
    current = {one.id: (seq, one) for seq, one in applied}
    begun = [
        {"book_id": one.book, "id": one.id, "kind": one.kind, "seq": seq}
        for seq, one in current.values()
        if one.id in new
    ]
    moved = [
        {"of_book": one.book, "of_id": one.id, "to_seq": seq}
        for seq, one in current.values()
        if one.id not in new
    ]
    for statement, rows in ((_BEGIN, begun), (_MOVE, moved)):
        if rows:
            connection.execute(statement, rows)


def page_end(connection: Connection, *, book: str, after: int, limit: int, size: int) -> tuple[int, bool]:
    """The number of the last version of the next page, and whether the log ends there.

    A page has at most `limit` versions and about `size` letters, but at least one version if there is any.
    """
    query = select(log.c.seq, func.length(log.c.body)).where(log.c.book_id == book, log.c.seq > after)
    end, count, total = after, 0, 0
    for seq, length in connection.execute(query.order_by(log.c.seq).limit(limit + 1)):
        count, total = count + 1, total + length
        if count > limit or (count > 1 and total > size):
            return end, False
        end = seq
    return end, True


def stretch(connection: Connection, *, book: str, after: int, up_to: int) -> Sequence[Stored]:
    """The versions of a book after one number up to another, in their order."""
    query = _LOG.where(log.c.seq > after, log.c.seq <= up_to).order_by(log.c.seq)
    return connection.execute(query, {"book": book}).all()


def all_of(connection: Connection, book: str) -> Sequence[Stored]:
    """All versions of a book, in their order."""
    return connection.execute(_LOG.order_by(log.c.seq), {"book": book}).all()


def _in_parts(connection: Connection, query: Query, book: str, among: Collection[str]) -> Iterator[Stored]:
    wanted = list(among)
    for start in range(0, len(wanted), _AT_ONCE):
        part = wanted[start : start + _AT_ONCE]
        yield from connection.execute(query, {"book": book, "among": part})


def _version(row: Stored) -> Version:
    values = list(row)
    values[_BODY] = json.loads(values[_BODY])
    return Version(*values)


def _row(version: Version, seq: int) -> dict[str, Any]:
    return {
        "book_id": version.book,
        "seq": seq,
        "rev": version.rev,
        "kind": version.kind,
        "record_id": version.id,
        "base_rev": version.base_rev,
        "standing": version.standing,
        "body": json.dumps(version.body, separators=(",", ":"), allow_nan=False),
        "author_id": version.author,
        "device": version.device,
        "device_seq": version.device_seq,
        "made_at": version.made_at,
        "utc_offset_min": version.utc_offset_min,
        "received_at": version.received_at,
    }
