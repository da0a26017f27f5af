from collections.abc import Iterator

from parity.makers.reconcile import book
from parity.pieces import Piece, Rng


def calls(rng: Rng) -> Iterator[Piece]:
    """Books whose readings are lighter than the plan, so that some masses would fall below zero."""
    for _ in range(25):
        light = book(rng, least=1)
        for session in light["sessions"]:
            session["readings"] = [{**one, "value_kg": 0.8 * one["value_kg"]} for one in session["readings"]]
        posterior = {"$call": {"module": "reconcile", "function": "reconcile", "in": light}}
        yield {"function": "doubtful_masses", "in": {"posterior": posterior}}
        yield {"function": "nonnegative_masses", "in": {"posterior": posterior}, "rel": 1e-7, "abs": 1e-7}
