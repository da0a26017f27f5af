from collections.abc import Iterator

from parity.pieces import Piece, Rng, number
from parity.tanks import FUEL_KAPPAS, bank_of, call, counting, events, mix, model


def calls(rng: Rng) -> Iterator[Piece]:
    """Ranges to 0.01 km, as root finding allows; all else to 1e-9."""
    for _ in range(40):
        made = model(rng)
        bank = bank_of(
            made, FUEL_KAPPAS, [*events(rng, made, 4), {"kind": "full", "tank_ids": made["tank_ids"]}]
        )
        ahead, count = mix(rng, made["class_ids"]), counting(rng)
        given = {"bank": bank, "mix": ahead, "counting": count}
        yield {"function": "reach", "in": {**given, "amount": number(rng, 0, 900)}}
        yield {"function": "range_at", "in": {**given, "p": number(rng, 0.5, 0.99)}, "rel": 1e-6, "abs": 0.01}
        parts = [[number(rng, -20, 90), number(rng, 0, 200)] for _ in range(4)]
        levels = {"parts": parts, "weights": [float(one) for one in rng.dirichlet([1.0] * 4)]}
        yield {"function": "untouched", "in": {**levels, "reserve_l": number(rng, 0, 15)}}
        yield {"function": "litres_at", "in": {**levels, "p": number(rng, 0.05, 0.99)}, "abs": 1e-8}
        state = call("filter", "prior", model=made)
        left = {"model": made, "kappa": 0.1, "estimate": state, "mix": ahead, "amount": number(rng, 0, 900)}
        yield {"function": "left_after", "in": {**left, "counting": count}}
        yield {"function": "check_mix", "in": {"mix": ahead}}
        yield {"function": "check_counting", "in": {"counting": count}}
