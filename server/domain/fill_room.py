"""What a fill does to the ratings: the litres after which the first of them is over, and every one after so many."""

from dataclasses import dataclass

from .book import Book
from .errors import Unknown, check_range
from .learning import Learning
from .limits import CONFIDENCE, Verdict
from .parts import density_of, fuel_of, position_u_m
from .room import UPPER, Which, ask, room_at
from .room_left import bounds_on, room_left
from .state import State


@dataclass(frozen=True, slots=True)
class FillRoom:
    """Litres that may go into one tank, in a state, with every rating held at the confidence.

    `most_l` is None where no known rating binds; `binds` is the one that goes first; `fits_l` what the tank still
    takes by its level. `already` are ratings not held even now that the fill would worsen, `unknown` ratings that are
    not known and take some of it. `after`: every rating after the litres asked about.
    """

    tank_id: str
    most_l: float | None
    binds: Which | None
    fits_l: float
    already: tuple[Which, ...]
    unknown: tuple[str, ...]
    after: tuple[Verdict, ...]


def fill_room(
    *,
    book: Book,
    state: State,
    day: str,
    tank_id: str,
    litres_l: float | None = None,
    confidence: float = CONFIDENCE,
    learning: Learning | None = None,
) -> FillRoom | None:
    """The greatest litres that keep every rating under that is under now, by the reconciled plan, and which goes first.

    litres = kg / density of `room_at` at the tank's place, with the density's and the place's uncertainty; the tank's
    level in the state is what it holds before. `litres_l` >= 0: every rating after so many (`ask`). None where the plan
    does not reach the state, or the tank's place or capacity is blank, or it is on a trailer that is not there. An
    unknown tank is refused. `learning` as in `room_left`.
    """
    tank = next((row for row in book.tanks if row.id == tank_id), None)
    if tank is None:
        raise Unknown("tank_id", tank_id, [row.id for row in book.tanks])
    litres = check_range("litres_l", litres_l or 0.0, low=0.0, unit="L")
    body = tank.body
    on = body.get("trailer_id") or "vehicle"
    there = on == "vehicle" or on in state.trailers_on
    if body.get("x_m") is None or body.get("capacity_l") is None or not there:
        return None
    left = room_left(book=book, state=state, day=day, confidence=confidence, learning=learning)
    if left is None:
        return None
    bounds = bounds_on(room=left, on=on)
    density, density_u = density_of(body, fuel_of(book.vehicle.body if book.vehicle else None, state))
    x_m, x_u_m, share = float(body["x_m"]), position_u_m(body), density_u / density
    room = room_at(bounds=bounds, x_m=x_m, confidence=confidence, mass_share=share, x_u_m=x_u_m)
    after: tuple[Verdict, ...] = ()
    if litres > 0:
        mass, mass_u = density * litres, density_u * litres
        asked = ask(
            bounds=bounds, x_m=x_m, mass_kg=mass, mass_u_kg=mass_u, x_u_m=x_u_m, confidence=confidence
        )
        after = tuple(one.verdict for one in asked.after if one.side == UPPER)
    level = state.level_of(tank_id)
    held = level.level if level else 0.5
    return FillRoom(
        tank_id,
        None if room.most_kg is None else room.most_kg / density,
        room.binds,
        float(body["capacity_l"]) * max(1.0 - held, 0.0),
        room.already,
        room.unknown,
        after,
    )
