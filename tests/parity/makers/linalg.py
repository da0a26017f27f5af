from collections.abc import Iterator

from parity.pieces import Piece, Rng, spread


def calls(rng: Rng) -> Iterator[Piece]:
    """Systems of one to eight unknowns."""
    for size in (1, 2, 3, 5, 8) * 4:
        a, b = spread(rng, size), rng.normal(size=size).tolist()
        tall, right = rng.normal(size=(size + 3, size)).tolist(), rng.normal(size=size + 3).tolist()
        lower = (abs(rng.normal(size=(size, size))) + 0.5).tolist()
        lower = [[value if j <= i else 0.0 for j, value in enumerate(row)] for i, row in enumerate(lower)]
        yield {"function": "cholesky", "in": {"a": a}}
        for name in ("solve_lower", "solve_upper", "cho_solve"):
            yield {"function": name, "in": {"l": lower, "b": b}, "rel": 1e-7}
        yield {"function": "least_squares", "in": {"a": tall, "b": right}}
        yield {"function": "gram_inverse", "in": {"a": tall}}
        yield {"function": "symmetrise", "in": {"a": lower}}
