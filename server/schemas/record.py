"""Current records of a book, page by page."""

from marshmallow import fields, validate

from .base import Strict
from .fields import Choice, Id, Whole
from .register import KINDS
from .sync import HIGHEST, VERSIONS_AT_ONCE, WHOLE, body_of


class CurrentRecord(Strict):
    """A record as it stands now."""

    id = Id(required=True)
    kind = Choice(*KINDS, required=True)
    rev = Id(required=True)
    seq = Whole(1, HIGHEST, required=True)
    body = body_of(*WHOLE)


class Records(Strict):
    """One page in the order of ids; `next` is the `after` of the next page, null at the end."""

    records = fields.List(fields.Nested(CurrentRecord), required=True)
    next = Id(required=True, allow_none=True)


class RecordsQuery(Strict):
    """Which page."""

    after = Id()
    limit = fields.Integer(load_default=200, validate=validate.Range(1, VERSIONS_AT_ONCE))
    kind = Choice(*KINDS)
