"""Every tank state at once: each rating at the levels of the tanks that are worst for it."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from .axles import ROWS, TRAILER_ROWS, Geometry
from .book import Book
from .envelope import worst_ends
from .limits import Verdict, verdict
from .plan import Plan, base_correlation_of, geometry_of, plan_in
from .plates import Rating, ratings_of
from .state import State, TankLevel
from .statics import Loads, Part, loads


@dataclass(frozen=True, slots=True)
class Worst:
    """A rating at the levels of the tanks that are worst for it; `full` are the tanks that are full there."""

    verdict: Verdict
    full: tuple[str, ...]


def plan_worst(*, book: Book, state: State, day: str, confidence: float) -> tuple[Worst, ...]:
    """Each known rating over every state of the tanks, from the plan alone; people, items and trailer as in `state`.

    Each content is at one of its ends, empty or full, whatever level the state gives it. A tank behind the rear axle
    makes the front axle heaviest when it is empty. `confidence` is one-sided, from 0.5; a plan without wheelbase is
    refused.
    """
    geometry, rho = geometry_of(book=book, state=state), base_correlation_of(book=book)
    rows = rated_rows(plan=plan_in(book, state), geometry=geometry)
    trailer_id = geometry.trailer.id if geometry.trailer else None
    ratings = [one for one in ratings_of(book=book, day=day, trailer_id=trailer_id) if one.rating in rows]

    def planned(plan: Plan, rows: Sequence[str]) -> Loads:
        return loads(parts=plan.parts, geometry=geometry, rows=rows, base_correlation=rho)

    return worst_levels(book=book, state=state, ratings=ratings, confidence=confidence, loads_in=planned)


def rated_rows(*, plan: Plan, geometry: Geometry) -> tuple[str, ...]:
    """The rows that a state can be judged by: a trailer's only while it is on, the roof's if something is on it."""
    towed = TRAILER_ROWS if geometry.trailer else ()
    return (*ROWS, *towed, *(("roof",) if any(part.roof for part in plan.lasting) else ()))


def worst_levels(
    *,
    book: Book,
    state: State,
    ratings: Sequence[Rating],
    confidence: float,
    loads_in: Callable[[Plan, Sequence[str]], Loads],
) -> tuple[Worst, ...]:
    """Each known rating at the ends of the tanks' levels that are worst for it.

    `loads_in` says what everything but the contents weighs: by the plan alone, or as the weighings corrected it.
    """
    geometry = geometry_of(book=book, state=state)
    brim = replace(state, tanks=tuple(TankLevel(tank.id, 1.0, 0.0, "typed") for tank in book.tanks))
    plan = plan_in(book, brim)
    contents = [part for part in plan.passing if part.id.endswith(":content")]
    dry = replace(plan, passing=tuple(part for part in plan.passing if part not in contents))
    rows = [one.rating for one in ratings]
    fixed = loads_in(dry, rows)
    held = [_held(part, rows, geometry) for part in contents]
    out = []
    for k, one in enumerate(ratings):
        if one.limit_kg is None:
            continue
        ends = [((0.0, 0.0), (load.mean_kg[k], load.cov_kg2[k][k])) for load in held]
        found = worst_ends(
            fixed_kg=fixed.mean_kg[k], fixed_kg2=fixed.cov_kg2[k][k], contents=ends, limit_kg=one.limit_kg
        )
        full = tuple(part.id.split(":")[0] for part, end in zip(contents, found.ends, strict=True) if end)
        judged = verdict(
            rating=one.rating,
            value_kg=found.value_kg,
            u_kg=found.u_kg,
            limit_kg=one.limit_kg,
            confidence=confidence,
        )
        out.append(Worst(judged, full))
    return tuple(out)


def _held(content: Part, rows: Sequence[str], geometry: Geometry) -> Loads:
    """What one content adds to each row; the moment of a levelling hitch counts once and not per content."""
    trailer = geometry.trailer
    slack = replace(geometry, trailer=replace(trailer, hitch_moment_kgm=0.0) if trailer else None)
    return loads(parts=[content], geometry=slack, rows=rows)
