"""Vectors of the rows of a log as entries."""

from typing import Any

import numpy as np
from vectors.decode import plain
from vectors.frame import by_order, case, function
from vectors.log_books import STEADY, filled, logged, opened, row
from vectors.logs import BY_HAND

Json = Any
DAY_S = 86_400.0
SAND = {"sealed": 0.0, "gravel": 0.0, "sand": 1.0}
MAY_S = 1_777_593_600.0  # 1 May 2026, 00:00 UTC


def functions(rng: np.random.Generator) -> list[Json]:
    return [
        function(
            "seconds",
            "POSIX time of a day: 86 400 s times the days since 1970-01-01 (POSIX.1-2017, 4.16, from memory)",
            by_order("midnight", ["2026-05-01T00:00:00Z"], MAY_S),
            by_order("with a fraction", ["2026-05-01T01:02:03.500Z"], MAY_S + 3723.5),
        ),
        function("tanks_of", BY_HAND, *_tanks()),
        function("fuel_entries", BY_HAND, *_fuel()),
        function("water_entries", BY_HAND, *_water()),
        function(
            "rows_until",
            BY_HAND,
            case("all", [{"id": one.id} for one in STEADY], rows=plain(STEADY[::-1]), until=None),
            case("some", [{"id": "f1"}, {"id": "f2"}], rows=plain(STEADY), until="2026-05-02T00:00:00Z"),
        ),
    ]


def _tanks() -> list[Json]:
    spec = {"drain_order": 99, "drawn": True}
    fuel = [
        {"id": "main", "capacity_l": 80.0, **spec},
        {"id": "can", "capacity_l": 20.0, **spec, "drawn": False},
    ]
    water = [
        {"id": "fresh", "capacity_l": 90.0, **spec},
        {"id": "jerry", "capacity_l": 20.0, **spec, "drawn": False},
    ]
    first = opened(row("sub", "tank", 9, name="Sub", holds="fuel", capacity_l=60.0, drain_order=1))
    return [
        case("fuel", fuel, book=opened(), holds="fuel"),
        case("water, not the trailer's", water, book=opened(), holds="water"),
        case(
            "with those of a trailer that is on",
            [*water, {"id": "cart", "capacity_l": 60.0, "drawn": True}],
            book=opened(),
            holds="water",
            trailers_on=["t"],
        ),
        case("in their turn", [*fuel, {"id": "sub", "drain_order": 1}], book=first, holds="fuel"),
    ]


def _fuel() -> list[Json]:
    gauge = {"tank_id": "main", "level": 0.4, "level_u": None, "litres_l": None}
    elsewhere = {"tank_id": "elsewhere", "litres_l": 9.0, "full": False}
    lines = [{"tank_id": "main", "litres_l": 30.0, "full": False, "litres_u_l": 2.0}, elsewhere]
    rows = [
        filled("f1", 2.5, 1500.0, 0.0, lines=lines, missed_before=True, towing=True),
        filled("f2", 3, 1600.0, 0.0, lines=[elsewhere]),
        logged("d3", "dip", 1, how="lamps", **gauge),
        logged("d4", "dip", 1, how="stick", tank_id="fresh", level=0.5),
        logged("t5", "transfer", 4, from_tank_id="can", to_tank_id="elsewhere", everything=True),
        logged("e6", "event", 5, what="tyres", odometer_km=2000.0, factor_before=1.0, factor_after=1.04),
        filled(
            "f8",
            7,
            2500.0,
            0.0,
            lines=[{"tank_id": "main", "litres_l": 40.0, "full": False, "measured": False}],
        ),
        logged("e7", "event", 6, what="roof_load", rate_u=0.3, factor_after=1.1),
        logged("e9", "event", 8, what="surface", odometer_km=2600.0, surface=SAND, towing=False),
        logged("e10", "event", 9, what="heat"),
        logged("e11", "event", 9, what="supply", supply="Salt Well", found="shut"),
    ]
    first = {"kind": "fill", "id": "f1", "at_s": MAY_S + 1.5 * DAY_S, "sequence": 1, "odometer_km": 1500.0}
    told = {"missed_before": True, "towing": True, "surface": None, "lines": lines[:1]}
    out = [
        {"kind": "dip", "id": "d3", "odometer_km": None, "how": "lamps", **gauge},
        {**first, **told},
        {"kind": "transfer", "id": "t5", "from_tank_id": "can", "to_tank_id": None, "everything": True},
        {"kind": "change", "id": "e6", "odometer_km": 2000.0, "rate_u": 0.15, "ratio": 1.04},
        {"kind": "change", "id": "e7", "odometer_km": None, "rate_u": 0.3, "ratio": 1.0},
        {"kind": "fill", "id": "f8", "lines": [{"tank_id": "main", "litres_l": 40.0, "litres_u_l": 2.0}]},
        {
            "kind": "change",
            "id": "e9",
            "odometer_km": 2600.0,
            "rate_u": 0.0,
            "surface": SAND,
            "towing": False,
        },
    ]
    return [
        case("each kind", out, book=opened(*rows), until=None),
        case("until a day", out[:2], book=opened(*rows), until="2026-05-03T00:00:00Z"),
    ]


def _water() -> list[Json]:
    rows = [
        logged("w1", "water", 1, tank_id="fresh", action="fill", litres_l=60.0, full=True, drinkable="no"),
        logged("w2", "water", 2, tank_id="cart", action="fill", litres_l=60.0, drinkable="yes"),
        logged(
            "w5",
            "water",
            2.5,
            tank_id="fresh",
            action="dump",
            litres_l=0.0,
            everything=True,
            drinkable="unknown",
        ),
        logged("d3", "dip", 3, how="tube", tank_id="fresh", litres_l=30.0, litres_u_l=4.0),
        logged("t4", "transfer", 4, from_tank_id="fresh", to_tank_id="jerry", litres_l=5.0),
        logged("e6", "event", 5, what="heat", rate_u=0.0),
        logged("e7", "event", 6, what="washing", rate_u=0.0, water_rate_u=0.5, odometer_km=2000.0),
        logged("e8", "event", 6, what="tyres"),
    ]
    first = {
        "kind": "water",
        "id": "w1",
        "sequence": 1,
        "tank_id": "fresh",
        "action": "fill",
        "litres_l": 60.0,
    }
    out = [
        {**first, "litres_u_l": None, "full": True, "drinkable": "no"},
        {"kind": "water", "id": "w5", "action": "dump", "everything": True, "litres_l": 0.0},
        {"kind": "dip", "id": "d3", "how": "tube", "litres_l": 30.0, "litres_u_l": 4.0, "level": None},
        {"kind": "transfer", "id": "t4", "from_tank_id": "fresh", "to_tank_id": "jerry", "litres_l": 5.0},
        {"kind": "change", "id": "e6", "sequence": 6, "rate_u": 0.33, "odometer_km": None},
        {"kind": "change", "id": "e7", "sequence": 7, "rate_u": 0.5, "odometer_km": None},
    ]
    return [case("each kind", out, book=opened(*rows), until=None)]
