from collections.abc import Iterator

from parity.pieces import Piece, Rng, number, spread


def calls(rng: Rng) -> Iterator[Piece]:
    """Gaps of every size on both axles."""
    for _ in range(60):
        ends = [number(rng, -1.2, 0), number(rng, 3, 5)]
        given = {
            "measured": _loads(rng),
            "planned": _loads(rng),
            "rear_x_m": number(rng, 2.5, 4),
            "ends": ends,
        }
        yield {"function": "unplanned_mass", "in": given, "rel": 1e-8}
        total = {"weighed_kg": number(rng, 2000, 2200), "planned_kg": number(rng, 2000, 2200)}
        us = {"weighed_u_kg": number(rng, 0, 30), "planned_u_kg": number(rng, 0, 30)}
        yield {"function": "unplanned_total", "in": {**total, **us}}


def _loads(rng: Rng) -> Piece:
    mean = [1300 + number(rng, -80, 80), 1200 + number(rng, -80, 80)]
    return {"rows": ["front", "rear"], "mean_kg": mean, "cov_kg2": spread(rng, 2, 100.0)}
