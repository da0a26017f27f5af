"""One thing of a plan put elsewhere: its own parts are weighed anew and nothing else, quick enough for each frame of a
drawing that it is dragged along.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from .axles import Geometry
from .book import Book
from .errors import DomainError, Unknown, check_finite
from .forgotten import FORGOTTEN, forgotten_after
from .plan import Plan, main_tank
from .statics import Loads, Part, loads

BASES = ("base_front", "base_rear")
FIXED = (*BASES, FORGOTTEN)
STANDING = ("content", "unusable", "empty", "occupant")  # parts of one record, after its id


@dataclass(frozen=True, slots=True)
class Move:
    """Parts as they were and as they are; `mates` are the copies of their articles that stay."""

    before: tuple[Part, ...]
    after: tuple[Part, ...]
    mates: tuple[Part, ...] = ()


def move_to(*, book: Book, plan: Plan, record_id: str, x_m: float) -> Move:
    """An item, a tank or a seat of the plan put at x, m, with everything that stands where it stands.

    The fuel that the empty mass includes goes with the main tank, the driver that it includes with the first seat;
    forgotten mass follows an item by its share. A record without a part in the plan is refused.
    """
    check_finite("x_m", x_m)
    ids = {record_id, *(f"{record_id}:{what}" for what in STANDING)} - set(FIXED)
    tank = main_tank(book=book)
    if tank is not None and tank.id == record_id:
        ids.add("base_fuel")
    if book.seats and book.seats[0].id == record_id:
        ids.add("base_driver")
    before = tuple(part for part in plan.parts if part.id in ids)
    if not before:
        raise Unknown("record_id", record_id, [part.id for part in plan.parts if part.id not in FIXED])
    articles = {part.article for part in before} - {None}
    mates = tuple(part for part in plan.parts if part.article in articles and part.id not in ids)
    after = tuple(replace(part, x_m=float(x_m)) for part in before)
    forgotten = next((part for part in plan.parts if part.id == FORGOTTEN), None)
    if forgotten is not None and any(part.id == record_id for part in before):
        share = book.vehicle.body["forgotten_share"] if book.vehicle else 0.0
        follows = forgotten_after(part=forgotten, share=share, before=before, after=after)
        before, after = (*before, forgotten), (*after, follows)
    return Move(before, after, mates)


def moved_plan(*, plan: Plan, move: Move) -> Plan:
    """The plan with the moved parts in their places."""
    after = {part.id: part for part in move.after}
    lasting, passing = (tuple(after.get(part.id, part) for part in of) for of in (plan.lasting, plan.passing))
    return replace(plan, lasting=lasting, passing=passing)


def shifted_loads(*, found: Loads, move: Move, geometry: Geometry) -> Loads:
    """Means and covariance after a move, kg and kg^2, from those before it.

    Loads of independent parts add up, and so do their covariances: W' = W - w(before, mates) + w(after, mates), for
    means and covariance alike. Copies of one article are not independent, so the mates stand in both. Equal to
    `loads` over all parts but for rounding; the u of an axle that nothing else loads may lose digits, never the sign:
    a variance is at least 0. The two base masses stand on their axles and are refused.
    """
    for part in (*move.before, *move.after):
        if part.id in BASES:
            raise DomainError("id", part.id, "an item, a tank or a seat", "Move one of these")
    was, now = (_of((*parts, *move.mates), geometry, found.rows) for parts in (move.before, move.after))
    size = range(len(found.rows))
    mean = [found.mean_kg[k] + (now.mean_kg[k] - was.mean_kg[k]) for k in size]
    cov = [[found.cov_kg2[k][m] + (now.cov_kg2[k][m] - was.cov_kg2[k][m]) for m in size] for k in size]
    for k in size:
        cov[k][k] = max(cov[k][k], 0.0)
    return Loads(found.rows, tuple(mean), tuple(tuple(row) for row in cov))


def _of(parts: Sequence[Part], geometry: Geometry, rows: Sequence[str]) -> Loads:
    return loads(parts=parts, geometry=geometry, rows=rows)
