from collections.abc import Iterator

from parity import planned_books
from parity.pieces import Piece, Rng, number


def calls(rng: Rng) -> Iterator[Piece]:
    """Random plans, a tank of each, litres now asked about and now not."""
    made = 0
    while made < 40:
        given = planned_books.given(rng)
        tanks = given["book"]["tanks"]
        if not tanks:
            continue
        made += 1
        tank_id = tanks[int(rng.integers(len(tanks)))]["id"]
        asked = {**given, "day": "2026-05-01", "tank_id": tank_id, "confidence": number(rng, 0.6, 0.999)}
        litres = {"litres_l": number(rng, 0, 200)} if made % 2 else {}
        yield {"function": "fill_room", "in": {**asked, **litres}, "rel": 1e-8, "abs": 1e-7}
