from collections.abc import Iterator
from typing import Any

from parity.pieces import Piece, Rng, geometry, number, parts
from parity.planned_books import given

ROWS = ["front", "rear", "gross", "roof"]


def calls(rng: Rng) -> Iterator[Piece]:
    """Things of random plans put elsewhere, and random parts with the copies of their articles."""
    for _ in range(60):
        where = geometry(rng)
        rows = [*ROWS, *(["coupling", "trailer_axles"] if "trailer" in where else [])]
        aboard = parts(rng, where, int(rng.integers(1, 20)))
        found = {
            "module": "statics",
            "function": "loads",
            "in": {"parts": aboard, "geometry": where, "rows": rows},
        }
        moved = aboard[2 : 2 + int(rng.integers(1, 3))]
        alike = {one["article"] for one in moved if "article" in one}
        mates = [one for one in aboard[2 + len(moved) :] if one.get("article") in alike]
        after = [{**one, "x_m": number(rng, -1, 6)} for one in moved]
        move = {"before": moved, "after": after, "mates": mates}
        yield {
            "function": "shifted_loads",
            "in": {"found": {"$call": found}, "move": move, "geometry": where},
        }
        yield from _in_a_plan(rng)


def _in_a_plan(rng: Rng) -> Iterator[Piece]:
    made: Any = given(rng)
    book = made["book"]
    plan = {"$call": {"module": "plan", "function": "plan_in", "in": made}}
    ids = [one["id"] for kind in ("items", "tanks", "seats") for one in book[kind]]
    record_id = str(rng.choice(ids))
    asked = {"book": book, "plan": plan, "record_id": record_id, "x_m": number(rng, -1, 6)}
    yield {"function": "move_to", "in": asked}
    move = {"$call": {"module": "shift", "function": "move_to", "in": asked}}
    yield {"function": "moved_plan", "in": {"plan": plan, "move": move}}
