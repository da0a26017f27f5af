from collections.abc import Iterator

from parity.pieces import Piece, Rng, number
from parity.tanks import WATER_KAPPAS, bank_of, call, water_log


def calls(rng: Rng) -> Iterator[Piece]:
    for _ in range(30):
        setup, _ = water_log(rng, 0)
        people = {"presences": setup["presences"]}
        start, end = sorted(number(rng, -1, 12) * 86_400 for _ in range(2))
        made = call("water", "water_model", tanks=setup["tanks"], rate=number(rng, 3, 12))
        full = [
            {"kind": "full", "tank_ids": ["fresh"]},
            {"kind": "use", "amount": number(rng, 0, 9), "class_id": "all"},
        ]
        yield {"function": "water_model", "in": {"tanks": setup["tanks"], "rate": number(rng, 3, 12)}}
        yield {"function": "person_days", "in": {**people, "from_s": start, "until_s": end}}
        yield {"function": "people_at", "in": {**people, "at_s": end}}
        yield {
            "function": "floor_days",
            "in": {
                "litres_l": number(rng, 0, 90),
                "people": number(rng, 0.5, 4),
                "reserve_l": 5.0,
                "rate_l": number(rng, 1, 12),
            },
        }
        days = {
            "bank": bank_of(made, WATER_KAPPAS, full),
            "people": number(rng, 0.5, 4),
            "p": 0.95,
            "reserve_l": 5.0,
        }
        yield {"function": "days_at", "in": days, "rel": 1e-6, "abs": 1e-4}
