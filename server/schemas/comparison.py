"""What one weighing says, as the server computes it."""

from marshmallow import fields

from .base import Strict
from .fields import Id


class ComparisonQuery(Strict):
    """Which weighing; the latest when none is named."""

    weighing = Id()


class Compared(Strict):
    """The comparison, null where nothing was weighed; its fields are those of the domain's `Comparison`."""

    comparison = fields.Dict(required=True, allow_none=True)
