"""The server's state of health."""

from .base import Strict
from .fields import Choice, Id


class Health(Strict):
    """`generation` is another one after the database was restored."""

    status = Choice("ok", required=True)
    generation = Id(required=True, metadata={"description": "id of the database's history"})
