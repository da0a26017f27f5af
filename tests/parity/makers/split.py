from collections.abc import Iterator

from parity.pieces import Piece, Rng
from parity.planned_books import given


def calls(rng: Rng) -> Iterator[Piece]:
    """Wheels and rear axles of random plans, under both models."""
    for _ in range(60):
        yield {"function": "plan_split", "in": given(rng), "abs": 1e-9}
