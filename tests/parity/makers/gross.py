from collections.abc import Iterator

from parity.makers.reconcile import book
from parity.pieces import Piece, Rng, chance, number, spread


def calls(rng: Rng) -> Iterator[Piece]:
    """Random signatures, some of them parallel, and whole books."""
    for _ in range(40):
        r = int(rng.integers(1, 7))
        columns = [rng.normal(size=r).tolist() for _ in range(int(rng.integers(1, 8)))]
        columns += [[-2.0 * x for x in columns[0]], [0.0] * r]
        signatures = [
            {
                "id": f"m{i}",
                "kind": "mass",
                "column": one,
                "mass_kg": number(rng, 0, 2) if chance(rng, 0.7) else None,
            }
            for i, one in enumerate(columns)
        ]
        given = {
            "innovation": rng.normal(size=r).tolist(),
            "spread": spread(rng, r),
            "signatures": signatures,
        }
        tested = {"$call": {"module": "gross", "function": "suspects", "in": given}}
        yield {"function": "suspects", "in": given}
        yield {"function": "shortlist", "in": {"suspects": tested}}
        yield {"function": "likely_causes", "in": {"suspects": tested}}
    for _ in range(15):
        posterior = {"$call": {"module": "reconcile", "function": "reconcile", "in": book(rng, least=1)}}
        yield {"function": "suspects_of", "in": {"posterior": posterior}, "rel": 1e-8}
