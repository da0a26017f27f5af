from typing import Any

import numpy as np
from vectors.decode import plain
from vectors.frame import case, function, ours
from vectors.weighed_days import DECK, EDITS, READING_U2, book, given, root, state, weighing

Json = Any
WHOLE = ["front", "rear"]
BASE = {"v": "v1"}
BARE = {"plan": BASE, "away": (), "seats": ()}


def functions(rng: Any) -> list[dict[str, Any]]:
    return [
        function(
            "taught", "two masses and totals on two bridges, by the update of maths C.1 written out", _base()
        ),
        function("taught", "our own arithmetic in Python", *_stories()),
    ]


def _base() -> Json:
    """The bare vehicle, 1200 +- 6 and 900 +- 8, and totals of 2105 and 2110 on two bridges: the list explains them."""
    copy = state(**BARE, tanks=[])
    decks = [{**DECK, "name": name} for name in ("Deck One", "Deck Two")]
    visits = [
        weighing(id, 4 + n, [(WHOLE, kg)], copy, decks[n])
        for n, (id, kg) in enumerate((("w", 2105.0), ("z", 2110.0)))
    ]
    whole = plain(book(*visits, edits=EDITS[:1]))
    whole.update(tanks=[], people=[], seats=[])
    mean, cov = np.array([1200.0, 900.0]), np.diag([36.0, 64.0])
    h, out = np.array([1.0, 1.0]), []
    for (id, body), kg in zip(visits, (2105.0, 2110.0), strict=True):
        gain = cov @ h / (h @ cov @ h + READING_U2)
        later, spread = mean + gain * (kg - h @ mean), cov - np.outer(gain, h @ cov)
        out.append(_one(id, body["at"], kg, (mean, cov), (later, spread)))
        mean, cov = later, spread
    return case("totals of the bare vehicle", out, book=whole, rel=1e-8)


def _one(id: str, at: str, kg: float, before: Json, after: Json) -> Json:
    picks = {"front": np.array([1.0, 0.0]), "rear": np.array([0.0, 1.0]), "gross": np.array([1.0, 1.0])}
    planned = {"front": (1200.0, 6.0), "rear": (900.0, 8.0), "gross": (2100.0, 10.0)}

    def figures(pick: Any, stage: str, known: Json) -> Json:
        return {f"{stage}_kg": float(pick @ known[0]), f"{stage}_u_kg": root(float(pick @ known[1] @ pick))}

    rows = [
        {
            "row": row,
            "planned_kg": planned[row][0],
            "planned_u_kg": planned[row][1],
            "weighed_kg": kg if row == "gross" else None,
            "weighed_u_kg": root(READING_U2) if row == "gross" else None,
            **figures(pick, "before", before),
            **figures(pick, "after", after),
        }
        for row, pick in picks.items()
    ]
    told = [
        (f"base_{row}", i, 1 - after[1][i, i] / before[1][i, i]) for i, row in enumerate(("front", "rear"))
    ]
    items = [
        {"id": name, "told": share, "before_kg": before[0][i], "after_kg": after[0][i]}
        for name, i, share in told
        if share > 0.1
    ]
    rest = {"unexplained_kg": 0.0, "unexplained_u_kg": 0.0}
    return {"weighing_id": id, "at": at, "counted": True, "rows": rows, "items": items, **rest}


def _stories() -> list[Json]:
    three = [(["front"], 1330.0), (["rear"], 1180.0), (WHOLE, 2520.0)]
    apart = [(["front"], 1230.0), (["rear"], 1080.0), (WHOLE, 2620.0)]
    later = state(level=0.5, away=())
    far = [
        weighing("w", 4, three),
        weighing("y", 5, apart, later),
        weighing("z", 6, [(WHOLE, 2500.0)], later),
    ]
    nothing = given()
    return [
        ours("taught", "far over, and readings that disagree between", "taught", **given(*far)),
        ours("taught", "never weighed", "taught", **nothing),
    ]
