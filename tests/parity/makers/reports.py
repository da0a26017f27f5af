from collections.abc import Iterator

from parity.pieces import Piece, Rng, number
from parity.road_books import AT, book, route

NAMES = ("Salt Well", "  salt well", "Town", "Straße", "Elsewhere")
FOUND = ("open", "shut", "no_fuel", "no_water")


def calls(rng: Rng) -> Iterator[Piece]:
    """Random reports in random books, and routes with supplies of those names."""
    for _ in range(20):
        opened = book(rng)
        rows = [_report(rng, n) for n in range(int(rng.integers(0, 8)))]
        opened["events"] = sorted(rows, key=lambda row: (row["body"]["at"], row["order"], row["id"]))
        record = route(rng)
        record["supplies"] = [{**one, "name": str(rng.choice(NAMES))} for one in record["supplies"]]
        yield {"function": "reports_of", "in": {"book": opened, "at": AT}}
        yield {"function": "as_reported", "in": {"book": opened, "route": record, "at": AT}}
        yield {"function": "place_name", "in": {"name": str(rng.choice(NAMES))}}


def _report(rng: Rng, n: int) -> Piece:
    day, hour = int(rng.integers(10, 30)), int(number(rng, 0, 24))
    at = f"2026-05-{day:02d}T{hour:02d}:00:00Z"
    about = {"supply": str(rng.choice(NAMES)), "found": str(rng.choice(FOUND))}
    body = {"at": at, "zone": "Etc/UTC", "what": "supply", "rate_u": 0.0, **about}
    return {"id": f"r{n}", "kind": "event", "rev": f"r{n}-1", "body": body, "order": n, "author": "ann"}
