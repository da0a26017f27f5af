from collections.abc import Iterator

from parity.pieces import Piece, Rng, number
from parity.road_books import AT, PEOPLE, book, route, state


def calls(rng: Rng) -> Iterator[Piece]:
    """Without anything drawn: what comes and goes alone. With it: `road`."""
    for _ in range(60):
        record, opened = route(rng), book(rng)
        way = [{"distance_km": leg["distance_km"], "way": {}, "points": 2} for leg in record["legs"]]
        total = sum(leg["distance_km"] for leg in record["legs"])
        from_km = number(rng, 0, 1) * total if rng.random() < 0.4 else 0.0
        aboard = [name for name in PEOPLE if rng.random() < 0.7]
        trip = {"book": opened, "route": record, "at": AT, "from_km": from_km, "way": way, "aboard": aboard}
        yield {"function": "road_loads", "in": {"trip": trip, "state": state(rng), "drawn": {}}}
