"""Vectors of what was heard of supplies: by hand."""

from typing import Any

import numpy as np
from vectors.frame import case, function
from vectors.log_books import logged, opened

Json = Any
BY_HAND = "by hand: of each place the latest word, by when it happened"
AT = "2026-05-20T08:00:00Z"
TOWN = {"name": "Town", "at_km": 0.0, "fuel": True, "water": True, "certain": True}
WELL = {"name": " Salt  well", "at_km": 90.0, "fuel": True, "water": True, "certain": False, "shut": True}
ROUTE: Json = {"name": "R", "legs": [], "supplies": [TOWN, WELL, {**TOWN, "at_km": 180.0}]}


def said(id: str, day: float, supply: str, found: str, author: str = "ann", **more: Any) -> Any:
    return logged(id, "event", day, author, what="supply", rate_u=0.0, supply=supply, found=found, **more)


SHUT = said("e1", 2, "Town", "shut", note="Pump broken")
AGAIN = said("e2", 4, "TOWN ", "open", "ben")
DRY = said("e3", 6, "town", "no_fuel")
WELL_OPEN = said("e4", 5, "Salt Well", "open")
HEAT = logged("e5", "event", 7, what="heat")


def functions(rng: np.random.Generator) -> list[Json]:
    shut = {
        "entry_id": "e1",
        "found": "shut",
        "at": "2026-05-02T00:00:00Z",
        "author": "ann",
        "note": "Pump broken",
    }
    again = {"entry_id": "e2", "found": "open", "author": "ben", "note": ""}
    dry = {"entry_id": "e3", "found": "no_fuel"}
    counted, struck = {"fuel_shut": False, "water_shut": False}, {"fuel_shut": True, "water_shut": True}

    def told(name: str, out: Json, *entries: Any, at: str = AT) -> Json:
        return case(name, out, book=opened(*entries), at=at)

    def route(name: str, out: Json, *entries: Any, at: str = AT) -> Json:
        return case(name, {"supplies": out}, book=opened(*entries), route=ROUTE, at=at)

    return [
        function(
            "reports_of",
            BY_HAND,
            told("nothing said", [], HEAT),
            told("shut", [{"name": "town", "fuel": shut, "water": shut}], SHUT),
            told("open again", [{"fuel": again, "water": again}], SHUT, AGAIN),
            told("then without fuel", [{"fuel": dry, "water": again}], SHUT, AGAIN, DRY),
            told("two places", [{"name": "town"}, {"name": "salt well"}], SHUT, WELL_OPEN),
            told("not yet", [{"fuel": shut}], SHUT, DRY, at="2026-05-03T00:00:00Z"),
            told("by a clock that is ahead", [{"fuel": dry}], SHUT, DRY, at="2026-05-05T12:00:00Z"),
        ),
        function(
            "as_reported",
            BY_HAND,
            route("as the record says", [counted, struck, counted]),
            route("shut, at both ends of the way", [struck, struck, struck], SHUT),
            route("without fuel", [{"fuel_shut": True, "water_shut": False}] * 3, DRY, WELL_DRY, WELL_WET),
            route("open after all, but no more certain", [{}, {**counted, "shut": False, "certain": False}, {}],
                  WELL_OPEN),
            case("no supplies", {"supplies": []}, book=opened(SHUT), route={"name": "R", "legs": []}, at=AT),
        ),
        function("place_name", BY_HAND, case("spaces and capitals", "salt well", name="  Salt\tWELL "),
                 case("spaces of other texts", "salt well", name="\ufeffSalt\x1c\x85\u00a0\u3000Well\u2003")),
    ]  # fmt: skip


# the record says shut of both; what was said since of one of them counts for that one
WELL_DRY = said("e6", 8, "salt well", "no_fuel")
WELL_WET = said("e7", 7, "salt well", "open")
