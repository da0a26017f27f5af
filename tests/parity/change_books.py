"""Random loaded vehicles, often with a trailer and weighings, whose loads have somewhere else to go."""

from typing import Any

from parity.pieces import Rng, chance, number
from parity.weighed_books import warmth
from vectors.decode import decode, plain

from server.domain.book import Book, Row, open_book
from server.domain.state import State

Json = Any
DAY = "2026-05-01"
SLOTS = ("behind the seats", "tray front", "roof front", "trailer box")


def given(rng: Rng, *, weighings: int | None = None, tight: bool = True) -> Json:
    """A book, a state of it, and what all its weighings teach; ratings near or below what the plan weighs."""
    towed = chance(rng, 0.5)
    rows = [
        Row("v", "vehicle", "v-1", _vehicle(rng)),
        *([Row("t", "trailer", "t-1", _trailer(rng))] if towed else []),
        *_plates(rng, towed, tight),
        *(Row(f"i{n}", "item", f"i{n}-1", _item(rng, n, towed), n) for n in range(int(rng.integers(2, 7)))),
        *_tanks(rng, towed),
        Row("s1", "seat", "s1-1", {"name": "Left", "x_m": 1.4, "x_u_m": 0.05}, 1),
        Row("s2", "seat", "s2-1", {"name": "Right", "x_m": 1.4}, 2),
        Row("ann", "person", "ann-1", {"name": "A", "nature": "person", "mass_kg": 70.0, "usual_seat_id": "s1"}, 1),
        Row("dog", "person", "dog-1", {"name": "D", "nature": "animal", "mass_kg": 20.0, "usual_seat_id": "s2"}, 2),
    ]  # fmt: skip
    state = _state(rng, rows, towed)
    count = int(rng.integers(0, 3)) if weighings is None else weighings
    visits = [
        _weighing(rng, n, rows, state if n == count - 1 else _state(rng, rows, towed)) for n in range(count)
    ]
    book = plain(open_book(rows=[*rows, *visits]))
    days = {"$call": {"module": "learning", "function": "weighed_days", "in": {"book": book}}}
    learning = {"$call": {"module": "learning", "function": "learn", "in": {"book": book, "days": days}}}
    session = f"w{count - 1}" if count and chance(rng, 0.5) else None
    return {"book": book, "state": state, "learning": learning, "day": DAY, "session": session}


def wishes(rng: Rng) -> Json:
    """What an owner may want."""
    out = {
        "tanks": str(rng.choice(["as_is", "as_is", "worst"])),
        "objective": str(rng.choice(["moves", "off"])),
        "let_out": [["water"], ["water", "fuel"], []][int(rng.integers(0, 3))],
        "refused": [{"subject_id": "i0"}, {"subject_id": "i1", "choice_id": "off"}][
            : int(rng.integers(0, 3))
        ],
    }
    if chance(rng, 0.5):
        out |= {"water_reserve_l": number(rng, 0, 60), "least_coupling_kg": number(rng, 0, 60)}
    if chance(rng, 0.3):
        out |= {"fuel_reserve_l": number(rng, 0, 30), "least_coupling_share": number(rng, 0, 0.1)}
    if chance(rng, 0.4):
        out["confidence"] = number(rng, 0.5, 0.99)
    return out


def read(made: Json) -> tuple[Book, State]:
    """Book and state as the domain has them."""
    return decode(made["book"], Book), decode(made["state"], State)


def _vehicle(rng: Rng) -> Json:
    return {
        "name": "Vehicle",
        "wheelbase_m": 3.0,
        "base_front_kg": number(rng, 1100, 1300),
        "base_rear_kg": number(rng, 900, 1100),
        "base_known_by": "weighed",
        "base_correlation": number(rng, -0.5, 0.8) if chance(rng, 0.3) else None,
        "coupling_x_m": 4.1,
        "fuel_kind": "diesel",
        "confidence": 0.9 if chance(rng, 0.3) else None,
    }


def _trailer(rng: Rng) -> Json:
    bars = {"levelling_hitch": True, "hitch_moment_kgm": number(rng, 0, 120)} if chance(rng, 0.3) else {}
    base = {"base_coupling_kg": number(rng, 60, 120), "base_axles_kg": number(rng, 500, 800)}
    return {"name": "Trailer", "coupling_to_axle_m": 3.2, "base_known_by": "data_sheet", **base, **bars}


def _plates(rng: Rng, towed: bool, tight: bool) -> list[Row]:
    more = 0.0 if tight else 900.0
    own = {"front_axle_kg": 1500.0 + more, "rear_axle_kg": number(rng, 1350, 1700) + more}
    own |= {"gross_kg": number(rng, 2500, 3100) + more, "combination_kg": 4500.0 + more}
    roof = {"roof_kg": 75.0 + more} if chance(rng, 0.7) else {}
    trailer = (
        {"trailer_kg": 1100.0 + more, "coupling_kg": number(rng, 90, 200) + more} if chance(rng, 0.8) else {}
    )
    plates = [Row("p", "plate", "p-1", {"of": "vehicle", **own, **roof}, 1)]
    if towed and trailer:
        plates.append(Row("q", "plate", "q-1", {"of": "trailer", "trailer_id": "t", **trailer}, 2))
    return plates


def _item(rng: Rng, n: int, towed: bool) -> Json:
    """Any item; now and then one that its record or its name keeps aboard."""
    on_trailer = towed and chance(rng, 0.2)
    count = int(rng.choice([1, 1, 1, 2, 3, 4]))
    return {
        "name": str(rng.choice(["Box", "Tools", "Chairs", "Recovery kit", "First-aid kit"])) + f" {n}",
        "nature": str(rng.choice(["load", "load", "part"])),
        "mass_kg": number(rng, 4, 70) / count if chance(rng, 0.95) else None,
        "known_by": str(rng.choice(["weighed", "data_sheet", "estimate"])),
        "count": count,
        "x_m": number(rng, 0, 5) if on_trailer else number(rng, 2, 4.2),
        "y_m": number(rng, -0.5, 0.5) if chance(rng, 0.3) else None,
        "position_by": str(rng.choice(["measured", "described"])),
        "trailer_id": "t" if on_trailer else None,
        "roof": not on_trailer and chance(rng, 0.15),
        "taken_off": chance(rng, 0.05),
        "keep_aboard": [None, False, None, False, None, False, True][int(rng.integers(0, 7))],
        "may_stay_behind": [None, True, False][int(rng.integers(0, 3))],
        "article_id": "crate" if chance(rng, 0.4) else None,
        "may_move_to": [_slot(rng, name) for name in SLOTS if chance(rng, 0.4)],
    }


def _slot(rng: Rng, label: str) -> Json:
    on_trailer = label == "trailer box"
    x_m = number(rng, 1, 4) if on_trailer else number(rng, 0.8, 3.2)
    return {
        "label": label,
        "x_m": x_m,
        "z_m": 1.0,
        "trailer_id": "t" if on_trailer else None,
        "roof": label == "roof front",
    }


def _tanks(rng: Rng, towed: bool) -> list[Row]:
    u = {"capacity_u_l": number(rng, 0, 2), "position_by": str(rng.choice(["measured", "described"]))}
    rows = [
        ("fuel", {"holds": "fuel", "capacity_l": 90.0, "x_m": 2.2, **u}),
        ("can", {"holds": "fuel", "can": True, "capacity_l": 20.0, "x_m": 4.2, "empty_mass_kg": 4.0}),
        ("water", {"holds": "water", "capacity_l": 120.0, "x_m": number(rng, 2.4, 3.6), "unusable_l": 2.0, **u}),
        ("second", {"holds": "water", "capacity_l": 40.0, "x_m": 1.0, "trailer_id": "t" if towed else None}),
        ("kept", {"holds": "water", "capacity_l": 20.0, "x_m": 3.9, "emergency_reserve": True}),
        ("grey", {"holds": "grey", "capacity_l": 40.0, "x_m": 3.4}),
    ]  # fmt: skip
    return [Row(id, "tank", f"{id}-1", {"name": id, **body}, n) for n, (id, body) in enumerate(rows)]


def _state(rng: Rng, rows: list[Row], towed: bool) -> Json:
    tanks = [
        {"tank_id": row.id, "level": number(rng, 0, 1), "level_u": number(rng, 0, 0.1), "known_from": "dip"}
        for row in rows
        if row.kind == "tank" and chance(rng, 0.9)
    ]
    seats = [
        {"seat_id": "s1", "mass_kg": 70.0, "mass_u_kg": 3.0, "person_id": "ann"},
        {"seat_id": "s2", "mass_kg": 20.0, "mass_u_kg": 1.0, "person_id": "dog"},
    ]
    return {
        "tanks": tanks,
        "seats": [one for one in seats if chance(rng, 0.7)],
        "items_away": [row.id for row in rows if row.kind == "item" and chance(rng, 0.1)],
        "trailers_on": ["t"] if towed and chance(rng, 0.7) else [],
        **warmth(rng),
    }


def _weighing(rng: Rng, n: int, rows: list[Row], state: Json) -> Row:
    """Front, rear or both at once, near what the plan says."""
    decks = [["front"], ["rear"], ["front", "rear"]]
    kg = {"front": number(rng, 1250, 1290), "rear": number(rng, 1400, 1500)}
    kept = [deck for deck in decks if chance(rng, 0.7)] or [decks[2]]
    items = [row.id for row in rows if row.kind == "item"]
    copy = {
        "settled_by": "confirmed",
        **{name: value for name, value in state.items() if name.startswith("fuel_")},
        "tanks": [
            next((one for one in state["tanks"] if one["tank_id"] == row.id), None)
            or {"tank_id": row.id, "level": 0.5, "level_u": 0.29, "known_from": "prior"}
            for row in rows
            if row.kind == "tank"
        ],
        "seats": state["seats"],
        "items": [{"item_id": id, "aboard": id not in state["items_away"]} for id in items],
        "trailers": [{"trailer_id": one, "coupled": True} for one in state["trailers_on"]],
        "plan": [{"id": row.id, "rev": row.rev} for row in rows],
    }  # fmt: skip
    body = {
        "at": f"2026-04-{n + 1:02d}T08:00:00Z",
        "zone": "Etc/UTC",
        "bridge": {"name": "one", "interval_kg": 10.0},
        "readings": [
            {"id": f"r{n}{i}", "on_deck": deck, "value_kg": round(sum(kg[axle] for axle in deck), -1)}
            for i, deck in enumerate(kept)
        ],
        "state": copy,
    }
    return Row(f"w{n}", "weighing", f"w{n}-1", body, 90 + n)
