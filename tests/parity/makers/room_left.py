from collections.abc import Iterator

from parity import planned_books, weighed_books
from parity.pieces import Piece, Rng, chance, number
from vectors import towing_books


def calls(rng: Rng) -> Iterator[Piece]:
    """Random plans, random books whose weighings correct the plan, and books with a trailer."""
    for n in range(60):
        given = planned_books.given(rng) if n % 2 else _weighed(rng)
        asked = {
            **given,
            "day": "2026-05-01",
            "confidence": number(rng, 0.6, 0.999),
            "any_level": chance(rng, 0.5),
        }
        yield {"function": "room_left", "in": asked, "abs": 1e-7}
        if n % 2:
            call = {"module": "room_left", "function": "room_left", "in": asked}
            yield {
                "function": "bounds_on",
                "in": {"room": {"$call": call}, "roof": chance(rng, 0.3)},
                "abs": 1e-7,
            }

    for book in towing_books.books().values():
        for on in ((), ("t",)):
            asked = {
                "book": book,
                "state": _towing(rng, on),
                "day": "2026-05-08",
                "any_level": chance(rng, 0.5),
            }
            yield {"function": "room_left", "in": asked, "abs": 1e-7}


def _towing(rng: Rng, on: tuple[str, ...]) -> Piece:
    levels = [
        {"tank_id": id, "level": number(rng, 0, 1), "level_u": 0.02, "known_from": "dip"}
        for id in ("main", "drum")
    ]
    return {"tanks": levels, "seats": [], "items_away": [], "trailers_on": list(on)}


def _weighed(rng: Rng) -> Piece:
    levels = [
        {"tank_id": id, "level": number(rng, 0, 1), "level_u": number(rng, 0, 0.1), "known_from": "dip"}
        for id in ("fuel", "water", "can")
    ]
    seat = {"seat_id": "s1", "mass_kg": 80.0, "mass_u_kg": 3.0, "person_id": None}
    return weighed_books.given(
        rng, state={"tanks": levels, "seats": [seat], "items_away": [], "trailers_on": []}
    )
