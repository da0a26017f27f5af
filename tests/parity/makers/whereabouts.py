from collections.abc import Iterator

from parity.pieces import Piece, Rng, chance, number
from parity.road_books import route


def calls(rng: Rng) -> Iterator[Piece]:
    """Random routes, some of whose supplies are placed."""
    for _ in range(60):
        record = route(rng)
        record["supplies"] = [
            {**one, **(_spot(rng) if chance(rng, 0.7) else {})} for one in record["supplies"]
        ]
        yield {"function": "along_route", "in": {"route": record, "spot": _spot(rng)}, "abs": 1e-6}


def _spot(rng: Rng) -> Piece:
    return {"latitude_deg": number(rng, -30, -20), "longitude_deg": number(rng, 120, 130)}
