from collections.abc import Iterator

from parity.pieces import Piece, Rng, chance, number

RATINGS = ("front", "rear", "gross", "combination", "roof")


def calls(rng: Rng) -> Iterator[Piece]:
    """Random limits, now and then not known, lower or over already; places and masses sure or not."""
    for _ in range(60):
        bounds = [_bound(rng, one) for one in RATINGS[: int(rng.integers(0, 6))]]
        common = {"confidence": number(rng, 0.5, 0.999)}
        soft = {"mass_share": number(rng, 0, 0.3), "x_u_m": number(rng, 0, 0.5)} if chance(rng, 0.6) else {}
        x_m = number(rng, -1.5, 6)
        yield {"function": "room_at", "in": {"bounds": bounds, "x_m": x_m, **soft, **common}}
        along = {"from_m": number(rng, -1.5, 0), "to_m": number(rng, 3, 9)}
        yield {"function": "stretches", "in": {"bounds": bounds, **along, **common}, "abs": 1e-7}
        added = {
            "mass_kg": number(rng, 0.5, 300),
            "mass_u_kg": number(rng, 0, 30),
            "x_u_m": number(rng, 0, 0.3),
        }
        yield {"function": "ask", "in": {"bounds": bounds, "x_m": x_m, **added, **common}}
        one = _bound(rng, "rear")
        yield {"function": "most_kg", "in": {"bound": one, "x_m": x_m, **soft, **common}}
        yield {"function": "headroom_kg", "in": {"bound": one, **common}}


def _bound(rng: Rng, rating: str) -> Piece:
    side = "lower" if chance(rng, 0.25) else "upper"
    limit, mean = (0.0 if side == "lower" else number(rng, 900, 2000)), number(rng, 50, 1500)
    return {
        "rating": rating,
        "side": side,
        "limit_kg": None if chance(rng, 0.1) else limit,
        "mean_kg": mean if chance(rng, 0.2) or side == "lower" else limit - number(rng, -20, 300),
        "u_kg": 0.0 if chance(rng, 0.1) else number(rng, 0, 30),
        "share": number(rng, -1, 1.5),
        "per_m": number(rng, -0.5, 0.5) if chance(rng, 0.7) else 0.0,
    }
