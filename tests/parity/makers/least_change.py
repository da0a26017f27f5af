from collections.abc import Iterator

from parity.change_books import given, wishes
from parity.pieces import Piece, Rng


def calls(rng: Rng) -> Iterator[Piece]:
    """Loaded vehicles with every wish: what the solver is asked, and what it is read to say."""
    for n in range(50):
        asked = {**given(rng, tight=n % 5 > 0), "wishes": wishes(rng)}
        yield {"function": "pose_change", "in": asked, "abs": 1e-8}
        yield {"function": "least_change", "in": asked, "abs": 1e-8}
        posed = {"$call": {"module": "least_change", "function": "pose_change", "in": asked}}
        none = {"word": "impossible", "picks": [], "moves": 0, "off_kg": 0.0, "unmet": [], "equals": False}
        kept = {**none, "before": [], "after": [], "exact": True, "most_moves": 0}
        if n % 10 == 0:
            whole = {**kept, "before": held(asked), "after": held(asked)}
            yield {"function": "read_change", "in": {"posed": posed, "advice": whole}, "abs": 1e-8}


def held(asked: Piece) -> list[Piece]:
    """A load for each limit of the problem."""
    from vectors.decode import call

    posed = call("least_change", {"function": "pose_change", "in": asked})
    return [{"id": one.id, "value_kg": one.fixed_kg, "u_kg": 5.0} for one in posed.problem.limits]
