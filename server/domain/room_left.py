"""From the book to the room left: every limit of a state with its load before anything is added."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import product
from math import sqrt

import numpy as np

from .axles import ROWS, TRAILER_ROWS, Geometry, coefficient
from .book import Book
from .envelope import MOST_VERTICES
from .learning import Learning, learn, weighed_days
from .limits import CONFIDENCE
from .normal import z_at
from .plan import Missing, Plan, geometry_of, plan_in, reckoned
from .plates import ratings_of
from .room import LOWER, UPPER, Bound
from .state import State, TankLevel
from .statics import Part, design


@dataclass(frozen=True, slots=True)
class RoomLeft:
    """The limits of one state, at their loads there. `weighed` says whether a weighing had a part in them.

    `missing` are blanks of the plan that could not be counted.
    """

    geometry: Geometry
    limits: tuple[Bound, ...]
    missing: tuple[Missing, ...]
    weighed: bool


def room_left(
    *,
    book: Book,
    state: State,
    day: str,
    confidence: float = CONFIDENCE,
    any_level: bool = False,
    learning: Learning | None = None,
) -> RoomLeft | None:
    """Every limit of a state with the load that the reconciled plan gives it; without weighings that is the plan.

    Upper limits are the ratings in force on a day, the roof's and a coupled trailer's too; lower ones that neither the
    front axle nor the coupling lifts. With `any_level` each limit has the load at those ends of the tanks' levels
    where mean + z u (or mean - z u) is worst for it: u is convex in the levels (maths A.6), so that no level between
    is worse, and what is added moves all of them alike. Above 10 tanks that relieve a limit their greatest mean is
    taken with their greatest u, a bound. `learning` is what all weighings of this book teach, where a caller has it.
    None where the plan does not reach the state.
    """
    if not reckoned(book=book, state=state):
        return None
    days = weighed_days(book=book) if learning is None else ()
    known = learning or learn(book=book, days=days)
    geometry = geometry_of(book=book, state=state)
    limits = _limits(book, geometry, day)
    rows = [one.rating for one in limits]
    if any_level:
        brim = tuple(TankLevel(tank.id, 1.0, 0.0, "typed") for tank in book.tanks)
        plan = plan_in(book, replace(state, tanks=brim))
        held = [part for part in plan.passing if part.id.endswith(":content")]
        dry = replace(plan, passing=tuple(part for part in plan.passing if part not in held))
        limits = _worst(_loaded(limits, known, dry, rows, geometry), held, geometry, z_at(confidence))
    else:
        plan = plan_in(book, state)
        limits = _loaded(limits, known, plan, rows, geometry)
    return RoomLeft(geometry, tuple(limits), plan.missing, bool(known.posterior.reading_ids))


def bounds_on(*, room: RoomLeft, on: str = "vehicle", roof: bool = False) -> tuple[Bound, ...]:
    """The limits with what a kilogram adds to them: on the vehicle, on its roof, or on the trailer that is on.

    x counts from the front axle, on the trailer from the coupling. A trailer that is not on is refused.
    """
    return tuple(_on(one, room.geometry, on, roof) for one in room.limits)


def _limits(book: Book, geometry: Geometry, day: str) -> list[Bound]:
    """All limits in the order of the ratings, with nothing loaded yet."""
    towed = geometry.trailer
    rows = (*ROWS, *(TRAILER_ROWS if towed else ()), "roof")
    ratings = ratings_of(book=book, day=day, trailer_id=towed.id if towed else None)
    upper = [Bound(one.rating, UPPER, one.limit_kg, 0.0, 0.0) for one in ratings if one.rating in rows]
    return [*upper, *(Bound(row, LOWER, 0.0, 0.0, 0.0) for row in ("front", "coupling") if row in rows)]


def _loaded(
    limits: Sequence[Bound], known: Learning, plan: Plan, rows: Sequence[str], geometry: Geometry
) -> list[Bound]:
    found = known.loads(plan, rows, geometry)
    return [
        replace(one, mean_kg=found.mean_kg[k], u_kg=sqrt(max(found.cov_kg2[k][k], 0.0)))
        for k, one in enumerate(limits)
    ]


def _worst(dry: Sequence[Bound], held: Sequence[Part], geometry: Geometry, z: float) -> list[Bound]:
    """Each limit with the contents, empty or full, that leave it the least headroom."""
    d = design(parts=held, geometry=geometry, rows=[one.rating for one in dry])
    mass, u, x_u = (
        np.array([getattr(part, name) for part in held]) for name in ("mass_kg", "mass_u_kg", "x_u_m")
    )
    means = d.shares * mass
    variances = (d.shares * u) ** 2 + d.per_m**2 * (mass**2 + u**2) * x_u**2
    return [_filled(one, means[k], variances[k], z) for k, one in enumerate(dry)]


def _filled(bound: Bound, means: Sequence[float], variances: Sequence[float], z: float) -> Bound:
    sign = 1.0 if bound.side == UPPER else -1.0
    mean, variance = bound.mean_kg, bound.u_kg**2
    relieving: list[tuple[float, float]] = []
    for kg, kg2 in zip(means, variances, strict=True):
        if sign * kg < 0.0:
            relieving.append((float(kg), float(kg2)))
        else:
            mean, variance = mean + float(kg), variance + float(kg2)
    if len(relieving) > MOST_VERTICES:
        return replace(bound, mean_kg=mean, u_kg=sqrt(variance + sum(kg2 for _, kg2 in relieving)))
    states = []
    for picks in product((0, 1), repeat=len(relieving)):
        chosen = [one for one, pick in zip(relieving, picks, strict=True) if pick]
        states.append((mean + sum(kg for kg, _ in chosen), sqrt(variance + sum(kg2 for _, kg2 in chosen))))
    worst = max(states, key=lambda one: sign * one[0] + z * one[1])
    return replace(bound, mean_kg=worst[0], u_kg=worst[1])


def _on(bound: Bound, geometry: Geometry, on: str, roof: bool) -> Bound:
    one = coefficient(row=bound.rating, geometry=geometry, x_m=0.0, on=on, roof=roof)
    return replace(bound, share=one.share, per_m=one.per_m)
