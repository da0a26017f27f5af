from collections.abc import Iterator

from parity.log_books import given
from parity.pieces import Piece, Rng


def calls(rng: Rng) -> Iterator[Piece]:
    """The same books as fuel logs, water logs, levels, and who was there."""
    near = {"rel": 1e-7, "abs": 1e-6}
    for _ in range(8):
        book, until = given(rng), f"2026-05-{int(rng.integers(4, 15)):02d}T12:00:00Z"
        yield {"function": "fuel_log_of", "in": {"book": book, "until": until}, **near}
        yield {"function": "water_log_of", "in": {"book": book, "until": until}, **near}
        yield {"function": "levels_at", "in": {"book": book, "at": until}, **near}
        yield {"function": "presences", "in": {"book": book, "from_s": 1_777_593_600.0}}
