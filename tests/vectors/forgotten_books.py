"""What the plan of `books` forgets, by sums of moments; `books` writes it."""

from typing import Any

from server.domain.book import Row, open_book
from tests.vectors.decode import plain

Json = Any


def _case(name: str, given: Json, out: Json) -> Json:
    return {"name": name, "in": given, "out": out, "abs": 1e-9}


def forgotten(share: float, soon: bool = False) -> Json:
    """A share of bar, box and rack, in their middle; with or without what is on order."""
    added = [(60.0, -0.7), (60.0, 3.9), (30.0, 2.0), *([(40.0, -0.6)] if soon else [])]
    total = sum(m for m, _ in added)
    middle = sum(m * x for m, x in added) / total
    spread = sum(m * (x - middle) ** 2 for m, x in added) / total
    mass = share * total
    return {
        **{"id": "forgotten", "mass_kg": mass, "mass_u_kg": mass / (3 * 3**0.5)},
        **{"x_m": middle, "x_u_m": (spread / 7 + 0.15**2) ** 0.5},
    }


def forgotten_cases(plan: list[Json]) -> list[Json]:
    """3 to 6 % is a third either side of 4.5 %: u = m / (3 sqrt 3), any value as likely."""
    book = plain(open_book(rows=[Row(**one) for one in plan]))
    bare = plain(open_book(rows=[Row(**plan[0])]))
    return [
        _case("at the usual share", {"book": book, "share": 0.045}, forgotten(0.045)),
        _case(
            "with what is on order",
            {"book": book, "share": 0.045, "ordered": True},
            forgotten(0.045, soon=True),
        ),
        _case("a share of 0", {"book": book, "share": 0.0}, None),
        _case("no items", {"book": bare, "share": 0.045}, None),
        {
            "name": "more than a fifth",
            "in": {"book": book, "share": 0.21},
            "error": {"name": "OutOfRange", "field": "share"},
        },
    ]
