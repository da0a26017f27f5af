from collections.abc import Iterator

from parity.pieces import Piece, Rng, chance, number


def calls(rng: Rng) -> Iterator[Piece]:
    """Verdicts near and far from the limit, and ranges of tanks."""
    for _ in range(80):
        limit = None if chance(rng, 0.1) else number(rng, 500, 4000)
        value = number(rng, -50, 4000) if limit is None or chance(rng, 0.3) else limit + number(rng, -60, 60)
        given = {"rating": "rear", "value_kg": value, "u_kg": number(rng, 0, 40), "limit_kg": limit}
        yield {"function": "verdict", "in": {**given, "confidence": number(rng, 0.5, 0.999)}}
        yield {
            "function": "any_over",
            "in": {"probabilities": rng.uniform(size=int(rng.integers(0, 5))).tolist()},
        }
        tanks = [
            {"share": number(rng, -1, 1), "least_kg": number(rng, 0, 20), "greatest_kg": number(rng, 20, 120)}
            for _ in range(int(rng.integers(0, 5)))
        ]
        yield {"function": "extremes", "in": {"fixed_kg": number(rng, 0, 3000), "tanks": tanks}}
