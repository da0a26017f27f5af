"""The change log and the current records."""

import json
from collections.abc import Collection, Iterator, Sequence
from typing import Any

from sqlalchemy import Row, Select, func, insert, select, update
from sqlalchemy.orm import InstrumentedAttribute, Session

from server.sync.mutation import Version

from .models import RecordRow, VersionRow

_AT_ONCE = 500  # ids in one statement
_COLUMNS: tuple[InstrumentedAttribute[Any], ...] = (
    VersionRow.book_id,
    VersionRow.seq,
    VersionRow.rev,
    VersionRow.kind,
    VersionRow.record_id,
    VersionRow.base_rev,
    VersionRow.standing,
    VersionRow.body,
    VersionRow.author_id,
    VersionRow.device,
    VersionRow.device_seq,
    VersionRow.made_at,
    VersionRow.utc_offset_min,
    VersionRow.received_at,
)
_BODY = 7  # where the body stands in a row
Stored = Row[
    *tuple[Any, ...]
]  # the columns above, in the order of the fields of Version, with the body as JSON text


def versions_by_rev(session: Session, *, book: str, revs: Collection[str]) -> dict[str, Version]:
    """Those of some revisions that a book has, by revision."""
    query = select(*_COLUMNS).where(VersionRow.book_id == book)
    return {row.rev: _version(row) for row in _in_parts(session, query, VersionRow.rev, revs)}


def current_versions(session: Session, *, book: str, ids: Collection[str]) -> dict[str, Version]:
    """The current version of those of some records that a book has, by id."""
    return {row.record_id: _version(row) for row in _in_parts(session, _current(book), RecordRow.id, ids)}


def records(session: Session, *, book: str, after: str, limit: int, kind: str | None) -> Sequence[Stored]:
    """One page of current records in the order of ids."""
    query = _current(book).where(RecordRow.id > after).order_by(RecordRow.id).limit(limit)
    return session.execute(query if kind is None else query.where(RecordRow.kind == kind)).all()


def append(session: Session, versions: Sequence[Version], first: int) -> None:
    """Store versions of one book, numbered on from `first`, and make the applied ones current.

    TakenError when one of them, or a record that they begin, is there.
    """
    numbered = list(enumerate(versions, first))
    session.execute(insert(VersionRow), [_row(version, seq) for seq, version in numbered])
    applied = [(seq, one) for seq, one in numbered if one.standing == "applied"]
    current = {one.id: (seq, one) for seq, one in applied}
    new = {one.id for _, one in applied if one.base_rev is None}
    begun = [
        {"book_id": one.book, "id": one.id, "kind": one.kind, "seq": seq}
        for seq, one in current.values()
        if one.id in new
    ]
    if begun:
        session.execute(insert(RecordRow), begun)
    for seq, one in current.values():
        if one.id not in new:
            where = (RecordRow.book_id == one.book, RecordRow.id == one.id)
            session.execute(update(RecordRow).where(*where).values(seq=seq))


def page_end(session: Session, *, book: str, after: int, limit: int, size: int) -> tuple[int, bool]:
    """The number of the last version of the next page, and whether the log ends there.

    A page has at most `limit` versions and about `size` letters, but at least one version if there is any.
    """
    query = select(VersionRow.seq, func.length(VersionRow.body)).where(
        VersionRow.book_id == book, VersionRow.seq > after
    )
    end, count, total = after, 0, 0
    for seq, length in session.execute(query.order_by(VersionRow.seq).limit(limit + 1)):
        count, total = count + 1, total + length
        if count > limit or (count > 1 and total > size):
            return end, False
        end = seq
    return end, True


def stretch(session: Session, *, book: str, after: int, up_to: int) -> Sequence[Stored]:
    """The versions of a book after one number up to another, in their order."""
    query = select(*_COLUMNS).where(
        VersionRow.book_id == book, VersionRow.seq > after, VersionRow.seq <= up_to
    )
    return session.execute(query.order_by(VersionRow.seq)).all()


def all_of(session: Session, book: str) -> Sequence[Stored]:
    """All versions of a book, in their order."""
    return session.execute(select(*_COLUMNS).where(VersionRow.book_id == book).order_by(VersionRow.seq)).all()


def _current(book: str) -> Select[*tuple[Any, ...]]:
    joined = (VersionRow.book_id == RecordRow.book_id) & (VersionRow.seq == RecordRow.seq)
    return select(*_COLUMNS).join(RecordRow, joined).where(RecordRow.book_id == book)


def _in_parts(
    session: Session, query: Select[*tuple[Any, ...]], column: Any, ids: Collection[str]
) -> Iterator[Stored]:
    wanted = list(ids)
    for start in range(0, len(wanted), _AT_ONCE):
        yield from session.execute(query.where(column.in_(wanted[start : start + _AT_ONCE])))


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
