"""The day's facts: what is in every tank, who sits where, which items are aboard.

A state is never stored as a build: it is read from the log, or taken from the copy that a weighing keeps.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from .book import Body, Book, Row

PERSON_U_KG = 3.0  # a mass that an occupant stated; assumed


@dataclass(frozen=True, slots=True)
class TankLevel:
    """Level as a fraction of the capacity, with its standard uncertainty and where it is known from."""

    tank_id: str
    level: float
    level_u: float
    known_from: str


@dataclass(frozen=True, slots=True)
class SeatLoad:
    """What sits in a seat; an empty seat has no entry."""

    seat_id: str
    mass_kg: float
    mass_u_kg: float
    person_id: str | None = None


@dataclass(frozen=True, slots=True)
class State:
    """One state of a vehicle. Items not in `items_away` are aboard; a fuel temperature only where one was told."""

    tanks: tuple[TankLevel, ...] = ()
    seats: tuple[SeatLoad, ...] = ()
    items_away: tuple[str, ...] = ()
    trailers_on: tuple[str, ...] = ()
    fuel_temperature_c: float | None = None
    fuel_temperature_u_c: float | None = None

    def level_of(self, tank_id: str) -> TankLevel | None:
        """The level of one tank, or None where the state does not say."""
        return next((tank for tank in self.tanks if tank.tank_id == tank_id), None)


def state_of_copy(*, copy: Body) -> State:
    """The state that a weighing keeps a copy of (`weighing.state` of the contract)."""
    return State(
        tanks=tuple(
            TankLevel(tank["tank_id"], tank["level"], tank["level_u"], tank["known_from"])
            for tank in copy["tanks"]
        ),
        seats=tuple(
            SeatLoad(seat["seat_id"], seat["mass_kg"], seat["mass_u_kg"], seat.get("person_id"))
            for seat in copy["seats"]
        ),
        items_away=tuple(item["item_id"] for item in copy["items"] if not item["aboard"]),
        trailers_on=tuple(one["trailer_id"] for one in copy["trailers"] if one["coupled"]),
        fuel_temperature_c=copy.get("fuel_temperature_c"),
        fuel_temperature_u_c=copy.get("fuel_temperature_u_c"),
    )


def logged_state(*, book: Book, at: str, levels: Sequence[TankLevel] = ()) -> State:
    """The state at an instant as the log has it, with tank levels that were estimated elsewhere.

    The latest `aboard` entry per subject counts; without one, a person is in the usual seat and an item is
    aboard. A tank without an estimate is unknown: half full, with the standard deviation of a uniform
    distribution.
    """
    latest = _presences(book, at)
    estimated = {level.tank_id: level for level in levels}
    away = [item.id for item in book.items if item.id in latest and not latest[item.id].aboard]
    coupled = [one.subject_id for one in latest.values() if one.subject == "trailer" and one.aboard]
    return State(
        tanks=tuple(estimated.get(tank.id) or unknown_level(tank.id) for tank in book.tanks),
        seats=_seated(book, latest),
        items_away=tuple(away),
        trailers_on=tuple(sorted(coupled)),
    )


def full_state(*, book: Book, but: Sequence[str] = (), trailer_id: str | None = None) -> State:
    """All tanks full, everyone in the usual seat, every item aboard: the state that ratings are planned for.

    Grey and waste tanks are empty, since what fills them comes out of the others. `but` names items left out,
    `trailer_id` a trailer that is on.
    """
    tanks = tuple(
        TankLevel(tank.id, 0.0 if tank.body["holds"] in ("grey", "waste") else 1.0, 0.0, "typed")
        for tank in book.tanks
    )
    on = () if trailer_id is None else (trailer_id,)
    return State(tanks=tanks, seats=_seated(book, {}), items_away=tuple(but), trailers_on=on)


def seat_load(seat_id: str, person: Row) -> SeatLoad:
    """A person in a seat; a blank u takes the default of a stated mass."""
    stated_u = person.body.get("mass_u_kg")
    return SeatLoad(
        seat_id,
        float(person.body["mass_kg"]),
        PERSON_U_KG if stated_u is None else float(stated_u),
        person.id,
    )


def usual_seat(*, book: Book, person: Row) -> str | None:
    """Where a person usually sits: by the person's record, else by the seat's."""
    usual = person.body.get("usual_seat_id")
    if usual:
        return str(usual)
    return next((seat.id for seat in book.seats if seat.body.get("usual_person_id") == person.id), None)


def seats_for(*, book: Book, seats: Sequence[SeatLoad], people: Sequence[str]) -> tuple[SeatLoad, ...]:
    """Who sits where if these people travel: whoever has a seat keeps it, the others take their usual one.

    Of two in one seat the first has it. Somebody without a mass, or without a free seat, weighs nothing.
    """
    taken = {one.seat_id: one for one in seats if one.person_id is None or one.person_id in people}
    seated = {one.person_id for one in taken.values()}
    for person in book.people:
        seat_id = usual_seat(book=book, person=person)
        if person.id not in people or person.id in seated or person.body.get("mass_kg") is None:
            continue
        if seat_id is not None and seat_id not in taken:
            taken[seat_id] = seat_load(seat_id, person)
    return tuple(taken[seat.id] for seat in book.seats if seat.id in taken)


def unknown_level(tank_id: str) -> TankLevel:
    """Anything between empty and full is as likely: mean 1/2, standard deviation 1/sqrt 12."""
    return TankLevel(tank_id, 0.5, 12**-0.5, "prior")


@dataclass(frozen=True, slots=True)
class _Presence:
    subject: str
    subject_id: str
    aboard: bool
    seat_id: str | None


def _presences(book: Book, at: str) -> dict[str, _Presence]:
    """The latest entry per subject; once its planned end has passed, the opposite holds."""
    latest: dict[str, _Presence] = {}
    for entry in book.aboard:  # in order of time
        body = entry.body
        if body["at"] > at:
            continue
        ended = bool(body.get("until")) and body["until"] <= at
        latest[body["subject_id"]] = _Presence(
            body["subject"], body["subject_id"], body["aboard"] != ended, body.get("seat_id")
        )
    return latest


def _seated(book: Book, presences: Mapping[str, _Presence]) -> tuple[SeatLoad, ...]:
    """Who sits where, in the order of the seats; of two in one seat the first person entered has it."""
    taken: dict[str, SeatLoad] = {}
    for person in book.people:
        seat_id = _seat_of(book, person, presences.get(person.id))
        if seat_id and person.body.get("mass_kg") is not None:
            taken.setdefault(seat_id, seat_load(seat_id, person))
    return tuple(taken[seat.id] for seat in book.seats if seat.id in taken)


def _seat_of(book: Book, person: Row, presence: _Presence | None) -> str | None:
    if presence is not None:
        if not presence.aboard:
            return None
        if presence.seat_id:
            return presence.seat_id
    return usual_seat(book=book, person=person)
