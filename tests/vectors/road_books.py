"""Books with a route: vectors of seats, of loads along the way by hand, and of a whole route in both languages.

`books` writes them. On a wheelbase of 3 m a mass at x puts 1 - x/3 of itself on the front axle and x/3 on the rear one.
"""

from typing import Any

from server.domain.book import Book, Row, open_book
from server.domain.next_supply import supplies_ahead
from server.domain.road import road
from server.domain.state import logged_state
from tests.vectors.decode import plain

Json = Any
BY_HAND = "By hand: who has which seat; levers on a wheelbase of 3 m"
BOTH = "Answers of the Python implementation; the two languages against each other"
AT = "2026-05-20T08:00:00Z"
SEALED = {"sealed": 1.0, "gravel": 0.0, "sand": 0.0}
SAND = {"sealed": 0.0, "gravel": 0.5, "sand": 0.5}


def row(id: str, kind: str, order: int = 0, **body: Any) -> Json:
    return {"id": id, "kind": kind, "rev": f"{id}-1", "body": body, "order": order, "author": "a"}


PLAN = [
    row("v", "vehicle", name="V", wheelbase_m=3.0, base_front_kg=1200.0, base_front_u_kg=3.0, base_rear_kg=900.0,
        base_rear_u_kg=4.0),
    row("p", "plate", of="vehicle", gross_kg=2600.0, front_axle_kg=1350.0, rear_axle_kg=1300.0),
    row("s1", "seat", 1, name="Driver", x_m=1.5, x_u_m=0.0, position_by="measured"),
    row("s2", "seat", 2, name="Left", x_m=1.5, usual_person_id="ben"),
    row("ann", "person", 1, name="A", nature="person", mass_kg=80.0, usual_seat_id="s1"),
    row("ben", "person", 2, name="B", nature="person", mass_kg=60.0, water_share=0.5),
    row("dog", "person", 3, name="D", nature="animal", usual_seat_id="s2"),
    row("box", "item", 1, name="Box", nature="load", mass_kg=30.0, mass_u_kg=0.0, x_m=3.0, x_u_m=0.0),
    row("main", "tank", 1, name="Main", holds="fuel", capacity_l=80.0, x_m=1.8, drain_order=2, unusable_l=2.0),
    row("tail", "tank", 2, name="Tail", holds="fuel", capacity_l=40.0, x_m=3.9, drain_order=1),
    row("fresh", "tank", 3, name="Fresh", holds="water", capacity_l=60.0, x_m=2.4, grey_tank_id="grey",
        grey_fraction=0.6),
    row("grey", "tank", 4, name="Grey", holds="grey", capacity_l=90.0, x_m=3.6),
]  # fmt: skip
BEN_OUT = row("a1", "aboard", 1, at="2026-05-02T08:00:00Z", subject="person", subject_id="ben", aboard=False)


def fill(id: str, day: int, odometer: float, main: float, tail: float) -> Json:
    lines = [
        {"tank_id": name, "litres_l": litres, "full": True}
        for name, litres in (("main", main), ("tail", tail))
    ]
    return row(id, "fill", day, at=f"2026-05-{day:02d}T09:00:00Z", odometer_km=odometer, lines=lines)


LOG = [
    BEN_OUT,
    fill("f1", 3, 10_000.0, 50.0, 20.0),
    fill("f2", 8, 10_600.0, 30.0, 38.0),
    fill("f3", 18, 11_150.0, 28.0, 36.0),
    row("w1", "water", 1, at="2026-05-18T09:00:00Z", tank_id="fresh", action="fill", litres_l=60.0, full=True,
        drinkable="yes"),
]  # fmt: skip
WHOLE: Json = {
    "name": "To the well",
    "legs": [
        {"distance_km": 260.0, "surface": SEALED},
        {"distance_km": 0.0, "surface": SEALED, "days": 1.5},
        {"distance_km": 390.0, "surface": SAND},
    ],
    "supplies": [
        {"name": "Here", "at_km": 0.0, "fuel": True, "water": True, "certain": True},
        {"name": "Half", "at_km": 260.0, "fuel": True, "water": True, "certain": True, "water_take_l": 5.0},
        {"name": "Perhaps", "at_km": 500.0, "fuel": True, "water": False, "certain": False},
    ],
    "changes": [
        {"at_km": 260.0, "what": "load", "name": "firewood", "mass_kg": 40.0, "x_m": 3.6, "until_km": 500.0},
        {"at_km": 260.0, "what": "person", "subject_id": "ben", "aboard": True},
        {"at_km": 300.0, "what": "item", "subject_id": "box", "aboard": False},
        {"at_km": 300.0, "what": "grey"},
    ],
}


def opened(*entries: Json) -> Book:
    return open_book(rows=[Row(**one) for one in (*PLAN, *entries)])


def case(name: str, given: Json, out: Json, **more: Any) -> Json:
    return {"name": name, "in": given, "out": out, "rel": 1e-9, "abs": 1e-9, **more}


def group(function: str, source: str, *cases: Json) -> Json:
    return {"function": function, "source": source, "cases": list(cases)}


def seat_groups() -> list[Json]:
    """For the state's own file."""
    book = plain(opened())
    people = {one["id"]: one for one in book["people"]}
    ann = {"seat_id": "s1", "mass_kg": 80.0, "mass_u_kg": 3.0, "person_id": "ann"}
    ben = {"seat_id": "s2", "mass_kg": 60.0, "mass_u_kg": 3.0, "person_id": "ben"}
    moved, dummy = {**ann, "seat_id": "s2"}, {**ben, "person_id": None}
    given = {"book": book, "people": ["ann", "ben", "dog"]}
    return [
        group(
            "usual_seat",
            BY_HAND,
            case("by the person", {"book": book, "person": people["ann"]}, "s1"),
            case("by the seat", {"book": book, "person": people["ben"]}, "s2"),
        ),
        group(
            "seats_for",
            BY_HAND,
            case("all; the dog's mass is not known", {**given, "seats": []}, [ann, ben]),
            case("who sits elsewhere stays there", {**given, "seats": [moved]}, [moved]),
            case("who does not travel leaves", {**given, "people": ["ben"], "seats": [ann]}, [ben]),
            case("a mass without a name stays", {**given, "people": [], "seats": [dummy]}, [dummy]),
        ),
    ]


def groups() -> dict[str, list[Json]]:
    """Module -> functions."""
    return {
        "road_loads": [group("road_loads", BY_HAND, *_loads())],
        "road": _road(),
        "underway": _underway(),
        "next_supply": _next(),
    }


def _loads() -> list[Json]:
    book = opened(BEN_OUT)
    state = plain(logged_state(book=book, at=AT))
    state["tanks"] = [{**one, "level": 0.0, "level_u": 0.0, "known_from": "typed"} for one in state["tanks"]]
    way = [{"distance_km": 200.0, "way": {}}, {"distance_km": 100.0, "way": {}}]
    wood = {"at_km": 200.0, "what": "load", "mass_kg": 60.0, "mass_u_kg": 0.0, "x_m": 3.75, "until_km": 300.0}
    box = {"at_km": 200.0, "what": "item", "subject_id": "box", "aboard": False}
    ben = {"at_km": 200.0, "what": "person", "subject_id": "ben", "aboard": True}
    route = {"name": "R", "legs": [{"distance_km": 300.0, "surface": SEALED}], "changes": [wood, box, ben]}
    trip = {"book": plain(book), "route": route, "at": AT, "from_km": 0.0, "way": way, "aboard": ["ann"]}
    # 2 L that the outlet cannot reach: 1.665 kg at 1.8 m; Ann 80 kg at 1.5 m, the box 30 kg at 3 m
    front, rear = 1200 + 1.665 * 0.4 + 40, 900 + 1.665 * 0.6 + 40 + 30
    # then 60 kg of wood at 3.75 m, the box out, Ben's 60 kg at 1.5 m; at the end the wood is out too
    wooden = [front - 15, rear + 75]
    boxed, loaded, end = [front - 15, rear + 45], [front + 15, rear + 75], [front + 30, rear]
    values = [[front, rear], [front, rear], wooden, boxed, loaded, loaded, end]
    marks = [
        {"at_km": at, "cause": cause, "value_kg": [*value, sum(value)]}
        for at, cause, value in zip(PLACES, CAUSES, values, strict=True)
    ]
    least = 1300 - (rear + 75)
    rated = {"verdict": {"rating": "rear"}, "margin_kg": least}
    found = {
        "along": {"rows": ["front", "rear", "gross"], "marks": marks},
        "ratings": [{}, rated, {}],
        "stuck": None,
    }
    bare = plain(open_book(rows=[Row(**one) for one in (row("v", "vehicle", name="V"), *PLAN[2:])]))
    return [
        case("somebody, firewood and a box", {"trip": trip, "state": state, "drawn": {}}, found),
        case("no plan", {"trip": {**trip, "book": bare}, "state": state, "drawn": {}}, None),
    ]


PLACES = (0.0, 200.0, 200.0, 200.0, 200.0, 300.0, 300.0)
CAUSES = ("start", "way", "rest", "rest", "rest", "way", "rest")


def _underway() -> list[Json]:
    book = opened(*LOG)
    aboard = [
        case("Ben is out", {"book": plain(book), "at": AT}, ["ann", "dog"]),
        case("before that", {"book": plain(book), "at": "2026-05-01T08:00:00Z"}, ["ann", "ben", "dog"]),
    ]
    begun = {"legs": WHOLE["legs"], "begun_odometer_km": 11_000.0}
    placed = [
        case("150 km since it began", {"book": plain(book), "route": begun, "at": AT}, 150.0),
        case("not begun", {"book": plain(book), "route": WHOLE, "at": AT}, 0.0),
        case("before it began", {"book": plain(book), "route": begun, "at": "2026-05-09T08:00:00Z"}, 0.0),
        case(
            "past its end",
            {"book": plain(book), "route": {**begun, "begun_odometer_km": 9000.0}, "at": AT},
            650.0,
        ),
    ]
    return [group("people_aboard", BY_HAND, *aboard), group("placed_km", BY_HAND, *placed)]


def _road() -> list[Json]:
    book = opened(*LOG)
    given = {"book": plain(book), "route": WHOLE, "at": AT}
    bare = {**given, "book": plain(opened())}
    facts = {"total_km": 650.0, "days": 650 / 300 + 1.5, "people": ["ann", "dog"]}
    supplied = {"fuel": {"supplies": [0, 1, 2], "readings": 6}, "water": {"supplies": [0, 1], "readings": 1}}
    asked = [
        ("the whole way", {"from_km": 0.0}),
        ("the half shut", {"shut": [1]}),
        ("half way", {"from_km": 300.0}),
    ]
    answers = [
        case(name, {**given, **more}, plain(road(book=book, route=WHOLE, at=AT, **more)), rel=1e-6, abs=1e-5)
        for name, more in asked
    ]
    return [
        group(
            "road",
            BY_HAND,
            case("facts", given, {**facts, **supplied}),
            case(
                "no log",
                bare,
                {"total_km": 650.0, "fuel": None, "water": None, "people": ["ann", "ben", "dog"]},
            ),
        ),
        group("road", BOTH, *answers),
    ]


def _next() -> list[Json]:
    """Distances, ways and numbers by hand; a supply within 5 km is where the vehicle is."""
    book, bare = opened(*LOG), opened()
    given = {"book": plain(book), "route": WHOLE, "at": AT}
    half = {"supply": 1, "at_km": 260.0, "distance_km": 260.0, "way": {"sealed": 260.0}}
    end = {"supply": None, "at_km": 650.0, "distance_km": 650.0}
    sand = {"gravel": 195.0, "sand": 195.0}
    water = {"supply": 1, "way": {"all": 1.25 * 260 / 300}}
    shut = {**WHOLE, "supplies": [{**one, "fuel_shut": True} for one in WHOLE["supplies"]]}
    facts = [
        case("the half, and if it is shut the end", {**given, "holds": "fuel"}, [half, end]),
        case(
            "water, with nobody but Ann and the dog", {**given, "holds": "water"}, [water, {"supply": None}]
        ),
        case(
            "at the half: only the end",
            {**given, "holds": "fuel", "from_km": 257.0},
            [{"supply": None, "way": {"sealed": 3.0, **sand}, "distance_km": 393.0}],
        ),
        case(
            "all shut", {**given, "route": shut, "holds": "fuel"}, [{**end, "way": {"sealed": 260.0, **sand}}]
        ),
        case("at the end", {**given, "holds": "fuel", "from_km": 650.0}, []),
        case("no log", {**given, "book": plain(bare), "holds": "fuel"}, []),
        case("no water log", {**given, "book": plain(bare), "holds": "water"}, []),
    ]
    gas = {**given, "holds": "gas"}
    facts.append({"name": "gas", "in": gas, "error": {"name": "Unknown", "field": "holds"}})
    asked = [("fuel", {}), ("water", {}), ("fuel", {"from_km": 300.0, "p": 0.9})]
    answers = [
        case(
            f"{holds} {n}",
            {**given, "holds": holds, **more},
            plain(supplies_ahead(book=book, route=WHOLE, at=AT, holds=holds, **more)),
            rel=1e-6,
            abs=1e-5,
        )
        for n, (holds, more) in enumerate(asked)
    ]
    return [group("supplies_ahead", BY_HAND, *facts), group("supplies_ahead", BOTH, *answers)]
