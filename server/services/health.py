"""Whether the database answers."""

from server.store import books
from server.store.engine import reading


def check() -> str:
    """The database's generation; raises what the database raises when it does not answer."""
    with reading() as connection:
        return books.generation(connection)
