from collections.abc import Iterator

from parity.pieces import Piece, Rng
from parity.road_books import AT, book, route


def calls(rng: Rng) -> Iterator[Piece]:
    """Random books with logs and random routes."""
    for _ in range(40):
        record, opened = route(rng), book(rng)
        yield {"function": "placed_km", "in": {"book": opened, "route": record, "at": AT}}
        yield {"function": "people_aboard", "in": {"book": opened, "at": AT}}
