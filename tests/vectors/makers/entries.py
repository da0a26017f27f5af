"""Vectors of entries: what is refused of one entry."""

from typing import Any

import numpy as np
from vectors.frame import case, function, refused
from vectors.logs import BY_HAND, TANK, changed, dipped, filled, moved, watered

Json = Any
CAN = {"id": "can", "capacity_l": 20.0, "drawn": False}
TANKS = {"tanks": [TANK, CAN]}
FRESH = {"tanks": [{"id": "fresh", "capacity_l": 90.0}]}
SECTION_I = "the list of refusals of the specification (section I)"


def functions(rng: np.random.Generator) -> list[Json]:
    fill = filled(1, 100.0, 50.0)
    return [
        function(
            "check_place",
            SECTION_I,
            case("no odometer", entry=filled(1, None, 50.0)),
            case("just in time", entry=fill, latest_s=86_400.0),
            refused("odometer below 0", "OutOfRange", "odometer_km", entry=filled(1, -1.0, 50.0)),
            refused("too late", "OutOfRange", "at_s", entry=fill, latest_s=86_399.0),
            refused("no instant", "DomainError", "at_s", entry={**fill, "at_s": None}),
        ),
        function("check_entry", SECTION_I, *_fills(), *_dips(), *_transfers(), *_changes(), *_waters()),
        function(
            "check_fits",
            SECTION_I,
            case("as much as 1.1 C", litres_l=88.0, tank=TANK),
            refused("more", "TooMuch", "litres_l", litres_l=88.01, tank=TANK),
        ),
        function(
            "tank_of",
            BY_HAND,
            case("there", CAN, tank_id="can", **TANKS),
            refused("not there", "Unknown", "tank_id", tank_id="sub", **TANKS),
        ),
    ]


def _no(name: str, error: str, field: str, entry: Json, where: Json = TANKS) -> Json:
    return refused(name, error, field, entry=entry, **where)


def _fills() -> list[Json]:
    fill = filled(1, 100.0, 50.0)
    other = [{"tank_id": "sub", "litres_l": 5.0}]
    return [
        case("a fill", entry=fill, **TANKS),
        case("a fill of nothing", entry=filled(1, 100.0, 0.0), **TANKS),
        _no("a fill without lines", "NotKnown", "lines", {**fill, "lines": []}),
        _no("above 1.1 C", "TooMuch", "litres_l", filled(1, 100.0, 88.01)),
        _no("below 0", "OutOfRange", "litres_l", filled(1, 100.0, -0.1)),
        _no("a tank that is not there", "Unknown", "tank_id", {**fill, "lines": other}),
        _no("an unknown surface", "Unknown", "surface", {**fill, "surface": {"mud": 1.0}}),
        _no("surfaces 0.9", "OutOfRange", "surface", {**fill, "surface": {"sealed": 0.9}}),
        _no(
            "u below 0",
            "OutOfRange",
            "litres_u_l",
            {**fill, "lines": [{"tank_id": "main", "litres_l": 5.0, "litres_u_l": -1.0}]},
        ),
    ]


def _dips() -> list[Json]:
    return [
        case("a dip", entry=dipped(1, 100.0, 0.5), **TANKS),
        case("a dip in litres", entry={**dipped(1, 100.0, 0.5), "level": None, "litres_l": 30.0}, **TANKS),
        _no("level above 1", "OutOfRange", "level", dipped(1, 100.0, 1.01)),
        _no("no level", "NotKnown", "level", {**dipped(1, 100.0, 0.5), "level": None}),
        _no("read by guess", "Unknown", "how", dipped(1, 100.0, 0.5, how="guess")),
        _no("too many litres", "OutOfRange", "litres_l", {**dipped(1, 100.0, 0.5), "litres_l": 90.0}),
    ]


def _transfers() -> list[Json]:
    return [
        case("everything out of a can", entry=moved(1, 9.0, "can", "main", None, everything=True), **TANKS),
        case("everything out", entry=moved(1, 9.0, "main", None, None, everything=True), **TANKS),
        _no("no litres", "NotKnown", "litres_l", moved(1, 9.0, "can", "main", None)),
        case("a can and a little over", entry=moved(1, 9.0, "can", "main", 22.0), **TANKS),
        _no("more than the can holds", "TooMuch", "litres_l", moved(1, 9.0, "can", "main", 23.0)),
        _no("more than the tank holds", "TooMuch", "litres_l", moved(1, 9.0, "main", None, 89.0)),
        _no(
            "everything into a can",
            "NotKnown",
            "litres_l",
            moved(1, 9.0, "main", "can", None, everything=True),
        ),
        _no("into itself", "DomainError", "to_tank_id", moved(1, 9.0, "main", "main", 5.0)),
        _no("from nowhere", "Unknown", "tank_id", moved(1, 9.0, "sub", "main", 5.0)),
    ]


def _changes() -> list[Json]:
    return [
        case("a change", entry=changed(1, 100.0), **TANKS),
        _no("ratio 0", "OutOfRange", "ratio", changed(1, 100.0, ratio=0.0)),
        _no("u below 0", "OutOfRange", "rate_u", changed(1, 100.0, rate_u=-1.0)),
    ]


def _waters() -> list[Json]:
    return [
        case("water", entry=watered(1, 50.0, full=True, drinkable="yes"), **FRESH),
        _no("another action", "Unknown", "action", watered(1, 5.0, "spill"), FRESH),
        _no("another quality", "Unknown", "drinkable", watered(1, 5.0, drinkable="maybe"), FRESH),
        _no("more than it holds", "TooMuch", "litres_l", watered(1, 99.5), FRESH),
    ]
