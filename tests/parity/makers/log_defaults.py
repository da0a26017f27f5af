from collections.abc import Iterator

from parity import planned_books
from parity.log_books import given
from parity.pieces import Piece, Rng


def calls(rng: Rng) -> Iterator[Piece]:
    """What random books take for granted of either log."""
    for _ in range(10):
        for book in (given(rng, 2), planned_books.given(rng)["book"]):
            yield {"function": "log_defaults", "in": {"book": book, "holds": "fuel"}}
            yield {"function": "log_defaults", "in": {"book": book, "holds": "water"}}
