from collections.abc import Iterator

from parity.pieces import Piece, Rng, number
from parity.tanks import call, water_log


def calls(rng: Rng) -> Iterator[Piece]:
    for _ in range(25):
        setup, entries = water_log(rng, int(rng.integers(1, 15)))
        log = call("water_log", "read_water_log", setup=setup, entries=entries)
        start, end = sorted(number(rng, 0, 12) * 86_400 for _ in range(2))
        asked = {"log": log, "from_s": start, "until_s": end, "fraction": number(rng, 0, 1)}
        yield {"function": "grey_filled", "in": asked, "rel": 1e-8, "abs": 1e-7}
