"""How far along a route the odometer tells that the vehicle is, and who is aboard."""

from dataclasses import replace

from .book import Body, Book
from .fullfull import FACTOR
from .log_rows import rows_until, seconds
from .supplies import presences


def placed_km(*, book: Book, route: Body, at: str) -> float:
    """How far along a route the vehicle was last seen, true km: by the odometer since the route began, within the way.

    (last reading - reading at the beginning) x factor; 0 where the record does not say where it began.
    """
    begun = route.get("begun_odometer_km")
    rows = (*book.fills, *book.dips, *book.transfers, *book.events, *book.weighings)
    shown = [row.body.get("odometer_km") for row in rows_until(rows=rows, until=at)]
    known = [float(one) for one in shown if one]
    if begun is None or not known or book.vehicle is None:
        return 0.0
    factor = float(book.vehicle.body.get("odometer_factor") or FACTOR)
    total = sum(float(leg["distance_km"]) for leg in route["legs"])
    return min(max((max(known) - float(begun)) * factor, 0.0), total)


def people_aboard(*, book: Book, at: str) -> tuple[str, ...]:
    """The ids of people and animals who are aboard at an instant, seated or not."""
    now = seconds(at)
    return tuple(
        person.id
        for person in book.people
        for one in presences(book=replace(book, people=(person,)), from_s=0.0)
        if one.from_s <= now and (one.until_s is None or now < one.until_s)
    )
