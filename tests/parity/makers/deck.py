from collections.abc import Iterator

from parity.pieces import Piece, Rng, bridge, chance, geometry, number, setup

COUPLED = (["front"], ["rear"], ["front", "rear"], ["front", "rear", "trailer_axles"], ["trailer_axles"])
APART = (["front", "rear"], ["rear"], ["front"], ["trailer"], ["front", "rear", "trailer"])
SOLO = (
    ["front"],
    ["rear"],
    ["front", "rear"],
    ["front_left"],
    ["front_right"],
    ["rear_1"],
    ["rear_2"],
    ["trailer"],
)


def calls(rng: Rng) -> Iterator[Piece]:
    """Stops in any order, solo and towing, somebody out now and then, lengths known or not."""
    for _ in range(80):
        towed = chance(rng, 0.6)
        where = geometry(rng, trailer=towed, group=False)
        deck: Piece = {"towed": towed, "occupants": [_person(rng, name) for name in ("a", "b")]}
        if chance(rng, 0.8):
            deck["geometry"] = where
        stops = [(one, False) for one in (COUPLED if towed else SOLO) if chance(rng, 0.6)]
        stops += [(one, True) for one in APART if towed and chance(rng, 0.4)]
        readings = [_reading(rng, i, axles, apart) for i, (axles, apart) in enumerate(stops)]
        given = {"readings": readings, "deck": deck}
        yield {"function": "deck_sums", "in": given}
        scale = {"bridge": bridge(rng) | {"percent": None}, "setup": setup(rng, where["wheelbase_m"])}
        scale["setup"] |= {"level_correlation": 0.0}
        yield {"function": "read_deck", "in": {**given, **scale}, "rel": 1e-8}


def _person(rng: Rng, name: str) -> Piece:
    place = {"x_m": number(rng, 0.8, 2.4), "x_u_m": number(rng, 0, 0.2)}
    return {"id": name, "mass_kg": number(rng, 40, 110), "mass_u_kg": number(rng, 1, 4), **place}


def _reading(rng: Rng, i: int, axles: list[str], apart: bool) -> Piece:
    value = round(number(rng, 1000, 1800) * len(axles) / 10) * 10.0
    out: Piece = {"id": f"r{i}", "axles": axles, "value_kg": value, "uncoupled": apart}
    out["without"] = [name for name in ("a", "b") if chance(rng, 0.15)]
    return out | {"split": len(axles) == 1}
