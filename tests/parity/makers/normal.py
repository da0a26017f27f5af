from collections.abc import Iterator

from parity.pieces import Piece, Rng


def calls(rng: Rng) -> Iterator[Piece]:
    """Over the whole useful range, tails included."""
    for _ in range(80):
        x, p = float(rng.uniform(-37, 10)), float(rng.uniform(0, 1))
        yield {"function": "pdf", "in": {"x": x}, "abs": 0.0}
        yield {"function": "cdf", "in": {"x": x}, "abs": 0.0}
        yield {"function": "quantile", "in": {"p": p}}
        yield {"function": "quantile", "in": {"p": p**12}}
        yield {"function": "z_at", "in": {"confidence": (1 + p) / 2}}
        yield {
            "function": "chi2_upper",
            "in": {"x": float(rng.uniform(0, 60)), "dof": int(rng.integers(1, 20))},
        }
