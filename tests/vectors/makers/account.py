from typing import Any

from vectors.decode import plain
from vectors.frame import case, function, refused
from vectors.weighed_days import READING_U2, book, given, root, weighing

Json = Any
WHOLE = ["front", "rear"]
WEIGHED = weighing("w", 4, [(WHOLE, 2300.0)])
# base 6 and 8, bar 1, box 3, one person 3, 50 L of water at 0.002 kg/L (density: see server/domain/plan.py)
PLANNED_U2 = 36 + 64 + 1 + 9 + 9 + 0.1**2


def functions(rng: Any) -> list[dict[str, Any]]:
    return [
        function(
            "account", "by hand from the entries; the bridge by OIML R 76-1 table 6, uniform", *_accounts()
        ),
        function("whole_kg", "largest remainder, by hand", *_wholes()),
    ]


def line(code: str, kg: float, u: float, *ids: str, author: str | None = None) -> Json:
    return {"code": code, "mass_kg": kg, "u_kg": u, "record_ids": list(ids), "author": author}


DAY = [
    line("left", -10.0, 2.0, "bag"),
    line("people", 80.0, 3.0, "ann"),
    line("water", 50.0, 0.1, "water"),
    line("unplanned", 2300.0 - 2321.0, root(PLANNED_U2, READING_U2)),
    line("bridge", 0.0, root(READING_U2)),
]


def _accounts() -> list[Json]:
    asked = given(WEIGHED, weighing_id="w")
    first = [
        line("plan", 2170.0, root(36, 64, 16, 4)),
        line("base", 5.0, 10.0, "v", author="owner"),
        line("new", 30.0, 5.0, "rack", author="fitter"),
        line("changed", 6.0, 1.0, "bar", author="fitter"),
        line("new", 20.0, 3.0, "box", author="owner"),
        line("removed", -30.0, 5.0, "rack", author="owner"),
        *DAY,
    ]
    late = [line("plan", 2201.0, root(36, 64, 1, 4, 9)), *DAY]
    head = {"weighing_id": "w", "row": "gross", "weighed_kg": 2300.0, "weighed_u_kg": root(READING_U2)}
    apart = weighing("w", 4, [(["front"], 1200.0), (["rear"], 1100.0), (WHOLE, 2600.0)])
    bare = {**given(WEIGHED)["book"], "vehicle": plain(book(WEIGHED).vehicle)}
    bare["vehicle"]["body"] = {"name": "Vehicle"}
    return [
        case("from the first day", {**head, "day": "2026-03-01", "lines": first}, **asked),
        case("from the weighing's own plan", {**head, "lines": late}, **asked, day="2026-12-31"),
        case("only an axle", None, **given(weighing("w", 4, [(["front"], 1200.0)]), weighing_id="w")),
        case("readings that disagree", None, **given(apart, weighing_id="w")),
        case("no plan", None, book=bare, weighing_id="w"),
        refused("no such weighing", "Unknown", "weighing_id", **given(WEIGHED, weighing_id="q")),
    ]


def _wholes() -> list[Json]:
    return [
        case("nothing", [], masses_kg=[]),
        case("thirds", [1, 0, 0], masses_kg=[1 / 3, 1 / 3, 1 / 3]),
        case("the greatest remainders first", [10, 3, -4, 91], masses_kg=[10.2, 2.7, -4.4, 91.0]),
        case("half rounds up", [1], masses_kg=[0.5]),
        case("of two halves the first has it", [1, 0], masses_kg=[0.5, 0.5]),
        refused("not a number", "DomainError", "mass_kg", masses_kg=[1.0, "2"]),
    ]
