"""The day of a weighing: the state that it was made in, and the plan records that took part."""

from .book import Book, Row
from .state import State, logged_state, state_of_copy
from .supplies import levels_at


def state_of(*, book: Book, weighing: Row) -> State:
    """The state that a weighing was made in: its own copy, or the log's where it has none."""
    copy = weighing.body.get("state")
    if copy:
        return state_of_copy(copy=copy)
    at = weighing.body["at"]
    return logged_state(book=book, at=at, levels=levels_at(book=book, at=at))


def revisions_of(*, weighing: Row) -> dict[str, str] | None:
    """The plan records that took part, by id; None where the weighing names none."""
    copy = weighing.body.get("state")
    return {one["id"]: one["rev"] for one in copy["plan"]} if copy and copy["plan"] else None
