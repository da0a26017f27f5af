"""What statics alone cannot split: single wheels, and the two axles of a rear group. Each under two models."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from .axles import SINGLES, WHEELS, Geometry, rows_of
from .book import Book
from .plan import base_correlation_of, geometry_of, plan_in
from .state import State
from .statics import Part, loads


@dataclass(frozen=True, slots=True)
class Share:
    """A load under the vehicle's own model, kg, and what the other model says of it."""

    row: str
    value_kg: float
    u_kg: float
    other_kg: float


@dataclass(frozen=True, slots=True)
class Split:
    """The wheels (none until both tracks are known) and the axles of a rear group (none with a single rear axle).

    `frame` and `second_axle` name the models of the vehicle as in `Geometry`; the other of the two gives `other_kg`.
    """

    frame: str
    front_roll_share: float
    wheels: tuple[Share, ...]
    second_axle: str
    singles: tuple[Share, ...]


def plan_split(*, book: Book, state: State, ordered: bool = False) -> Split:
    """The plan's wheel loads and single rear axles in a state, under the vehicle's models and the other ones.

    The u is that of the masses and places under the vehicle's own model; it says nothing of the choice of model, which
    the other figure shows. The rear group's delivered load is split by its share under both. A plan without wheelbase
    is refused; `ordered` counts what is on order too.
    """
    plan, geometry = plan_in(book, state, ordered=ordered), geometry_of(book=book, state=state)
    rho, there = base_correlation_of(book=book), rows_of(geometry)
    stiff = replace(geometry, frame="flexible" if geometry.frame == "rigid" else "rigid")
    other = replace(geometry, second_axle="pair" if geometry.second_axle == "springs" else "springs")

    def shares(rows: Sequence[str], second: Geometry) -> tuple[Share, ...]:
        return _shares(plan.parts, [row for row in rows if row in there], geometry, second, rho)

    return Split(
        geometry.frame,
        geometry.front_roll_share,
        shares(WHEELS, stiff),
        geometry.second_axle,
        shares(SINGLES, other),
    )


def _shares(
    parts: Sequence[Part], rows: Sequence[str], own: Geometry, second: Geometry, base_correlation: float
) -> tuple[Share, ...]:
    if not rows:
        return ()
    found = loads(parts=parts, geometry=own, rows=rows, base_correlation=base_correlation)
    other = loads(parts=parts, geometry=second, rows=rows, base_correlation=base_correlation)
    return tuple(Share(row, found.value_kg(row), found.u_kg(row), other.value_kg(row)) for row in rows)
