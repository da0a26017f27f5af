"""What a workshop does on the way that may move consumption: an entry of its own in the log."""

from dataclasses import dataclass
from datetime import date

from .chance import Chance
from .clock import moment
from .enter import Entered
from .journal import Journal


@dataclass(frozen=True, slots=True)
class Done:
    """Something done so many days before `today`."""

    day: int
    at: str
    what: str
    note: str


DONE = {"van": (Done(23, "16:30", "other", "Wheels aligned after the corrugations"),)}


def enter_done(
    key: str, *, owner: str, entered: Entered, today: date, journal: Journal, chance: Chance
) -> None:
    """Log it, as the owner would."""
    with journal.drawing(chance):
        for one in DONE.get(key, ()):
            at = moment(today, one.day, one.at)
            body = {"what": one.what, "note": one.note}
            journal.log(book=entered.book, kind="event", body=body, at=at, made=at, by=owner)
