"""Which certain supplies come next along a route, and what has to be taken on here so that they are reached."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from .bank import Bank
from .book import Body, Book
from .errors import Unknown
from .fuel import usual_reserve
from .fuel_log import FuelLog
from .itinerary import Itinerary, itinerary, trailers_for
from .journal import lower_banks
from .log_rows import seconds
from .pieces import SAME_KM, cut_way
from .remain import Counting
from .route import Stop, route_answer
from .state import logged_state
from .stretch import Stretch
from .supplies import fuel_log_of, water_log_of, water_share
from .underway import people_aboard, placed_km
from .water import uncounted_water
from .water_answer import water_banks
from .water_log import WaterLog

HERE_KM = 5.0  # a supply no further ahead than this is where the vehicle is: the odometer knows it no better (assumed)
MOST = 2  # the next supply, and the one after if that is shut


@dataclass(frozen=True, slots=True)
class NextSupply:
    """A certain supply ahead with nothing taken on before it; `supply` is its number in the record, None the end.

    `way`: true km by class until there, for water person-days. `probability` of arriving with the reserve untouched;
    litres left there, below zero where they would be used up. `least_l`: the least to take on here with which it is
    reached with probability p, None where no amount does; `room_l` fit by the likely figure, and `full_probability` is
    that of filling up here.
    """

    supply: int | None
    at_km: float
    distance_km: float
    way: Mapping[str, float]
    probability: float
    likely_l: float
    count_on_l: float
    least_l: float | None
    room_l: float
    full_probability: float


def supplies_ahead(
    *,
    book: Book,
    route: Body,
    at: str,
    holds: str,
    from_km: float | None = None,
    p: float = 0.95,
    log: FuelLog | None = None,
    water_before: WaterLog | None = None,
) -> tuple[NextSupply, ...]:
    """The next certain supplies of `fuel` or `water` from where the vehicle is, by the log until an instant.

    `from_km` and refusals as in `road`. `log`: the book's fuel log where it has been read; it is read again if it lacks
    a class of the way. `water_before` as in `road`. Nothing without a log or at the end. `holds` other than fuel or
    water is refused.
    """
    _check_holds(holds)
    state = logged_state(book=book, at=at)
    from_km = placed_km(book=book, route=route, at=at) if from_km is None else from_km
    way = itinerary(
        route=route,
        shares={person.id: water_share(person=person.body) for person in book.people},
        aboard=people_aboard(book=book, at=at),
        towing=bool(state.trailers_on),
        from_km=from_km,
    )
    if holds == "water":
        on = trailers_for(book=book, route=route, trailers_on=state.trailers_on)
        water = water_log_of(book=book, until=at, trailers_on=on, previous=water_before)
        if water is None or not water.journal.steps:
            return ()
        usual = uncounted_water(tanks=water.setup.tanks)
        counting = Counting(reserve_l=_reserve(route, holds, water.setup.reserve_l, usual))
        banks = water_banks(log=water, now_s=seconds(at))
        return next_supplies(banks=banks, way=way, holds=holds, from_km=from_km, p=p, counting=counting)
    classes = sorted({name for stretch in way.fuel for name in stretch.way})
    if log is None or not set(classes) <= set(log.model.class_ids):
        log = fuel_log_of(book=book, until=at, ahead=classes, previous=log)
    if log is None or not log.journal.steps:
        return ()
    usual = usual_reserve(tanks=log.setup.tanks)
    reserve = _reserve(route, holds, log.setup.reserve_l, usual)
    counting = Counting(log.setup.factor, log.setup.factor_u, reserve)
    banks = lower_banks(state=log.journal.state)
    return next_supplies(banks=banks, way=way, holds=holds, from_km=from_km, p=p, counting=counting)


def next_supplies(
    *,
    banks: Sequence[Bank],
    way: Itinerary,
    holds: str,
    from_km: float,
    p: float = 0.95,
    counting: Counting | None = None,
    most: int = MOST,
) -> tuple[NextSupply, ...]:
    """The next counted supplies of a way, nearest first, and its end where that comes before so many are found.

    Each is reached from here without the others. Of several banks, each figure is the one that promises least.
    Probabilities and refusals as in `route_answer`.
    """
    _check_holds(holds)
    fuel = holds == "fuel"
    stops, numbers = (way.fuel_stops, way.fuel_supplies) if fuel else (way.water_stops, way.water_supplies)
    beyond = from_km + HERE_KM
    places: dict[float, int | None] = {}
    for stop, number in zip(stops, numbers, strict=True):
        if stop.counted and stop.at_km > beyond and not _is_in(places, stop.at_km):
            places[stop.at_km] = number
    if way.total_km > beyond and not _is_in(places, way.total_km):
        places[way.total_km] = None
    stretches = way.fuel if fuel else way.water
    return tuple(
        _reached(banks, stretches, number, (from_km, to_km), p, counting)
        for to_km, number in list(places.items())[:most]
    )


def _is_in(places: Iterable[float], at_km: float) -> bool:
    return any(abs(one - at_km) <= SAME_KM for one in places)


def _reached(
    banks: Sequence[Bank],
    stretches: Sequence[Stretch],
    supply: int | None,
    places: tuple[float, float],
    p: float,
    counting: Counting | None,
) -> NextSupply:
    from_km, to_km = places
    until, way = _onward(stretches, from_km, to_km)
    stops = (Stop(from_km, True, 0.0), Stop(to_km, True))
    found = [
        route_answer(bank=bank, stretches=until, stops=stops, from_km=from_km, p=p, counting=counting)
        for bank in banks
    ]
    here, there = [one.stops[0] for one in found], [one.points[-1] for one in found]
    least = [one.least_l for one in here if one.least_l is not None]
    return NextSupply(
        supply,
        to_km,
        to_km - from_km,
        way,
        min(one.sections[0].probability for one in found),
        min(one.likely_l for one in there),
        min(one.count_on_l for one in there),
        max(least) if len(least) == len(here) else None,
        max(one.room_l for one in here),
        min(one.full_probability or 0.0 for one in here),
    )


def _onward(
    stretches: Sequence[Stretch], from_km: float, to_km: float
) -> tuple[tuple[Stretch, ...], dict[str, float]]:
    """Stretches up to a place, of stays there none, and their amounts by class from here on, of a stay here all."""
    road = cut_way(stretches=stretches, at_km=[to_km], from_km=from_km)
    ahead = [one for one in road.ahead if one.from_km < road.at_km[0]]
    amounts: dict[str, float] = {}
    for piece in ahead:
        for name, amount in piece.way.items():
            amounts[name] = amounts.get(name, 0.0) + amount
    pieces = (*road.behind, *ahead)
    return tuple(Stretch(one.to_km - one.from_km, one.way, one.points) for one in pieces), amounts


def _check_holds(holds: str) -> None:
    if holds not in ("fuel", "water"):
        raise Unknown("holds", holds, ["fuel", "water"])


def _reserve(route: Body, holds: str, own: float | None, usual: float) -> float:
    stated = route.get(f"{holds}_reserve_l")
    stated = own if stated is None else stated
    return usual if stated is None else float(stated)
