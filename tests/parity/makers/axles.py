from collections.abc import Iterator

from parity.pieces import Piece, Rng, chance, geometry, number

ROWS = (
    "front",
    "rear",
    "gross",
    "rear_1",
    "rear_2",
    "coupling",
    "trailer_axles",
    "trailer",
    "combination",
    "roof",
)
WHEELS = ("front_left", "front_right", "rear_left", "rear_right")


def calls(rng: Rng) -> Iterator[Piece]:
    """Every row of every kind of vehicle, refusals included."""
    for _ in range(60):
        where = geometry(rng)
        rows = [row for row in ROWS if _there(row, where) or chance(rng, 0.1)]
        for row in [*rows, *(WHEELS if "front_track_m" in where else ())]:
            place: Piece = {
                "row": row,
                "geometry": where,
                "x_m": number(rng, -1, 6),
                "y_m": number(rng, -1, 1),
            }
            if "trailer" in where and chance(rng, 0.5):
                place["on"] = "t"
            elif chance(rng, 0.2):
                place["axle"] = str(rng.choice(["front", "rear"]))
            yield {"function": "coefficient", "in": place}
            yield {"function": "hitch_offset_kg", "in": {"row": row, "geometry": where}}
        yield {"function": "rear_x_m", "args": [where]}
        yield {"function": "rows_of", "args": [where]}


def _there(row: str, where: Piece) -> bool:
    if row in ("rear_1", "rear_2"):
        return "spread_m" in where
    return "trailer" in where or row not in ("coupling", "trailer_axles", "trailer", "combination")
