from collections.abc import Iterator

from parity.pieces import Piece, Rng, part
from parity.weighed_books import given


def calls(rng: Rng) -> Iterator[Piece]:
    """Histories of random books from random days, and the days themselves."""
    for _ in range(20):
        whole = given(rng)
        day = f"2026-03-{int(rng.integers(1, 25)):02d}"
        until = {**whole, "until": f"{day}T12:00:00Z"}
        yield {"function": "plan_days", "in": until}
        yield {"function": "first_day", "in": until}
        weighed = {
            "$call": {"module": "weighed", "function": "planned_day", "in": {**whole, "weighing_id": "w0"}}
        }
        yield {"function": "history", "in": {**whole, "weighed": weighed, "day": day}, "abs": 1e-9}
        geometry = {"wheelbase_m": 3.0}
        parts = [part(rng, f"p{n}", geometry) for n in range(int(rng.integers(0, 5)))]
        yield {"function": "mass_of", "in": {"parts": parts}}
