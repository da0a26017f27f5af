"""The comparison of a weighing, recomputed on the server from the versions that it holds."""

from dataclasses import asdict
from typing import Any

from server.domain.book import Book, check_weighing
from server.domain.comparison import compare
from server.domain.errors import DomainError

from .accounts import Account
from .errors import InvalidError, NotThereError
from .records import opened_book


def comparison(*, book: str, user: Account, weighing_id: str | None) -> dict[str, Any] | None:
    """Planned against weighed as plain values; the latest weighing unless one is named, None where there is none."""
    opened = opened_book(book=book, user=user)
    _check_named(opened, weighing_id)
    known = [one.id for one in opened.weighings]
    if weighing_id is not None and weighing_id not in known:
        raise NotThereError(
            "no_such_weighing", "There is no such weighing in this book, or it was corrected."
        )
    if not known:
        return None
    return asdict(compare(book=opened, weighing_id=weighing_id or known[-1]))


def _check_named(opened: Book, weighing_id: str | None) -> None:
    """Refuse a weighing that is there and cannot be read, with the domain's reason."""
    try:
        for one in opened.unread:
            if one.id == weighing_id:
                check_weighing(weighing=one)
    except DomainError as error:
        raise InvalidError(
            error.code, f"The weighing cannot be read. {error}", {error.field: [str(error)]}
        ) from error
