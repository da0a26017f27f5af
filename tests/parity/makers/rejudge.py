from collections.abc import Iterator

from parity.pieces import Piece, Rng, chance, number

ROWS = ("front", "rear", "gross")


def calls(rng: Rng) -> Iterator[Piece]:
    """What was judged by readings, by the plan or not at all, against ratings that are near."""
    for _ in range(40):
        ratings = [rating(rng, row) for row in ROWS if chance(rng, 0.9)]
        given = {"judged": [judged(rng, row) for row in ROWS], "ratings": ratings}
        yield {"function": "rejudged", "in": {**given, "confidence": number(rng, 0.5, 0.999)}}


def rating(rng: Rng, row: str) -> Piece:
    limit = None if chance(rng, 0.2) else number(rng, 1400, 1600)
    return {"rating": row, "limit_kg": limit, "plate_id": None if limit is None else "p", "also": []}


def judged(rng: Rng, row: str) -> Piece:
    source = str(rng.choice(["readings", "plan", "none"]))
    why = "not_weighed" if source == "none" else "readings_disagree" if chance(rng, 0.3) else None
    value, u = (0.0, 0.0) if source == "none" else (number(rng, 1400, 1600), number(rng, 0, 30))
    verdict = {
        "rating": row, "limit_kg": 1500.0, "value_kg": value, "u_kg": u, "reach_kg": 1.6449 * u,
        "margin_kg": 1500.0 - value, "over_probability": 0.5, "word": "cannot_tell",
    }  # fmt: skip
    return {"verdict": verdict, "source": source, "why": why}
