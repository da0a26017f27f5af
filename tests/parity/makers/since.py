from collections.abc import Iterator

from parity.pieces import Piece, Rng
from parity.weighed_books import opened
from vectors.decode import plain


def calls(rng: Rng) -> Iterator[Piece]:
    """Two weighings of random books, both ways."""
    for _ in range(50):
        whole = {"book": plain(opened(rng, weighings=2))}
        yield {"function": "since", "in": {**whole, "weighing_id": "w1"}, "abs": 1e-7}
        yield {"function": "since", "in": {**whole, "weighing_id": "w0", "earlier_id": "w1"}, "abs": 1e-7}
