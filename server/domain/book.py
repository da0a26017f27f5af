"""A book opened: the plan's records as they stand, and the log without what has been corrected away.

Records are plain mappings in the shape of the JSON contract; nothing here computes. The other modules read
a `Book` and never look at versions, corrections or deletions again.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from .bridge import bridge_of, reach_kg
from .errors import DomainError, check_range

Body = Mapping[str, Any]

PLAN_KINDS = ("vehicle", "trailer", "plate", "item", "tank", "seat", "person", "route")
LOG_KINDS = ("aboard", "weighing", "fill", "dip", "transfer", "water", "event", "correction")
KEPT = "kept"  # a correction by which an entry stays as it is


@dataclass(frozen=True, slots=True)
class Row:
    """One record as a device or the server holds it. `order` counts up in the order of recording."""

    id: str
    kind: str
    rev: str
    body: Body
    order: int = 0
    author: str = ""


@dataclass(frozen=True, slots=True)
class Edit:
    """One version of a plan record, whole; `at` is when its device says it was made, UTC.

    `day` is the day that it was there, where it is known; without it the day by UTC counts.
    """

    record_id: str
    kind: str
    rev: str
    author: str
    at: str
    body: Body
    day: str = ""


@dataclass(frozen=True, slots=True)
class Book:
    """The plan now, the log that counts, plan records since deleted, and earlier revisions of the plan.

    `edits` are the versions of the plan that were applied, in the order of recording. `unread` are weighings that
    count but cannot be read (`check_weighing`); nothing rests on them. `kept` are the corrections by which somebody
    says that an entry is right as typed, or another one than the entry beside it.
    """

    vehicle: Row | None
    trailers: tuple[Row, ...] = ()
    plates: tuple[Row, ...] = ()
    items: tuple[Row, ...] = ()
    tanks: tuple[Row, ...] = ()
    seats: tuple[Row, ...] = ()
    people: tuple[Row, ...] = ()
    routes: tuple[Row, ...] = ()
    aboard: tuple[Row, ...] = ()
    weighings: tuple[Row, ...] = ()
    fills: tuple[Row, ...] = ()
    dips: tuple[Row, ...] = ()
    transfers: tuple[Row, ...] = ()
    waters: tuple[Row, ...] = ()
    events: tuple[Row, ...] = ()
    kept: tuple[Row, ...] = ()
    gone: tuple[Row, ...] = ()
    revisions: Mapping[str, Body] = field(default_factory=dict)
    edits: tuple[Edit, ...] = ()
    unread: tuple[Row, ...] = ()


def open_book(
    *, rows: Sequence[Row], revisions: Mapping[str, Body] | None = None, edits: Sequence[Edit] = ()
) -> Book:
    """Sort a book's rows by kind: the plan by order of entry, the log by when it happened.

    Deleted plan records and entries that have been corrected are left out; `revisions` are earlier bodies
    of plan records by revision, for weighings that name the plan of their day; `edits` say who made each and
    when, in the order of recording. Rows and edits of unknown kinds are ignored. A weighing that cannot be read stands
    apart, so that the others are read without it.
    """
    kept: dict[str, list[Row]] = {kind: [] for kind in (*PLAN_KINDS, *LOG_KINDS)}
    gone: list[Row] = []
    for row in rows:
        if row.kind in kept:
            (gone if row.body.get("deleted") else kept[row.kind]).append(row)
    void = _void_ids([row for kind in LOG_KINDS for row in kept[kind]])

    def plan(kind: str) -> tuple[Row, ...]:
        return tuple(sorted(kept[kind], key=lambda row: (row.order, row.id)))

    def log(kind: str) -> tuple[Row, ...]:
        valid = [row for row in kept[kind] if row.id not in void]
        return tuple(sorted(valid, key=lambda row: (row.body["at"], row.order, row.id)))

    vehicles, weighings = plan("vehicle"), log("weighing")
    unread = tuple(row for row in weighings if _unread(row))
    return Book(
        vehicle=vehicles[0] if vehicles else None,
        trailers=plan("trailer"),
        plates=plan("plate"),
        items=plan("item"),
        tanks=plan("tank"),
        seats=plan("seat"),
        people=plan("person"),
        routes=plan("route"),
        aboard=log("aboard"),
        weighings=tuple(row for row in weighings if row not in unread),
        fills=log("fill"),
        dips=log("dip"),
        transfers=log("transfer"),
        waters=log("water"),
        events=log("event"),
        kept=tuple(row for row in log("correction") if row.body.get("what") == KEPT),
        gone=tuple(sorted(gone, key=lambda row: (row.order, row.id))),
        revisions=revisions or {},
        edits=tuple(edit for edit in edits if edit.kind in PLAN_KINDS),
        unread=unread,
    )


def check_weighing(*, weighing: Row) -> None:
    """Refuse a weighing that cannot be read: its scale is in percent without saying how many, or does not reach a load.

    The schema refuses them at the door; an older one did not. Readings set aside may be anything.
    """
    bridge = bridge_of(key=weighing.id, body=weighing.body.get("bridge") or {})
    reach = reach_kg(bridge=bridge)
    for reading in weighing.body.get("readings") or ():
        if not reading.get("struck_out"):
            check_range("value_kg", reading["value_kg"], low=0.0, high=reach, unit="kg")


def _unread(weighing: Row) -> bool:
    try:
        check_weighing(weighing=weighing)
    except DomainError:
        return True
    return False


def _void_ids(entries: list[Row]) -> set[str]:
    """Entries with a correction that itself still counts and does not keep them."""
    correctors: dict[str, list[str]] = {}
    for entry in entries:
        target = entry.body.get("of_id") if entry.kind == "correction" else entry.body.get("corrects")
        if target and entry.body.get("what") != KEPT:
            correctors.setdefault(target, []).append(entry.id)
    counts: dict[str, bool] = {}

    def counted(entry_id: str) -> bool:
        if entry_id not in counts:
            counts[entry_id] = True  # an entry that corrects itself in a circle still counts
            counts[entry_id] = not any(counted(other) for other in correctors.get(entry_id, ()))
        return counts[entry_id]

    return {entry_id for entry_id in correctors if not counted(entry_id)}


def rows_of_day(
    book: Book, kind: str, rows: tuple[Row, ...], revisions: Mapping[str, str] | None
) -> tuple[Row, ...]:
    """The records of one kind that took part: the present ones, or those that a weighing names."""
    if revisions is None:
        return rows
    return tuple(
        row for row in (*rows, *(one for one in book.gone if one.kind == kind)) if row.id in revisions
    )


def body_of_day(book: Book, row: Row, rev: str | None) -> Body:
    """The record's body at a revision, or the present one where that revision is not at hand."""
    if rev is None or rev == row.rev:
        return row.body
    return book.revisions.get(rev, row.body)


def day_of(*, edit: Edit) -> str:
    """The day of an edit, like 2026-03-04."""
    return edit.day or edit.at[:10]
