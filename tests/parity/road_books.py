"""Random books with a plan, a trailer, fuel and water logs, and random routes for them."""

from typing import Any

from parity.pieces import Rng, chance, number
from parity.weighed_books import warmth
from vectors.decode import plain

from server.domain.book import Row, open_book

Json = Any
AT = "2026-05-20T08:00:00Z"
PEOPLE = ("ann", "ben", "dog")
TANKS = ("main", "tail", "fresh", "grey")

KEG = {"name": "keg", "holds": "water", "capacity_l": 70.0, "x_m": 2.5, "trailer_id": "t", "drain_order": 1}


def book(rng: Rng) -> Json:
    """Opened; now and then without a wheelbase, a place of a tank, or a log."""
    rows = [
        _row("v", "vehicle", 0, _vehicle(rng)),
        _row("p", "plate", 1, {"of": "vehicle", "gross_kg": number(rng, 2300, 3200), "rear_axle_kg": 1500.0}),
        _row("t", "trailer", 1, _trailer(rng)),
        *(_row(name, "tank", n, _tank(rng, name, n)) for n, name in enumerate(TANKS)),
        *([_row("keg", "tank", 9, KEG)] if chance(rng, 0.4) else []),
        *(_row(f"s{n}", "seat", n, {"name": f"S{n}", "x_m": number(rng, 1, 2)}) for n in range(3)),
        *(_row(name, "person", n, _person(rng, n)) for n, name in enumerate(PEOPLE)),
        _row("box", "item", 1, {"name": "Box", "nature": "load", "mass_kg": 40.0, "x_m": number(rng, 2, 4)}),
        *(_log(rng) if chance(rng, 0.85) else []),
    ]
    return plain(open_book(rows=rows))


def state(rng: Rng) -> Json:
    levels = [
        {"tank_id": name, "level": number(rng, 0, 1), "level_u": number(rng, 0, 0.1), "known_from": "dip"}
        for name in TANKS
    ]
    seat = {"seat_id": "s0", "mass_kg": 80.0, "mass_u_kg": 3.0, "person_id": "ann"}
    away, on = ["box"] if chance(rng, 0.3) else [], ["t"] if chance(rng, 0.3) else []
    return {"tanks": levels, "seats": [seat], "items_away": away, "trailers_on": on, **warmth(rng)}


def route(rng: Rng) -> Json:
    """Legs with stays, supplies, changes of every kind."""
    legs = [_leg(rng) for _ in range(int(rng.integers(1, 5)))]
    if not any(leg["distance_km"] for leg in legs):
        legs[0]["distance_km"] = number(rng, 50, 300)
    total = sum(leg["distance_km"] for leg in legs)

    def somewhere() -> float:
        return number(rng, 0, 1) * total

    supplies = [_supply(rng, somewhere()) for _ in range(int(rng.integers(1, 5)))]
    changes = [_change(rng, somewhere(), somewhere()) for _ in range(int(rng.integers(0, 5)))]
    out = {"name": "R", "legs": legs, "supplies": supplies, "changes": changes}
    for name, low, high in (("day_km", 150, 500), ("fuel_reserve_l", 0, 20), ("water_reserve_l", 0, 20)):
        if chance(rng, 0.5):
            out[name] = number(rng, low, high)
    if chance(rng, 0.3):
        out["begun_odometer_km"] = number(rng, 9_500, 10_500)
    if chance(rng, 0.5):
        out["people_ids"] = [name for name in PEOPLE if chance(rng, 0.7)]
    return out


def _leg(rng: Rng) -> Json:
    a, b = sorted((number(rng, 0, 1), number(rng, 0, 1)))
    leg = {
        "distance_km": 0.0 if chance(rng, 0.2) else number(rng, 20, 300),
        "surface": {"sealed": a, "gravel": b - a, "sand": 1.0 - b},
    }
    if chance(rng, 0.3):
        leg["days"] = number(rng, 0, 3)
    if chance(rng, 0.3):
        leg["towing"] = chance(rng, 0.5)
    return leg


def _supply(rng: Rng, at_km: float) -> Json:
    out = {"name": "S", "at_km": at_km, "fuel": chance(rng, 0.7), "water": chance(rng, 0.7)}
    out |= {"certain": chance(rng, 0.7), "shut": chance(rng, 0.2)}
    if chance(rng, 0.3):
        out |= {"fuel_take_l": number(rng, 0, 40), "water_take_l": number(rng, 0, 15)}
    return out


def _change(rng: Rng, at_km: float, other_km: float) -> Json:
    what = str(rng.choice(["person", "item", "load", "grey"]))
    out: Json = {"at_km": min(at_km, other_km), "what": what, "aboard": chance(rng, 0.5)}
    if what == "person":
        out["subject_id"] = str(rng.choice(PEOPLE))
    elif what == "item":
        out["subject_id"] = "box"
    elif what == "load":
        out |= {"mass_kg": number(rng, 5, 60), "x_m": number(rng, 2, 4), "until_km": max(at_km, other_km)}
    return out


def _row(id: str, kind: str, order: int, body: Json) -> Row:
    return Row(id, kind, f"{id}-1", body, order, "a")


def _vehicle(rng: Rng) -> Json:
    out = {
        "name": "V",
        "wheelbase_m": number(rng, 2.6, 3.6) if chance(rng, 0.9) else None,
        "base_front_kg": number(rng, 900, 1300),
        "base_rear_kg": number(rng, 700, 1100),
        "coupling_x_m": 4.5,
        "odometer_factor": number(rng, 0.97, 1.05),
        "odometer_factor_u": 0.004,
    }
    return {**out, "confidence": 0.9} if chance(rng, 0.3) else out


def _trailer(rng: Rng) -> Json:
    base = {"base_coupling_kg": number(rng, 50, 150), "base_axles_kg": number(rng, 500, 900)}
    return {"name": "T", "coupling_to_axle_m": number(rng, 3, 5), **base}


def _tank(rng: Rng, name: str, n: int) -> Json:
    holds = {"main": "fuel", "tail": "fuel", "fresh": "water", "grey": "grey"}[name]
    out: Json = {"name": name, "holds": holds, "capacity_l": number(rng, 40, 120), "x_m": number(rng, 1, 4)}
    if name == "main" and chance(rng, 0.1):
        out["x_m"] = None
    if name == "fresh" and chance(rng, 0.7):
        out |= {"grey_tank_id": "grey", "grey_fraction": number(rng, 0, 1)}
        if out["capacity_l"] > 90:
            out["grey_fraction"] = None
    if out["capacity_l"] < 70:
        out["full_u_l"] = 0.04 * out["capacity_l"]
    return {**out, "drain_order": 5 - n, "unusable_l": 1.5} if chance(rng, 0.5) else out


def _person(rng: Rng, n: int) -> Json:
    out: Json = {"name": "P", "nature": "person", "usual_seat_id": f"s{n}", "mass_kg": number(rng, 40, 100)}
    return {**out, "water_share": number(rng, 0.2, 1)} if chance(rng, 0.5) else out


def _log(rng: Rng) -> list[Row]:
    rows, odometer = [], 10_000.0
    for n in range(int(rng.integers(1, 5))):
        day, odometer = 2 + 4 * n, odometer + number(rng, 150, 420)
        lines = [
            {"tank_id": name, "litres_l": number(rng, 10, 40), "full": True} for name in ("main", "tail")
        ]
        body: Json = {"at": f"2026-05-{day:02d}T09:00:00Z", "odometer_km": odometer, "lines": lines}
        rows.append(_row(f"f{n}", "fill", n, body))
        water = {
            "tank_id": "fresh",
            "action": "fill",
            "litres_l": number(rng, 5, 40),
            "full": chance(rng, 0.6),
        }
        at = f"2026-05-{day + 1:02d}T09:00:00Z"
        rows.append(_row(f"w{n}", "water", n, {"at": at, "drinkable": "yes", **water}))
    gone = {"subject": "person", "subject_id": "ben", "aboard": False, "at": "2026-05-06T09:00:00Z"}
    on = {"subject": "trailer", "subject_id": "t", "aboard": True, "at": "2026-05-07T09:00:00Z"}
    return [
        *rows,
        _row("a1", "aboard", 1, gone),
        *([_row("a2", "aboard", 2, on)] if chance(rng, 0.3) else []),
    ]
