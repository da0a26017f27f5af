"""When the other devices of a book were last heard, so that an answer can say what it does not contain."""

import logging
from collections.abc import Mapping, Sequence
from datetime import datetime, timedelta

from server.store import heard
from server.store.engine import DatabaseError, reading, writing
from server.sync.mutation import Answer

from .accounts import Account
from .clock import moment_of, stamp

QUIET = timedelta(minutes=5)  # (assumed) what is told may be older than the truth by this, never newer
_SETTLED = {"applied", "duplicate", "conflict"}
_log = logging.getLogger(__name__)


def still_held(
    *, unsent: Mapping[str, int | None], raw: Sequence[object], answers: Sequence[Answer]
) -> dict[str, int | None]:
    """Book -> how many entries the device holds after a request: those it did not send, and those not taken.

    `unsent` is what the device told for each book that it named, None for an app that does not tell.
    """
    held = dict(unsent)
    for one, answer in zip(raw, answers, strict=True):
        book = one.get("book") if isinstance(one, dict) else None
        if answer.outcome in _SETTLED or not isinstance(book, str):
            continue
        count = held.get(book)
        if count is not None:
            held[book] = count + 1
    return held


def hear(*, user: Account, device: str, unsent: Mapping[str, int | None], now: datetime) -> None:
    """Note that a device has asked for news of these books, if there is something new to note.

    Called after its mutations are kept: whoever reads the note can read all that it speaks of. A busy database
    leaves the older note, which says less.
    """
    with reading() as connection:
        known = heard.own(connection, user=user.id, device=device)
    # a phone that has just fetched a book can be typed into from now on, though it has told nothing of it yet
    unsent = {**dict.fromkeys((book for book in known if known[book] is None), None), **unsent}
    fresh = {
        book: count for book, count in unsent.items() if book in known and _is_news(known[book], count, now)
    }
    if not fresh:
        return
    try:
        with writing() as connection:
            heard.put(connection, user=user.id, device=device, at=stamp(now), unsent=fresh)
    except DatabaseError:
        _log.warning("not noted: device %s was heard", device, exc_info=True)


def _is_news(known: tuple[str, int | None] | None, unsent: int | None, now: datetime) -> bool:
    if known is None or known[1] != unsent:
        return True
    return now - moment_of(known[0]) >= QUIET
