"""Random pieces that several makers of calls share."""

from typing import Any

import numpy as np

Rng = np.random.Generator
Piece = dict[str, Any]
AXLES = ("front", "rear", "trailer_axles")


def number(rng: Rng, low: float, high: float) -> float:
    return round(float(rng.uniform(low, high)), 4)


def chance(rng: Rng, share: float) -> bool:
    return bool(rng.random() < share)


def geometry(rng: Rng, *, trailer: bool | None = None, group: bool | None = None) -> Piece:
    """Two axles; often a trailer, a rear group of either model, tracks."""
    out: Piece = {"wheelbase_m": number(rng, 2.4, 4.5)}
    if chance(rng, 0.5) if group is None else group:
        out |= {"spread_m": number(rng, 0.8, 1.5), "rearmost_share": number(rng, 0.2, 0.8)}
        out |= {"second_axle": str(rng.choice(["pair", "springs"]))}
        out |= {"stiffness": [number(rng, 0.5, 3) for _ in range(3)]}
    if chance(rng, 0.5):
        out |= {"front_track_m": number(rng, 1.4, 1.8), "rear_track_m": number(rng, 1.4, 1.8)}
        out |= {"frame": str(rng.choice(["flexible", "rigid"])), "front_roll_share": number(rng, 0, 1)}
    if chance(rng, 0.5) if trailer is None else trailer:
        out["coupling_x_m"] = out["wheelbase_m"] + number(rng, 0.6, 1.8)
        out["trailer"] = {"id": "t", "coupling_to_axle_m": number(rng, 2.5, 6)}
        if chance(rng, 0.5):
            out["trailer"]["hitch_moment_kgm"] = number(rng, -100, 300)
    return out


def part(rng: Rng, name: str, where: Piece) -> Piece:
    """An item anywhere on the vehicle or, with a trailer, on that."""
    mass = number(rng, 0, 150)
    out: Piece = {"id": name, "mass_kg": mass, "mass_u_kg": round(mass * 0.15, 4), "x_m": number(rng, -1, 6)}
    for field, high in (("x_u_m", 0.3), ("y_u_m", 0.2)):
        if chance(rng, 0.5):
            out[field] = number(rng, 0, high)
    if chance(rng, 0.3):
        out |= {"y_m": number(rng, -0.9, 0.9), "z_m": number(rng, 0.2, 2.2), "z_u_m": number(rng, 0, 0.1)}
    if chance(rng, 0.2):
        out["article"] = str(rng.choice(["crate", "can"]))
    if chance(rng, 0.1):
        out["taken_off"] = True
    if chance(rng, 0.1):
        out["roof"] = True
    if "trailer" in where and chance(rng, 0.3):
        out["on"] = "t"
    return out


def parts(rng: Rng, where: Piece, count: int = 12) -> list[Piece]:
    base = [
        {"id": "base_front", "mass_kg": number(rng, 900, 1700), "mass_u_kg": number(rng, 2, 40), "x_m": 0.0},
        {
            "id": "base_rear",
            "mass_kg": number(rng, 900, 1700),
            "mass_u_kg": number(rng, 2, 40),
            "x_m": where["wheelbase_m"],
        },
    ]
    if "spread_m" in where:
        base[0] |= {"axle": "front"}
        base[1] |= {"axle": "rear"}
    return [*base, *(part(rng, f"item {i}", where) for i in range(count))]


def bridge(rng: Rng) -> Piece:
    e = float(rng.choice([5, 10, 20, 50]))
    out: Piece = {
        "key": f"b{int(rng.integers(3))}",
        "interval_kg": e,
        "displayed_kg": e,
        "accuracy_class": "III",
        "max_kg": 3000 * e,
    }
    if chance(rng, 0.2):
        out["percent"] = number(rng, 0.3, 3)
    elif chance(rng, 0.2):
        out |= {"accuracy_class": "IIII", "max_kg": 900 * e}
    if chance(rng, 0.3):
        out["own_repeats"] = number(rng, 0, 1)
    return out


def setup(rng: Rng, wheelbase_m: float) -> Piece:
    out: Piece = {
        "total_kg": number(rng, 2000, 5000),
        "wheelbase_m": wheelbase_m,
        "cg_height_m": number(rng, 0.5, 1.3),
    }
    if chance(rng, 0.5):
        out |= {"deck_u_m": number(rng, 0, 0.05), "level_correlation": number(rng, -0.4, 1)}
    return out


def readings(rng: Rng, axles: tuple[str, ...] = ("front", "rear")) -> list[Piece]:
    """Some sets of these axles, each once, near enough to what they might weigh."""
    sets = [[axle] for axle in axles] + [list(axles)] + ([list(axles[:2])] if len(axles) > 2 else [])
    kept = [one for one in sets if chance(rng, 0.75)] or [list(axles)]
    return [
        {
            "id": f"r{i}",
            "axles": one,
            "value_kg": round(float(rng.normal(1500 * len(one), 60)) / 10) * 10.0,
            "split": len(one) == 1,
            "repeats": int(rng.integers(1, 4)),
        }
        for i, one in enumerate(kept)
    ]


def spread(rng: Rng, size: int, scale: float = 1.0) -> list[list[float]]:
    """A well-conditioned covariance."""
    root = rng.normal(size=(size, size + 2)).round(3)
    matrix = scale * (root @ root.T + np.eye(size))
    return [[float(x) for x in row] for row in matrix]
