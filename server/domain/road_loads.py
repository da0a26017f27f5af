"""Loads along a route of a book: its tanks, what comes aboard or goes, and every rating at its nearest place."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial

from .along import LoadsAlong, loads_along
from .axles import Geometry
from .book import Body, Book
from .errors import OnTheWay
from .filter import Settings
from .grey import GREY_FRACTION
from .happenings import Empty, Happening, Rest, Take, Vessel, Way
from .itinerary import changes_of, travellers
from .learning import Learning
from .limits import CONFIDENCE, Verdict, verdict
from .parts import CAPACITY_U_L, DESCRIBED_U_M, MASS_SHARE, Fuel, density_of, fuel_of, position_u_m
from .pieces import SAME_KM, cut_way
from .plan import Missing, Plan, base_correlation_of, geometry_of, plan_in, reckoned
from .plates import ratings_of
from .route import RouteAnswer, RoutePoint, Stop, takes_on
from .state import State, TankLevel, seats_for
from .statics import Loads, Part, loads, product_moments
from .stretch import Stretch
from .worst import rated_rows

FITS_L = 1.0  # litres planned beyond what fits by the likely figure that still count as filling up (assumed)


@dataclass(frozen=True, slots=True)
class Drawn:
    """What is drawn from along the way: litres, planned stops, the tanks' levels now, and the log's settings."""

    answer: RouteAnswer
    stops: tuple[Stop, ...]
    levels: tuple[TankLevel, ...]
    settings: Settings


@dataclass(frozen=True, slots=True)
class Trip:
    """A route's record at an instant, with its way as it is cut, and who is aboard now."""

    book: Book
    route: Body
    at: str
    from_km: float
    way: tuple[Stretch, ...]
    aboard: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class RatingAlong:
    """A rating where it is nearest: judged at its greatest chance, `margin_at` is the mark of the least margin."""

    verdict: Verdict
    chance_at: int
    margin_at: int
    margin_kg: float


@dataclass(frozen=True, slots=True)
class Stuck:
    """Where the way cannot go on as planned; the loads end there. `tank_id` as in `OnTheWay`."""

    what: str
    tank_id: str
    at_km: float
    litres_l: float


@dataclass(frozen=True, slots=True)
class RoadLoads:
    """Loads along the way, ratings at their nearest, what stops it, and what the plan leaves blank."""

    along: LoadsAlong
    ratings: tuple[RatingAlong, ...]
    stuck: Stuck | None
    missing: tuple[Missing, ...]


def road_loads(
    *, trip: Trip, state: State, drawn: Mapping[str, Drawn], learning: Learning | None = None
) -> RoadLoads | None:
    """Loads along a route from a state; None where the plan does not reach it.

    The state's trailer is on for the whole way. Tanks that no log tells of stay as they are, but a grey tank is empty
    at the beginning unless its level is known (assumed); into it goes the share that the tank says, or the usual one.
    Confidence is the vehicle's.
    """
    book = trip.book
    if not reckoned(book=book, state=state):
        return None
    rest = _Rest(trip, state, learning)
    vessels = tuple(_vessels(trip, state, drawn))
    rest.vessels = {one.id for one in vessels}
    fixed, plan = rest.loads(), rest.plan()
    trailer_id = rest.geometry.trailer.id if rest.geometry.trailer else None
    ratings = ratings_of(book=book, day=trip.at[:10], trailer_id=trailer_id)
    limits = {
        one.rating: one.limit_kg for one in ratings if one.rating in fixed.rows and one.limit_kg is not None
    }
    events = list(_events(trip, drawn, vessels, rest))

    def walked(events: Sequence[Happening]) -> LoadsAlong:
        return loads_along(
            fixed=fixed,
            vessels=vessels,
            events=events,
            geometry=rest.geometry,
            limits=limits,
            from_km=trip.from_km,
        )

    stuck = None
    try:
        found = walked(events)
    except OnTheWay as error:
        stuck = Stuck(error.what, error.tank_id, error.at_km, error.litres_l)
        found = walked(events[: error.event])
    return RoadLoads(found, tuple(_ratings(found, book)), stuck, plan.missing)


def _ratings(found: LoadsAlong, book: Book) -> Iterator[RatingAlong]:
    body = book.vehicle.body if book.vehicle else {}
    for one in found.nearest:
        k, mark = found.rows.index(one.rating), found.marks[one.chance_at]
        judged = verdict(
            rating=one.rating,
            value_kg=mark.value_kg[k],
            u_kg=mark.u_kg[k],
            limit_kg=one.limit_kg,
            confidence=float(body.get("confidence") or CONFIDENCE),
        )
        yield RatingAlong(judged, one.chance_at, one.margin_at, one.margin_kg)


class _Rest:
    """Everything but the tanks: who sits where, what is aboard; changed along the way."""

    def __init__(self, trip: Trip, state: State, learning: Learning | None) -> None:
        self.trip, self.state, self.learning = trip, state, learning
        self.geometry: Geometry = geometry_of(book=trip.book, state=state)
        self.vessels: set[str] = set()
        self.extra: dict[str, Part] = {}
        self.seat(trip.from_km)
        for n, change in enumerate(changes_of(route=trip.route)):
            until = change.get("until_km")
            gone = until is not None and float(until) <= trip.from_km
            if change["what"] == "load" and float(change["at_km"]) < trip.from_km and not gone:
                self.load(n, change)
        self.rows = rated_rows(plan=self.plan(), geometry=self.geometry)

    def seat(self, at_km: float) -> None:
        trip = self.trip
        people = travellers(route=trip.route, aboard=trip.aboard, at_km=at_km, from_km=trip.from_km)
        seats = seats_for(book=trip.book, seats=self.state.seats, people=people)
        self.state = replace(self.state, seats=seats)

    def load(self, n: int, change: Body) -> None:
        if change.get("mass_kg") is None or change.get("x_m") is None:
            return
        mass_kg, own_u = float(change["mass_kg"]), change.get("mass_u_kg")
        u_kg = MASS_SHARE["estimate"] * mass_kg if own_u is None else float(own_u)
        self.extra[f"load:{n}"] = Part(f"load:{n}", mass_kg, u_kg, float(change["x_m"]), DESCRIBED_U_M)

    def changed(self, n: int, *, gone: bool = False) -> list[Rest]:
        """What it all weighs once a change of the record has happened, or its end."""
        change = changes_of(route=self.trip.route)[n]
        what, subject = change["what"], change.get("subject_id")
        if gone:
            self.extra.pop(f"load:{n}", None)
        elif what == "load":
            self.load(n, change)
        elif what == "item" and subject:
            self.item(subject, change.get("aboard") is not False)
        else:
            self.seat(float(change["at_km"]))
        return [Rest(self.loads())]

    def item(self, item_id: str, aboard: bool) -> None:
        away = [one for one in self.state.items_away if one != item_id]
        self.state = replace(self.state, items_away=tuple(away if aboard else [*away, item_id]))

    def plan(self) -> Plan:
        plan = plan_in(self.trip.book, self.state)
        held = {f"{name}:content" for name in self.vessels}
        passing = tuple(part for part in plan.passing if part.id not in held)
        return replace(plan, passing=(*passing, *self.extra.values()))

    def loads(self) -> Loads:
        plan = self.plan()
        if self.learning is not None:
            return self.learning.loads(plan, self.rows, self.geometry)
        rho = base_correlation_of(book=self.trip.book)
        return loads(parts=plan.parts, geometry=self.geometry, rows=self.rows, base_correlation=rho)


def _vessels(trip: Trip, state: State, drawn: Mapping[str, Drawn]) -> Iterator[Vessel]:
    rows = {tank.id: tank.body for tank in trip.book.tanks}
    fuel = fuel_of(trip.book.vehicle.body if trip.book.vehicle else None, state)
    greys: dict[str, None] = {}
    for holds, one in drawn.items():
        levels = {level.tank_id: level for level in one.levels}
        if any(rows[name].get("x_m") is None for name in levels):
            continue
        for n, (name, level) in enumerate(levels.items()):
            body = rows[name]
            grey_id = body.get("grey_tank_id") if holds == "water" else None
            grey = rows.get(grey_id) if grey_id else None
            into = grey_id if grey and _placed(grey, state) else None
            if into:
                greys[into] = None
            yield _vessel(name, body, level, holds, fuel, drain_order=n, grey_id=into)
    for name in greys:
        known = state.level_of(name)
        if known is None or known.known_from == "prior":
            known = TankLevel(name, 0.0, 0.0, "prior")
        yield _vessel(name, rows[name], known, name, fuel)


def _placed(grey: Body, state: State) -> bool:
    """Whether a grey tank can be filled and weighed: its size and place are known, and what it is on is there."""
    on = grey.get("trailer_id")
    return (
        bool(grey.get("capacity_l")) and grey.get("x_m") is not None and (not on or on in state.trailers_on)
    )


def _vessel(
    name: str,
    body: Body,
    level: TankLevel,
    holds: str,
    fuel: Fuel,
    *,
    drain_order: int = 0,
    grey_id: str | None = None,
) -> Vessel:
    capacity_l, capacity_u = float(body["capacity_l"]), float(body.get("capacity_u_l") or CAPACITY_U_L)
    litres, u = product_moments((capacity_l, capacity_u), (level.level, level.level_u))
    density, density_u = density_of(body, fuel)
    fraction = body.get("grey_fraction")
    return Vessel(
        name,
        holds,
        capacity_l,
        litres,
        float(body["x_m"]),
        u,
        density,
        density_u,
        position_u_m(body),
        on=body.get("trailer_id") or "vehicle",
        drain_order=drain_order,
        grey_id=grey_id,
        grey_fraction=(GREY_FRACTION if fraction is None else float(fraction)) if grey_id else 0.0,
        full_u_l=body.get("full_u_l"),
    )


def _events(
    trip: Trip, drawn: Mapping[str, Drawn], vessels: Sequence[Vessel], rest: _Rest
) -> Iterator[Happening]:
    held = {one.holds for one in vessels}
    steps = {holds: _steps(one.answer) for holds, one in drawn.items() if holds in held}
    takes = [due for holds in steps for due in _takes(trip, holds, drawn[holds])]
    due = sorted([*takes, *_changes(rest, vessels)], key=lambda one: one.at_km)
    k, at_km = 0, trip.from_km
    for piece in cut_way(stretches=trip.way, at_km=(), from_km=trip.from_km).ahead:
        yield from _happen(due, piece.from_km)
        for _ in range(piece.points):
            now = {holds: pairs[k] for holds, pairs in steps.items()}
            used = {holds: max(a.left.mean - b.left.mean, 0.0) for holds, (a, b) in now.items()}
            left = {holds: after.left.u for holds, (_, after) in now.items()}
            yield Way((piece.to_km - piece.from_km) / piece.points, used, left)
            k += 1
        at_km = piece.to_km
    yield from _happen(due, at_km)


def _steps(answer: RouteAnswer) -> list[tuple[RoutePoint, RoutePoint]]:
    """Each point of the way that was driven to, with the one before it."""
    pairs = zip(answer.points, answer.points[1:], strict=False)
    return [(before, after) for before, after in pairs if not after.taken]


@dataclass(frozen=True, slots=True)
class _Due:
    """What happens at a place of the way."""

    at_km: float
    happens: Callable[[], Sequence[Happening]]


def _takes(trip: Trip, holds: str, one: Drawn) -> Iterator[_Due]:
    """Litres taken on at counted supplies, as the answer takes them."""
    to_km = one.answer.points[-1].at_km
    # those ahead are the last ones, for they stand in order of distance; the answer tells places by the pieces
    ahead = one.stops[len(one.stops) - len(one.answer.stops) :]
    for stop, told in zip(ahead, one.answer.stops, strict=True):
        if not takes_on(stop=stop, from_km=trip.from_km, to_km=to_km):
            continue
        room = told.room_l
        fills = stop.take_l is None or room <= stop.take_l <= room + FITS_L
        u = one.settings.full_u_l if fills else one.settings.fill_u * (stop.take_l or 0.0)
        take = Take(holds, None if fills else stop.take_l, u)
        yield _Due(stop.at_km, partial(list, [take]))


def _changes(rest: _Rest, vessels: Sequence[Vessel]) -> Iterator[_Due]:
    """What comes aboard or goes from here on, by the record."""
    greys = sorted({one.grey_id for one in vessels if one.grey_id})
    for n, change in enumerate(changes_of(route=rest.trip.route)):
        at_km, what, subject = float(change["at_km"]), change["what"], change.get("subject_id")
        until = change.get("until_km")
        if at_km >= rest.trip.from_km:
            if what == "grey":
                emptied = [Empty(name) for name in greys if subject in (None, name)]
                yield _Due(at_km, partial(list, emptied))
            else:
                yield _Due(at_km, partial(rest.changed, n))
        if until is not None and float(until) > rest.trip.from_km:
            yield _Due(float(until), partial(rest.changed, n, gone=True))


def _happen(due: list[_Due], at_km: float) -> Iterator[Happening]:
    while due and due[0].at_km <= at_km + SAME_KM:
        yield from due.pop(0).happens()
