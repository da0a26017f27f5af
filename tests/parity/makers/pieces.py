from collections.abc import Iterator

from parity.pieces import Piece, Rng, number
from parity.tanks import cut_places, stretches


def calls(rng: Rng) -> Iterator[Piece]:
    for _ in range(40):
        way = stretches(rng, ["sealed", "sand"])
        given = {"stretches": way, "at_km": cut_places(rng, way)}
        yield {"function": "cut_way", "in": {**given, "from_km": cut_places(rng, way)[0]}}
        piece = {"from_km": 0.0, "to_km": number(rng, 0, 300), "way": {"sealed": number(rng, 0, 300)}}
        yield {"function": "part_of", "in": {"piece": piece, "share": number(rng, 0, 1)}}
        yield {"function": "way_back", "in": {"pieces": [piece], "to_km": number(rng, 0, 300)}}
