from collections.abc import Iterator

from parity.pieces import Piece, Rng, chance, number


def calls(rng: Rng) -> Iterator[Piece]:
    for n in range(30):
        indicated = number(rng, 5, 400)
        given = {"indicated_km": indicated, "true_km": indicated * number(rng, 0.7, 1.4)}
        own = {"true_u_km": number(rng, 0, 2)} if chance(rng, 0.5) else {}
        yield {"function": "measured_factor", "in": {**given, "how": "track" if n % 2 else "posts", **own}}
