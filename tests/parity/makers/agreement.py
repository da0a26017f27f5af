from collections.abc import Iterator

from parity.pieces import Piece, Rng, chance, readings, spread


def calls(rng: Rng) -> Iterator[Piece]:
    """Readings that fix all axles, some, or none, with and without redundancy."""
    for _ in range(60):
        taken = readings(rng, ("front", "rear", "trailer_axles") if chance(rng, 0.5) else ("front", "rear"))
        given = {"readings": taken, "covariance": spread(rng, len(taken), 30.0)}
        yield {"function": "axle_loads", "in": given, "rel": 1e-8}
        yield {"function": "agreement", "in": given, "rel": 1e-8}
        yield {"function": "fixed_load", "in": {**given, "axles": taken[-1]["axles"]}}
