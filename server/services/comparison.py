"""The comparison of a weighing, recomputed on the server from the versions that it holds."""

from collections.abc import Iterable
from dataclasses import asdict
from typing import Any

from server.domain.book import Book, Row, open_book
from server.domain.comparison import compare
from server.sync.mutation import Version


def book_of(versions: Iterable[Version]) -> Book:
    """A book as the domain reads it: of each record the latest version that was applied, and all earlier bodies."""
    rows: dict[str, Row] = {}
    revisions: dict[str, Any] = {}
    for version in sorted(versions, key=lambda one: one.seq):
        revisions[version.rev] = version.body
        if version.standing == "applied":
            first = rows.get(version.id)
            order = first.order if first else version.seq
            rows[version.id] = Row(version.id, version.kind, version.rev, version.body, order, version.author)
    return open_book(rows=tuple(rows.values()), revisions=revisions)


def comparison_json(versions: Iterable[Version], weighing_id: str | None) -> dict[str, Any] | None:
    """The comparison as plain values; the latest weighing unless one is named, None where nothing was weighed.

    A weighing that is not in the book is refused with the domain's Unknown.
    """
    book = book_of(versions)
    if weighing_id is None:
        if not book.weighings:
            return None
        weighing_id = book.weighings[-1].id
    return asdict(compare(book=book, weighing_id=weighing_id))
