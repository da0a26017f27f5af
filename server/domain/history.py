"""The plan through time: how each record stood on a day, and who changed what until a weighing."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from .book import Book, Edit, Row, day_of
from .errors import DomainError
from .plan import plan_in
from .state import State
from .statics import Part
from .weighed import PlannedDay

DAY_LETTERS = 10  # of an instant like 2026-03-04T05:06:07Z


@dataclass(frozen=True, slots=True)
class Change:
    """What one author did to one record: its parts before the first and after the last of his edits."""

    record_id: str
    author: str
    before: tuple[Part, ...]
    after: tuple[Part, ...]
    mass_kg: float

    @property
    def how(self) -> str:
        """new, removed or changed."""
        return "changed" if self.before and self.after else "new" if self.after else "removed"


@dataclass(frozen=True, slots=True)
class History:
    """The lasting parts on a day, and record by record what changed until the weighing."""

    day: str
    parts: tuple[Part, ...]
    base: tuple[Change, ...]
    items: tuple[Change, ...]


def plan_days(*, book: Book, until: str) -> tuple[str, ...]:
    """The days on which the vehicle or an item was entered or edited, up to an instant (UTC), in order."""
    edits = [one for one in book.edits if one.kind in ("vehicle", "item") and one.at <= until]
    return tuple(sorted({day_of(edit=one) for one in edits}))


def first_day(*, book: Book, until: str) -> str:
    """The first day with an item on the list, else the first of the plan, else the day of the instant itself."""
    items = [day_of(edit=one) for one in book.edits if one.kind == "item" and one.at <= until]
    days = plan_days(book=book, until=until)
    return min(items) if items else days[0] if days else until[:DAY_LETTERS]


def history(*, book: Book, weighed: PlannedDay, day: str) -> History:
    """The lasting plan at the end of a day, and each author's changes from there to the weighing's plan.

    A record stood as its last edit made by then; one of which no edit is known stood as it was weighed. A day after the
    weighing counts as the weighing's own. Everything counts as aboard. The parts of the day and the changes add up to
    the lasting parts of the weighing's plan, but for the mass that it forgets. A day that is not like 2026-03-04 is
    refused.
    """
    if len(day) != DAY_LETTERS or not day.replace("-", "").isdigit():
        raise DomainError("day", day, "a day like 2026-03-04")
    vehicle = [] if book.vehicle is None else [book.vehicle]
    items = [*book.items, *(row for row in book.gone if row.kind == "item")]
    parts: list[Part] = []
    base: list[Change] = []
    rest: list[Change] = []
    for rows, changes, parts_of in ((vehicle, base, _base), (items, rest, _item)):
        for row in rows:
            steps = _steps(book, weighed, row, day)
            stood = [(author, () if one is None else parts_of(book, one)) for author, one in steps]
            parts.extend(stood[0][1])
            changes.extend(_changes(row.id, stood))
    return History(day, tuple(parts), tuple(base), tuple(rest))


def mass_of(*, parts: Sequence[Part]) -> float:
    """Sum of masses with their sign, kg."""
    total = 0.0
    for part in parts:
        total += part.sign * part.mass_kg
    return total


def _steps(book: Book, weighed: PlannedDay, row: Row, day: str) -> list[tuple[str, Row | None]]:
    """Author and record from the day on, one step per edit; None where the record was not there."""
    edits = [one for one in book.edits if one.record_id == row.id]
    last = _at_weighing(edits, weighed, row)
    by_then = [i for i, one in enumerate(edits) if day_of(edit=one) <= day]
    if last is None:
        rev = (weighed.revisions or {}).get(row.id)
        there = not row.body.get("deleted") if weighed.revisions is None else rev is not None
        body = book.revisions.get(rev, row.body) if rev else row.body
        return [(row.author, replace(row, body=body) if there else None)]
    first = min(by_then[-1] if by_then else -1, last)
    start = ("", None) if first < 0 else (edits[first].author, _row(row, edits[first]))
    return [start, *((one.author, _row(row, one)) for one in edits[first + 1 : last + 1])]


def _at_weighing(edits: Sequence[Edit], weighed: PlannedDay, row: Row) -> int | None:
    """Which edit the weighing's plan had; -1 for a record that was not yet there, None where no edit tells."""
    rev = row.rev if weighed.revisions is None else weighed.revisions.get(row.id)
    if rev is not None:
        return next((i for i, one in enumerate(edits) if one.rev == rev), None)
    if not edits:
        return None
    gone = [i for i, one in enumerate(edits) if one.at <= weighed.visit.at and one.body.get("deleted")]
    return gone[-1] if gone else -1


def _row(row: Row, edit: Edit) -> Row | None:
    return None if edit.body.get("deleted") else replace(row, rev=edit.rev, body=edit.body)


def _base(book: Book, row: Row) -> tuple[Part, ...]:
    return plan_in(book=replace(book, vehicle=row, items=(), trailers=()), state=State()).lasting


def _item(book: Book, row: Row) -> tuple[Part, ...]:
    return plan_in(book=replace(book, vehicle=None, items=(row,), trailers=()), state=State()).lasting


def _changes(record_id: str, stood: Sequence[tuple[str, tuple[Part, ...]]]) -> list[Change]:
    """Per author, in the order of their first edit; an edit that moved no mass says nothing here."""
    found: dict[str, Change] = {}
    for (_, before), (author, after) in pairwise(stood):
        mass_kg = mass_of(parts=after) - mass_of(parts=before)
        if mass_kg == 0.0:
            continue
        known = found.get(author)
        since = before if known is None else known.before
        found[author] = Change(record_id, author, since, after, mass_kg + (known.mass_kg if known else 0.0))
    return list(found.values())
