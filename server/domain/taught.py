"""What each weighing taught: the full state before and after it, and the items that it spoke of."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import sqrt

import numpy as np

from .axles import ROWS, Geometry
from .book import Book
from .learning import Learning, learn, weighed_days
from .plan import Plan, geometry_of, plan_in, planned
from .state import full_state
from .statics import Loads, loads
from .weighed import PlannedDay, planned_day

SPEAKS = 0.1  # share of the variance removed, under which a weighing says nothing about an item (maths C.5, assumed)


@dataclass(frozen=True, slots=True)
class TaughtRow:
    """One row at one weighing: planned and weighed in the state of its day; the full state before and after.

    `weighed_kg` is None where the readings do not fix the row. u are standard uncertainties.
    """

    row: str
    planned_kg: float
    planned_u_kg: float
    weighed_kg: float | None
    weighed_u_kg: float | None
    before_kg: float
    before_u_kg: float
    after_kg: float
    after_u_kg: float


@dataclass(frozen=True, slots=True)
class TaughtItem:
    """An item of which this weighing removed more than a tenth of the variance; `told` is that share."""

    id: str
    told: float
    before_kg: float
    before_u_kg: float
    after_kg: float
    after_u_kg: float


@dataclass(frozen=True, slots=True)
class Taught:
    """What one weighing taught. One that does not count (its readings disagree, or none is left) taught nothing.

    `unexplained_kg` is the mass on the vehicle that the weighings so far ask for and no record names.
    """

    weighing_id: str
    at: str
    counted: bool
    rows: tuple[TaughtRow, ...]
    items: tuple[TaughtItem, ...]
    unexplained_kg: float
    unexplained_u_kg: float


def taught(*, book: Book) -> tuple[Taught, ...]:
    """What each weighing taught, in order of time; nothing without a plan.

    The present plan, updated with the weighings up to each (maths C.1), in the full state (C.2). What is not on the
    list has the variance that all weighings together give it, so that u never grows from one to the next.
    """
    if not planned(book=book) or not book.weighings:
        return ()
    learning = learn(book=book, days=weighed_days(book=book))
    geometry = geometry_of(book=book, state=full_state(book=book))
    full = plan_in(book=book, state=full_state(book=book))
    out: list[Taught] = []
    known, count = _Known.after(learning, 0, full, geometry), 0
    for weighing in book.weighings:
        day = planned_day(book=book, weighing_id=weighing.id)
        if day is None:
            continue
        own = sum(one.startswith(f"{weighing.id}:") for one in learning.posterior.reading_ids)
        before, count = known, count + own
        known = _Known.after(learning, count, full, geometry) if own else before
        rest_kg, rest_u_kg = _unexplained(known.learning)
        rows, items = tuple(_rows(day, before.full, known.full)), tuple(_items(full, before, known))
        out.append(Taught(weighing.id, day.visit.at, own > 0, rows, items if own else (), rest_kg, rest_u_kg))
    return tuple(out)


@dataclass(frozen=True, slots=True)
class _Known:
    """What is known after some readings, and the full state by it."""

    learning: Learning
    full: Loads

    @classmethod
    def after(cls, learning: Learning, count: int, full: Plan, geometry: Geometry) -> "_Known":
        part = replace(learning, posterior=learning.posterior.upto(count))
        return cls(part, part.loads(full, ROWS, geometry))


def _rows(day: PlannedDay, was: Loads, is_now: Loads) -> Iterator[TaughtRow]:
    plan = loads(
        parts=day.plan.parts, geometry=day.geometry, rows=ROWS, base_correlation=day.base_correlation
    )
    for row in ROWS:
        found = day.visit.of(row)
        yield TaughtRow(
            row,
            plan.value_kg(row),
            plan.u_kg(row),
            found.value_kg if found else None,
            found.u_kg if found else None,
            was.value_kg(row),
            was.u_kg(row),
            is_now.value_kg(row),
            is_now.u_kg(row),
        )


def _items(full: Plan, before: _Known, after: _Known) -> Iterator[TaughtItem]:
    for part in full.lasting:
        if part.taken_off:
            continue
        was, now = before.learning.posterior.learnt(part.id), after.learning.posterior.learnt(part.id)
        told = 1.0 - (now.now_u_kg / was.now_u_kg) ** 2 if was.now_u_kg > 0 else 0.0
        if told > SPEAKS:
            yield TaughtItem(part.id, told, was.now_kg, was.now_u_kg, now.now_kg, now.now_u_kg)


def _unexplained(learning: Learning) -> tuple[float, float]:
    posterior = learning.posterior
    units = [posterior.unit(part.id) for part in learning.unlisted if part.on == "vehicle"]
    if not units:
        return 0.0, 0.0
    mean, cov = posterior.rows(np.array(units).sum(axis=0)[None, :])
    return float(mean[0]), sqrt(max(float(cov[0, 0]), 0.0))
