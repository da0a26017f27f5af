"""What a person says of an entry without a new figure: struck out, the same as another, another vehicle's, or right."""

from .base import LogEntry
from .fields import Choice, Id


class Correction(LogEntry):
    """Both the entry and this correction stay visible; an entry that is `kept` counts as typed, beside `other_id`."""

    of_id = Id(required=True)
    what = Choice("struck_out", "same_as", "other_vehicle", "kept", required=True)
    other_id = Id(allow_none=True)
