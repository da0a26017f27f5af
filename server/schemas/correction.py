"""A correction that is not a new figure: an entry struck out, the same as another, or another vehicle's."""

from .base import LogEntry
from .fields import Choice, Id


class Correction(LogEntry):
    """Both the entry and this correction stay visible."""

    of_id = Id(required=True)
    what = Choice("struck_out", "same_as", "other_vehicle", required=True)
    other_id = Id(allow_none=True)
