from collections.abc import Iterator

from parity.pieces import Piece, Rng, chance, number
from parity.road_books import AT, book, route
from parity.tanks import FUEL_KAPPAS, bank_of, call, counting, events, mix, model, worked_out


def calls(rng: Rng) -> Iterator[Piece]:
    """Random books and routes, and banks of their own; litres to 1e-3, as root finding allows."""
    for _ in range(12):
        record, given = _asked(rng)
        given = {"book": book(rng), "route": record, "at": AT, "p": number(rng, 0.8, 0.99), **given}
        for holds in ("fuel", "water"):
            yield {"function": "supplies_ahead", "in": {**given, "holds": holds}, "rel": 1e-6, "abs": 1e-3}
    for _ in range(12):
        (record, given), made = _asked(rng), model(rng)
        record["legs"] = [
            {**leg, "surface": mix(rng, made["class_ids"]), "towing": False} for leg in record["legs"]
        ]
        full = {"kind": "full", "tank_ids": made["tank_ids"]}
        banks = [worked_out(bank_of(made, FUEL_KAPPAS, [*events(rng, made, 3), full])) for _ in range(2)]
        way = call("itinerary", "itinerary", route=record, shares={}, aboard=["ann"], **given)
        given = {
            "banks": banks,
            "way": way,
            "holds": "fuel",
            "counting": counting(rng),
            "from_km": 0.0,
            **given,
        }
        yield {"function": "next_supplies", "in": {**given, "most": 3}, "rel": 1e-6, "abs": 1e-3}


def _asked(rng: Rng) -> tuple[Piece, Piece]:
    record = route(rng)
    total = sum(leg["distance_km"] for leg in record["legs"])
    return record, {"from_km": number(rng, 0, 1) * total} if chance(rng, 0.6) else {}
