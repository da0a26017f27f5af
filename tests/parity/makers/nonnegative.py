from collections.abc import Iterator

from parity.makers.reconcile import book
from parity.pieces import Piece, Rng, number


def calls(rng: Rng) -> Iterator[Piece]:
    """Books whose readings are lighter than the plan, so that some masses would fall below zero."""
    for _ in range(25):
        light = book(rng, least=1)
        for session in light["sessions"]:
            session["readings"] = [{**one, "value_kg": 0.8 * one["value_kg"]} for one in session["readings"]]
        posterior = {"$call": {"module": "reconcile", "function": "reconcile", "in": light}}
        yield {"function": "doubtful_masses", "in": {"posterior": posterior}}
        yield {"function": "nonnegative_masses", "in": {"posterior": posterior}, "rel": 1e-7, "abs": 1e-7}
        tied = {"$call": {"module": "reconcile", "function": "reconcile", "in": _copies(rng)}}
        yield {"function": "nonnegative_masses", "in": {"posterior": tied}, "rel": 1e-7, "abs": 1e-7}


def _copies(rng: Rng) -> Piece:
    """Two or three copies of one article that move as one, on a vehicle far lighter than planned."""
    base = [
        {"id": "base_front", "mass_kg": 1300.0, "mass_u_kg": 5.0, "x_m": 0.0},
        {"id": "base_rear", "mass_kg": 1100.0, "mass_u_kg": 5.0, "x_m": 3.2},
    ]
    copies = [
        {
            "id": f"copy {i}",
            "mass_kg": number(rng, 5, 25),
            "mass_u_kg": number(rng, 4, 12),
            "x_m": number(rng, 1, 4),
            "article": "tent",
        }
        for i in range(int(rng.integers(2, 4)))
    ]
    readings = [
        {"id": "r", "axles": ["rear"], "value_kg": number(rng, 1000, 1090)},
        {"id": "w", "axles": ["front", "rear"], "value_kg": number(rng, 2280, 2390)},
    ]
    bridge = {
        "key": "b",
        "interval_kg": 10.0,
        "displayed_kg": 10.0,
        "accuracy_class": "III",
        "max_kg": 40_000.0,
    }
    session = {"id": "s", "lasting": [*base, *copies], "passing": [], "readings": readings, "bridge": bridge}
    return {"lasting": [*base, *copies], "geometry": {"wheelbase_m": 3.2}, "sessions": [session]}
