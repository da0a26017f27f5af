"""Vectors of what may be moved: facts of the records, written out by hand."""

from typing import Any

import numpy as np
from vectors.change_books import CAN, TANK, TRAILER, book, items, state
from vectors.frame import case, function, refused

Json = Any
SEATS = [
    {"seat_id": "s1", "mass_kg": 70.0, "mass_u_kg": 3.0, "person_id": "ann"},
    {"seat_id": "s2", "mass_kg": 20.0, "mass_u_kg": 1.0, "person_id": "dog"},
    {"seat_id": "s3", "mass_kg": 60.0, "mass_u_kg": 3.0, "person_id": None},
]
ROWS = (
    ("w", "tank", TANK),
    ("f", "tank", CAN),
    ("e", "tank", {**TANK, "emergency_reserve": True}),
    ("d", "tank", {**TANK, "holds": "fuel"}),
)


def of_items(book: Json, state: Json, *, rated: tuple[str, ...] = ("rear",)) -> Json:
    plan = {"$call": {"module": "plan", "function": "plan_in", "in": {"book": book, "state": state}}}
    return {"book": book, "state": state, "plan": plan, "rated": list(rated)}


def subject(id: str, *choices: Json) -> Json:
    return {"id": id, "kind": "item", "choices": list(choices)}


OFF = {"id": "off", "kind": "off"}
MIDDLE = {"id": "slot:0", "kind": "slot", "slot": 0, "part": {"id": "P", "x_m": 1.5, "mass_kg": 60.0}}
BOTH = [subject("P", MIDDLE, OFF), subject("Q", OFF)]


def changed(item: str, **body: Any) -> Json:
    return of_items(book(*items(**{item: body})), state())


def item_cases() -> list[Json]:
    roof = {
        "may_move_to": [
            {"label": "roof", "x_m": 2.0, "roof": True},
            {"label": "box", "x_m": 1.0, "trailer_id": "t"},
        ]
    }
    towing = book(("t", "trailer", TRAILER), *items(P=roof))
    onto = {"id": "slot:0", "kind": "slot", "slot": 0, "part": {"roof": True}}
    trailer = {"id": "slot:1", "kind": "slot", "slot": 1, "part": {"on": "t", "x_m": 1.0}}
    cans = [
        *({"id": id, "kind": "slot", "slot": 0, "copies": k, "part": {"x_m": 1.5, "mass_kg": 60.0 * k, "copies": k}}
          for id, k in (("slot:0:1", 1), ("slot:0:2", 2), ("slot:0", 3))),
        *({"id": id, "kind": "off", "copies": k} for id, k in (("off:1", 1), ("off:2", 2), ("off", 3))),
    ]  # fmt: skip
    return [
        case("a part that says so, a load that says nothing", [BOTH, []], **of_items(book(*items()), state())),
        case("what is kept aboard", [BOTH[:1], []], **changed("Q", keep_aboard=True)),
        case("a load that must come along", [BOTH[:1], []], **changed("Q", may_stay_behind=False)),
        case("the first-aid kit", [BOTH[:1], []], **changed("Q", name="First-Aid kit")),
        case("a shovel stays, whatever else its record says", [BOTH[:1], []],
             **changed("Q", name="Shovel", may_stay_behind=True, may_move_to=[{"x_m": 1.0}])),
        case("a shovel that is said not to be kept", [BOTH, []],
             **changed("Q", name="Shovel", keep_aboard=False)),
        case("a recovery kit with another place", [BOTH[1:], []], **changed("P", name="Recovery kit")),
        case("a part that says nothing", [BOTH[1:], []], **changed("P", may_stay_behind=None, may_move_to=None)),
        case("some of three cans, or all", [[subject("P", *cans), BOTH[1]], []], **changed("P", count=3)),
        case("what is not aboard", [BOTH[1:], []], **of_items(book(*items()), state(away=["P"]))),
        case("without a mass", [BOTH[1:], []], **changed("P", mass_kg=None)),
        case("what was taken off", [BOTH[1:], []], **changed("P", taken_off=True)),
        case("already there", [[subject("P", OFF), BOTH[1]], []], **changed("P", x_m=1.5)),
        case("a roof without a rating, a trailer that is not on",
             [[subject("P", OFF), BOTH[1]], [{"subject_id": "P", "slot": 0, "rating": "roof"}]],
             **of_items(towing, state())),
        case("a roof with one", [[subject("P", onto, OFF), BOTH[1]], []],
             **of_items(towing, state(), rated=("roof",))),
        case("a trailer without one", [[subject("P", onto, OFF), BOTH[1]],
                                       [{"subject_id": "P", "slot": 1, "rating": "trailer"}]],
             **of_items(towing, state(on=["t"]), rated=("roof",))),
        case("both with one", [[subject("P", onto, trailer, OFF), BOTH[1]], []],
             **of_items(towing, state(on=["t"]), rated=("roof", "trailer_axles"))),
    ]  # fmt: skip


def keeping_cases() -> list[Json]:
    def said(kept: bool, why: str, name: str | None, keep: bool | None = None) -> Json:
        label = f"{name}, {'' if keep is None else 'yes' if keep else 'no'}".rstrip(", ")
        return case(label, {"kept": kept, "why": why}, item={"name": name, "keep_aboard": keep})

    return [
        *(said(True, "stated", name, True) for name in ("Box", "Shovel")),
        *(said(False, "stated", name, False) for name in ("Box ", "Recovery kit")),
        *(said(True, "name", name) for name in (
            "First-aid kit", "FIRST  AID", "2 fire extinguishers", "High-lift jack", "Jacks, two", "Jack/handle",
            "Traction boards", "Kit: medical", "Life jackets", "Tyre-repair kit", "Tow rope, 9 m",
        )),
        *(said(False, "open", name) for name in (
            "Box 1", "Jackets", "Winter jacket", "Solar blanket", "Firewood", "Aid, first", "Discovery books",
            "Towels", None, "",
        )),
    ]  # fmt: skip


def tank_cases() -> list[Json]:
    whole = book(*ROWS)
    out = [{"id": f"out:{n}", "kind": "out", "litres_l": kg} for n, kg in enumerate((10.0, 20.0, 25.0))]
    over = [
        {"id": f"to:f:{n}", "kind": "pour", "to_tank_id": "f", "litres_l": kg}
        for n, kg in enumerate((10.0, 20.0))
    ]
    back = [
        {"id": f"to:w:{n}", "kind": "pour", "to_tank_id": "w", "litres_l": kg} for n, kg in enumerate((9.0,))
    ]
    quarter = state({"w": 0.25, "f": 0.3, "e": 1.0})
    coarse = [20.0, 40.0, 60.0, 80.0, 100.0]
    prior = {"tanks": [{"tank_id": "w", "level": 0.5, "level_u": 0.29, "known_from": "prior"}]}
    fuel = {"id": "d", "choices": [{}] * 5}
    return [
        case("let out, or poured over where there is room",
             [{"id": "w", "kind": "tank", "choices": [*out, *over]},
              {"id": "f", "kind": "tank", "choices": [{"id": "out:0", "litres_l": 9.0}, *back]}],
             book=whole, state=quarter),
        case("fuel alone", [*({"id": id, "choices": ways} for id, ways in (("w", over), ("f", back))), fuel],
             book=whole, state=state({"w": 0.25, "f": 0.3, "d": 0.5}), let_out=["fuel"]),
        case("coarser steps of a large one", [{"id": "w", "choices": [{"litres_l": kg} for kg in coarse]}],
             book=whole, state=state({"w": 1.0})),
        case("a level nobody knows", [], book=whole, state={**state(), **prior}),
        case("an empty one", [], book=whole, state=state({"w": 0.0})),
        case("the emergency reserve", [], book=whole, state=state({"e": 1.0})),
    ]  # fmt: skip


def functions(rng: np.random.Generator) -> list[Json]:
    people = (
        ("ann", "person", {"name": "A", "nature": "person"}),
        ("dog", "person", {"name": "D", "nature": "animal"}),
    )
    tank = {"id": "w", "kind": "tank", "rev": "w-1", "body": TANK, "order": 0, "author": ""}
    heavy = {"subject_id": "P"}
    bare = [subject("P", {"id": "slot:0", "kind": "slot", "slot": 0}, OFF), BOTH[1]]
    subjects = {"subjects": bare}
    source = "by hand, from the records"
    return [
        function("kept_aboard", "common practice, no source; by hand", *keeping_cases()),
        function("item_subjects", source, *item_cases()),
        function("copies_offered", source,
                 *(case(f"of {n}", told, count=n) for n, told in (
                     (1, [1]), (4, [1, 2, 3, 4]), (8, [1, 2, 3, 4, 5, 6, 7, 8]), (9, [2, 4, 6, 8, 9]),
                     (17, [4, 8, 12, 16, 17]), (1000, [128, 256, 384, 512, 640, 768, 896, 1000]))),
                 refused("none at all", "OutOfRange", "count", count=0)),
        function("tank_subjects", source, *tank_cases()),
        function(
            "without_refused",
            source,
            case("one choice", [subject("P", OFF), bare[1]], **subjects, refused=[{**heavy, "choice_id": "slot:0"}]),
            case("the whole thing", bare[1:], **subjects, refused=[heavy]),
            case("the last choice", bare[:1], **subjects, refused=[{"subject_id": "Q", "choice_id": "off"}]),
            case("something else", bare, **subjects, refused=[{"subject_id": "R"}]),
        ),
        function("content_l", source, case("a quarter", 25.0, tank=tank, state=state({"w": 0.25})),
                 case("no level", 0.0, tank=tank, state=state())),
        function("room_l", source, case("three quarters", 75.0, tank=tank, state=state({"w": 0.25})),
                 case("full", 0.0, tank=tank, state=state({"w": 1.0}))),
        function(
            "usual_water_reserve",
            "South Australia, Remote Area Travel Information: at least 6 L/person/day, and 3-4 days' reserve",
            case("an adult, an animal at a quarter, somebody unnamed", 6.0 * 4 * 2.25,
                 book=book(*people), state=state(seats=SEATS)),
            case("nobody aboard", 0.0, book=book(*people), state=state()),
        ),
    ]  # fmt: skip
