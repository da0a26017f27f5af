from collections.abc import Iterator

from parity.advice_problems import problem
from parity.pieces import Piece, Rng, number


def calls(rng: Rng) -> Iterator[Piece]:
    """Problems of every kind: few items and many, shared errors, another confidence, nodes that run out."""
    for n in range(90):
        confidence = round(number(rng, 0.5, 0.99), 3)
        given = problem(rng, count=21 if n % 15 == 14 else None, confidence=confidence, copies=n % 4 == 1)
        yield {"function": "advise", "in": {**given, "most_nodes": 40 if n % 10 == 9 else 20_000}}
        picks = [int(rng.integers(0, len(one["options"]))) for one in given["items"]]
        where = {name: given[name] for name in ("limits", "items", "errors")}
        yield {"function": "held_by", "in": {**where, "picks": picks}}
