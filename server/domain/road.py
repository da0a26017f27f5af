"""A route of a book read and answered: fuel and water along it, and the loads."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from .bank import Bank
from .book import Body, Book
from .fuel import usual_reserve
from .fuel_log import FuelLog
from .itinerary import Itinerary, itinerary, trailers_for, travellers
from .journal import bank_levels, levels_now, lower_banks
from .learning import Learning
from .log_rows import seconds
from .remain import Counting
from .road_loads import Drawn, RoadLoads, Trip, road_loads
from .route import RouteAnswer, Stop, route_answer
from .state import logged_state
from .stretch import Stretch
from .supplies import fuel_log_of, levels_at, water_log_of, water_share
from .underway import people_aboard, placed_km
from .water import uncounted_water
from .water_answer import water_banks
from .water_log import WaterLog


@dataclass(frozen=True, slots=True)
class Along:
    """Litres of one content along a route; `supplies` are the record's numbers of the answer's stops.

    `readings`: full tanks and levels that the rate rests on; with few the prior rules.
    """

    answer: RouteAnswer
    supplies: tuple[int, ...]
    readings: int


@dataclass(frozen=True, slots=True)
class Road:
    """A route answered from where the vehicle is. What no log or plan tells of is None."""

    total_km: float
    from_km: float
    days: float
    people: tuple[str, ...]
    fuel: Along | None
    water: Along | None
    loads: RoadLoads | None


def road(
    *,
    book: Book,
    route: Body,
    at: str,
    from_km: float | None = None,
    shut: Sequence[int] = (),
    learning: Learning | None = None,
    previous: FuelLog | None = None,
    water_before: WaterLog | None = None,
) -> Road:
    """A route's record answered at an instant, from the logs until then, with the vehicle `from_km` along it.

    Without `from_km` the odometer tells (`placed_km`).

    `shut`: supplies struck out besides those of the record, by their numbers. Where two answers stand against each
    other, the one whose count-on litres come lowest is given. Loads are those of the plan, or of the plan as
    the weighings corrected it (`learning`). `previous` as in `fuel_log_of`, `water_before`
    as in `water_log_of`. Refused: see `itinerary`, `route_answer`.
    """
    water_log = water_log_of(book=book, until=at, previous=water_before)
    levels_before = levels_at(book=book, at=at, previous=previous, water=water_log)
    state = logged_state(book=book, at=at, levels=levels_before)
    on = trailers_for(book=book, route=route, trailers_on=state.trailers_on)
    aboard = people_aboard(book=book, at=at)
    from_km = placed_km(book=book, route=route, at=at) if from_km is None else from_km
    way = itinerary(
        route=route,
        shares={person.id: water_share(person=person.body) for person in book.people},
        aboard=aboard,
        towing=bool(state.trailers_on),
        from_km=from_km,
        shut=shut,
    )
    classes = sorted({name for stretch in way.fuel for name in stretch.way})
    fuel_log = fuel_log_of(book=book, until=at, ahead=classes, previous=previous)
    fuel = None if fuel_log is None else _fuel(fuel_log, route, way, from_km)
    water_log = water_log_of(book=book, until=at, trailers_on=on, previous=water_log)
    water = None if water_log is None else _water(water_log, route, way, from_km, seconds(at))
    drawn: dict[str, Drawn] = {}
    if fuel and fuel_log:
        levels = levels_now(state=fuel_log.journal.state)
        drawn["fuel"] = Drawn(fuel.answer, way.fuel_stops, levels, fuel_log.setup.settings)
    if water and water_log:
        levels = bank_levels(bank=water_banks(log=water_log, now_s=seconds(at))[0])
        drawn["water"] = Drawn(water.answer, way.water_stops, levels, water_log.model.settings)
    people = travellers(route=route, aboard=aboard, at_km=from_km, from_km=from_km)
    trip = Trip(book, route, at, from_km, way.fuel, aboard)
    return Road(
        way.total_km,
        from_km,
        way.days,
        people,
        fuel,
        water,
        road_loads(trip=trip, state=replace(state, trailers_on=on), drawn=drawn, learning=learning),
    )


def _fuel(log: FuelLog, route: Body, way: Itinerary, from_km: float) -> Along | None:
    if not log.journal.steps:
        return None
    own = route.get("fuel_reserve_l")
    own = log.setup.reserve_l if own is None else own
    reserve = usual_reserve(tanks=log.setup.tanks) if own is None else float(own)
    counting = Counting(log.setup.factor, log.setup.factor_u, reserve)
    banks = lower_banks(state=log.journal.state)
    answer = _lowest(banks, way.fuel, way.fuel_stops, from_km, counting)
    return Along(answer, _ahead(answer, way.fuel_supplies), _readings(log))


def _water(log: WaterLog, route: Body, way: Itinerary, from_km: float, now_s: float) -> Along | None:
    if not log.journal.steps:
        return None
    own = route.get("water_reserve_l")
    own = log.setup.reserve_l if own is None else own
    reserve = uncounted_water(tanks=log.setup.tanks) if own is None else float(own)
    banks = water_banks(log=log, now_s=now_s)
    answer = _lowest(banks, way.water, way.water_stops, from_km, Counting(reserve_l=reserve))
    return Along(answer, _ahead(answer, way.water_supplies), _readings(log))


def _lowest(
    banks: Sequence[Bank],
    stretches: Sequence[Stretch],
    stops: Sequence[Stop],
    from_km: float,
    counting: Counting,
) -> RouteAnswer:
    answers = [
        route_answer(bank=bank, stretches=stretches, stops=stops, from_km=from_km, counting=counting)
        for bank in banks
    ]
    return min(answers, key=lambda one: min(point.count_on_l for point in one.points))


def _ahead(answer: RouteAnswer, supplies: tuple[int, ...]) -> tuple[int, ...]:
    """The supplies that lie ahead: the last ones, for they stand in order of distance."""
    return supplies[len(supplies) - len(answer.stops) :]


def _readings(log: FuelLog | WaterLog) -> int:
    return sum(len(one.readings) for one in log.journal.outcomes if not one.held)
