from collections.abc import Iterator

from parity.makers.along import happenings, vessels
from parity.pieces import Piece, Rng


def calls(rng: Rng) -> Iterator[Piece]:
    for _ in range(20):
        made = vessels(rng)
        yield {"function": "check_vessels", "in": {"vessels": made}}
        given = {
            "vessels": made,
            "events": [one for one in happenings(rng) if one],
            "rows": ["front", "rear"],
        }
        yield {"function": "check_happenings", "in": given}
