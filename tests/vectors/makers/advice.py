"""Vectors of load advice: the worked example, and small cases that are worked out beside them."""

from math import sqrt
from typing import Any

import numpy as np
from scipy import stats
from vectors.frame import case, function, refused

Json = Any
Z = float(stats.norm.ppf(0.95))


def option(id: str, *loads: float, variances: tuple[float, ...] = (), **more: Any) -> Json:
    return {
        "id": id,
        "loads_kg": list(loads),
        "variances_kg2": list(variances or (0.0,) * len(loads)),
        **more,
    }


def item(id: str, mass_kg: float, *options: Json) -> Json:
    return {"id": id, "mass_kg": mass_kg, "options": list(options)}


def rear(**more: Any) -> Json:
    return {"id": "rear", "limit_kg": 1000.0, "fixed_kg": 930.0, **more}


# Wheelbase 3 m: 60 kg at 3.6 m puts 72 kg on the rear axle, at 1.5 m half of it.
HEAVY = item("P", 60.0, option("here", 72.0), option("middle", 30.0), option("off", 0.0, off_kg=60.0))
LIGHT = item("Q", 20.0, option("here", 20.0), option("off", 0.0, off_kg=20.0))
EXAMPLE = {"limits": [rear()], "items": [HEAVY, LIGHT], "confidence": 0.5}


def held(value_kg: float, u_kg: float = 0.0) -> Json:
    return {"id": "rear", "value_kg": value_kg, "u_kg": u_kg}


def box(id: str, kg: float, variance: float = 0.0) -> Json:
    """A load straight over the rear axle that may only be left behind."""
    there = option("here", kg, variances=(variance,))
    return item(id, kg, there, option("off", 0.0, off_kg=kg))


def examples() -> list[Json]:
    moved = {"word": "found", "picks": [1, 0], "moves": 1, "off_kg": 0.0, "exact": True, "equals": False}
    told = {**moved, "before": [held(1022.0)], "after": [held(980.0)], "unmet": []}
    slot = [{"id": "middle", "capacity_kg": 40.0}]
    heavy = {**HEAVY, "options": [*HEAVY["options"]]}
    heavy["options"][1] = option("middle", 30.0, slot="middle", slot_kg=60.0)
    return [
        case("the worked example, fewest moves", told, **EXAMPLE),
        case("the worked example, least off", told, **EXAMPLE, objective="off"),
        case(
            "a plan within its limits moves nothing",
            {"word": "within", "picks": [0, 0], "moves": 0, "after": [held(1022.0)]},
            **{**EXAMPLE, "limits": [rear(limit_kg=1022.0)]},
        ),
        case(
            "too heavy for the slot, so it comes off",
            {"word": "found", "picks": [2, 0], "moves": 1, "off_kg": 60.0},
            **{**EXAMPLE, "items": [heavy, LIGHT], "slots": slot},
        ),
        case("no items, within", {"word": "within", "picks": [], "moves": 0}, limits=[rear()], items=[]),
    ]


def choices() -> list[Json]:
    """Fewest moves and least off ask for different things; equals; what cannot be met."""
    boxes = [box("a", 50.0), box("b", 12.0), box("c", 11.0)]
    over = [rear(fixed_kg=950.0)]  # 950 + 73 = 1023: 23 too many
    light = {**EXAMPLE, "limits": [rear(fixed_kg=1010.0)]}
    lifted = [
        {"id": "rear", "limit_kg": 1000.0, "fixed_kg": 930.0},
        {"id": "coupling", "limit_kg": 0.0, "fixed_kg": 20.0, "least": True},
    ]
    tail = item(
        "tail box",
        60.0,
        option("here", 72.0, 0.0),
        option("trailer's tail", 0.0, -25.0),
        option("middle", 30.0, 0.0),
    )
    both = [
        {"id": "front", "limit_kg": 100.0, "fixed_kg": 90.0},
        {"id": "rear", "limit_kg": 100.0, "fixed_kg": 90.0},
    ]
    seesaw = item("box", 30.0, option("here", 5.0, 25.0), option("forward", 25.0, 5.0))
    return [
        case("one heavy move", {"picks": [1, 0, 0], "moves": 1, "off_kg": 50.0},
             limits=over, items=boxes, confidence=0.5),
        case("two light ones", {"picks": [0, 1, 1], "moves": 2, "off_kg": 23.0, "exact": True},
             limits=over, items=boxes, confidence=0.5, objective="off"),
        case("two are as good", {"word": "found", "picks": [0, 1], "moves": 1, "off_kg": 50.0, "equals": True},
             limits=over, items=[box("a", 50.0), box("b", 50.0)], confidence=0.5),
        case("what cannot be met by moving these",
             {"word": "impossible", "picks": [], "unmet": [{"id": "rear", "short_kg": 10.0}], "after": [held(1102.0)]},
             **light),
        case("a lower limit keeps the load off the trailer's tail",
             {"word": "found", "picks": [2], "moves": 1, "off_kg": 0.0}, limits=lifted, items=[tail], confidence=0.5),
        case("each can be met, but not both", {"word": "impossible", "unmet": [], "exact": True},
             limits=both, items=[seesaw], confidence=0.5),
    ]  # fmt: skip


def unsure() -> list[Json]:
    """With u: 930 + 60 + 20 + z u against the limit, u by sums of variances, and by the sum of u for copies."""
    sure = sqrt(100.0 + 9.0 + 4.0)
    edge = 1010.0 + Z * sure
    boxes = [box("a", 60.0, 9.0), box("b", 20.0, 4.0)]
    wide = [rear(variance_kg2=100.0, limit_kg=edge)]
    narrow = [rear(variance_kg2=100.0, limit_kg=edge - 1e-6)]
    copies = [
        item(
            id,
            40.0,
            option("here", 40.0, shares=[{"error": 0, "per_unit": [3.0]}]),
            option("off", 0.0, off_kg=40.0),
        )
        for id in ("first", "second")
    ]
    together = [rear(limit_kg=1010.0 + Z * 6.0)]
    less = [rear(limit_kg=1010.0 + Z * 6.0 - 1e-6)]
    tied = [rear(limit_kg=970.0 + Z * sqrt(100.0 + 9.0 - 2 * 20.0), variance_kg2=100.0, linked=[-20.0 / 3])]
    one = {"confidence": 0.95, "errors": [[1.0]]}
    return [
        case("the limit itself is met", {"word": "within", "after": [held(1010.0, sure)]},
             limits=wide, items=boxes, confidence=0.95),
        case("a millionth less is not", {"word": "found", "picks": [0, 1], "moves": 1, "off_kg": 20.0},
             limits=narrow, items=boxes, confidence=0.95),
        case("two copies of one article: u adds up", {"word": "within", "after": [held(1010.0, 6.0)]},
             limits=together, items=copies, **one),
        case("two copies, a millionth less", {"word": "found", "moves": 1, "equals": True},
             limits=less, items=copies, **one),
        case("what goes against the fixed load makes it surer", {"word": "within"},
             limits=tied, items=copies[:1], **one),
    ]  # fmt: skip


def several() -> list[Json]:
    """Three cans of 20 kg that bring 24 kg each to the rear, 10 kg in the middle; two ways of counting moves."""
    ways = [option(f"middle {k}", 72.0 - 14.0 * k, moves=k) for k in (1, 2, 3)]
    left = [option(f"off {k}", 72.0 - 24.0 * k, off_kg=20.0 * k, moves=k) for k in (1, 2, 3)]
    cans = item("cans", 60.0, option("here", 72.0), *ways, *left)
    given = {"limits": [rear(fixed_kg=950.0)], "items": [cans], "confidence": 0.5}  # 22 kg too many
    two = {"word": "found", "picks": [2], "moves": 2, "off_kg": 0.0, "after": [held(994.0)], "exact": True}
    one = {"word": "found", "picks": [4], "moves": 1, "off_kg": 20.0, "after": [held(998.0)], "exact": True}
    box = item("box", 30.0, option("here", 30.0), option("middle", 5.0))
    tied = {**given, "items": [item("cans", 60.0, option("here", 72.0), *left), box]}
    short = {**given, "limits": [rear(fixed_kg=1001.0)]}
    none = {"word": "impossible", "unmet": [{"id": "rear", "short_kg": 1.0}], "most_moves": 3}
    return [
        case("one of three left is one move", one, **given),
        case("with nothing left behind two move", two, **given, objective="off"),
        case("one move of something else with less off", {"picks": [0, 1], "moves": 1, "off_kg": 0.0},
             **{**tied, "limits": [rear(fixed_kg=920.0)]}),
        case("not even with all three gone", none, **short),
    ]  # fmt: skip


def limited() -> list[Json]:
    """Nineteen alike, 10 kg each, 35 kg too many: four come off, one of the many choices."""
    many = [box(f"b{n}", 10.0) for n in range(19)]
    four = {"word": "found", "moves": 4, "off_kg": 40.0, "equals": True, "exact": True}
    over = [rear(fixed_kg=845.0)]
    given = {"limits": over, "items": many, "confidence": 0.5}
    stopped = {"word": "not_found", "exact": False, "most_moves": 3, "picks": []}
    return [
        case("nineteen items, fewest moves", four, **given),
        case("nodes used up before anything was found", stopped, **given, most_nodes=1),
    ]


def refusals() -> list[Json]:
    def bad(name: str, error: str, field: str, **changed: Any) -> Json:
        return refused(name, error, field, **{**EXAMPLE, **changed})

    def heavy(**changed: Any) -> Json:
        return {"items": [{**HEAVY, **changed}, LIGHT]}

    shared = option("here", 72.0, shares=[{"error": 1, "per_unit": [1.0]}])
    return [
        bad("less than even", "OutOfRange", "confidence", confidence=0.49),
        bad("never sure", "OutOfRange", "confidence", confidence=1.0),
        bad("another objective", "Unknown", "objective", objective="beauty"),
        bad("no nodes", "OutOfRange", "most_nodes", most_nodes=0),
        bad("a move that is none", "OutOfRange", "moves",
            **heavy(options=[HEAVY["options"][0], option("middle", 30.0, moves=0)])),
        bad("a limit of nothing", "OutOfRange", "limit_kg", limits=[rear(limit_kg=0.0)]),
        bad("a lower limit below zero", "OutOfRange", "limit_kg", limits=[rear(limit_kg=-1.0, least=True)]),
        bad("a fixed load that is text", "DomainError", "fixed_kg", limits=[rear(fixed_kg="much")]),
        bad("a negative variance", "OutOfRange", "variance_kg2", limits=[rear(variance_kg2=-1.0)]),
        bad("one limit twice", "Duplicate", "limit", limits=[rear(), rear()]),
        bad("one item twice", "Duplicate", "item", items=[HEAVY, HEAVY]),
        bad("one slot twice", "Duplicate", "slot", slots=[{"id": "s", "capacity_kg": 1.0}] * 2),
        bad("a slot without room", "OutOfRange", "capacity_kg", slots=[{"id": "s", "capacity_kg": 0.0}]),
        bad("a slot that is not there", "Unknown", "slot", **heavy(options=[option("here", 1.0, slot="s")])),
        bad("a negative mass", "OutOfRange", "mass_kg", **heavy(mass_kg=-1.0)),
        bad("nowhere to be", "NotKnown", "options", **heavy(options=[])),
        bad("one option twice", "Duplicate", "option", **heavy(options=[option("here", 1.0)] * 2)),
        bad("off at its present place", "OutOfRange", "off_kg", **heavy(options=[option("here", 1.0, off_kg=1.0)])),
        bad("too few loads", "DomainError", "loads_kg", **heavy(options=[option("here")])),
        bad("an option's negative variance", "OutOfRange", "variances_kg2",
            **heavy(options=[option("here", 1.0, variances=(-1.0,))])),
        bad("an error that is not there", "Unknown", "error", **heavy(options=[shared]), errors=[[1.0]]),
        bad("a covariance that is not square", "DomainError", "errors", errors=[[1.0, 0.0]]),
        bad("an error of negative variance", "OutOfRange", "errors", errors=[[-1.0]]),
        bad("links that are too few", "DomainError", "linked",
            limits=[rear(linked=[1.0])], errors=[[1.0, 0.0], [0.0, 1.0]]),
    ]  # fmt: skip


def functions(rng: np.random.Generator) -> list[Json]:
    where = {"limits": EXAMPLE["limits"], "items": EXAMPLE["items"]}
    return [
        function(
            "advise",
            "worked example of load advice; small cases by hand, scipy.stats.norm for z",
            *examples(),
            *choices(),
            *unsure(),
            *several(),
            *limited(),
            *refusals(),
        ),
        function(
            "held_by",
            "by hand",
            case("as it is", [held(1022.0)], **where, picks=[0, 0]),
            case("both off", [held(930.0)], **where, picks=[2, 1]),
        ),
    ]
