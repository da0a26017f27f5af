"""What is wrong with a record's body, by its kind's schema."""

from functools import cache

from marshmallow import Schema

from server.schemas.register import KINDS
from server.sync.mutation import Body

from .errors import flat


def verdict(kind: str, body: Body) -> dict[str, list[str]]:
    """Dotted path -> sentences; empty when a whole record of this kind may look like this."""
    errors = _schema(kind).validate(body)
    return flat(errors) if errors else {}


@cache
def _schema(kind: str) -> Schema:
    return KINDS[kind]()
