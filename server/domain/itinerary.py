"""A route's record as stretches: surfaces for fuel, person-days for water, and the supplies along it."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import ceil

from .book import Body, Book
from .fuel import mix_of
from .pieces import SAME_KM, Piece, cut_way
from .route import Stop
from .stretch import Stretch
from .water import CLASS

DAY_KM = 300.0  # the way of a day, where neither the leg nor the route says (assumed)
PIECES = 40  # into about so many a picture of the whole way is cut
DAYS = "days"


@dataclass(frozen=True, slots=True)
class Itinerary:
    """The way cut at each supply and change, for fuel and water alike; `days` it takes from its beginning to its end.

    `fuel_supplies` and `water_supplies` are the numbers in the record of the supplies behind the stops, which stand in
    order of distance.
    """

    total_km: float
    days: float
    fuel: tuple[Stretch, ...]
    water: tuple[Stretch, ...]
    fuel_stops: tuple[Stop, ...]
    water_stops: tuple[Stop, ...]
    fuel_supplies: tuple[int, ...]
    water_supplies: tuple[int, ...]


def itinerary(
    *,
    route: Body,
    shares: Mapping[str, float],
    aboard: Sequence[str],
    towing: bool = False,
    from_km: float = 0.0,
    shut: Sequence[int] = (),
) -> Itinerary:
    """What a route asks of fuel and water.

    `shares`: of an adult's water, by person; `aboard`: who is aboard now, the travellers unless the record names them.
    `towing` holds for legs that do not say. `shut`: numbers of supplies struck out besides those of the record. A leg
    without days takes its distance over `day_km`. Refused: surfaces that do not add up to 1, a place beyond the way.
    """
    legs = [_leg(leg, route, towing) for leg in route["legs"]]
    total = sum(leg.distance_km for leg in legs)
    legs = [
        Stretch(leg.distance_km, leg.way, max(1, ceil(PIECES * leg.distance_km / total)) if total > 0 else 1)
        for leg in legs
    ]
    places = [float(one["at_km"]) for one in (*supplies_of(route=route), *changes_of(route=route))]
    ends = [float(one["until_km"]) for one in changes_of(route=route) if one.get("until_km") is not None]
    cuts = [*places, *(end for end in ends if end <= total), from_km]
    pieces = cut_way(stretches=legs, at_km=cuts).ahead
    fuel = [
        Stretch(_km(one), {name: amount for name, amount in one.way.items() if name != DAYS}, one.points)
        for one in pieces
    ]
    water = []
    for one in pieces:
        present = travellers(route=route, aboard=aboard, at_km=one.from_km, from_km=from_km)
        people = sum(shares.get(person, 1.0) for person in present)
        water.append(Stretch(_km(one), {CLASS: people * one.way.get(DAYS, 0.0)}, one.points))
    stops = {holds: list(_stops(route, holds, shut)) for holds in ("fuel", "water")}
    return Itinerary(
        total,
        sum(leg.way.get(DAYS, 0.0) for leg in legs),
        tuple(fuel),
        tuple(water),
        tuple(stop for _, stop in stops["fuel"]),
        tuple(stop for _, stop in stops["water"]),
        tuple(n for n, _ in stops["fuel"]),
        tuple(n for n, _ in stops["water"]),
    )


def travellers(*, route: Body, aboard: Sequence[str], at_km: float, from_km: float = 0.0) -> tuple[str, ...]:
    """Who travels from a place of the route on: the record's people or those aboard, with who came and went before.

    Of those aboard at `from_km` only what comes after is still to happen.
    """
    named = route.get("people_ids")
    present = list(aboard if named is None else named)
    for change in sorted(changes_of(route=route), key=lambda one: float(one["at_km"])):
        at, person = float(change["at_km"]), change.get("subject_id")
        if change["what"] != "person" or person is None or at > at_km + SAME_KM:
            continue
        if named is None and at < from_km - SAME_KM:
            continue
        if change.get("aboard") is False:
            present = [one for one in present if one != person]
        elif person not in present:
            present.append(person)
    return tuple(present)


def trailers_for(*, book: Book, route: Body, trailers_on: Sequence[str]) -> tuple[str, ...]:
    """The trailers of a route: a leg that tows puts one on for the whole way (assumed).

    The one that is on, else the book's first; a leg that does not say tows if one is on.
    """
    tows = [leg.get("towing") for leg in route["legs"]]
    if any(tows) or (trailers_on and None in tows):
        return tuple(trailers_on) or tuple(one.id for one in book.trailers[:1])
    return ()


def supplies_of(*, route: Body) -> Sequence[Body]:
    """The supplies of a route's record."""
    supplies: Sequence[Body] = route.get("supplies") or ()
    return supplies


def changes_of(*, route: Body) -> Sequence[Body]:
    """What comes aboard or goes on a route, by its record."""
    changes: Sequence[Body] = route.get("changes") or ()
    return changes


def _leg(leg: Body, route: Body, towing: bool) -> Stretch:
    distance_km = float(leg["distance_km"])
    tows = towing if leg.get("towing") is None else bool(leg["towing"])
    mix = mix_of(surface=leg["surface"], towing=tows)
    way = {name: share * distance_km for name, share in mix.items() if distance_km > 0}
    days = leg.get("days")
    day_km = route.get("day_km")
    way[DAYS] = distance_km / float(day_km or DAY_KM) if days is None else float(days)
    return Stretch(distance_km, way)


def _stops(route: Body, holds: str, shut: Sequence[int]) -> Iterator[tuple[int, Stop]]:
    numbered = [(n, one) for n, one in enumerate(supplies_of(route=route)) if one[holds]]
    for n, supply in sorted(numbered, key=lambda one: float(one[1]["at_km"])):
        struck = supply.get("shut") or supply.get(f"{holds}_shut") or n in shut
        counted = bool(supply["certain"]) and not struck
        take_l = supply.get(f"{holds}_take_l")
        yield n, Stop(float(supply["at_km"]), counted, None if take_l is None else float(take_l))


def _km(piece: Piece) -> float:
    return piece.to_km - piece.from_km
