from collections.abc import Iterator

from parity.pieces import Piece, Rng, chance, number
from parity.tanks import call, fuel_log


def calls(rng: Rng) -> Iterator[Piece]:
    for _ in range(20):
        setup, entries = fuel_log(rng, int(rng.integers(4, 20)))
        log = call("fuel_log", "read_fuel_log", setup=setup, entries=entries)
        ids = [one["id"] for one in entries if one["kind"] == "fill"]
        paid = {
            id: {"amount": number(rng, 5, 200), "currency": "XTS" if chance(rng, 0.8) else "XUA"}
            for id in ids
            if chance(rng, 0.9)
        }
        yield {
            "function": "cost_per_distance",
            "in": {"log": log, "fill_ids": ids, "paid": paid},
            "rel": 1e-8,
        }
