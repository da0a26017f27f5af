"""Vectors of a book's fuel and water: who drinks and when by hand, logs and levels by the Python implementation."""

from typing import Any

import numpy as np
from vectors.decode import plain
from vectors.frame import SELF, case, function, ours
from vectors.log_books import STEADY, filled, logged, moment, opened
from vectors.logs import BY_HAND

Json = Any
DAY_S = 86_400.0
MAY_S = 1_777_593_600.0  # 1 May 2026, 00:00 UTC
ENTRIES = (
    *STEADY,
    filled("f6", 6, 2401.0, 46.0, author="ben"),
    logged("w7", "water", 2, tank_id="fresh", action="fill", litres_l=60.0, full=True, drinkable="yes"),
    logged("w8", "water", 4, tank_id="jerry", action="fill", litres_l=15.0, drinkable="yes"),
    logged("g10", "water", 2, tank_id="grey", action="dump", litres_l=0.0, everything=True, drinkable="no"),
    logged("g11", "water", 4.5, tank_id="grey", action="dump", litres_l=3.0, drinkable="no"),
    logged("d9", "dip", 5, tank_id="main", level=0.8, how="gauge", odometer_km=2500.0),
    logged("a1", "aboard", 3, subject="person", subject_id="ann", aboard=False, until=moment(5)),
)


def functions(rng: np.random.Generator) -> list[Json]:
    book = opened(*ENTRIES)
    instants = [moment(day) for day in (1, 3, 5.02, 9)]
    return [
        function("presences", BY_HAND, *_presences(book)),
        function(
            "levels_at",
            SELF,
            *(ours("supplies", at, function_name="levels_at", book=book, at=at) for at in instants),
        ),
        function(
            "water_log_of",
            BY_HAND,
            case(
                "not coupled",
                {"setup": {"tanks": [{"id": "fresh"}, {"id": "jerry"}]}},
                book=book,
                until=instants[3],
            ),
            case(
                "coupled",
                {
                    "setup": {"tanks": [{"id": "fresh"}, {"id": "jerry"}, {"id": "cart"}]},
                    "model": {"capacity_l": [90.0, 60.0]},
                },
                book=opened(
                    *ENTRIES, logged("t12", "aboard", 6, subject="trailer", subject_id="t", aboard=True)
                ),
                until=instants[3],
            ),
        ),
        function(
            "fuel_log_of", SELF, _near(ours("supplies", "fuel", "fuel_log_of", book=book, until=instants[3]))
        ),
        function(
            "water_log_of",
            SELF,
            _near(ours("supplies", "water", "water_log_of", book=book, until=instants[3])),
        ),
    ]


def _near(made: Json) -> Json:
    """A log without the states that are kept for going on."""
    log = made["out"]
    told = {name: log[name] for name in ("findings", "apart") if name in log}
    return {
        **made,
        "out": plain({**told, "journal": {"state": log["journal"]["state"]}}),
        "rel": 1e-7,
        "abs": 1e-7,
    }


def _presences(book: Json) -> list[Json]:
    ann = [
        {"share": 1.0, "from_s": MAY_S, "until_s": MAY_S + 2 * DAY_S},
        {"share": 1.0, "from_s": MAY_S + 4 * DAY_S, "until_s": None},
    ]
    rex = {"share": 0.25, "from_s": MAY_S, "until_s": None}
    left = opened(logged("a1", "aboard", 1, subject="person", subject_id="ann", aboard=False))
    return [
        case("away for two days, and a dog", [*ann, rex], book=book, from_s=MAY_S),
        case(
            "gone before the log begins", [{**rex, "from_s": MAY_S + DAY_S}], book=left, from_s=MAY_S + DAY_S
        ),
    ]
