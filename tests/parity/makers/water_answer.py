from collections.abc import Iterator

from parity.pieces import Piece, Rng, number
from parity.tanks import call, water_log


def calls(rng: Rng) -> Iterator[Piece]:
    """Days to 1e-4, as root finding allows."""
    for _ in range(25):
        setup, entries = water_log(rng, int(rng.integers(0, 22)))
        log = call("water_log", "read_water_log", setup=setup, entries=entries)
        asked = {"log": log, "now_s": number(rng, 0, 20) * 86_400, "people": number(rng, 0.5, 4)}
        for rate in (3.0, 10.0):
            more = {**asked, "rate_l": rate, "p": number(rng, 0.6, 0.99)}
            yield {"function": "survival", "in": more, "rel": 1e-7, "abs": 1e-6}
        yield {"function": "water_answer", "in": asked, "rel": 1e-6, "abs": 1e-4}
        yield {
            "function": "water_banks",
            "in": {"log": log, "now_s": asked["now_s"]},
            "rel": 1e-8,
            "abs": 1e-8,
        }
    days = [
        {
            "litres": {"mean": number(rng, 0, 80), "u": number(rng, 0, 9)},
            "count_on_days": number(rng, 0, 9),
            "likely_days": number(rng, 0, 9),
            "floor_days": number(rng, 0, 9),
        }
        for _ in range(4)
    ]
    for n in range(1, 5):
        yield {"function": "lower_days", "in": {"days": days[:n]}}
