"""Which further reading would settle a doubt, said before the vehicle rolls off."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from .book import Book
from .comparison import Comparison, compare
from .judge import Judged
from .learning import Learning, WeighedDay, learn, weighed_days
from .limits import CONFIDENCE
from .next_reading import WORTH_OFFERING, Prospect, next_by_plan, next_by_readings, settle_chance
from .plan import base_correlation_of, geometry_of, lasting_of, planned
from .slips import Slip, slips, to_repeat
from .statics import Loads
from .visit import Visit, beside
from .weighing import Reading

FAR_SD, FAR_SHARE = (
    6.0,
    0.15,
)  # so many u and such a share off the plan: look at the figure again (our choice)
SOLO = (("front",), ("front", "rear"), ("rear",))
TOWING = (
    ("front",),
    ("front", "rear"),
    ("front", "rear", "trailer_axles"),
    ("trailer_axles",),
    ("rear",),
)
APART = (("front", "rear"), ("trailer",))  # stops with the trailer uncoupled


@dataclass(frozen=True, slots=True)
class NextStop:
    """A stop not yet made: for which row, and the chance that it settles it; None where the row is not weighed yet."""

    axles: tuple[str, ...]
    uncoupled: bool
    row: str
    chance: float | None


@dataclass(frozen=True, slots=True)
class Guidance:
    """Rows in doubt, and the stops that could settle them, the most promising first; none where none would.

    Where the readings disagree: which of them to take again, and the single slips that would make them fit. `far` are
    rows so far from the plan that a figure is more likely mistyped than the plan wrong.
    """

    doubtful: tuple[str, ...]
    stops: tuple[NextStop, ...]
    repeat_id: str | None = None
    slips: tuple[Slip, ...] = ()
    far: tuple[str, ...] = ()


def guide(
    *, book: Book, weighing_id: str, confidence: float | None = None, known: Sequence[WeighedDay] = ()
) -> Guidance:
    """`guidance` for one weighing of a book, at the vehicle's confidence unless given; an unknown one is refused."""
    days = weighed_days(book=book, known=known)
    learning = learn(book=book, days=days) if planned(book=book) else None
    found = compare(book=book, weighing_id=weighing_id, confidence=confidence, known=days, learning=learning)
    own = book.vehicle.body.get("confidence") if book.vehicle else None
    return guidance(
        book=book, found=found, days=days, learning=learning, confidence=confidence or own or CONFIDENCE
    )


def guidance(
    *, book: Book, found: Comparison, days: Sequence[WeighedDay], learning: Learning | None, confidence: float
) -> Guidance:
    """What to read next on the visit of a comparison, before it rolls off.

    For each known rating that cannot be told, each stop of the usual orders that was not yet made is tried: how sure
    it would make the load does not depend on its value. A stop that fixes the row by readings alone counts with their
    u, another with that of the plan. Chances below a fifth are left out. While readings disagree nothing else is
    believed: then only which to take again, and what may have slipped.
    """
    visit = found.visit
    if not visit.readings:
        return Guidance((), ())
    if not visit.agree:
        return _disagreeing(visit, next((one.expected for one in days if one.visit.id == visit.id), None))
    doubtful = [one for one in found.day if _in_doubt(one)]
    candidates = _not_made(visit)
    stops = [
        NextStop(candidate.axles, candidate.uncoupled, one.verdict.rating, prospect.chance)
        for one in doubtful
        for prospect in _prospects(one, candidates, book, found, days, learning, confidence)
        for candidate in candidates
        if candidate.id == prospect.id and (prospect.chance is None or prospect.chance >= WORTH_OFFERING)
    ]
    stops.sort(key=lambda one: (one.chance is not None, -(one.chance or 0.0), len(one.axles)))
    far = tuple(
        gap.row
        for gap in found.gaps
        if abs(gap.gap_kg) > max(FAR_SD * gap.gap_u_kg, FAR_SHARE * abs(gap.planned_kg))
    )
    return Guidance(tuple(one.verdict.rating for one in doubtful), tuple(stops), far=far)


def _disagreeing(visit: Visit, expected: Loads | None) -> Guidance:
    taken, bridge, setup, deck = visit.taken, visit.bridge, visit.setup, visit.deck
    again = to_repeat(readings=taken, bridge=bridge, setup=setup, deck=deck, planned=expected)
    return Guidance(
        (), (), again, slips(readings=taken, bridge=bridge, setup=setup, deck=deck, typed=visit.typed)
    )


def _in_doubt(judged: Judged) -> bool:
    """A known rating that cannot be told; the roof is never on a deck."""
    verdict = judged.verdict
    return verdict.limit_kg is not None and verdict.word == "cannot_tell" and verdict.rating != "roof"


def _not_made(visit: Visit) -> list[Reading]:
    """The stops of the usual order that this visit has not had; the value only sizes the scale's error."""
    towed = visit.trailer_id is not None
    made = {(frozenset(one.axles), one.uncoupled) for one in visit.readings if not one.without}
    stops = [(axles, False) for axles in (TOWING if towed else SOLO)] + [(a, True) for a in APART if towed]
    single = all(not one.deck for one in visit.readings)
    return [
        Reading(
            f"{'+'.join(axles)}{'-' if apart else ''}",
            axles,
            visit.setup.total_kg * len(axles) / 2,
            single and beside(axles=axles),
            uncoupled=apart,
        )
        for axles, apart in stops
        if (frozenset(axles), apart) not in made
    ]


def _prospects(
    judged: Judged,
    candidates: Sequence[Reading],
    book: Book,
    found: Comparison,
    days: Sequence[WeighedDay],
    learning: Learning | None,
    confidence: float,
) -> list[Prospect]:
    verdict, visit = judged.verdict, found.visit
    row, limit_kg = verdict.rating, verdict.limit_kg or 0.0
    by_readings = next_by_readings(
        readings=visit.readings,
        bridge=visit.bridge,
        setup=visit.setup,
        deck=visit.deck,
        candidates=candidates,
        row=row,
        limit_kg=limit_kg,
        confidence=confidence,
    )
    if judged.source != "plan":
        return list(by_readings)
    fixing = [
        replace(
            one,
            before_u_kg=verdict.u_kg,
            chance=settle_chance(
                limit_kg=limit_kg,
                value_kg=verdict.value_kg,
                before_u_kg=verdict.u_kg,
                after_u_kg=min(one.after_u_kg, verdict.u_kg),
                confidence=confidence,
            ),
        )
        for one in by_readings
    ]
    others = [one for one in candidates if one.id not in {fixed.id for fixed in fixing}]
    day = next(one for one in days if one.visit.id == found.weighing_id)
    if learning is None or day.session is None or not day.teaches or not others:
        return fixing
    by_plan = next_by_plan(
        lasting=lasting_of(book=book),
        geometry=geometry_of(book=book),
        sessions=[one.session for one in days if one.session and one.teaches],
        session_id=found.weighing_id,
        candidates=others,
        row=row,
        limit_kg=limit_kg,
        confidence=confidence,
        unlisted=learning.unlisted,
        base_correlation=base_correlation_of(book=book),
    )
    return [*fixing, *by_plan]
