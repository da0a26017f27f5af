from collections.abc import Iterator

from parity.pieces import Piece, Rng, chance, number
from parity.weighed_books import given


def calls(rng: Rng) -> Iterator[Piece]:
    """Columns of masses, and accounts of random books on random days."""
    for _ in range(20):
        masses = [number(rng, -90, 3000) for _ in range(int(rng.integers(0, 9)))]
        yield {"function": "whole_kg", "in": {"masses_kg": masses}}
    for _ in range(40):
        day = f"2026-03-{int(rng.integers(1, 25)):02d}" if chance(rng, 0.7) else None
        yield {"function": "account", "in": given(rng, weighing_id="w0", day=day), "abs": 1e-8}
