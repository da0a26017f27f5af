"""The one body of every failure."""

from marshmallow import fields

from .base import Strict


class ErrorBody(Strict):
    """A code for programs, a sentence for people, the fields for forms."""

    code = fields.String(required=True)
    message = fields.String(required=True)
    status = fields.Integer(required=True)
    fields_ = fields.Dict(
        keys=fields.String(),
        values=fields.List(fields.String()),
        required=True,
        data_key="fields",
        metadata={"description": "dotted path of a field -> what is wrong with it"},
    )
