from collections.abc import Iterator

from parity.pieces import Piece, Rng, chance, readings, spread


def calls(rng: Rng) -> Iterator[Piece]:
    """Readings that fix all axles, some, or none, with and without redundancy."""
    for _ in range(60):
        taken = readings(rng, ("front", "rear", "trailer_axles") if chance(rng, 0.5) else ("front", "rear"))
        given = {"readings": taken, "covariance": spread(rng, len(taken), 30.0)}
        yield {"function": "axle_loads", "in": given, "rel": 1e-8}
        names = sorted({axle for one in taken for axle in one["axles"]})
        sums = [[float(axle in one["axles"]) for axle in names] for one in taken]
        wanted = {axle: [float(axle == other) for other in names] for axle in names}
        yield {
            "function": "fixed_sums",
            "in": {
                "sums": sums,
                "values_kg": [one["value_kg"] for one in taken],
                "covariance": given["covariance"],
                "wanted": wanted | {"all": [1.0] * len(names)},
            },
            "rel": 1e-8,
        }
