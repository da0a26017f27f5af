from collections.abc import Iterator

from parity.pieces import Piece, Rng, number
from parity.tanks import event, model


def calls(rng: Rng) -> Iterator[Piece]:
    """Events that may be, and some that may not."""
    for _ in range(80):
        made = model(rng)
        one = event(rng, made)
        if "litres_l" in one:
            one["litres_l"] = number(rng, -5, 100)
        given = {"event": one, "tanks": len(made["tank_ids"]), "capacity_l": made["capacity_l"][0]}
        yield {"function": "check_event", "in": given}
        yield {"function": "check_shares", "in": {"shares": rng.dirichlet([1.0] * 3).tolist(), "tanks": 3}}
        yield {"function": "is_observation", "args": [one]}
