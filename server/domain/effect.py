"""What one entry of the fuel log changes of the answer: for one that came late and takes its place by odometer."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from .book import Book, Row
from .errors import Unknown
from .fuel_answer import Ranges, fuel_answer
from .fuel_log import FuelLog
from .supplies import fuel_log_of


@dataclass(frozen=True, slots=True)
class Effect:
    """What stood without the entry, and what stands with it."""

    before: Ranges
    after: Ranges


def entry_effect(
    *,
    book: Book,
    entry_id: str,
    mix: Mapping[str, float],
    p: float = 0.95,
    previous: FuelLog | None = None,
) -> Effect | None:
    """The answer of a book's fuel log without one of its entries and with it; None where there is no log.

    `mix`: shares of the surfaces ahead; `p`: one-sided probability of the count-on range; `previous` as in
    `fuel_log_of`. An entry that is not in the log is refused.
    """
    rows = (*book.fills, *book.dips, *book.transfers, *book.events)
    if entry_id not in {row.id for row in rows}:
        raise Unknown("entry_id", entry_id, [row.id for row in rows])

    def but(some: tuple[Row, ...]) -> tuple[Row, ...]:
        return tuple(row for row in some if row.id != entry_id)

    fewer = replace(
        book,
        fills=but(book.fills),
        dips=but(book.dips),
        transfers=but(book.transfers),
        events=but(book.events),
    )
    logs = [fuel_log_of(book=one, previous=previous) for one in (fewer, book)]
    before, after = (None if log is None else fuel_answer(log=log, mix=mix, p=p).stands for log in logs)
    return None if before is None or after is None else Effect(before, after)
