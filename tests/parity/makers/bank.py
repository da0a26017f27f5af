from collections.abc import Iterator

from parity.pieces import Piece, Rng, number
from parity.tanks import FUEL_KAPPAS, bank_of, event, events, model


def calls(rng: Rng) -> Iterator[Piece]:
    for _ in range(40):
        made = model(rng)
        bank = bank_of(made, FUEL_KAPPAS, events(rng, made, int(rng.integers(1, 9))))
        seen = {"kind": "gauge", "tank_id": made["tank_ids"][-1], "fraction": number(rng, 0, 1)}
        yield {"function": "bank_prior", "in": {"model": made, "kappas": FUEL_KAPPAS}}
        yield {"function": "bank_advance", "in": {"bank": bank, "event": event(rng, made)}}
        yield {"function": "bank_innovation", "in": {"bank": bank, "event": seen}}
        for name in ("bank_weights", "bank_state", "bank_total"):
            yield {"function": name, "in": {"bank": bank}}
        weights = rng.dirichlet([1.0] * 3).tolist()
        means, variances = ([number(rng, low, 9) for _ in range(3)] for low in (-9, 0))
        yield {"function": "mixture", "in": {"means": means, "variances": variances, "weights": weights}}
