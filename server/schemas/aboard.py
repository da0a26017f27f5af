"""Who and what is aboard: one entry per subject, so that two phones' entries add up."""

from .base import LogEntry
from .fields import Choice, Flag, Id, Instant


class Aboard(LogEntry):
    """A person takes or leaves a seat, a load goes in or out, a trailer is coupled or not."""

    subject = Choice("person", "item", "trailer", required=True)
    subject_id = Id(required=True)
    aboard = Flag(required=True)
    seat_id = Id(allow_none=True)
    until = Instant(allow_none=True)
    why = Choice("left", "lent", "used_up", "lost")
