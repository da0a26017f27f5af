"""Vectors of two plans side by side: one small book edited over a month, its levers worked out by hand."""

from math import sqrt
from typing import Any

import numpy as np
from vectors.decode import plain
from vectors.frame import case, function, refused

from server.domain.book import Edit, Row

Json = dict[str, Any]
# id, kind, (day, body) of each edit; a body adds to the one before
HISTORY: list[tuple[str, str, list[tuple[int, Json]]]] = [
    ("v", "vehicle", [
        (1, {"name": "V", "wheelbase_m": 3.0, "coupling_x_m": 4.2, "base_front_kg": 1200.0, "base_front_u_kg": 6.0,
             "base_rear_kg": 900.0, "base_rear_u_kg": 8.0}),
        (20, {"wheelbase_m": 3.2}),
    ]),
    ("p", "plate", [(1, {"of": "vehicle", "gross_kg": 2200.0}), (15, {"gross_kg": 2500.0})]),
    ("t", "trailer", [
        (1, {"name": "T", "coupling_to_axle_m": 4.0, "base_coupling_kg": 60.0, "base_coupling_u_kg": 0.0,
             "base_axles_kg": 540.0, "base_axles_u_kg": 0.0}),
    ]),
    ("fridge", "item", [
        (2, {"mass_kg": 30.0, "mass_u_kg": 3.0, "x_m": 3.0, "x_u_m": 0.0}), (10, {"mass_kg": 36.0}),
        (12, {"x_m": 3.6}),
    ]),
    ("rack", "item", [(2, {"mass_kg": 24.0, "mass_u_kg": 0.0, "x_m": 1.5, "x_u_m": 0.0}), (9, {"deleted": True})]),
    ("box", "item", [(11, {"mass_kg": 20.0, "mass_u_kg": 0.0, "x_m": 4.5, "x_u_m": 0.0})]),
    ("crate", "item", [
        (2, {"mass_kg": 40.0, "mass_u_kg": 0.0, "x_m": 4.0, "x_u_m": 0.0, "trailer_id": "t"}),
    ]),
    ("winch", "item", [
        (2, {"mass_kg": 45.0, "mass_u_kg": 0.0, "x_m": -0.6, "x_u_m": 0.0, "stage": "on_order"}),
        (25, {"stage": "fitted"}),
    ]),
    ("bar", "item", [
        (2, {"mass_kg": 50.0, "mass_u_kg": 9.0, "x_m": -0.9, "x_u_m": 0.0}), (8, {"mass_u_kg": 1.0}),
    ]),
]  # fmt: skip
TODAY = "2026-03-31"


def opened() -> Json:
    rows, edits = [], []
    for order, (id, kind, steps) in enumerate(HISTORY):
        body: Json = {}
        for n, (day, more) in enumerate(steps):
            body = {**body, **more}
            edits.append(Edit(id, kind, f"{id}-{n}", "a", f"2026-03-{day:02d}T08:00:00Z", body))
        rows.append(Row(id, kind, edits[-1].rev, body, order))
    edits.sort(key=lambda edit: edit.at)
    given = {"rows": plain(rows), "edits": plain(edits)}
    return {"$call": {"module": "book", "function": "open_book", "in": given}}


def day(number: int) -> str:
    return f"2026-03-{number:02d}"


def asked(first: Json, second: Json, **more: Any) -> Json:
    return {"book": opened(), "first": first, "second": second, "today": TODAY, **more}


def line(record_id: str, kind: str, how: list[str], kg: list[float], *stood: float | None) -> Json:
    names = ("was_kg", "now_kg", "was_x_m", "now_x_m")
    return {
        "record_id": record_id,
        "kind": kind,
        "how": how,
        "kg": kg,
        **dict(zip(names, stood, strict=True)),
    }


def at(kg: float, x_m: float, wheelbase_m: float = 3.0) -> list[float]:
    """Front, rear, gross."""
    return [kg * (1 - x_m / wheelbase_m), kg * x_m / wheelbase_m, kg]


def less(one: list[float], other: list[float]) -> list[float]:
    return [a - b for a, b in zip(one, other, strict=True)]


FRIDGE = less(at(36, 3.6), at(30, 3.0))


def cases() -> list[Json]:
    early = {"rows": ["front", "rear", "gross"], "mean_kg": [1200 + 24 / 2 + 65, 900 + 12 + 30 - 15, 2204.0]}
    wheelbase = (-50 * 0.9 + 36 * 3.6 + 20 * 4.5) * (1 / 3.2 - 1 / 3.0)
    u = sqrt(36 + 64 + 9 + 81)
    gross = {"rating": "gross", "value_kg": 2204.0, "u_kg": u, "limit_kg": 2200.0, "word": "cannot_tell"}
    coupled = [*at(100 - 40, 4.2), 60.0, 540.0 + 40.0]
    return [
        case("a month of edits",
             {"rows": ["front", "rear", "gross"],
              "first": {"loads": early, "verdicts": [{}, {}, gross], "centre": {"x_m": (2700 + 36 + 90 - 45) / 2204}},
              "second": {"loads": {"mean_kg": [1265 - 0.2 * 36 - 0.5 * 20, 885 + 1.2 * 36 + 1.5 * 20, 2206.0]},
                         "verdicts": [{}, {}, {"limit_kg": 2500.0, "word": "under"}]},
              "differences": [
                  line("fridge", "item", ["mass", "moved"], FRIDGE, 30.0, 36.0, 3.0, 3.6),
                  line("box", "item", ["added"], at(20, 4.5), None, 20.0, None, 4.5),
                  line("bar", "item", ["known"], [0.0, 0.0, 0.0], 50.0, 50.0, -0.9, -0.9),
                  line("rack", "item", ["removed"], [-12.0, -12.0, -24.0], 24.0, None, 1.5, None),
              ],
              "total_kg": [-29.2, 31.2, 2.0]},
             **asked({"day": day(5)}, {"day": day(16)})),
        case("the wheelbase measured anew",
             {"differences": [
                 line("v", "vehicle", ["axles"], [-wheelbase, wheelbase, 0.0], 2100.0, 2100.0, None, None)]},
             **asked({"day": day(16)}, {"day": day(21)})),
        case("with what is on order",
             {"differences": [line("winch", "item", ["ordered"], at(45, -0.6), None, 45.0, None, -0.6)]},
             **asked({"day": day(16)}, {"day": day(16), "ordered": True})),
        case("fitted since, and counted then",
             {"differences": []}, **asked({"day": day(22), "ordered": True}, {})),
        case("fitted since",
             {"differences": [line("winch", "item", ["fitted"], at(45, -0.6, 3.2), None, 45.0, None, -0.6)]},
             **asked({"day": day(22)}, {})),
        case("with the trailer",
             {"rows": ["front", "rear", "gross", "coupling", "trailer_axles"],
              "differences": [
                  line("t", "trailer", ["coupled"], [*at(60, 4.2), 60.0, 540.0], None, 600.0, None, None),
                  line("crate", "item", ["coupled"], [0.0, 0.0, 0.0, 0.0, 40.0], None, 40.0, None, 4.0),
              ],
              "total_kg": coupled},
             **asked({"day": day(5)}, {"day": day(5), "trailer_id": "t"})),
        case("before there was a plan", {"first": {"loads": None, "verdicts": [], "centre": None}, "differences": []},
             **asked({"day": "2026-02-01"}, {})),
        case("a trailer that is not there", {"second": {"loads": None}, "differences": [], "total_kg": []},
             **asked({}, {"trailer_id": "boat"})),
        refused("no day", "DomainError", "day", **asked({"day": "yesterday"}, {})),
        refused("never sure", "OutOfRange", "confidence", **asked({}, {}, confidence=1.0)),
    ]  # fmt: skip


def day_cases() -> list[Json]:
    def bodies(*found: tuple[str, Json]) -> list[Json]:
        return [{"id": id, "body": body} for id, body in found]

    return [
        case("the fifth",
             {"vehicle": {"rev": "v-0", "body": {"wheelbase_m": 3.0}},
              "items": bodies(("fridge", {"mass_kg": 30.0}), ("rack", {"mass_kg": 24.0}), ("crate", {}),
                              ("winch", {"stage": "on_order"}), ("bar", {"mass_u_kg": 9.0})),
              "gone": []},
             book=opened(), day=day(5)),
        case("the day of an edit itself", {"items": bodies(("fridge", {"mass_kg": 36.0}), ("crate", {}),
                                                           ("winch", {}), ("bar", {}))},
             book=opened(), day=day(10)),
        case("before everything", {"vehicle": None, "items": [], "plates": []}, book=opened(), day="2026-01-01"),
        refused("not a day", "DomainError", "day", book=opened(), day="March"),
    ]  # fmt: skip


def functions(rng: np.random.Generator) -> list[dict[str, Any]]:
    return [
        function("book_on", "read off the list of edits in the maker", *day_cases()),
        function("two_plans", "levers x/L worked out in the maker", *cases()),
    ]
