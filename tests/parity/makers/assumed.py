from collections.abc import Iterator

from parity import weighed_books
from parity.pieces import Piece, Rng
from parity.planned_books import given


def calls(rng: Rng) -> Iterator[Piece]:
    """Random plans, with and without trailers and what is said of them."""
    for _ in range(30):
        yield {"function": "assumed", "in": {"book": given(rng)["book"]}}
        yield {"function": "assumed", "in": weighed_books.given(rng)}
