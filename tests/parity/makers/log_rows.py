from collections.abc import Iterator

from parity.log_books import given
from parity.pieces import Piece, Rng


def calls(rng: Rng) -> Iterator[Piece]:
    for n in range(12):
        book, until = given(rng), f"2026-05-{int(rng.integers(1, 15)):02d}T12:00:00Z"
        yield {"function": "seconds", "args": [until]}
        for holds in ("fuel", "water"):
            yield {"function": "tanks_of", "in": {"book": book, "holds": holds}}
            yield {"function": f"{holds}_entries", "in": {"book": book, "until": until if n % 2 else None}}
        yield {"function": "rows_until", "in": {"rows": book["fills"], "until": until}}
