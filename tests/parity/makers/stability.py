from collections.abc import Iterator

from parity.pieces import Piece, Rng, geometry, number, parts


def calls(rng: Rng) -> Iterator[Piece]:
    """Centres of gravity with and without known heights."""
    for i in range(60):
        aboard = parts(rng, geometry(rng))
        if i % 2:
            aboard = [{"z_m": number(rng, 0.4, 2), "z_u_m": number(rng, 0, 0.1), **one} for one in aboard]
        yield {
            "function": "centre_of_gravity",
            "in": {"parts": aboard, "base_correlation": number(rng, -1, 1)},
        }
        given = {
            "track_m": number(rng, 1, 2),
            "height_m": number(rng, 0.3, 2),
            "height_u_m": number(rng, 0, 0.2),
        }
        yield {"function": "static_stability", "in": given}
