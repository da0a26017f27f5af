from collections.abc import Iterator

from parity.pieces import Piece, Rng
from parity.tanks import call, water_log


def calls(rng: Rng) -> Iterator[Piece]:
    """Whole logs, and the same continued from their first half."""
    for _ in range(15):
        setup, entries = water_log(rng, int(rng.integers(1, 25)))
        half = call("water_log", "read_water_log", setup=setup, entries=entries[: len(entries) // 2])
        near = {"rel": 1e-7, "abs": 1e-6}
        yield {"function": "read_water_log", "in": {"setup": setup, "entries": entries, "now_s": 1e6}, **near}
        yield {
            "function": "read_water_log",
            "in": {"setup": setup, "entries": entries, "previous": half},
            **near,
        }
