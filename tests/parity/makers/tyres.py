from collections.abc import Iterator

from parity.pieces import Piece, Rng, chance, number

SYMBOLS = "FGJKLMNPQRSTUHVWYZ"


def calls(rng: Rng) -> Iterator[Piece]:
    """Sizes as people type them, some of them unreadable, and what follows from them."""
    for _ in range(80):
        size = text(rng)
        yield {"function": "parse_designation", "in": {"text": size}}
        yield {"function": "fitted", "in": fitting(rng, size)}
        index = int(rng.integers(58, 133))
        yield {"function": "axle_capacity_kg", "in": {"load_index": index, "tyres": int(rng.integers(2, 5))}}
        old, new = number(rng, 0.5, 1.1), number(rng, 0.5, 1.1)
        yield {"function": "revolutions_per_km", "in": {"diameter_m": old}}
        given = {"from_diameter_m": old, "to_diameter_m": new, "factor": number(rng, 0.9, 1.1)}
        u = {name: number(rng, 0, 0.01) for name in ("factor_u", "from_u_m", "to_u_m")}
        yield {"function": "odometer_factor", "in": {**given, **u}}
        yield {"function": "highest_reading_kmh", "in": {"true_speed_kmh": number(rng, 0, 300)}}


def fitting(rng: Rng, size: str) -> Piece:
    out: Piece = {"tyre_size": size}
    if chance(rng, 0.5):
        out["tyre_load_index"] = int(rng.integers(55, 135))
    if chance(rng, 0.5):
        out["tyres_per_axle"] = int(rng.integers(2, 5))
    return out


def text(rng: Rng) -> str:
    """A size in one of the forms, with or without the rest of the sidewall."""
    rim, gap = int(rng.integers(13, 23)), " " * int(rng.integers(0, 2))
    width, aspect = int(rng.integers(90, 400)), int(rng.integers(30, 95))
    mark = str(rng.choice(["R", "ZR", "-", "/", "r"]))
    size = str(
        rng.choice(
            [
                f"{width}{gap}/{gap}{aspect}{gap}{mark}{gap}{rim}",
                f"LT{width}/{aspect}R{rim}C",
                f"{number(rng, 4, 12):.2f}{mark}{rim}",
                f"{int(rng.integers(27, 40))}x{number(rng, 8, 14):.1f}{mark}{rim}",
                f"{width}R{rim}",
            ]
        )
    )
    index = int(rng.integers(80, 131))
    dual = f"/{index - int(rng.integers(-1, 5))}" if chance(rng, 0.5) else ""
    return f"{size} {index}{dual}{rng.choice(list(SYMBOLS))}" if chance(rng, 0.6) else size
