"""Random books with a history: a plan that several people edit, and weighings of its days."""

from typing import Any

from parity.pieces import Rng, chance, number
from vectors.decode import decode, plain

from server.domain.book import Book, Edit, Row, open_book

Json = Any
AUTHORS = ("fitter", "owner", "friend")
STAGES = ("fitted", "fitted", "fitted", "on_order", "removed")


def opened(rng: Rng, *, weighings: int | None = None) -> Book:
    """A vehicle, up to six items with their edits over ten days, and up to three weighings in the months after."""
    edits = _edits(rng)
    latest: dict[str, Row] = {}
    for n, one in enumerate(edits):
        order = latest[one.record_id].order if one.record_id in latest else n
        latest[one.record_id] = Row(one.record_id, one.kind, one.rev, one.body, order, one.author)
    count = int(rng.integers(1, 4)) if weighings is None else weighings
    others = _others(rng)
    visits = [_weighing(rng, n, edits, others) for n in range(count)]
    revisions = {one.rev: one.body for one in edits}
    return open_book(rows=[*latest.values(), *others, *visits], revisions=revisions, edits=edits)


def given(rng: Rng, **more: Any) -> Json:
    """A random book as input of a call."""
    return {"book": plain(opened(rng)), **more}


def read(book: Json) -> Book:
    """The other way round."""
    found: Book = decode(book, Book)
    return found


def _edits(rng: Rng) -> list[Edit]:
    out: list[Edit] = []

    def write(id: str, kind: str, body: Json, day: int) -> None:
        rev = f"{id}-{sum(one.record_id == id for one in out)}"
        at = f"2026-03-{day:02d}T{int(rng.integers(0, 24)):02d}:00:00Z"
        out.append(Edit(id, kind, rev, str(rng.choice(AUTHORS)), at, body))

    vehicle = _vehicle(rng)
    write("v", "vehicle", vehicle, 1)
    for n in range(int(rng.integers(0, 7))):
        body, day = _item(rng, n), int(rng.integers(1, 11))
        write(f"i{n}", "item", body, day)
        while chance(rng, 0.5):
            day = min(day + int(rng.integers(0, 3)), 20)
            body = {**body, **_changed(rng)}
            write(f"i{n}", "item", body, day)
    if chance(rng, 0.4):
        write("v", "vehicle", {**vehicle, "base_rear_kg": number(rng, 800, 1000)}, 12)
    return out


def _vehicle(rng: Rng) -> Json:
    return {
        "name": "Vehicle",
        "wheelbase_m": number(rng, 2.4, 4),
        "base_front_kg": number(rng, 1000, 1400),
        "base_rear_kg": number(rng, 800, 1000),
        "base_known_by": str(rng.choice(["weighed", "data_sheet"])),
        "forgotten_share": number(rng, 0, 0.2) if chance(rng, 0.3) else None,
        "base_fuel_l": 10.0 if chance(rng, 0.5) else None,
        "base_driver_kg": 75.0 if chance(rng, 0.3) else None,
        "base_correlation": number(rng, -0.5, 0.8) if chance(rng, 0.4) else None,
    }


def _item(rng: Rng, n: int) -> Json:
    return {
        "name": f"Item {n}",
        "nature": "load",
        "mass_kg": number(rng, 0, 90),
        "mass_u_kg": number(rng, 0, 9) if chance(rng, 0.5) else None,
        "count": int(rng.integers(1, 4)),
        "x_m": number(rng, -1, 5) if chance(rng, 0.9) else None,
        "x_u_m": number(rng, 0, 0.3) if chance(rng, 0.6) else None,
        "y_m": number(rng, -0.9, 0.9) if chance(rng, 0.3) else None,
        "article_id": "crate" if chance(rng, 0.3) else None,
        "taken_off": chance(rng, 0.1),
        "stage": str(rng.choice(STAGES)),
    }


def _changed(rng: Rng) -> Json:
    changes: list[Json] = [
        {"mass_kg": number(rng, 0, 90)},
        {"count": int(rng.integers(1, 4))},
        {"x_m": number(rng, -1, 5)},
        {"stage": str(rng.choice(STAGES))},
        {"deleted": True},
        {"deleted": False},
    ]
    return changes[int(rng.integers(0, len(changes)))]


def _others(rng: Rng) -> list[Row]:
    def row(id: str, kind: str, **body: Any) -> Row:
        return Row(id, kind, f"{id}-0", body, 50)

    return [
        row("fuel", "tank", name="Fuel", holds="fuel", capacity_l=80.0, x_m=2.4, position_by="measured"),
        row("water", "tank", name="Water", holds="water", capacity_l=60.0, x_m=3.0, unusable_l=2.0),
        row("can", "tank", name="Can", holds="water", can=True, capacity_l=20.0, x_m=4.0, empty_mass_kg=1.5),
        row("s1", "seat", name="Left", x_m=1.4),
        row("s2", "seat", name="Right", x_m=1.4, x_u_m=number(rng, 0, 0.1)),
    ]


def _weighing(rng: Rng, n: int, edits: list[Edit], others: list[Row]) -> Row:
    """The plan of its day is mostly the latest, now and then an earlier one, and now and then nobody kept it."""
    last = len(edits) if chance(rng, 0.7) else int(rng.integers(1, len(edits) + 1))
    latest = {one.record_id: one for one in edits[:last]}
    plan = {id: one.rev for id, one in latest.items() if not one.body.get("deleted")}
    plan |= {row.id: row.rev for row in others}
    sets = [["front"], ["rear"], ["front", "rear"]]
    kept = [one for one in sets if chance(rng, 0.7)] or [sets[2]]
    body = {
        "at": f"2026-{4 + n:02d}-01T08:00:00Z",
        "zone": "Etc/UTC",
        "bridge": {"name": str(rng.choice(["one", "two"])), "interval_kg": float(rng.choice([5, 10, 20]))},
        "readings": [_reading(rng, f"r{n}{i}", deck) for i, deck in enumerate(kept)],
        "state": _state(rng, plan if chance(rng, 0.9) else {}, [id for id in latest if id != "v"]),
    }
    return Row(f"w{n}", "weighing", f"w{n}-0", body, 90 + n)


def _reading(rng: Rng, id: str, deck: list[str]) -> Json:
    kg = {"front": 1290.0, "rear": 1130.0}
    return {
        "id": id,
        "on_deck": deck,
        "value_kg": sum(kg[axle] for axle in deck) + float(rng.integers(-9, 10)),
    }


def warmth(rng: Rng) -> Json:
    """How warm the fuel is, where somebody said so."""
    if chance(rng, 0.6):
        return {}
    u = {"fuel_temperature_u_c": number(rng, 0, 8)} if chance(rng, 0.7) else {}
    return {"fuel_temperature_c": number(rng, -20, 45), **u}


def _state(rng: Rng, plan: dict[str, str], items: list[str]) -> Json:
    def tank(id: str) -> Json:
        return {
            "tank_id": id,
            "level": number(rng, 0, 1),
            "level_u": number(rng, 0, 0.1),
            "known_from": "typed",
        }

    def seat(id: str) -> Json:
        who = str(rng.choice(["ann", "ben"]))
        return {
            "seat_id": id,
            "mass_kg": 80.0,
            "mass_u_kg": 3.0,
            "person_id": f"{who}{id if who == 'ben' else ''}",
        }

    seats = [seat(one) for one in ("s1", "s2") if chance(rng, 0.6)]
    if len({one["person_id"] for one in seats}) < len(seats):
        seats = seats[:1]
    return {
        **warmth(rng),
        "settled_by": "confirmed",
        "tanks": [tank(one) for one in ("fuel", "water", "can")],
        "seats": seats,
        "items": [{"item_id": one, "aboard": chance(rng, 0.7)} for one in items],
        "trailers": [],
        "plan": [{"id": id, "rev": rev} for id, rev in plan.items()],
    }
