"""Vectors of a book's room left: one small book whose loads are levers worked out by hand."""

from math import sqrt
from typing import Any

import numpy as np
from scipy import stats
from vectors.decode import plain
from vectors.frame import case, function, refused

from server.domain.book import Row

Json = dict[str, Any]
Z = float(stats.norm.ppf(0.95))
VEHICLE = {
    "name": "V", "wheelbase_m": 3.0, "coupling_x_m": 4.2, "base_front_kg": 1200.0, "base_front_u_kg": 6.0,
    "base_rear_kg": 900.0, "base_rear_u_kg": 8.0,
}  # fmt: skip
TRAILER = {"name": "T", "coupling_to_axle_m": 4.0, "base_coupling_kg": 60.0, "base_coupling_u_kg": 3.0,
           "base_axles_kg": 540.0, "base_axles_u_kg": 4.0}  # fmt: skip
RACK = {
    "name": "Rack",
    "nature": "part",
    "mass_kg": 24.0,
    "mass_u_kg": 2.0,
    "x_m": 1.5,
    "x_u_m": 0.0,
    "roof": True,
}
TAIL = {"name": "Tail", "holds": "stores", "capacity_l": 100.0, "x_m": 3.6, "x_u_m": 0.1}
PLATES = [
    {"of": "vehicle", "gross_kg": 2600.0, "front_axle_kg": 1350.0, "rear_axle_kg": 1400.0},
    {"of": "rack", "roof_kg": 75.0},
]
DAY = {"day": "2026-05-01"}


def opened(**changed: Any) -> Json:
    def row(id: str, kind: str, body: Json) -> Row:
        return Row(id, kind, f"{id}-1", body | changed.get(id, {}), 1)

    rows = [
        row("v", "vehicle", VEHICLE),
        row("t", "trailer", TRAILER),
        row("rack", "item", RACK),
        row("tail", "tank", TAIL),
        *(row(f"p{n}", "plate", one) for n, one in enumerate(PLATES)),
    ]
    return {"$call": {"module": "book", "function": "open_book", "in": {"rows": plain(rows)}}}


def state(level: float = 0.5, on: tuple[str, ...] = ()) -> Json:
    tanks = [{"tank_id": "tail", "level": level, "level_u": 0.0, "known_from": "typed"}]
    return {"tanks": tanks, "seats": [], "items_away": [], "trailers_on": list(on)}


def limit(rating: str, limit_kg: float | None, mean_kg: float, u_kg: float, side: str = "upper") -> Json:
    return {"rating": rating, "side": side, "limit_kg": limit_kg, "mean_kg": mean_kg, "u_kg": u_kg}


def solo(kg: float, *, front_kg: float | None = None, front_kg2: float | None = None) -> list[Json]:
    """Everything with `kg` in the tail tank; the upper front limit may have its own worst content."""
    moved = (kg * 0.1 / 3) ** 2
    front, rear = 1212.0 - 0.2 * kg, 912.0 + 1.2 * kg
    own, own2 = (front, moved) if front_kg is None else (front_kg, front_kg2 or 0.0)
    return [
        limit("front", 1350.0, own, sqrt(36 + 1 + own2)),
        limit("rear", 1400.0, rear, sqrt(64 + 1 + moved)),
        limit("gross", 2600.0, 2124.0 + kg, sqrt(36 + 64 + 4)),
        limit("roof", 75.0, 24.0, 2.0),
        limit("front", 0.0, front, sqrt(36 + 1 + moved), "lower"),
    ]


def towing() -> list[Json]:
    """The trailer's 60 kg at 4.2 m: 84 kg on the rear axle, 24 kg off the front."""
    moved = (50 * 0.1 / 3) ** 2
    front, front_u = 1202.0 - 24.0, sqrt(37 + moved + (0.4 * 3.0) ** 2)
    return [
        limit("front", 1350.0, front, front_u),
        limit("rear", 1400.0, 972.0 + 84.0, sqrt(65 + moved + (1.4 * 3.0) ** 2)),
        limit("gross", 2600.0, 2174.0 + 60.0, sqrt(104 + 9)),
        limit("combination", None, 2174.0 + 600.0, sqrt(104 + 9 + 16)),
        limit("trailer", None, 600.0, 5.0),
        limit("trailer_axles", None, 540.0, 4.0),
        limit("coupling", None, 60.0, 3.0),
        limit("roof", 75.0, 24.0, 2.0),
        limit("front", 0.0, front, front_u, "lower"),
        limit("coupling", 0.0, 60.0, 3.0, "lower"),
    ]


def cases() -> list[Json]:
    given = {"book": opened(), **DAY}
    told = {"weighed": False, "missing": []}
    blank = opened(rack={"mass_kg": None})
    return [
        case("half full", {**told, "limits": solo(50.0)}, **given, state=state()),
        case("any level: the front axle with the tail tank empty, its lifting with it full",
             {**told, "limits": solo(100.0, front_kg=1212.0)}, **given, state=state(), any_level=True),
        case("with the trailer", {**told, "limits": towing()}, **given, state=state(on=("t",))),
        case("the rack's mass is blank", {"missing": [{"record_id": "rack", "kind": "item", "field": "mass_kg"}]},
             book=blank, **DAY, state=state()),
        case("no plan", None, book=opened(v={"base_rear_kg": None}), **DAY, state=state()),
        case("a trailer without its lever", None, book=opened(t={"coupling_to_axle_m": None}), **DAY,
             state=state(on=("t",))),
        refused("never sure", "OutOfRange", "confidence", **given, state=state(), confidence=1.0, any_level=True),
    ]  # fmt: skip


def on(name: str, shares: Json, trailer: bool, **where: Any) -> Json:
    """Shares at x = 0 and per metre by rating; what is not named takes nothing."""
    asked = {"book": opened(), **DAY, "state": state(on=("t",) if trailer else ())}
    rows = towing() if trailer else solo(50.0)
    none = (0.0, 0.0)
    out = []
    for one in rows:
        share, per_m = shares.get(one["rating"], none)
        out.append({"rating": one["rating"], "side": one["side"], "share": share, "per_m": per_m})
    call = {"module": "room_left", "function": "room_left", "in": asked}
    return case(name, out, room={"$call": call}, **where)


def functions(rng: np.random.Generator) -> list[dict[str, Any]]:
    beam = {"front": (1.0, -1 / 3), "rear": (0.0, 1 / 3), "gross": (1.0, 0.0)}
    towed = {"front": (-0.4, 0.1), "rear": (1.4, -0.35), "gross": (1.0, -0.25), "coupling": (1.0, -0.25)}
    towed |= {"trailer_axles": (0.0, 0.25), "trailer": (1.0, 0.0), "combination": (1.0, 0.0)}
    call = {"module": "room_left", "function": "room_left", "in": {"book": opened(), **DAY, "state": state()}}
    return [
        function("room_left", "levers and sums of squares worked out in the maker", *cases()),
        function(
            "bounds_on",
            "levers: x/L on the rear axle, through the coupling at 4.2 m for the trailer",
            on("on the vehicle", beam, trailer=False),
            on("on the roof", beam | {"roof": (1.0, 0.0)}, trailer=False, roof=True),
            on("on the trailer", towed, trailer=True, on="t"),
            on("on the vehicle while towing", beam | {"combination": (1.0, 0.0)}, trailer=True),
            refused("a trailer that is not on", "Unknown", "on", room={"$call": call}, on="t"),
        ),
    ]
