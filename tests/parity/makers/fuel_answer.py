from collections.abc import Iterator

from parity.pieces import Piece, Rng, number
from parity.tanks import call, fuel_log


def calls(rng: Rng) -> Iterator[Piece]:
    """Ranges to 0.01 km, as root finding allows."""
    for _ in range(22):
        setup, entries = fuel_log(rng, int(rng.integers(0, 25)))
        log = call("fuel_log", "read_fuel_log", setup=setup, entries=entries)
        yield {
            "function": "fuel_answer",
            "in": {"log": log, "distance_km": number(rng, 0, 900)},
            "rel": 1e-6,
            "abs": 0.01,
        }
    ranges = [
        {
            "litres": {"mean": number(rng, 0, 80), "u": number(rng, 0, 9)},
            "count_on_km": number(rng, 0, 900),
            "likely_km": number(rng, 0, 900),
            "reach": number(rng, 0, 1),
        }
        for _ in range(4)
    ]
    for n in range(1, 5):
        yield {"function": "lower", "in": {"ranges": ranges[:n]}}
