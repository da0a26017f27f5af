from collections.abc import Iterator

from parity.pieces import Piece, Rng, geometry, number, parts


def calls(rng: Rng) -> Iterator[Piece]:
    """A few tanks anywhere, now and then more than the vertices that are tried."""
    for i in range(50):
        where = geometry(rng)
        aboard = [{**one, "z_m": number(rng, 0.4, 1.6)} for one in parts(rng, where, 5)]
        tanks = [_tank(rng, str(j), where) for j in range(12 if i % 25 == 0 else int(rng.integers(0, 5)))]
        given = {"parts": aboard, "tanks": tanks}
        yield {"function": "envelope", "in": {**given, "geometry": where, "rows": ["front", "rear", "gross"]}}
        limit = number(rng, 1000, 2500)
        yield {
            "function": "worst_chance",
            "in": {**given, "geometry": where, "row": "rear", "limit_kg": limit},
        }
        yield {"function": "height_span", "in": given}


def _tank(rng: Rng, name: str, where: Piece) -> Piece:
    low = number(rng, 0, 0.4)
    tank: Piece = {"id": f"tank {name}", "capacity_l": number(rng, 10, 150), "x_m": number(rng, 0, 5)}
    tank |= {"least_level": low, "greatest_level": number(rng, low, 1), "level_u": number(rng, 0, 0.1)}
    tank |= {"bottom_m": number(rng, 0.3, 1.8), "height_m": number(rng, 0, 0.6), "x_u_m": number(rng, 0, 0.1)}
    return tank | ({"on": "t"} if "trailer" in where and rng.random() < 0.3 else {})
