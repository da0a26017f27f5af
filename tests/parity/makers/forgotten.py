from collections.abc import Iterator

from parity.pieces import Piece, Rng, chance, geometry, number, part


def calls(rng: Rng) -> Iterator[Piece]:
    """Random items, some of them moved."""
    for _ in range(60):
        where = geometry(rng)
        added = [part(rng, f"item {n}", where) for n in range(int(rng.integers(0, 12)))]
        share = number(rng, 0.005, 0.2)
        given = {"added": added, "share": share}
        yield {"function": "forgotten_part", "in": given}
        own = {"id": "own", "mass_kg": 5.0, "mass_u_kg": 1.0, "x_m": 2.0}
        yield {"function": "counts", "in": {"part": added[0] if added else own}}
        made = {"module": "forgotten", "function": "forgotten_part", "in": {**given, "added": [own, *added]}}
        before = [one for one in added if chance(rng, 0.4)]
        after = [{**one, "x_m": number(rng, -1, 6)} for one in before]
        moved = {"part": {"$call": made}, "share": share, "before": before, "after": after}
        yield {"function": "forgotten_after", "in": moved}
