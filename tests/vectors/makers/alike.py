"""Vectors of entries that may be one."""

from typing import Any

import numpy as np
from vectors.frame import case, function
from vectors.log_books import filled, logged, opened
from vectors.logs import BY_HAND

Json = Any


def functions(rng: np.random.Generator) -> list[Json]:
    return [function("alike", BY_HAND, *_fuel(), *_others())]


def _case(name: str, pairs: list[tuple[str, str]], *rows: Any) -> Json:
    out = [{"first_id": first, "second_id": second} for first, second in pairs]
    return case(name, out, book=opened(*rows))


def _fuel() -> list[Json]:
    first, near = filled("f1", 2, 1500.0, 54.2), filled("f2", 2.01, 1501.0, 54.0, author="ben")
    kept = logged("k3", "correction", 3, of_id="f2", what="kept", other_id="f1")
    struck = logged("k3", "correction", 3, of_id="f2", what="same_as", other_id="f1")
    sub = {"tank_id": "sub", "litres_l": 30.0, "full": True}
    main = {"tank_id": "main", "litres_l": 54.0, "full": True}
    return [
        _case("nothing", []),
        _case("from memory", [("f1", "f2")], first, near),
        _case("one person twice", [("f1", "f2")], first, filled("f2", 9, 1500.0, 54.2)),
        _case("3 km on", [], first, filled("f2", 2.1, 1503.5, 54.0)),
        _case("other litres", [], first, filled("f2", 2, 1500.0, 50.0)),
        _case("within a litre", [("f1", "f2")], filled("f1", 2, 1500.0, 5.0), filled("f2", 2, 1500.0, 5.9)),
        _case("an odometer blank, within half a day", [("f1", "f2")], first, filled("f2", 2.4, None, 54.0)),
        _case("an odometer blank, days later", [], first, filled("f2", 4, None, 54.0)),
        _case("three phones", [("f1", "f2"), ("f2", "f3")], first, near, filled("f3", 2, 1500.0, 54.0)),
        _case("answered: two", [], first, near, kept),
        _case("answered: one", [], first, near, struck),
        _case("two lines of one tank add up", [("f1", "f2")], first,
              filled("f2", 2, 1500.0, 0.0, lines=[{**main, "litres_l": 50.0}, {**main, "litres_l": 4.0}])),
        _case("another tank besides", [], first, filled("f2", 2, 1500.0, 0.0, lines=[main, sub])),
    ]  # fmt: skip


def _others() -> list[Json]:
    def water(id: str, day: float, author: str, **more: Any) -> Any:
        return logged(
            id,
            "water",
            day,
            author,
            **{"tank_id": "fresh", "action": "fill", "litres_l": 20.0, "drinkable": "yes", **more},
        )

    def moved(id: str, day: float, author: str, **more: Any) -> Any:
        return logged(
            id,
            "transfer",
            day,
            author,
            **{"from_tank_id": "can", "to_tank_id": "main", "everything": True, **more},
        )

    one, pour = water("w1", 2, "ann"), moved("t1", 2, "ann")
    return [
        _case("a can carried twice", [], one, water("w2", 2.02, "ann")),
        _case("by two people", [("w1", "w2")], one, water("w2", 2.02, "ben")),
        _case("by two people, a day apart", [], one, water("w2", 3, "ben")),
        _case("drawn, not filled", [], one, water("w2", 2, "ben", action="draw")),
        _case("another tank", [], one, water("w2", 2, "ben", tank_id="jerry")),
        _case("all of a can, poured by two", [("t1", "t2")], pour, moved("t2", 2.1, "ben")),
        _case("some of it", [], pour, moved("t2", 2.1, "ben", everything=False, litres_l=12.0)),
    ]  # fmt: skip
