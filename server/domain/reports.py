"""What was heard or found of supplies on the road: shut, without fuel or water, open again."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from .book import Body, Book, Row
from .itinerary import supplies_of
from .log_rows import seconds
from .water import DAY_S

# What takes fuel, and what takes water, from a place; the other words say nothing of it.
WITHOUT: Mapping[str, tuple[str, ...]] = {"fuel": ("shut", "no_fuel"), "water": ("shut", "no_water")}
OPEN = "open"
SPACES = re.compile(r"[\s\x00-\x1f\x7f-\x9f\ufeff]+")  # as either language has them, and what is no letter


@dataclass(frozen=True, slots=True)
class Report:
    """What somebody said of a place, and when: one of `open`, `shut`, `no_fuel`, `no_water`."""

    entry_id: str
    found: str
    at: str
    author: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class Reported:
    """A place and the latest that was said of its fuel and of its water; None where nothing was."""

    name: str
    fuel: Report | None
    water: Report | None


def reports_of(*, book: Book, at: str) -> tuple[Reported, ...]:
    """The latest said of each place, by the log until an instant, in the order in which places were first named.

    A place is known by its name, in any route; spaces and capitals do not count, and two supplies of one name are one
    place (assumed). Of what was said, the latest counts by when it happened; up to a day after the instant is
    taken too, for another phone's clock may be ahead.
    """
    latest_s = seconds(at) + DAY_S
    said: dict[str, list[Row]] = {}
    for row in book.events:
        if row.body["what"] == "supply" and seconds(row.body["at"]) <= latest_s:
            said.setdefault(place_name(name=row.body["supply"]), []).append(row)
    return tuple(
        Reported(name, _latest(rows, WITHOUT["fuel"]), _latest(rows, WITHOUT["water"]))
        for name, rows in said.items()
    )


def as_reported(*, book: Book, route: Body, at: str) -> Body:
    """A route's record with its supplies as they were last reported.

    Each supply says by `fuel_shut` and `water_shut` whether it is struck out for that: by the latest report, and where
    there is none by the record's own `shut`. A report takes what a record counts on or gives it back; it never makes
    a supply certain.
    """
    known = {one.name: one for one in reports_of(book=book, at=at)}
    supplies = [
        _told(supply, known.get(place_name(name=supply["name"]))) for supply in supplies_of(route=route)
    ]
    return {**route, "supplies": supplies}


def place_name(*, name: str) -> str:
    """What a place is known by: its name without capitals and spare spaces."""
    return SPACES.sub(" ", name).strip().lower()


def _latest(rows: Sequence[Row], without: Sequence[str]) -> Report | None:
    about = [row for row in rows if row.body["found"] in (OPEN, *without)]
    if not about:
        return None
    body = about[-1].body
    return Report(about[-1].id, body["found"], body["at"], about[-1].author, body.get("note") or "")


def _told(supply: Body, said: Reported | None) -> Body:
    shut = bool(supply.get("shut"))
    fuel, water = (said.fuel, said.water) if said else (None, None)
    return {
        **supply,
        "shut": False,
        "fuel_shut": shut if fuel is None else fuel.found != OPEN,
        "water_shut": shut if water is None else water.found != OPEN,
    }
