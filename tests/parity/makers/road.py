from collections.abc import Iterator

from parity.pieces import Piece, Rng, number
from parity.road_books import AT, book, route


def calls(rng: Rng) -> Iterator[Piece]:
    """Random books with logs and random routes; places to 0.01 km, as root finding allows."""
    for _ in range(40):
        record, opened = route(rng), book(rng)
        total = sum(leg["distance_km"] for leg in record["legs"])
        given = {"book": opened, "route": record, "at": AT}
        if rng.random() < 0.5:
            given["from_km"] = number(rng, 0, 1) * total
        if rng.random() < 0.5:
            given["shut"] = [0]
        yield {"function": "road", "in": given, "rel": 1e-6, "abs": 1e-3}
