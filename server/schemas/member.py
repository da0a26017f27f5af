"""Who shares a book."""

from marshmallow import fields

from .base import Strict
from .fields import Choice, Id, Text

ROLES = ("owner", "co_driver", "fitter")


class Member(Strict):
    """A person's role in a book."""

    user = Id(required=True)
    name = fields.String(required=True)
    role = Choice(*ROLES, required=True)


class NewMember(Strict):
    """Whom to give which role, by sign-in name."""

    name = Text(60, shortest=1, required=True)
    role = Choice(*ROLES, required=True)


class Members(Strict):
    """Everybody who shares a book."""

    members = fields.List(fields.Nested(Member), required=True)
