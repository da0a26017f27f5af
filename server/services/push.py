"""Taking in mutations: one transaction a book, an answer for each mutation, nothing thrown away."""

import logging
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from server.store import books, versions
from server.store.engine import Connection, TakenError, writing
from server.sync.ledger import Ledger, Verdict, receive, target_of
from server.sync.mutation import Answer, Mutation, Refusal, name_of, read

from .accounts import Account
from .clock import stamp
from .errors import BusyError

_TRIES = 5
_FAULT = Refusal("server_fault", "The server failed on this one: it stays on the device and is tried again.")
_log = logging.getLogger(__name__)


class _OutrunError(Exception):
    """Somebody else numbered versions of the book meanwhile."""


@dataclass(frozen=True, slots=True)
class Sender:
    """Who sends from which device, when it arrived, and what judges the bodies."""

    user: Account
    device: str
    now: datetime
    verdict: Verdict


def push(*, raw: Sequence[object], sender: Sender) -> list[Answer]:
    """Take in what a device sent as mutations; the answers stand in its order."""
    answers: list[Answer | None] = [None] * len(raw)
    by_book: dict[str, list[tuple[int, Mutation]]] = {}
    for place, one in enumerate(raw):
        mutation = read(one)
        if isinstance(mutation, Refusal):
            answers[place] = Answer(name_of(one), "rejected", mutation)
        else:
            by_book.setdefault(mutation.book, []).append((place, mutation))
    for book, placed in by_book.items():
        answered = _push_book(book, [mutation for _, mutation in placed], sender)
        for (place, _), answer in zip(placed, answered, strict=True):
            answers[place] = answer
    return [answer for answer in answers if answer is not None]


def _push_book(book: str, mutations: Sequence[Mutation], sender: Sender) -> list[Answer]:
    for attempt in range(_TRIES):
        try:
            with writing() as connection:
                # who was outrun once holds the book while it decides, so that the second try is the last
                return _take_in(connection, book, mutations, sender, lock=attempt > 0)
        except (_OutrunError, TakenError):
            continue
    raise BusyError("busy", "Too many write in this book at once: the device tries again.")


def _take_in(
    connection: Connection, book: str, mutations: Sequence[Mutation], sender: Sender, *, lock: bool
) -> list[Answer]:
    held = books.standing(connection, book=book, user=sender.user.id, lock=lock)
    ledger = Ledger(exists=held.seq is not None, role=held.role, former=held.former)
    if held.role is not None:
        _look_up(connection, ledger, book, mutations)
    at = stamp(sender.now)
    answers = [_receive(ledger, mutation, sender, at) for mutation in mutations]
    if ledger.fresh:
        _store(connection, ledger, book, held.seq, sender, at)
    elif any(one.outcome != "duplicate" for one in answers) and books.counter(connection, book) != held.seq:
        raise _OutrunError  # decided on a mixture of before and after somebody else's commit
    return answers


def _store(
    connection: Connection, ledger: Ledger, book: str, seen: int | None, sender: Sender, at: str
) -> None:
    if seen is None:
        books.add_book(connection, book=book, owner=sender.user.id, at=at)
    last = books.advance(connection, book=book, seen=seen or 0, by=len(ledger.fresh))
    if last is None:
        raise _OutrunError
    versions.append(connection, ledger.fresh, last - len(ledger.fresh) + 1)


def _look_up(connection: Connection, ledger: Ledger, book: str, mutations: Sequence[Mutation]) -> None:
    ledger.kept = versions.kept(connection, book=book, revs={one.mut for one in mutations})
    fresh = [one for one in mutations if one.mut not in ledger.kept]
    ids = {one.id for one in fresh} | {target for one in fresh if (target := target_of(one))}
    ledger.current = versions.current_versions(connection, book=book, ids=ids)
    bases = {one.base_rev for one in fresh if one.base_rev}
    ledger.versions = versions.versions_by_rev(connection, book=book, revs=bases)


def _receive(ledger: Ledger, mutation: Mutation, sender: Sender, at: str) -> Answer:
    """One mutation's answer. A fault of ours stops this one alone, and the device keeps it."""
    try:
        return receive(
            ledger=ledger,
            mutation=mutation,
            verdict=sender.verdict,
            author=sender.user.id,
            device=sender.device,
            received_at=at,
        )
    except Exception:
        _log.exception("mutation %s of book %s", mutation.mut, mutation.book)
        return Answer(mutation.mut, "wait", _FAULT)
