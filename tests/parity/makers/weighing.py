from collections.abc import Iterator

from parity.pieces import Piece, Rng, bridge, chance, number, readings, setup


def calls(rng: Rng) -> Iterator[Piece]:
    """Readings of two and three axles on any scale."""
    for _ in range(60):
        scale, where = bridge(rng), setup(rng, number(rng, 2.5, 4))
        taken = readings(rng, ("front", "rear", "trailer_axles") if chance(rng, 0.4) else ("front", "rear"))
        if chance(rng, 0.3):
            taken = [{**one, "deck": str(rng.choice(["left", "right"]))} for one in taken]
        given = {"readings": taken, "bridge": scale, "setup": where}
        share = {"with_gain": chance(rng, 0.5), "own_share": number(rng, 0, 1)}
        yield {"function": "reading_covariance", "in": {**given, **share}}
        yield {"function": "reading_error", "in": {"reading": taken[0], "bridge": scale, "setup": where}}
        again = [{**one, "id": f"{one['id']} again", "value_kg": one["value_kg"] + 20} for one in taken[:2]]
        yield {"function": "merge_repeats", "in": {"readings": [*taken, *again]}}
