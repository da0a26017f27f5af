from collections.abc import Iterator

from parity.pieces import Piece, Rng, number
from parity.tanks import FUEL_KAPPAS, events, model


def calls(rng: Rng) -> Iterator[Piece]:
    for _ in range(30):
        made = model(rng)
        through = events(rng, made, int(rng.integers(2, 12)))
        kappa = number(rng, 0.03, 0.3)
        yield {
            "function": "smooth",
            "in": {"model": made, "kappa": kappa, "events": through},
            "rel": 1e-8,
            "abs": 1e-8,
        }
        given = {"model": made, "kappas": FUEL_KAPPAS[:2], "events": through}
        yield {"function": "smooth_bank", "in": given, "rel": 1e-8, "abs": 1e-7}
