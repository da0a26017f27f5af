"""Vectors of the least change of a book: the worked example, a tank, a trailer; loads by levers."""

from typing import Any

import numpy as np
from vectors.change_books import CAN, DAY, TANK, TRAILER, asked, book, items, state
from vectors.frame import case, function, refused

Json = Any


def rear(value_kg: float, word: str) -> list[Json]:
    return [{"rating": "rear", "limit_kg": 1000.0, "value_kg": value_kg, "u_kg": 0.0, "word": word}]


def example() -> Json:
    """930 + 72 + 20; at 1.5 m the heavy one puts 30 there."""
    move = {
        "subject_id": "P",
        "kind": "item",
        "choice": {"id": "slot:0", "kind": "slot", "slot": 0},
        "off_kg": 0.0,
        "effects": [{"rating": "rear", "kg": -42.0}],
    }
    front = {"id": "front:least", "least": 0.0, "before": {"value_kg": 988.0}, "after": {"value_kg": 1030.0}}
    return {
        "advice": {
            "word": "found",
            "moves": 1,
            "off_kg": 0.0,
            "equals": False,
            "exact": True,
            "picks": [1, 0],
        },
        "moves": [move],
        "before": rear(1022.0, "over"),
        "after": rear(980.0, "under"),
        "floors": [{**front, "met_before": True, "met_after": True}],
    }


def cases() -> list[Json]:
    whole = book(*items())
    refusing = [{"subject_id": "P", "choice_id": "slot:0"}]
    off = {
        "moves": [{"subject_id": "P", "choice": {"kind": "off"}, "off_kg": 60.0}],
        "after": rear(950.0, "under"),
    }
    none = {"advice": {"word": "impossible", "unmet": [{"id": "rear", "short_kg": 2.0}]}, "moves": []}
    water = book(("w", "tank", TANK))
    out = {
        "moves": [
            {"subject_id": "w", "kind": "tank", "choice": {"kind": "out", "litres_l": 40.0}, "off_kg": 40.0}
        ]
    }
    two = book(("w", "tank", TANK), ("f", "tank", CAN))
    over = {"moves": [{"subject_id": "w", "choice": {"kind": "pour", "to_tank_id": "f", "litres_l": 20.0}}]}
    towing = book(
        ("t", "trailer", TRAILER), *items(), ("q", "plate", {"of": "trailer", "coupling_kg": 200.0})
    )
    three = book(*items(P={"count": 3, "mass_kg": 20.0}))
    one = {
        "moves": [{"subject_id": "P", "choice": {"id": "off:1", "kind": "off", "copies": 1}, "off_kg": 20.0}],
        "advice": {"moves": 1, "off_kg": 20.0, "exact": True},
        "after": rear(998.0, "under"),
    }
    middle = {"id": "slot:0:2", "slot": 0, "copies": 2, "part": {"mass_kg": 40.0}}
    pair = {
        "moves": [{"subject_id": "P", "choice": middle, "off_kg": 0.0}],
        "advice": {"moves": 2, "off_kg": 0.0, "exact": True},
        "after": rear(994.0, "under"),
    }
    return [
        case("one of three is left", one, **asked(three, state())),
        case("two of three move, and nothing is left", pair, **asked(three, state(), objective="off")),
        case("the worked example", example(), **asked(whole, state())),
        case("the same for least off", example(), **asked(whole, state(), objective="off")),
        case("what is refused is left behind", off, **asked(whole, state(), refused=refusing)),
        case("with all of it staying nothing helps", none, **asked(whole, state(), refused=[{"subject_id": "P"}])),
        case("the box at home, nothing to do", {"advice": {"word": "within"}, "before": rear(950.0, "under")},
             **asked(whole, state(away=["P"]))),
        case("water is let out in steps", {**out, "after": rear(990.0, "under")},
             **asked(water, state({"w": 1.0}), water_reserve_l=60.0)),
        case("not below the reserve", {"advice": {"word": "impossible", "unmet": []}, "moves": []},
             **asked(water, state({"w": 1.0}), water_reserve_l=61.0)),
        case("a reserve that is not there is no reason", {"advice": {"word": "within"}},
             **asked(water, state({"w": 0.5}), water_reserve_l=80.0)),
        case("poured into the tank in front", {**over, "after": rear(1000.0, "under")},
             **asked(two, state({"w": 0.9, "f": 0.2}), let_out=[])),
        case("no room in front", {"advice": {"word": "impossible"}},
             **asked(two, state({"w": 0.9, "f": 0.4}), let_out=[])),
        case("at the worst levels of the tanks nothing is let out",
             {"advice": {"word": "impossible"}, "before": rear(1030.0, "over")},
             **asked(water, state({"w": 0.1}), tanks="worst")),
        case("a trailer presses through its coupling",
             {"before": [{"value_kg": 1102.0}, {"rating": "coupling", "value_kg": 60.0}]},
             **asked(towing, state(on=["t"]))),
        case("and not while it is uncoupled", {"before": rear(1022.0, "over")}, **asked(towing, state())),
        case("a coupling that must be heavier", unmet("coupling:least"),
             **asked(towing, state(on=["t"]), least_coupling_kg=61.0)),
        case("or a share of the trailer that is more", unmet("coupling:share"),
             **asked(towing, state(on=["t"]), least_coupling_share=0.11)),
    ]  # fmt: skip


def unmet(*more: str) -> Json:
    """The rear axle, and another limit."""
    return {"advice": {"unmet": [{"id": id} for id in ("rear", *more)]}}


def refusals() -> list[Json]:
    whole = asked(book(*items()), state())
    bare = asked(book(wheelbase_m=None), state())

    def bad(name: str, error: str, field: str, **wishes: Any) -> Json:
        return refused(name, error, field, **{**whole, "wishes": wishes})

    posed = {"learning": whole["learning"], "day": DAY, "wishes": {}}
    return [
        bad("levels of another kind", "Unknown", "tanks", tanks="half"),
        bad("another objective", "Unknown", "objective", objective="beauty"),
        bad("less than even", "OutOfRange", "confidence", confidence=0.4),
        bad("a negative coupling load", "OutOfRange", "least_coupling_kg", least_coupling_kg=-1.0),
        refused("no wheelbase", "NotKnown", "wheelbase_m", **{**posed, "book": bare["book"], "state": state()}),
        refused("a reserve below nothing", "OutOfRange", "water_reserve_l",
                **asked(book(("w", "tank", TANK)), state({"w": 1.0}), water_reserve_l=-1.0)),
        refused("a share above the whole", "OutOfRange", "least_coupling_share",
                **asked(book(("t", "trailer", TRAILER)), state(on=["t"]), least_coupling_share=1.5)),
    ]  # fmt: skip


def posed_cases() -> list[Json]:
    """The fixed loads and the options: 930 on the rear, 60 x 1.2, 60 x 0.5, 20."""
    option = {"id": "stay", "loads_kg": [72.0, -12.0]}
    middle = {"id": "slot:0", "loads_kg": [30.0, 30.0]}
    off = {"id": "off", "loads_kg": [0.0, 0.0], "off_kg": 60.0}
    light = {"id": "Q", "mass_kg": 20.0, "options": [{"loads_kg": [20.0, 0.0]}, {"off_kg": 20.0}]}
    limits = [{"id": "rear", "limit_kg": 1000.0, "fixed_kg": 930.0, "variance_kg2": 0.0},
              {"id": "front:least", "limit_kg": 0.0, "fixed_kg": 1000.0, "least": True}]  # fmt: skip
    heavy = {"id": "P", "mass_kg": 60.0, "options": [option, middle, off]}
    out = {"problem": {"limits": limits, "items": [heavy, light], "confidence": 0.5, "objective": "moves"}}
    return [
        case("the worked example", {**out, "unrated": [], "missing": []}, **asked(book(*items()), state()))
    ]


def read_cases() -> list[Json]:
    whole = asked(book(*items()), state())
    posed = {"$call": {"module": "least_change", "function": "pose_change", "in": whole}}
    held = [
        {"id": "rear", "value_kg": 1022.0, "u_kg": 0.0},
        {"id": "front:least", "value_kg": 988.0, "u_kg": 0.0},
    ]
    none = {"word": "not_found", "picks": [], "moves": 0, "off_kg": 0.0, "before": held, "after": held}
    advice = {**none, "unmet": [], "equals": False, "exact": False, "most_moves": 2}
    told = {"moves": [], "before": rear(1022.0, "over"), "after": rear(1022.0, "over")}
    return [case("no answer, no moves", told, posed=posed, advice=advice)]


def functions(rng: np.random.Generator) -> list[Json]:
    source = "worked example of load advice and the arithmetic of levers, by hand"
    return [
        function("least_change", source, *cases(), *refusals()),
        function("pose_change", source, *posed_cases()),
        function("read_change", source, *read_cases()),
    ]
