from collections.abc import Iterator

from parity.makers.deck import _person, _reading
from parity.pieces import Piece, Rng, bridge, chance, geometry, number, setup

SETS = (["front"], ["rear"], ["front", "rear"])


def calls(rng: Rng) -> Iterator[Piece]:
    """Three readings that hardly agree, one of them now and then made of another by a slip."""
    for _ in range(40):
        towed = chance(rng, 0.4)
        where = geometry(rng, trailer=towed, group=False)
        deck = {"towed": towed, "geometry": where, "occupants": [_person(rng, name) for name in ("a", "b")]}
        front, rear = number(rng, 1100, 1500), number(rng, 1300, 2000)
        values = [front, rear, front + rear + (80.0 if chance(rng, 0.3) else 0.0)]
        readings = [
            {**_reading(rng, i, axles, False), "value_kg": round(value / 10) * 10.0}
            for i, (axles, value) in enumerate(zip(SETS, values, strict=True))
        ]
        if chance(rng, 0.5):
            readings[1]["axles"] = ["front"]
        scale = {"bridge": bridge(rng) | {"percent": None}, "setup": setup(rng, where["wheelbase_m"])}
        scale["setup"] |= {"level_correlation": 0.0}
        given = {"readings": readings, **scale, "deck": deck}
        typed = {one["id"]: {"digits": f"{one['value_kg']:.0f}"} for one in readings}
        yield {"function": "slips", "in": {**given, "typed": typed}, "rel": 1e-7}
        yield {"function": "to_repeat", "in": {**given, "planned": None}}
        yield {"function": "repeats_apart", "in": {"readings": readings, "bridge": scale["bridge"]}}
