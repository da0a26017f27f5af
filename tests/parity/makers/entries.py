from collections.abc import Iterator

from parity.pieces import Piece, Rng, number
from parity.tanks import fuel_log, water_log


def calls(rng: Rng) -> Iterator[Piece]:
    for made in (fuel_log, water_log):
        for _ in range(4):
            setup, entries = made(rng, 20)
            for one in entries:
                yield {"function": "check_entry", "in": {"entry": one, "tanks": setup["tanks"]}}
                yield {"function": "check_place", "in": {"entry": one, "latest_s": 2e6}}
        tank = {"id": "main", "capacity_l": number(rng, 20, 120)}
        yield {"function": "check_fits", "in": {"litres_l": number(rng, 0, 150), "tank": tank}}
    yield {"function": "tank_of", "in": {"tanks": [{"id": "main", "capacity_l": 80.0}], "tank_id": "main"}}
