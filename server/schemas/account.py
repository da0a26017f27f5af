"""Accounts and sessions."""

from marshmallow import fields

from .base import Strict
from .fields import Id, Instant, Text


class User(Strict):
    """A person with a sign-in name."""

    id = Id(required=True)
    name = fields.String(required=True)


class Credentials(Strict):
    """A sign-in name and its password; further rules are said by the service, field by field."""

    name = Text(60, shortest=1, required=True)
    password = fields.String(required=True, load_only=True)


class Session(Strict):
    """Who is signed in here, and until when at the latest."""

    user = fields.Nested(User, required=True)
    ends_at = Instant(required=True)
