from collections.abc import Iterator

from parity.pieces import Piece, Rng
from parity.weighed_books import given


def calls(rng: Rng) -> Iterator[Piece]:
    """Random books with up to three weighings."""
    for _ in range(40):
        yield {"function": "taught", "in": given(rng), "abs": 1e-6}
