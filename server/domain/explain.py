"""What could explain the gap of a weighing: entries and readings, and masses that came out below zero."""

from collections.abc import Sequence
from dataclasses import dataclass

from .book import Book
from .errors import Unknown
from .gross import Causes, likely_causes, suspects_of
from .learning import WeighedDay, learn, weighed_days
from .nonnegative import Possible, doubtful_masses, nonnegative_masses
from .plan import base_correlation_of, geometry_of, lasting_of, planned
from .reconcile import reconcile


@dataclass(frozen=True, slots=True)
class Explanation:
    """`causes` is None where nothing can be compared; `possible` is empty unless a mass came out below zero."""

    causes: Causes | None
    possible: tuple[Possible, ...]


def explain(*, book: Book, weighing_id: str, known: Sequence[WeighedDay] = ()) -> Explanation:
    """Which single entries or readings could explain what one weighing shows, over all weighings of the book.

    Candidates are the base and items that were aboard, that day's contents, people and readings. What stands for things
    not on the list takes no part: it would explain any gap. A reading is named by its own id, a content or a person by
    its part's. An unknown weighing is refused.
    """
    days = weighed_days(book=book, known=known)
    day = next((one for one in days if one.visit.id == weighing_id), None)
    if day is None:
        raise Unknown("weighing_id", weighing_id, [one.id for one in book.weighings])
    if not planned(book=book) or day.plan is None or not day.teaches:
        return Explanation(None, ())
    posterior = reconcile(
        lasting=lasting_of(book=book),
        geometry=geometry_of(book=book),
        sessions=[one.session for one in days if one.session and one.teaches],
        base_correlation=base_correlation_of(book=book),
    )
    prefix = f"{weighing_id}:"
    lasting = {part.id for part in day.plan.lasting}
    here = [one for one in suspects_of(posterior=posterior) if one.id.startswith(prefix) or one.id in lasting]
    return Explanation(likely_causes(suspects=here), _possible(book, days))


def _possible(book: Book, days: Sequence[WeighedDay]) -> tuple[Possible, ...]:
    """The most probable masses without negative ones, those that differ from the plain update by a kilogram."""
    learning = learn(book=book, days=days)
    free = [part.id for part in learning.unlisted]
    lasting = {part.id for part in lasting_of(book=book)}
    doubtful = set(doubtful_masses(posterior=learning.posterior, free=free)) & lasting
    if not doubtful:
        return ()
    found = nonnegative_masses(posterior=learning.posterior, free=free)
    return tuple(
        one
        for one in found
        if one.id in lasting and (one.id in doubtful or abs(one.possible_kg - one.now_kg) >= 1.0)
    )
