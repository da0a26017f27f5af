from collections.abc import Iterator

from parity.pieces import Piece, Rng, chance, number
from parity.tanks import FUEL_KAPPAS, bank_of, counting, cut_places, events, model, stretches


def calls(rng: Rng) -> Iterator[Piece]:
    """Places and litres that are searched for to the width at which the search stops."""
    for _ in range(40):
        made = model(rng)
        bank = bank_of(
            made, FUEL_KAPPAS, [*events(rng, made, 4), {"kind": "full", "tank_ids": made["tank_ids"]}]
        )
        way = stretches(rng, made["class_ids"])
        stops = [_stop(rng, at) for at in cut_places(rng, way)]
        given = {"bank": bank, "stretches": way, "stops": stops, "counting": counting(rng)}
        yield {
            "function": "takes_on",
            "in": {"stop": stops[0], "from_km": number(rng, 0, 9), "to_km": number(rng, 9, 99)},
        }
        if chance(rng, 0.4):
            given["from_km"] = cut_places(rng, way)[0]
        yield {"function": "route_answer", "in": {**given, "p": number(rng, 0.6, 0.98)}, "abs": 1e-6}


def _stop(rng: Rng, at_km: float) -> Piece:
    stop: Piece = {"at_km": at_km, "counted": chance(rng, 0.6)}
    return {**stop, "take_l": number(rng, 0, 90)} if chance(rng, 0.4) else stop
