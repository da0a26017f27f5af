from collections.abc import Iterator

from parity.pieces import Piece, Rng
from parity.tanks import call, fuel_log


def calls(rng: Rng) -> Iterator[Piece]:
    """Whole logs, and the same continued from their first half."""
    for _ in range(12):
        setup, entries = fuel_log(rng, int(rng.integers(1, 30)))
        half = call("fuel_log", "read_fuel_log", setup=setup, entries=entries[: len(entries) // 2])
        near = {"rel": 1e-7, "abs": 1e-6}
        yield {"function": "read_fuel_log", "in": {"setup": setup, "entries": entries}, **near}
        yield {
            "function": "read_fuel_log",
            "in": {"setup": setup, "entries": entries, "previous": half},
            **near,
        }
        yield {"function": "accuracy_of", "in": {"setup": setup}}
