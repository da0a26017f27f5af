from collections.abc import Iterator

from parity.makers.reconcile import book
from parity.pieces import Piece, Rng, bridge, number, readings, setup


def calls(rng: Rng) -> Iterator[Piece]:
    """Doubts of every size; candidates that are not among the readings."""
    for _ in range(40):
        before = number(rng, 0, 30)
        given = {"limit_kg": number(rng, 1400, 1600), "value_kg": number(rng, 1400, 1600)}
        given |= {
            "before_u_kg": before,
            "after_u_kg": number(rng, 0, before),
            "confidence": number(rng, 0.5, 0.99),
        }
        yield {"function": "settle_chance", "in": given}
        taken = readings(rng)
        where = {
            "readings": taken,
            "bridge": bridge(rng),
            "setup": setup(rng, 3.0),
            "candidates": _missing(taken),
        }
        yield {"function": "next_by_readings", "in": {**where, "deck": {}, "row": "rear", "limit_kg": 1520.0}}
    for _ in range(10):
        whole = book(rng, least=1)
        first = whole["sessions"][0]
        asked = {**whole, "session_id": first["id"], "candidates": _missing(first["readings"])}
        yield {"function": "next_by_plan", "in": {**asked, "row": "rear", "limit_kg": 1520.0}, "rel": 1e-7}


def _missing(taken: list[Piece]) -> list[Piece]:
    sets = [["front"], ["rear"], ["front", "rear"]]
    seen = [sorted(one["axles"]) for one in taken]
    return [
        {"id": "+".join(one), "axles": one, "value_kg": 1500.0 * len(one), "split": len(one) == 1}
        for one in sets
        if one not in seen
    ]
