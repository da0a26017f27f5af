"""Vectors of a route's record read: by hand."""

from typing import Any

import numpy as np
from vectors.frame import case, function, refused

Json = Any
BY_HAND = "by hand"
SEALED = {"sealed": 1.0, "gravel": 0.0, "sand": 0.0}
ROUGH = {"sealed": 0.0, "gravel": 0.75, "sand": 0.25}
TOWN = {"name": "Town", "at_km": 0.0, "fuel": True, "water": True, "certain": True, "fuel_take_l": 40.0}
WELL = {"name": "Well", "at_km": 400.0, "fuel": False, "water": True, "certain": False}
ROADHOUSE = {"name": "Roadhouse", "at_km": 300.0, "fuel": True, "water": True, "certain": True}
CAMP = {"name": "Camp", "at_km": 100.0, "fuel": True, "water": False, "certain": True, "shut": True}
ANN_GOES = {"at_km": 300.0, "what": "person", "subject_id": "ann", "aboard": False}
BEN_COMES = {"at_km": 400.0, "what": "person", "subject_id": "ben", "aboard": True}
ROUTE: Json = {
    "name": "To the well",
    "legs": [
        {"distance_km": 300.0, "surface": SEALED},
        {"distance_km": 0.0, "surface": SEALED, "days": 2.0},
        {"distance_km": 100.0, "surface": ROUGH, "towing": True, "days": 1.0},
    ],
    "supplies": [TOWN, WELL, ROADHOUSE, CAMP],
    "changes": [ANN_GOES],
    "day_km": 200.0,
}
SHARES = {"ann": 1.0, "ben": 0.5, "dog": 0.25}


def functions(rng: np.random.Generator) -> list[Json]:
    given = {"route": ROUTE, "shares": SHARES, "aboard": ["ann", "ben"]}
    short = [{"distance_km": 100.0, "surface": {**SEALED, "sealed": 0.9}}]
    far = {**WELL, "at_km": 401.0}
    return [
        function(
            "itinerary",
            BY_HAND,
            case("a stay, a trailer, somebody who leaves", WHOLE, **given),
            case("struck out besides", {"fuel_stops": [{"counted": True}, {"counted": False}, {"counted": False}]},
                 shut=[2], **given),
            case("without fuel there", {"fuel_stops": [{"counted": False}, {"counted": False}, {}],
                                        "water_stops": [{"counted": True}, {}, {}]},
                 **{**given, "route": {**ROUTE, "supplies": [{**TOWN, "fuel_shut": True, "water_shut": False}, WELL,
                                                             ROADHOUSE, CAMP]}}),
            case("a trailer on by itself", {"fuel": [{"way": {"sealed+trailer": 100.0}}, {}, {}, {}]}, towing=True,
                 **given),
            case("the least record", {"total_km": 90.0, "days": 0.3, "fuel_stops": []}, shares={}, aboard=[],
                 route={"name": "R", "legs": [{"distance_km": 90.0, "surface": SEALED}]}),
            refused("shares of 0.9", "OutOfRange", "surface", **{**given, "route": {**ROUTE, "legs": short}}),
            refused("beyond the end", "OutOfRange", "at_km", **{**given, "route": {**ROUTE, "supplies": [far]}}),
        ),
        function("travellers", BY_HAND, *_travellers()),
        function("trailers_for", BY_HAND, *_trailers()),
        function("supplies_of", BY_HAND, case("some", [TOWN, WELL, ROADHOUSE, CAMP], route=ROUTE),
                 case("none", [], route={"legs": []})),
        function("changes_of", BY_HAND, case("one", [ANN_GOES], route=ROUTE), case("none", [], route={"legs": []})),
    ]  # fmt: skip


# 300 km at 200 a day are 1.5 days; cut at 100 km they are 0.5 and 1; Ann's share is 1, Ben's 0.5
WHOLE = {
    "total_km": 400.0,
    "days": 4.5,
    "fuel": [
        {"distance_km": 100.0, "way": {"sealed": 100.0}, "points": 10},
        {"distance_km": 200.0, "way": {"sealed": 200.0}, "points": 20},
        {"distance_km": 0.0, "way": {}, "points": 1},
        {"distance_km": 100.0, "way": {"gravel+trailer": 75.0, "sand+trailer": 25.0}, "points": 10},
    ],
    "water": [
        {"way": {"all": 0.75}},
        {"way": {"all": 1.5}},
        {"way": {"all": 1.0}, "points": 1},
        {"way": {"all": 0.5}},
    ],
    "fuel_stops": [
        {"at_km": 0.0, "counted": True, "take_l": 40.0},
        {"at_km": 100.0, "counted": False, "take_l": None},
        {"at_km": 300.0, "counted": True, "take_l": None},
    ],
    "water_stops": [{"at_km": 0.0}, {"at_km": 300.0}, {"at_km": 400.0, "counted": False}],
    "fuel_supplies": [0, 3, 2],
    "water_supplies": [0, 2, 1],
}


def _travellers() -> list[Json]:
    both = {"legs": [], "changes": [BEN_COMES, ANN_GOES]}
    named = {**both, "people_ids": ["ann", "dog"]}
    return [
        case("at the start", ["ann"], route=both, aboard=["ann"], at_km=0.0),
        case("after she left", [], route=both, aboard=["ann"], at_km=300.0),
        case("after he came", ["ben"], route=both, aboard=["ann"], at_km=400.0),
        case("she left before, and is aboard again", ["ann", "ben"], route=both, aboard=["ann"], at_km=500.0,
             from_km=350.0),
        case("named by the record", ["dog"], route=named, aboard=["ben"], at_km=350.0, from_km=350.0),
    ]  # fmt: skip


def _trailers() -> list[Json]:
    rows = [{"id": name, "kind": "trailer", "rev": name, "body": {"name": name}} for name in ("box", "boat")]
    book = {"vehicle": None, "trailers": rows}

    def asked(name: str, out: list[str], on: list[str], *tows: bool | None) -> Json:
        legs = [{"distance_km": 10.0, "surface": SEALED, "towing": one} for one in tows]
        return case(name, out, book=book, route={"legs": legs}, trailers_on=on)

    return [
        asked("a leg that tows", ["box"], [], False, True),
        asked("the one that is on", ["boat"], ["boat"], None, False),
        asked("no leg tows", [], ["boat"], False),
        asked("none is on", [], [], None),
    ]
