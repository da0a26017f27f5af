from collections.abc import Iterator

from parity.log_books import given
from parity.pieces import Piece, Rng


def calls(rng: Rng) -> Iterator[Piece]:
    """An entry of each log, with each surface ahead."""
    made = 0
    while made < 21:
        book = given(rng)
        rows = [*book["fills"], *book["dips"], *book["transfers"], *book["events"]]
        if not rows:
            continue
        entry_id = rows[int(rng.integers(len(rows)))]["id"]
        for surface in ("sealed", "gravel", "sand"):
            given_in = {"book": book, "entry_id": entry_id, "mix": {surface: 1.0}}
            yield {"function": "entry_effect", "in": given_in, "rel": 1e-7, "abs": 1e-5}
            made += 1
