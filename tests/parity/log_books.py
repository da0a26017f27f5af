"""Random books with fuel and water logs: two people, cans, blanks, doubles and answers."""

from typing import Any

from parity.pieces import Rng, chance, number

from server.domain.book import Row, open_book
from tests.vectors.decode import plain
from tests.vectors.log_books import PLAN, logged

Json = Any


def given(rng: Rng, count: int = 14) -> Json:
    """A book, opened, as JSON."""
    rows: list[Row] = []
    odometer = 1000.0
    for n in range(count):
        odometer += number(rng, 0, 300)
        rows.append(_entry(rng, n, 1 + 0.9 * n, round(odometer), rows))
    return plain(open_book(rows=(*PLAN, *rows)))


def _entry(rng: Rng, n: int, day: float, odometer: float, before: list[Row]) -> Row:
    author, at = str(rng.choice(["ann", "ben"])), {"odometer_km": None if chance(rng, 0.1) else odometer}
    fills = [one for one in before if one.kind in ("fill", "water")]
    if fills and chance(rng, 0.25):  # the last one over again
        last = fills[-1]
        more = {"odometer_km": (last.body.get("odometer_km") or odometer) + float(rng.integers(0, 4))}
        return Row(f"e{n}", last.kind, f"e{n}-1", {**last.body, **more}, n, author)
    if len(fills) > 1 and chance(rng, 0.1):
        body = {"of_id": fills[-1].id, "what": "kept", "other_id": fills[-2].id if chance(rng, 0.6) else None}
        return logged(f"e{n}", "correction", day, author, **body)
    tank = "can" if chance(rng, 0.1) else "main"
    which = rng.random()
    if which < 0.5:
        full = chance(rng, 0.6)
        line = {"tank_id": tank, "litres_l": number(rng, 5, 60), "full": full}
        return logged(f"e{n}", "fill", day, author, **at, lines=[line], missed_before=chance(rng, 0.05))
    if which < 0.6:
        return logged(f"e{n}", "dip", day, author, **at, tank_id="main", how="gauge", level=number(rng, 0, 1))
    if which < 0.7:
        moved = {"from_tank_id": "can", "to_tank_id": "main", "litres_l": number(rng, 1, 20)}
        return logged(f"e{n}", "transfer", day, author, **at, **moved)
    if which < 0.75:
        return logged(f"e{n}", "event", day, author, **at, **_event(rng))
    if which < 0.82:
        all_of_it = {"litres_l": number(rng, 0, 9), "everything": chance(rng, 0.6), "drinkable": "no"}
        return logged(f"e{n}", "water", day, author, tank_id="grey", action="dump", **all_of_it)
    about = {"tank_id": "fresh", "litres_l": number(rng, 2, 60), "full": chance(rng, 0.4)}
    word = {"action": str(rng.choice(["fill", "fill", "draw"])), "drinkable": str(rng.choice(["yes", "no"]))}
    return logged(f"e{n}", "water", day, author, **about, **word)


def _event(rng: Rng) -> Json:
    surface = {"sealed": 0.0, "gravel": 0.25, "sand": 0.75}
    return [
        {"what": "tyres", "factor_before": 1.0, "factor_after": 1.03},
        {"what": "surface", "surface": surface, "towing": chance(rng, 0.3)},
        {
            "what": str(rng.choice(["heat", "company", "washing"])),
            "rate_u": 0.0,
            "water_rate_u": number(rng, 0, 1),
        },
        {"what": "supply", "supply": "Salt Well", "found": "shut"},
    ][int(rng.integers(4))]
