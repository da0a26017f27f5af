from collections.abc import Iterator

from parity.pieces import Piece, Rng, number
from parity.planned_books import given


def calls(rng: Rng) -> Iterator[Piece]:
    """Random plans against ratings that are near."""
    for _ in range(60):
        more = {"day": "2026-05-01", "confidence": number(rng, 0.6, 0.999)}
        yield {"function": "plan_worst", "in": {**given(rng), **more}, "abs": 1e-9}
