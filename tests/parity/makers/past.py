from collections.abc import Iterator

from parity.pieces import Piece, Rng
from parity.tanks import call, fuel_log


def calls(rng: Rng) -> Iterator[Piece]:
    for _ in range(20):
        setup, entries = fuel_log(rng, int(rng.integers(1, 16)))
        log = call("fuel_log", "read_fuel_log", setup=setup, entries=entries)
        yield {"function": "rates_over_time", "in": {"log": log}, "rel": 1e-6, "abs": 1e-6}
