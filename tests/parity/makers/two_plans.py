from collections.abc import Iterator

from parity import edited_books, weighed_books
from parity.pieces import Piece, Rng, number


def calls(rng: Rng) -> Iterator[Piece]:
    """Random books whose plan was edited, on random days, with and without their trailer."""
    for _ in range(80):
        given = {**edited_books.given(rng), "confidence": number(rng, 0.5, 0.99)}
        yield {"function": "two_plans", "in": given, "abs": 1e-8}
    for _ in range(20):
        yield {
            "function": "book_on",
            "in": weighed_books.given(rng, day=f"2026-03-{int(rng.integers(1, 25)):02d}"),
        }
