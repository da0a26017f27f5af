"""One weighing beside its plan: what the account, the change since the last one and the lessons start from."""

from dataclasses import dataclass

from .axles import Geometry
from .book import Book, Row
from .day import revisions_of
from .errors import Unknown
from .plan import Plan, base_correlation_of, geometry_of, plan_in, reckoned
from .state import State
from .visit import Visit, read_visit


@dataclass(frozen=True, slots=True)
class PlannedDay:
    """A weighing read, with the plan of its day in the state of its day."""

    weighing: Row
    visit: Visit
    state: State
    revisions: dict[str, str] | None
    plan: Plan
    geometry: Geometry
    base_correlation: float


def planned_day(*, book: Book, weighing_id: str) -> PlannedDay | None:
    """A weighing with the plan of its day, or None where no plan reaches it.

    The readings may disagree, or fix no row at all: a caller asks the visit. An unknown weighing is refused.
    """
    row = next((one for one in book.weighings if one.id == weighing_id), None)
    if row is None or book.vehicle is None:
        raise Unknown("weighing_id", weighing_id, [one.id for one in book.weighings])
    visit, revisions = read_visit(book=book, weighing=row), revisions_of(weighing=row)
    if not reckoned(book=book, state=visit.state):
        return None
    return PlannedDay(
        weighing=row,
        visit=visit,
        state=visit.state,
        revisions=revisions,
        plan=plan_in(book=book, state=visit.state, revisions=revisions),
        geometry=geometry_of(book=book, state=visit.state),
        base_correlation=base_correlation_of(book=book),
    )
