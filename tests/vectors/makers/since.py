from math import sqrt
from typing import Any

from vectors.frame import case, function, ours, refused
from vectors.weighed_days import ANN, BEN, DECK, PLAN, READING_U2, given, root, state, weighing

Json = Any
WHOLE = ["front", "rear"]
FIRST = weighing("w", 4, [(WHOLE, 2300.0)])
LATER = state(level=0.5, seats=(ANN, BEN), away=())
BY_HAND = "by hand from the entries; the bridge by the split of its class error (server/domain/bridge.py)"


def functions(rng: Any) -> list[dict[str, Any]]:
    return [
        function("since", BY_HAND, *_totals(), *_nothing()),
        function("since", "our own arithmetic in Python, front and rear", *_axles()),
        function("change_kg", BY_HAND, *_changes()),
    ]


def line(subject: str, how: str, id: str, kg: float, u: float, author: str | None = None) -> Json:
    return {"subject": subject, "how": how, "record_id": id, "author": author, "kg": [kg], "u_kg": [u]}


def change_u(one_kg: float, other_kg: float) -> float:
    """Two totals on the bridge of e = 10 kg, Max 40 t: its gain is 0.00075 / sqrt 3, its zero 2.5 / sqrt 3."""
    gain2 = 0.00075**2 / 3
    own = [100 / 3 - gain2 * kg**2 - 2.5**2 / 3 for kg in (one_kg, other_kg)]
    shared = gain2 * one_kg * other_kg + 0.5 * sqrt(own[0] * own[1])
    return sqrt(2 * READING_U2 - 2 * shared)


def found(
    lines: list[Json], listed: tuple[float, float], weighed: tuple[float, float], ids: tuple[str, str]
) -> Json:
    rest = (weighed[0] - listed[0], root(listed[1] ** 2, weighed[1] ** 2))
    pairs = {"listed": listed, "weighed": weighed, "unexplained": rest}
    figures = {
        f"{name}{unit}": [one[i]] for name, one in pairs.items() for i, unit in enumerate(("_kg", "_u_kg"))
    }
    return {"earlier_id": ids[0], "later_id": ids[1], "rows": ["gross"], "lines": lines, **figures}


def _totals() -> list[Json]:
    again = weighing("z", 5, [(WHOLE, 2390.0)], LATER)
    elsewhere = weighing("z", 5, [(WHOLE, 2390.0)], LATER, {**DECK, "name": "Deck Two"})
    listed = (55.0, root(4, 0.1**2, 0.05**2, 1))
    water = ("tank", "level", "water")
    came = [
        line("item", "aboard", "bag", 10.0, 2.0),
        line(*water, -25.0, root(0.1**2, 0.05**2)),
        line("person", "aboard", "ben", 70.0, 1.0),
    ]
    went = [
        line(*water, 25.0, root(0.1**2, 0.05**2)),
        line("item", "away", "bag", -10.0, 2.0),
        line("person", "away", "ben", -70.0, 1.0),
    ]
    u = change_u(2300.0, 2390.0)
    back = {"weighing_id": "w", "earlier_id": "z"}
    there = found(came, listed, (90.0, u), ("w", "z"))
    return [
        case("one bridge", there, **given(FIRST, again, weighing_id="z")),
        case("two bridges", found(came, listed, (90.0, root(2 * READING_U2)), ("w", "z")),
             **given(FIRST, elsewhere, weighing_id="z")),
        case("backwards", found(went, (-55.0, listed[1]), (-90.0, u), ("z", "w")), **given(FIRST, again, **back)),
        case("an edited item, one new, one gone", _edited(), **given(_sparse(), weighing("z", 5, [(WHOLE, 2320.0)]),
                                                                    weighing_id="z")),
    ]  # fmt: skip


def _sparse() -> tuple[str, Json]:
    plan = {name: rev for name, rev in PLAN.items() if name != "box"}
    return weighing("w", 4, [(WHOLE, 2300.0)], state(plan={**plan, "bar": "bar1", "rack": "rack1"}))


def _edited() -> Json:
    lines = [
        line("item", "edited", "bar", 6.0, root(16, 1), "fitter"),
        line("item", "new", "box", 20.0, 3.0, "owner"),
        line("tank", "level", "water", 0.0, root(2 * 0.1**2)),
        line("item", "removed", "rack", -30.0, 5.0, "owner"),
    ]
    listed = (-4.0, root(17, 9, 2 * 0.1**2, 25))
    return found(lines, listed, (20.0, change_u(2300.0, 2320.0)), ("w", "z"))


def _nothing() -> list[Json]:
    rear = weighing("z", 5, [(["rear"], 1100.0)])
    return [
        case("no weighing before", None, **given(FIRST, weighing_id="w")),
        case("no row in common", None, **given(FIRST, rear, weighing_id="z")),
        refused("itself", "Duplicate", "earlier_id", **given(FIRST, weighing_id="w", earlier_id="w")),
        refused("no such weighing", "Unknown", "weighing_id", **given(FIRST, weighing_id="q")),
        refused(
            "none such before", "Unknown", "weighing_id", **given(FIRST, weighing_id="w", earlier_id="q")
        ),
    ]


def _axles() -> list[Json]:
    three = [(["front"], 1230.0), (["rear"], 1080.0), (WHOLE, 2320.0)]
    two = [(["front"], 1290.0), (["rear"], 1120.0)]
    asked = given(weighing("w", 4, three), weighing("z", 5, two, LATER), weighing_id="z")
    return [ours("since", "three rows", "since", **asked)]


def _changes() -> list[Json]:
    def visit(one: tuple[str, Json]) -> Json:
        asked = given(weighing={"id": one[0], "kind": "weighing", "rev": "1", "body": one[1]})
        return {"$call": {"module": "visit", "function": "read_visit", "in": asked}}

    again = weighing("z", 5, [(WHOLE, 2390.0)])
    pair = {"earlier": visit(FIRST), "later": visit(again)}
    return [
        case("a total", [90.0, change_u(2300.0, 2390.0)], **pair, row="gross"),
        refused("a row that is open", "NotFixed", "row", **pair, row="front"),
    ]
