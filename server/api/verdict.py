"""What is wrong with a record's body, by its kind's schema."""

from functools import cache

from marshmallow import Schema

from server.schemas.quick import look_at
from server.schemas.register import KINDS
from server.sync.mutation import Body

from .errors import flat


def verdict(kind: str, body: Body) -> dict[str, list[str]]:
    """Dotted path -> sentences; empty when a whole record of this kind may look like this."""
    if look_at(KINDS[kind])(body):
        return {}
    return flat(_schema(kind).validate(body))


@cache
def _schema(kind: str) -> Schema:
    return KINDS[kind]()
