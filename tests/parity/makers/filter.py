from collections.abc import Iterator

from parity.pieces import Piece, Rng, number
from parity.tanks import FUEL_KAPPAS, call, event, events, model, worked_out


def calls(rng: Rng) -> Iterator[Piece]:
    """Every event from states that other events led to."""
    for _ in range(25):
        made = model(rng)
        yield {"function": "prior", "in": {"model": made}}
        yield {"function": "check_model", "in": {"model": made}}
        yield {
            "function": "rate_drift",
            "in": {"model": made, "class_id": made["class_ids"][-1], "scale": 1.02},
        }
        yield {"function": "shut_off_u", "in": {"model": made}}
        yield {"function": "leg_noise", "in": {"model": made, "class_id": made["class_ids"][0], "kappa": 0.1}}
    for _ in range(60):
        made, kappa = model(rng), number(rng, 0.02, 0.3)
        state = call("filter", "prior", model=made)
        for one in events(rng, made, int(rng.integers(1, 10))):
            state = call("filter", "advance", model=made, kappa=kappa, estimate=state, event=one)
        yield {
            "function": "advance",
            "in": {"model": made, "kappa": kappa, "estimate": state, "event": event(rng, made)},
        }
        yield {"function": "total_left", "in": {"model": made, "estimate": state}}
        seen = {"kind": "gauge", "tank_id": made["tank_ids"][0], "fraction": number(rng, 0, 1)}
        yield {"function": "innovation", "in": {"model": made, "estimate": state, "event": seen}}
        several = [worked_out(state)] * len(FUEL_KAPPAS)
        given = {"model": made, "estimates": several}
        yield {"function": "innovations", "in": {**given, "event": seen}}
        yield {"function": "advance_all", "in": {**given, "kappas": FUEL_KAPPAS, "event": event(rng, made)}}
