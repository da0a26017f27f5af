"""Writes the vectors of the modules that read a whole book: its records, its plan, its weighings.

`python -m tests.vectors.books`. Expected values are written out by hand where they are facts of the records (which
plate binds, who sits where) and by the plain arithmetic of a lever where they are loads; the last group, comparison,
is the Python implementation's own answer and says so: there the two languages are held against each other.
"""

import json
from pathlib import Path
from typing import Any

from server.domain.book import Book, Row, open_book
from server.domain.comparison import compare
from server.domain.explain import explain
from server.domain.guidance import guide
from tests.vectors import centre_books, road_books, towing_books
from tests.vectors.decode import decode, plain
from tests.vectors.forgotten_books import forgotten, forgotten_cases
from tests.vectors.plates import plate_groups, rejudge_groups
from tests.vectors.warm_books import warm_cases

Json = Any
HERE = Path(__file__).parent


def row(id: str, kind: str, order: int = 0, **body: Any) -> Json:
    return {"id": id, "kind": kind, "rev": f"{id}-1", "body": body, "order": order, "author": "a"}


def plate(id: str, **body: Any) -> Json:
    return row(id, "plate", **body)


VEHICLE = row("v", "vehicle", name="Vehicle", wheelbase_m=3.2, base_front_kg=1200.0, base_rear_kg=900.0,
              base_known_by="weighed", fuel_kind="diesel", base_fuel_l=10.0)  # fmt: skip
PLAN = [
    VEHICLE,
    plate("p1", of="vehicle", gross_kg=3000.0, front_axle_kg=1450.0, rear_axle_kg=1700.0),
    row("tank", "tank", name="Main", holds="fuel", capacity_l=80.0, x_m=2.4, position_by="measured"),
    row("water", "tank", name="Water", holds="water", capacity_l=60.0, x_m=3.0, x_u_m=0.0),
    row("grey", "tank", name="Grey", holds="grey", capacity_l=40.0, x_m=3.6),
    row("s1", "seat", 1, name="Driver", x_m=1.4),
    row("s2", "seat", 2, name="Left", x_m=1.4),
    row("ann", "person", 1, name="A", nature="person", mass_kg=80.0, usual_seat_id="s1"),
    row("ben", "person", 2, name="B", nature="person", mass_kg=70.0, mass_u_kg=1.0, usual_seat_id="s2"),
    row("bar", "item", 1, name="Front bar", nature="part", mass_kg=60.0, known_by="data_sheet", x_m=-0.7),
    row("box", "item", 2, name="Box", nature="load", mass_kg=20.0, count=3, x_m=3.9, x_u_m=0.1),
    row("rack", "item", 3, name="Rack", nature="part", mass_kg=30.0, x_m=2.0, roof=True, mass_u_kg=0.5),
    row("soon", "item", 4, name="Winch", nature="part", mass_kg=40.0, x_m=-0.6, stage="on_order"),
    row("blank", "item", 5, name="Something", nature="load", mass_kg=None, x_m=1.0),
]
STATE = {
    "tanks": [
        {"tank_id": "tank", "level": 0.5, "level_u": 0.05, "known_from": "typed"},
        {"tank_id": "water", "level": 1.0, "level_u": 0.0, "known_from": "dip"},
        {"tank_id": "grey", "level": 0.0, "level_u": 0.0, "known_from": "typed"},
    ],
    "seats": [{"seat_id": "s1", "mass_kg": 80.0, "mass_u_kg": 3.0, "person_id": "ann"}],
    "items_away": [],
    "trailers_on": [],
}
COPY = {
    "settled_by": "confirmed",
    "tanks": STATE["tanks"],
    "seats": STATE["seats"],
    "items": [{"item_id": "box", "aboard": True}],
    "trailers": [],
    "plan": [{"id": one["id"], "rev": one["rev"]} for one in PLAN],
}


def weighing(id: str, *readings: tuple[list[str], float], day: int = 1, **more: Any) -> Json:
    taken = [{"id": f"{id}{i}", "on_deck": deck, "value_kg": kg} for i, (deck, kg) in enumerate(readings)]
    at = f"2026-05-{day:02d}T08:00:00Z"
    bridge = {"interval_kg": 10.0, "max_kg": 40_000.0, "name": "Deck One"}
    return row(id, "weighing", day, at=at, zone="Etc/UTC", bridge=bridge, readings=taken, state=COPY, **more)


def log(id: str, kind: str, day: int, **body: Any) -> Json:
    return row(id, kind, day, at=f"2026-05-{day:02d}T08:00:00Z", zone="Etc/UTC", **body)


def edit(rev: str, kind: str) -> Json:
    at = "2026-05-01T08:00:00Z"
    return {"record_id": "v", "kind": kind, "rev": rev, "author": "a", "at": at, "body": {}}


def case(name: str, given: Json, out: Json, **more: Any) -> Json:
    return {"name": name, "in": given, "out": out, **more}


def book_cases() -> list[Json]:
    first = log("f1", "fill", 1, lines=[])
    second = log("f2", "fill", 2, lines=[], corrects="f1")
    struck = log("c1", "correction", 3, of_id="f2", what="struck_out", reason="mine")
    late = log("f0", "fill", 5, lines=[])
    gone = row("bar", "item", deleted=True)
    far, near, unsaid, aside = WEIGHED_BADLY
    ids = lambda *names: [{"id": name} for name in names]  # noqa: E731
    return [
        case("in order of time", {"rows": [late, first]}, {"fills": ids("f1", "f0")}),
        case("a corrected entry is out", {"rows": [first, second]}, {"fills": ids("f2")}),
        case(
            "a correction struck out lets the entry back in",
            {"rows": [first, second, struck]},
            {"fills": ids("f1")},
        ),
        case(
            "kept as typed, it counts",
            {"rows": [first, log("k", "correction", 3, of_id="f1", what="kept")]},
            {"fills": ids("f1"), "kept": ids("k")},
        ),
        case("deleted records are kept apart", {"rows": [VEHICLE, gone]}, {"items": [], "gone": ids("bar")}),
        case(
            "edits of the plan are kept in their order",
            {
                "rows": [VEHICLE],
                "edits": [edit("v-2", "vehicle"), edit("x-1", "moon"), edit("v-1", "vehicle")],
            },
            {"edits": [{"rev": "v-2"}, {"rev": "v-1"}]},
        ),
        case(
            "a weighing that cannot be read stands apart",
            {"rows": [VEHICLE, far, near, unsaid, aside]},
            {"weighings": ids("aside", "near"), "unread": ids("far", "unsaid")},
        ),
        case("an unknown kind is left alone", {"rows": [row("x", "moon")]}, {"vehicle": None, "items": []}),
    ]


def state_cases() -> list[Json]:
    out_of_car = log("x", "aboard", 3, subject="person", subject_id="ben", aboard=False)
    for_a_day = log(
        "y", "aboard", 4, subject="person", subject_id="ann", aboard=False, until="2026-05-06T00:00:00Z"
    )
    box_out = log("z", "aboard", 2, subject="item", subject_id="box", aboard=False)

    def at(day: int, *entries: Json) -> Json:
        book = plain(open_book(rows=[Row(**one) for one in (*PLAN, *entries)]))
        return {"book": book, "at": f"2026-05-{day:02d}T09:00:00Z"}

    seats = lambda *ids: [{"seat_id": seat, "person_id": who} for seat, who in ids]  # noqa: E731
    both = seats(("s1", "ann"), ("s2", "ben"))
    return [
        case("everyone in the usual seat", at(1), {"seats": both, "items_away": []}),
        case("one got out", at(3, out_of_car), {"seats": seats(("s1", "ann"))}),
        case("not before he did", at(2, out_of_car), {"seats": both}),
        case("away until a day", at(5, for_a_day), {"seats": seats(("s2", "ben"))}),
        case("back after it", at(7, for_a_day), {"seats": both}),
        case("a load left at home", at(3, box_out), {"items_away": ["box"]}),
        case(
            "a tank nobody logged is unknown", at(1), {"tanks": [{"level": 0.5, "known_from": "prior"}] * 3}
        ),
    ]


def plan_cases() -> list[Json]:
    """Loads by the lever: a mass m at x puts m x / L on the rear axle."""
    book = plain(open_book(rows=[Row(**one) for one in PLAN]))
    masses = {
        "base_front": (1200.0, 0.0), "base_rear": (900.0, 3.2), "base_fuel": (8.325, 2.4),
        "bar": (60.0, -0.7), "box": (60.0, 3.9), "rack": (30.0, 2.0),
    }  # fmt: skip
    passing = {
        "grey:content": (0.0, 3.6),
        "tank:content": (0.5 * 80 * 0.8325, 2.4),
        "water:content": (60.0, 3.0),
        "s1:occupant": (80.0, 1.4),
    }
    part = lambda pairs: [{"id": name, "mass_kg": m, "x_m": x} for name, (m, x) in pairs.items()]  # noqa: E731
    out = {
        "lasting": part(masses),
        "passing": part(passing),
        "missing": [{"record_id": "blank", "kind": "item", "field": "mass_kg"}],
    }
    ordered = {**masses, "soon": (40.0, -0.6)}
    unsaid = {**STATE, "tanks": STATE["tanks"][1:]}
    half = {"lasting": part(masses), "passing": part({**passing, "tank:content": (0.5 * 80 * 0.8325, 2.4)})}
    half["missing"] = [*out["missing"], {"record_id": "tank", "kind": "tank", "field": "level"}]
    return [
        case("the parts of a state", {"book": book, "state": STATE}, out),
        *warm_cases(PLAN, STATE),
        case("a level that nobody stated is named", {"book": book, "state": unsaid}, half),
        case("with what is on order", {"book": book, "state": STATE, "ordered": True}, {"lasting": part(ordered)}),
        case("only what took part", {"book": book, "state": STATE, "revisions": {"v": "v-1", "bar": "bar-1"}},
             {"lasting": [{"id": one} for one in ("base_front", "base_rear", "base_fuel", "bar")], "passing": []}),
        case("and what it forgets", {"book": opened_with(forgotten_share=0.1), "state": STATE},
             {"lasting": [*part(masses), forgotten(0.1)]}),
        case("a load left behind leaves its brackets",
             {"book": opened_with(forgotten_share=0.1), "state": {**STATE, "items_away": ["box"]}},
             {"lasting": [*part({name: one for name, one in masses.items() if name != "box"}), forgotten(0.1)]}),
        case("a share of 0 adds nothing", {"book": opened_with(forgotten_share=0.0), "state": STATE}, out),
    ]  # fmt: skip


def opened_with(**vehicle: Any) -> Json:
    """The plan with more said of the vehicle."""
    rows = [{**VEHICLE, "body": {**VEHICLE["body"], **vehicle}}, *PLAN[1:]]
    return plain(open_book(rows=[Row(**one) for one in rows]))


def on_bridge(id: str, value_kg: float, bridge: Json, **reading: Json) -> Json:
    """One reading of the whole vehicle on a bridge as recorded."""
    one = weighing(id, (["front", "rear"], value_kg))
    readings = [{**one["body"]["readings"][0], **reading}]
    return {**one, "body": {**one["body"], "bridge": bridge, "readings": readings}}


ROUGH = {"interval_kg": 2.0, "accuracy_class": "IIII"}
WEIGHED_BADLY = [
    on_bridge("far", 2001.0, ROUGH),
    on_bridge("near", 2000.0, ROUGH),
    on_bridge("unsaid", 1500.0, {"accuracy_class": "percent"}),
    on_bridge("aside", 2001.0, ROUGH, struck_out="it rolled"),
]


def weighing_cases() -> list[Json]:
    """1 000 e of class IIII are as far as its table reaches."""
    far, near, unsaid, aside = WEIGHED_BADLY
    refused = lambda field, name: {"field": field, "name": name}  # noqa: E731
    return [
        {"name": "beyond the class", "in": {"weighing": far}, "error": refused("value_kg", "OutOfRange")},
        {
            "name": "in percent of nothing",
            "in": {"weighing": unsaid},
            "error": refused("percent", "NotKnown"),
        },
        case("as far as it reaches", {"weighing": near}, None),
        case("beyond, and set aside", {"weighing": aside}, None),
    ]


WEIGHINGS = {
    "three readings": weighing("w", (["front"], 1300.0), (["front", "rear"], 2650.0), (["rear"], 1340.0)),
    "a total alone": weighing("w", (["front", "rear"], 2650.0)),
    "front and rear": weighing("w", (["front"], 1300.0), (["rear"], 1340.0)),
    "readings that disagree": weighing(
        "w", (["front"], 1300.0), (["front", "rear"], 2950.0), (["rear"], 1340.0)
    ),
    "far over": weighing("w", (["front"], 1250.0), (["front", "rear"], 3110.0), (["rear"], 1860.0)),
    "a repeat": weighing("w", (["front"], 1300.0), (["front"], 1310.0), (["rear"], 1340.0)),
}


def told(found: Json) -> Json:
    """A comparison without the visit's inputs, which each language writes with its own defaults."""
    visit = {
        name: one
        for name, one in found["visit"].items()
        if name in ("measured", "loads", "trailer_id", "chi2", "p", "agree", "light")
    }
    return {**found, "visit": visit}


def comparison_cases() -> list[Json]:
    out = []
    for name, one in WEIGHINGS.items():
        earlier = weighing("e", (["front"], 1290.0), (["rear"], 1350.0), day=1)
        later = {**one, "body": {**one["body"], "at": "2026-05-09T08:00:00Z"}}
        book = open_book(rows=[Row(**r) for r in (*PLAN, earlier, later)])
        found = told(plain(compare(book=book, weighing_id="w")))
        out.append(case(name, {"book": plain(book), "weighing_id": "w"}, found, rel=1e-9, abs=1e-7))
    linked = {**VEHICLE, "body": {**VEHICLE["body"], "base_correlation": 0.6}}
    book = open_book(rows=[Row(**r) for r in (linked, *PLAN[1:], WEIGHINGS["three readings"])])
    found = told(plain(compare(book=book, weighing_id="w")))
    out.append(
        case("base masses that share their error", {"book": plain(book), "weighing_id": "w"}, found, abs=1e-7)
    )
    bare = open_book(
        rows=[Row(**r) for r in (row("v", "vehicle", name="V"), PLAN[1], WEIGHINGS["front and rear"])]
    )
    no_plan = told(plain(compare(book=bare, weighing_id="w")))
    out.append(case("no plan yet", {"book": plain(bare), "weighing_id": "w"}, no_plan, abs=1e-7))
    for name, book in towing_books.books().items():
        found = told(plain(compare(book=decode(book, Book), weighing_id="w")))
        out.append(case(name, {"book": book, "weighing_id": "w"}, found, rel=1e-9, abs=1e-7))
    unknown = {"name": "Unknown", "field": "weighing_id"}
    out.append(
        {"name": "no such weighing", "in": {"book": plain(bare), "weighing_id": "q"}, "error": unknown}
    )
    return out


def guidance_cases() -> list[Json]:
    """Doubts of every kind, on the books of the comparison and on those with a trailer."""
    out = []
    doubtful = {
        "front alone": weighing("w", (["front"], 1300.0)),
        "a total near its rating": weighing("w", (["front", "rear"], 2990.0)),
        "front and whole": weighing("w", (["front"], 1440.0), (["front", "rear"], 3000.0)),
        "readings that disagree": WEIGHINGS["readings that disagree"],
    }
    for name, one in doubtful.items():
        book = open_book(rows=[Row(**r) for r in (*PLAN, one)])
        found = plain(guide(book=book, weighing_id="w"))
        out.append(case(name, {"book": plain(book), "weighing_id": "w"}, found, abs=1e-7))
    for name, book in towing_books.books().items():
        found = plain(guide(book=decode(book, Book), weighing_id="w"))
        out.append(case(name, {"book": book, "weighing_id": "w"}, found, abs=1e-7))
    bare = open_book(
        rows=[Row(**r) for r in (row("v", "vehicle", name="V"), PLAN[1], doubtful["front alone"])]
    )
    found = plain(guide(book=bare, weighing_id="w"))
    out.append(case("no plan yet", {"book": plain(bare), "weighing_id": "w"}, found, abs=1e-7))
    return out


def explanation_cases() -> list[Json]:
    """The books of the guidance, and one whose readings leave less than nothing of an item."""
    out = []
    light = {**PLAN[9], "body": {**PLAN[9]["body"], "mass_kg": 90.0, "mass_u_kg": 150.0}}
    less = weighing("w", (["front"], 1190.0), (["front", "rear"], 2420.0), (["rear"], 1230.0))
    books = {
        "three readings": open_book(rows=[Row(**r) for r in (*PLAN, WEIGHINGS["three readings"])]),
        "less than nothing left": open_book(rows=[Row(**r) for r in (*PLAN[:9], light, *PLAN[10:], less)]),
        "readings that disagree": open_book(
            rows=[Row(**r) for r in (*PLAN, WEIGHINGS["readings that disagree"])]
        ),
    }
    for name, book in books.items():
        found = plain(explain(book=book, weighing_id="w"))
        out.append(case(name, {"book": plain(book), "weighing_id": "w"}, found, rel=1e-7, abs=1e-7))
    for name, given in towing_books.books().items():
        found = plain(explain(book=decode(given, Book), weighing_id="w"))
        out.append(case(name, {"book": given, "weighing_id": "w"}, found, rel=1e-7, abs=1e-7))
    unknown = {"name": "Unknown", "field": "weighing_id"}
    nowhere = {"book": plain(books["three readings"]), "weighing_id": "q"}
    return [*out, {"name": "no such weighing", "in": nowhere, "error": unknown}]


GROUPS = {
    "book": ("open_book", "Rules 1 and 2 of the records: corrections, deletions, order of time", book_cases),
    "state": (
        "logged_state",
        "Rules of the state: the latest entry per subject, planned ends, usual seats",
        state_cases,
    ),
    "plan": (
        "plan_in",
        "Facts of the records and density EN 590 0.8325 kg/L; arithmetic by hand",
        plan_cases,
    ),
    "explain": ("explain", road_books.BOTH, explanation_cases),
    "guidance": ("guide", road_books.BOTH, guidance_cases),
    "comparison": ("compare", road_books.BOTH, comparison_cases),
}

MORE = {
    "plan": (
        "forgotten_of",
        "3 to 6 % of the added mass: common practice, no source; sums of moments by hand",
        lambda: forgotten_cases(PLAN),
    ),
    "book": (
        "check_weighing",
        "Tables of errors of classes III and IIII: OIML R 76-1:2006 table 6 (from memory)",
        weighing_cases,
    ),
}


def main() -> None:
    for module, (function, source, cases) in GROUPS.items():
        more = [MORE[module]] if module in MORE else []
        groups = [(function, source, cases), *more]
        told = [{"function": one, "source": said, "cases": made()} for one, said, made in groups]
        write(module, [*told, *(road_books.seat_groups() if module == "state" else [])])
    write("plates", plate_groups())
    write("rejudge", rejudge_groups())
    for module, groups in (*centre_books.groups().items(), *road_books.groups().items()):
        write(module, groups)


def write(module: str, functions: list[Json]) -> None:
    text = json.dumps({"module": module, "functions": functions}, indent=1, allow_nan=False)
    (HERE / f"{module}.json").write_text(text + "\n")


if __name__ == "__main__":
    main()
