from collections.abc import Iterator

from parity.pieces import Piece, Rng, number, spread


def calls(rng: Rng) -> Iterator[Piece]:
    """Masses from nothing to many sd."""
    for _ in range(120):
        w = spread(rng, 2, number(rng, 1, 400))
        given = {"moment_kgm": number(rng, -600, 600), "mass_kg": number(rng, -200, 200), "w_aa": w[0][0]}
        yield {"function": "fieller", "in": {**given, "w_ab": w[0][1], "w_bb": w[1][1]}}
