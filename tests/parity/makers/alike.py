from collections.abc import Iterator

from parity.log_books import given
from parity.pieces import Piece, Rng


def calls(rng: Rng) -> Iterator[Piece]:
    for _ in range(30):
        yield {"function": "alike", "in": {"book": given(rng)}}
