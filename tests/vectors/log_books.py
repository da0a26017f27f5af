"""Books with fuel and water logs for the vectors of what reads whole books."""

from typing import Any

from server.domain.book import Row, open_book
from tests.vectors.decode import plain

Json = Any


def row(id: str, kind: str, order: int, author: str = "ann", **body: Any) -> Row:
    return Row(id, kind, f"{id}-1", body, order, author)


def moment(day: float) -> str:
    """An instant of May 2026, by the day and its fraction."""
    minutes = round((day % 1) * 1440)
    return f"2026-05-{int(day):02d}T{minutes // 60:02d}:{minutes % 60:02d}:00Z"


def filled(
    id: str,
    day: float,
    odometer: float | None,
    litres: float,
    full: bool = True,
    author: str = "ann",
    **more: Any,
) -> Row:
    """A fill of the main tank; the number in its id is the order of recording."""
    line = {"tank_id": "main", "litres_l": litres, "full": full}
    body = {"at": moment(day), "zone": "Etc/UTC", "odometer_km": odometer, "lines": [line], **more}
    return row(id, "fill", int(id[1:]), author, **body)


def logged(id: str, kind: str, day: float, author: str = "ann", **body: Any) -> Row:
    return row(id, kind, int(id[1:]), author, at=moment(day), zone="Etc/UTC", **body)


PLAN = (
    row("v", "vehicle", 0, name="V", odometer_factor=1.02, odometer_factor_u=0.004, pump_u=None),
    row("main", "tank", 1, name="Main", holds="fuel", capacity_l=80.0),
    row("can", "tank", 2, name="Can", holds="fuel", capacity_l=20.0, can=True),
    row("fresh", "tank", 3, name="Fresh", holds="water", capacity_l=90.0, grey_tank_id="grey"),
    row("jerry", "tank", 4, name="Jerry", holds="water", capacity_l=20.0, emergency_reserve=True),
    row("grey", "tank", 5, name="Grey", holds="grey", capacity_l=40.0),
    row("cart", "tank", 5, name="Cart", holds="water", capacity_l=60.0, trailer_id="t"),
    row("blank", "tank", 6, name="Blank", holds="fuel"),
    row("ann", "person", 7, name="A", nature="person", usual_seat_id="s"),
    row("rex", "person", 8, name="R", nature="animal", usual_seat_id="s"),
)
STEADY = (
    filled("f1", 1, 1000.0, 60.0),
    filled("f2", 2, 1500.0, 54.0),
    filled("f3", 3, 1700.0, 20.0, False),
    filled("f4", 4, 1980.0, 30.0),
    filled("f5", 5, 2400.0, 46.0),
)


def opened(*rows: Row) -> Json:
    """The plan with these entries, as JSON."""
    return plain(open_book(rows=(*PLAN, *rows)))
