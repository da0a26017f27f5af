"""Entries that two phones may have made of one stop: asked about, never merged unasked.

Fuel: the same tanks, about the same litres, at about the same odometer; who entered them does not matter, for nobody
fills a tank twice at one place. Water and what is moved: by two people within hours, for one person may well carry the
same can twice.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from heapq import merge
from math import floor, log

from .book import Body, Book, Row
from .log_rows import seconds

LITRES, LITRES_SHARE = 1.0, 0.03  # amounts as close as this, the greater of the two, may be one (assumed)
ODOMETER_KM = 2.0  # one typed from memory (assumed)
FILL_S = 12 * 3600.0  # of two fills where an odometer is blank (assumed)
OTHER_S = 3 * 3600.0  # of water and transfers by two people (assumed)


@dataclass(frozen=True, slots=True)
class Alike:
    """Two entries that may be one: `second_id` was recorded later."""

    first_id: str
    second_id: str


def alike(*, book: Book) -> tuple[Alike, ...]:
    """Pairs that nobody has answered yet, each entry in one pair at most as the second.

    A pair is answered by a correction that strikes one of them or keeps one beside the other.
    """
    answered = {frozenset((row.body["of_id"], row.body.get("other_id"))) for row in book.kept}
    out: list[Alike] = []
    for rows in (book.fills, book.waters, book.transfers):
        seen = _Seen()
        for row in sorted(rows, key=lambda one: (one.order, one.id)):
            for other in seen.near(row):
                if frozenset((row.id, other.id)) not in answered and _like(other, row):
                    out.append(Alike(other.id, row.id))
                    break
            seen.add(row)
    return tuple(out)


class _Seen:
    """Entries recorded so far, in boxes as wide as two that are alike may be apart: only neighbours are compared."""

    def __init__(self) -> None:
        self._boxes: dict[tuple[str, int, int], list[tuple[int, Row]]] = {}
        self._count = 0

    def add(self, row: Row) -> None:
        """Put it where those to come will look."""
        at, km, litres = _box(row)
        names = ["any"] if row.kind != "fill" else ["any", "blank" if km is None else "km"]
        for name in names:
            box = km if name == "km" and km is not None else at
            self._boxes.setdefault((name, box, litres), []).append((self._count, row))
        self._count += 1

    def near(self, row: Row) -> Iterator[Row]:
        """All that may be alike, the latest first, as far as somebody asks."""
        at, km, litres = _box(row)
        where = [("any", at)] if row.kind != "fill" or km is None else [("blank", at), ("km", km)]
        lists = [
            self._boxes.get((name, box + n, litres + m), [])
            for name, box in where
            for n in (-1, 0, 1)
            for m in (-1, 0, 1)
        ]
        latest = merge(*(reversed(one) for one in lists if one), key=lambda pair: -pair[0])
        return (other for _, other in latest)


def _box(row: Row) -> tuple[int, int | None, int]:
    """By time, by odometer where a fill has one, and by litres."""
    odometer_km = row.body.get("odometer_km") if row.kind == "fill" else None
    wide_s = FILL_S if row.kind == "fill" else OTHER_S
    km = None if odometer_km is None else floor(float(odometer_km) / ODOMETER_KM)
    return floor(seconds(row.body["at"]) / wide_s), km, _litres_box(_amounts(row.body)[0])


def _litres_box(litres_l: float) -> int:
    """Amounts that are close lie in one box or in neighbours: equal steps up to where the share begins, then ratios."""
    bend = LITRES / LITRES_SHARE
    along = bend * (1.0 + log(litres_l / bend)) if litres_l > bend else litres_l
    return floor(along / (LITRES * (1.0 + 2.0 * LITRES_SHARE)))


def _like(first: Row, second: Row) -> bool:
    one, other = first.body, second.body
    if _about(one) != _about(other):
        return False
    if any(not _close(a, b) for a, b in zip(_amounts(one), _amounts(other), strict=True)):
        return False
    apart_s = abs(seconds(one["at"]) - seconds(other["at"]))
    if first.kind != "fill":
        return first.author != second.author and apart_s <= OTHER_S
    at, beside = one.get("odometer_km"), other.get("odometer_km")
    if at is None or beside is None:
        return apart_s <= FILL_S
    return abs(float(at) - float(beside)) <= ODOMETER_KM


def _about(body: Body) -> tuple[object, ...]:
    """What must be the same: the tanks, and what was done with them."""
    lines = tuple(sorted({line["tank_id"] for line in body.get("lines", ())}))
    names = ("tank_id", "action", "from_tank_id", "to_tank_id")
    return (lines, *(body.get(name) for name in names), bool(body.get("everything")))


def _amounts(body: Body) -> list[float]:
    """Litres by tank, or the one figure of an entry that has no lines."""
    litres: dict[str, float] = {}
    for line in body.get("lines", ()):
        litres[line["tank_id"]] = litres.get(line["tank_id"], 0.0) + float(line["litres_l"])
    return [litres[name] for name in sorted(litres)] or [float(body.get("litres_l") or 0.0)]


def _close(one: float, other: float) -> bool:
    return abs(one - other) <= max(LITRES, LITRES_SHARE * max(one, other))
