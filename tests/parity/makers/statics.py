from collections.abc import Iterator

from parity.pieces import Piece, Rng, geometry, number, parts


def calls(rng: Rng) -> Iterator[Piece]:
    """Loads of random vehicles over all their rows."""
    for _ in range(60):
        where = geometry(rng)
        rows = ["front", "rear", "gross", "roof"]
        rows += ["rear_1", "rear_2"] if "spread_m" in where else []
        rows += ["coupling", "trailer_axles", "trailer", "combination"] if "trailer" in where else []
        rows += ["front_left", "rear_right"] if "front_track_m" in where else []
        aboard = parts(rng, where, int(rng.integers(0, 20)))
        given = {"parts": aboard, "geometry": where, "rows": rows, "base_correlation": number(rng, -1, 1)}
        yield {"function": "loads", "in": given}
        yield {"function": "design", "in": {"parts": aboard, "geometry": where, "rows": rows}}
        tank = {
            "id": "w",
            "density_kg_per_l": number(rng, 0.5, 1.1),
            "density_u_kg_per_l": number(rng, 0, 0.05),
        }
        tank |= {
            "capacity_l": number(rng, 5, 200),
            "capacity_u_l": number(rng, 0, 5),
            "level": number(rng, 0, 1),
        }
        yield {
            "function": "tank_content",
            "in": {**tank, "level_u": number(rng, 0, 0.3), "x_m": number(rng, 0, 4)},
        }
        factors = [[number(rng, -5, 5), number(rng, 0, 2)] for _ in range(3)]
        yield {"function": "product_moments", "args": factors}
