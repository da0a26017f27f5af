"""Random books with a trailer whose plan is edited over twenty days: masses, places, axles, the trailer's lever."""

from typing import Any

from parity.pieces import Rng, chance, number
from vectors.decode import plain
from vectors.towing_books import GROUP, PLAN, SPRINGS

from server.domain.book import Book, Edit, Row, open_book

Json = Any
FIRST = 3  # by this day the vehicle and what it cannot do without are entered


def opened(rng: Rng) -> Book:
    """Each record with its edits, some of them deleted in the end."""
    edits: list[Edit] = []
    rows: list[Row] = []
    for order, one in enumerate([*PLAN, *_more(rng)]):
        body, day = dict(one["body"]), FIRST if one["kind"] == "vehicle" else int(rng.integers(1, 9))
        versions = [_edit(one, body, 0, day)]
        while chance(rng, 0.6) and len(versions) < 4:
            day = min(20, day + int(rng.integers(0, 6)))
            body = {**body, **_changed(rng, one["kind"], last=chance(rng, 0.2))}
            versions.append(_edit(one, body, len(versions), day))
        edits += versions
        rows.append(Row(one["id"], one["kind"], versions[-1].rev, body, order))
    edits.sort(key=lambda edit: edit.at)
    return open_book(rows=rows, edits=edits)


def given(rng: Rng) -> Json:
    """Input of a comparison: two versions, now and then in a state of its own."""
    book = opened(rng)
    tanks = [
        {"tank_id": one, "level": number(rng, 0, 1), "level_u": 0.02, "known_from": "dip"}
        for one in ("main", "drum")
    ]
    seat = {"seat_id": "s1", "mass_kg": 80.0, "mass_u_kg": 3.0, "person_id": "ann"}
    state = {"tanks": tanks, "seats": [seat], "items_away": ["box"], "trailers_on": []}
    return {
        "book": plain(book),
        "first": version(rng),
        "second": version(rng),
        "today": "2026-03-25",
        "state": state if chance(rng, 0.4) else None,
    }


def version(rng: Rng) -> Json:
    """Some day's plan, or the present one."""
    return {
        "day": f"2026-03-{int(rng.integers(FIRST, 22)):02d}" if chance(rng, 0.7) else None,
        "ordered": chance(rng, 0.4),
        "trailer_id": "t" if chance(rng, 0.5) else None,
    }


def _edit(row: Json, body: Json, count: int, day: int) -> Edit:
    at = f"2026-03-{day:02d}T{8 + count:02d}:00:00Z"
    return Edit(row["id"], row["kind"], f"{row['id']}-{count}", "a", at, dict(body))


def _more(rng: Rng) -> list[Json]:
    return [
        {"id": f"i{n}", "kind": "item", "body": {"name": f"I{n}", "nature": "load", **_item(rng)}}
        for n in range(int(rng.integers(0, 5)))
    ]


def _item(rng: Rng) -> Json:
    return {
        "mass_kg": number(rng, 0, 90),
        "x_m": number(rng, -1, 5),
        "stage": str(rng.choice(["fitted", "fitted", "on_order", "removed"])),
        "trailer_id": "t" if chance(rng, 0.3) else None,
    }


def _changed(rng: Rng, kind: str, *, last: bool) -> Json:
    if kind == "vehicle":
        return [
            {"wheelbase_m": number(rng, 2.8, 3.6)},
            {"base_rear_kg": number(rng, 1200, 1500)},
            {"coupling_x_m": number(rng, 4.2, 4.8)},
            dict(GROUP),
            dict(SPRINGS),
            {"base_known_by": "estimate"},
        ][int(rng.integers(0, 6))]
    if last and kind in ("item", "tank"):
        return {"deleted": True}
    if kind == "trailer":
        lever = {"coupling_to_axle_m": number(rng, 2.5, 4)}
        return (
            lever if chance(rng, 0.5) else {"levelling_hitch": True, "hitch_moment_kgm": number(rng, 10, 90)}
        )
    if kind == "item":
        return _item(rng) if chance(rng, 0.5) else {"x_m": number(rng, -1, 5), "mass_u_kg": 2.0}
    if kind == "tank":
        return {"capacity_l": number(rng, 20, 150)} if chance(rng, 0.5) else {"x_m": number(rng, 0, 5)}
    if kind in ("seat", "person"):
        return {"x_m": number(rng, 1, 3)} if kind == "seat" else {"mass_kg": number(rng, 50, 110)}
    return {"gross_kg": number(rng, 3000, 3600)}
