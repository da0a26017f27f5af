from collections.abc import Iterator

from parity.pieces import Piece, Rng, geometry
from parity.planned_books import given


def calls(rng: Rng) -> Iterator[Piece]:
    """Plans whose heights are all known, or some of them."""
    for n in range(60):
        yield {
            "function": "plan_centre",
            "in": {**given(rng, heights=0.8 if n % 3 == 0 else 1.0), "ordered": n % 2 == 0},
            "abs": 1e-10,
        }
        yield {"function": "mean_track_m", "in": {"geometry": geometry(rng)}}
