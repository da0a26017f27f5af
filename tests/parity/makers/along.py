from collections.abc import Iterator

from parity.pieces import Piece, Rng, chance, geometry, number, parts
from parity.tanks import call, worked_out

ROWS = ["front", "rear", "gross"]


def calls(rng: Rng) -> Iterator[Piece]:
    for _ in range(80):
        where = geometry(rng)
        made = vessels(rng, trailer="trailer" in where)
        rest = [worked_out(_loads(rng, where)) for _ in range(2)]
        events = [{"kind": "rest", "loads": rest[1]} if one is None else one for one in happenings(rng)]
        limits = {row: number(rng, 800, 3500) for row in ROWS if chance(rng, 0.7)}
        given = {"fixed": rest[0], "vessels": made, "events": events, "geometry": where, "limits": limits}
        yield {"function": "loads_along", "in": {**given, "from_km": number(rng, 0, 200)}}


def _loads(rng: Rng, where: Piece) -> Piece:
    return call("statics", "loads", parts=parts(rng, where, 4), geometry=where, rows=ROWS)


def vessels(rng: Rng, *, trailer: bool = False) -> list[Piece]:
    """Two fuel tanks, one or two of water, a grey one; some on the trailer."""
    out = [
        {"id": "main", "holds": "fuel", "drain_order": 2},
        {"id": "sub", "holds": "fuel", "drain_order": int(rng.integers(1, 4))},
        {"id": "fresh", "holds": "water", "grey_id": "grey", "grey_fraction": number(rng, 0, 1)},
        {"id": "grey", "holds": "grey"},
    ]
    if chance(rng, 0.5):
        out.insert(
            2, {"id": "second", "holds": "water", "grey_id": "grey", "grey_fraction": number(rng, 0, 1)}
        )
    for one in out:
        capacity = number(rng, 30, 120)
        litres = 0.0 if one["holds"] == "grey" else capacity * number(rng, 0.3, 1)
        one |= {"capacity_l": capacity, "litres_l": litres, "x_m": number(rng, -0.5, 5)}
        one |= {"litres_u_l": number(rng, 0, 5), "density_kg_per_l": number(rng, 0.7, 1)}
        one |= {"density_u_kg_per_l": number(rng, 0, 0.02), "x_u_m": number(rng, 0, 0.2)}
        if chance(rng, 0.4):
            one["full_u_l"] = number(rng, 0, 4)
        if trailer and chance(rng, 0.3):
            one["on"] = "t"
    return out


def happenings(rng: Rng) -> list[Piece | None]:
    """Ways, refills of all that was used; None stands for a change of the rest."""
    events: list[Piece | None] = []
    for _ in range(int(rng.integers(1, 4))):
        used = {"fuel": number(rng, 0, 45), "water": number(rng, 0, 25)}
        left = {holds: number(rng, 0, 9) for holds in used if chance(rng, 0.7)}
        events.append({"kind": "way", "distance_km": number(rng, 0, 400), "used_l": used, "left_u_l": left})
        if chance(rng, 0.5):
            events.append({"kind": "empty", "tank_id": "grey"})
        if chance(rng, 0.5):
            events += [{"kind": "take", "holds": holds, "litres_u_l": 1.0} for holds in used]
        elif chance(rng, 0.5):
            events.append(
                {"kind": "take", "holds": "fuel", "litres_l": number(rng, 0, 12), "litres_u_l": 0.2}
            )
        if chance(rng, 0.3):
            events.append(None)
    return events
