from collections.abc import Iterator

from parity.pieces import Piece, Rng, number
from parity.road_books import PEOPLE, book, route


def calls(rng: Rng) -> Iterator[Piece]:
    for _ in range(60):
        record, aboard = route(rng), [name for name in PEOPLE if rng.random() < 0.7]
        total = sum(leg["distance_km"] for leg in record["legs"])
        shares = {name: number(rng, 0, 1) for name in PEOPLE}
        from_km = number(rng, 0, 1) * total if rng.random() < 0.5 else 0.0
        given = {"route": record, "shares": shares, "aboard": aboard, "from_km": from_km}
        shut = [n for n in range(len(record["supplies"])) if rng.random() < 0.3]
        yield {"function": "itinerary", "in": {**given, "towing": bool(rng.random() < 0.5), "shut": shut}}
        here = {"route": record, "aboard": aboard, "at_km": number(rng, 0, 1) * total, "from_km": from_km}
        yield {"function": "travellers", "in": here}
        on = ["t"] if rng.random() < 0.4 else []
        yield {"function": "trailers_for", "in": {"book": book(rng), "route": record, "trailers_on": on}}
        yield {"function": "supplies_of", "in": {"route": record}}
        yield {"function": "changes_of", "in": {"route": record}}
