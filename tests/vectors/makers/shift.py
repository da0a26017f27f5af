"""Vectors of a thing moved: its parts by hand, its loads by the double sum over all parts with it in the new place."""

from typing import Any

from vectors.centre_books import BOX, opened, row, state
from vectors.frame import case, function, refused
from vectors.makers.statics import BASE, CARRIER, WATER, on_two_axles, slow
from vectors.makers.statics import BOX as CRATE

from server.domain.book import Row, open_book
from tests.vectors.decode import plain

Json = Any
BY_HAND = "Worked out in the maker: a part moves whole, its mass and its u stay"
WHEELBASE = 3.2
COPIES = [{**CRATE, "id": f"crate {n}", "article": "crate", "x_m": 1.5 + n} for n in range(3)]


def loads_of(parts: list[Json]) -> Json:
    """Front and rear by the double sum."""
    return {"rows": ["front", "rear"], **slow(parts, on_two_axles(parts, WHEELBASE))}


def shifted(name: str, parts: list[Json], ids: list[str], x_m: float) -> Json:
    """Loads before, the move, and the loads of the same parts in the new place."""
    before = [one for one in parts if one["id"] in ids]
    after = [{**one, "x_m": x_m} for one in before]
    alike = {one["article"] for one in before if one.get("article")}
    mates = [one for one in parts if one.get("article") in alike and one["id"] not in ids]
    there = [{**one, "x_m": x_m} if one["id"] in ids else one for one in parts]
    move = {"before": before, "after": after, "mates": mates}
    return case(name, loads_of(there), found=loads_of(parts), move=move, geometry={"wheelbase_m": WHEELBASE})


def a_plan(**given: Json) -> Json:
    return {"$call": {"module": "plan", "function": "plan_in", "in": given}}


def towing_fuel() -> Json:
    """A main tank whose fuel the empty mass includes, with a can of gas behind, and a driver in the first seat."""
    rows = [
        row("v", "vehicle", wheelbase_m=3.0, base_front_kg=1200.0, base_rear_kg=800.0, base_fuel_l=40.0,
            base_driver_kg=75.0),
        row("main", "tank", 1, name="Main", holds="fuel", capacity_l=80.0, x_m=2.0, unusable_l=2.0),
        row("can", "tank", 2, name="Can", holds="fuel", can=True, capacity_l=20.0, empty_mass_kg=4.0, x_m=4.0),
        row("s", "seat", 3, name="Driver", x_m=1.4),
    ]  # fmt: skip
    return plain(open_book(rows=[Row(**one) for one in rows]))


def ids_at(x_m: float, *names: str) -> list[Json]:
    return [{"id": name, "x_m": x_m} for name in names]


def moves() -> list[Json]:
    full = [{"tank_id": id, "level": 1.0, "level_u": 0.0, "known_from": "typed"} for id in ("main", "can")]
    seats = [{"seat_id": "s", "mass_kg": 80.0, "mass_u_kg": 3.0}]
    day = {"tanks": full, "seats": seats, "items_away": [], "trailers_on": []}
    solo = {"book": opened(), "state": state()}
    fuel = {"book": towing_fuel(), "state": day}

    def asked(name: str, of: Json, record_id: str, x_m: float, was: list[Json]) -> Json:
        now = [{**one, "x_m": x_m} for one in was]
        out = {"before": was, "after": now, "mates": []}
        return case(name, out, book=of["book"], plan=a_plan(**of), record_id=record_id, x_m=x_m)

    box = {"id": "box", "x_m": 2.0, **{name: BOX[name] for name in ("mass_kg", "mass_u_kg", "x_u_m", "y_m")}}
    return [
        asked("an item", solo, "box", -0.5, [box]),
        asked("a tank", solo, "tail", 3.0, ids_at(3.6, "tail:content")),
        asked("the main tank", fuel, "main", 2.5, ids_at(2.0, "base_fuel", "main:content", "main:unusable")),
        asked("a can", fuel, "can", 3.5, ids_at(4.0, "can:content", "can:empty")),
        asked("the first seat", fuel, "s", 1.5, ids_at(1.4, "base_driver", "s:occupant")),
        refused(
            "nothing of that name", "Unknown", "record_id", **{"book": solo["book"], "plan": a_plan(**solo)},
            record_id="v", x_m=1.0,
        ),
        refused(
            "the empty mass", "Unknown", "record_id", **{"book": solo["book"], "plan": a_plan(**solo)},
            record_id="base_front", x_m=1.0,
        ),
        refused(
            "no place", "DomainError", "x_m", **{"book": solo["book"], "plan": a_plan(**solo)},
            record_id="box", x_m=None,
        ),
    ]  # fmt: skip


def functions(_: Any) -> list[Json]:
    all_parts = [*BASE, CRATE, CARRIER, WATER]
    solo = a_plan(book=opened(), state=state())
    one = {"id": "box", "mass_kg": 90.0, "mass_u_kg": 4.0, "x_m": 2.0}
    kept = {"lasting": [{"id": "base_front"}, {"id": "base_rear"}, {"id": "box", "x_m": 1.25}]}
    bad = {"before": [BASE[0]], "after": [{**BASE[0], "x_m": 1.0}]}
    return [
        function("move_to", BY_HAND, *moves()),
        function(
            "moved_plan",
            BY_HAND,
            case(
                "an item",
                {**kept, "passing": [{"id": "tail:content", "x_m": 3.6}]},
                plan=solo,
                move={"before": [one], "after": [{**one, "x_m": 1.25}]},
            ),
        ),
        function(
            "shifted_loads",
            "The double sum over all pairs of parts in rational arithmetic, each part in its new place",
            shifted("one item", all_parts, ["box"], 1.1),
            shifted("to where it was", all_parts, ["box"], 3.0),
            shifted("ahead of the front axle", all_parts, ["carrier"], -0.8),
            shifted("two at once", all_parts, ["box", "carrier"], 2.2),
            shifted("something taken off", [*BASE, {**CARRIER, "taken_off": True}], ["carrier"], 4.0),
            shifted("one of three copies", [*all_parts, *COPIES], ["crate 1"], 4.1),
            shifted("all copies", [*all_parts, *COPIES], [one["id"] for one in COPIES], 0.4),
            refused(
                "the empty mass",
                "DomainError",
                "id",
                found=loads_of(BASE),
                move=bad,
                geometry={"wheelbase_m": WHEELBASE},
            ),
            refused(
                "a place that is none",
                "DomainError",
                "x_m",
                found=loads_of(all_parts),
                move={"before": [CRATE], "after": [{**CRATE, "x_m": "3"}]},
                geometry={"wheelbase_m": WHEELBASE},
            ),
        ),
    ]
