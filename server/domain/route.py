"""Fuel or water along a planned way: stretch by stretch, with supplies that are counted on or not.

A supply that is uncertain or struck out adds nothing: the way goes on to the next one that is certain. Sections are
the pieces of the way between those.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from .bank import Bank, Value, bank_advance, bank_total, bank_weights, mixture
from .errors import check_range
from .events import Start
from .filter import total_left
from .pieces import SAME_KM, Piece, Road, cut_way, part_of, way_back
from .remain import LIMIT, TOLERANCE, Counting, check_counting, litres_at, untouched
from .stretch import TOGETHER, Stretch, even_use, one_tank

HALVINGS = 40  # of a piece, until a place on it is found


@dataclass(frozen=True, slots=True)
class Stop:
    """A place along the way where it can be had. `counted`: certain and not struck out.

    `take_l`: litres to be taken on; None fills up, but where the way begins or ends None takes nothing.
    """

    at_km: float
    counted: bool
    take_l: float | None = None


@dataclass(frozen=True, slots=True)
class RoutePoint:
    """Litres left at a place, below zero where they would be used up: mean with u, median, one-sided quantile.

    `taken`: after something was taken on here; `probability` that the reserve is untouched.
    """

    at_km: float
    left: Value
    likely_l: float
    count_on_l: float
    probability: float
    taken: bool = False


@dataclass(frozen=True, slots=True)
class StopAnswer:
    """A supply on arrival, and of a counted one what to take on.

    `room_l`: what fits by the likely figure. `least_l`: the least with which the next counted supply, or the end, is
    reached with probability p; None where no amount does. `full_probability`: of that, filled up here.
    """

    at_km: float
    counted: bool
    likely_l: float
    count_on_l: float
    probability: float
    room_l: float
    least_l: float | None = None
    full_probability: float | None = None


@dataclass(frozen=True, slots=True)
class Section:
    """The way from one counted supply to the next, or to the end; `probability` of arriving with the reserve.

    Where the count-on and the likely litres meet the reserve within it, and from where there is no way back to the last
    counted supply with probability p; None where that is not within it.
    """

    from_km: float
    to_km: float
    probability: float
    count_on_km: float | None
    likely_km: float | None
    no_return_km: float | None


@dataclass(frozen=True, slots=True)
class RouteAnswer:
    """The whole way from where the vehicle is. `tight`: the section with the least probability, by its number."""

    points: tuple[RoutePoint, ...]
    stops: tuple[StopAnswer, ...]
    sections: tuple[Section, ...]
    tight: int
    capacity_l: float
    reserve_l: float


def route_answer(
    *,
    bank: Bank,
    stretches: Sequence[Stretch],
    stops: Sequence[Stop] = (),
    from_km: float = 0.0,
    p: float = 0.95,
    counting: Counting | None = None,
) -> RouteAnswer:
    """What is left along a way in a known order, stepped from the bank's state (`even_use`) at `from_km`.

    P = sum of weights Phi((mean - reserve)/sd), sd^2 with (used u_k/k)^2 since a level was last known. Filling up sets
    the level to the capacity within the shut-off's u; the rates stay as uncertain as they were. Every probability is
    that of its own section. The way back does not repeat stays. 0 < p < 1; a place beyond the way is refused.
    """
    check_range("p", p, above=0.0, below=1.0)
    asked = _Asked(p, counting or Counting())
    check_counting(counting=asked.counting)
    road = cut_way(stretches=stretches, at_km=[from_km, *(stop.at_km for stop in stops)], from_km=from_km)
    placed = [replace(stop, at_km=at) for at, stop in zip(road.at_km[1:], stops, strict=True)]
    pooled = one_tank(bank=bank)
    trip = _Trip(_Held(pooled, (0.0,) * len(pooled.kappas)), road, placed, asked)
    trip.go()
    driven = [one for one in trip.sections if any(map(_leads_on, one.pieces))] or trip.sections[:1]
    sections = [_judged(one, road.behind, asked) for one in driven]
    return RouteAnswer(
        tuple(trip.points),
        tuple(_told(one, asked) for one in trip.visits),
        tuple(sections),
        min(range(len(sections)), key=lambda n: sections[n].probability),
        pooled.model.capacity_l[0],
        asked.counting.reserve_l,
    )


def takes_on(*, stop: Stop, from_km: float, to_km: float) -> bool:
    """Whether something is taken on at a stop of a way: it is counted, and at both ends litres are named."""
    ends = stop.take_l is None and min(abs(stop.at_km - from_km), abs(stop.at_km - to_km)) <= SAME_KM
    ahead = stop.at_km >= from_km - SAME_KM
    return stop.counted and ahead and not ends and stop.take_l != 0.0


@dataclass(frozen=True, slots=True)
class _Asked:
    p: float
    counting: Counting


@dataclass(frozen=True)
class _Held:
    """What is held: the bank of one tank, and by kappa what was used since a level was last known."""

    bank: Bank
    used: tuple[float, ...]


@dataclass
class _Section:
    """A section being driven: the state that it began with, where the last supply is, and its pieces."""

    start: _Held
    from_km: float
    back_km: float | None
    pieces: list[Piece] = field(default_factory=list)


@dataclass
class _Visit:
    """A stop that was come to, the state on arrival, and the section that begins there if it is counted."""

    stop: Stop
    arrival: _Held
    section: _Section | None


class _Trip:
    """Drives the pieces ahead and notes what there is to say."""

    def __init__(self, start: _Held, road: Road, stops: Sequence[Stop], asked: _Asked) -> None:
        self.now, self.at_km, self.asked, self.road = start, road.at_km[0], asked, road
        self.from_km = road.at_km[0]
        self.to_km = road.ahead[-1].to_km if road.ahead else self.from_km
        behind = [stop.at_km for stop in stops if stop.counted and stop.at_km < self.at_km]
        self.section = _Section(start, self.at_km, max(behind, default=None))
        self.sections, self.visits = [self.section], list[_Visit]()
        self.points = [self._point()]
        self.ahead = sorted((one for one in stops if one.at_km >= self.at_km), key=lambda one: one.at_km)

    def go(self) -> None:
        for piece in self.road.ahead:
            self._stops_until(piece.from_km)
            self._drive(piece)
        self._stops_until(self.at_km)

    def _drive(self, piece: Piece) -> None:
        start = self.now
        for n in range(1, piece.points + 1):
            part = part_of(piece=piece, share=n / piece.points)
            self.now, self.at_km = _driven(start, part.way, self.asked), part.to_km
            self.points.append(self._point())
        self.section.pieces.append(piece)

    def _stops_until(self, at_km: float) -> None:
        while self.ahead and self.ahead[0].at_km <= at_km:
            stop, arrival = self.ahead.pop(0), self.now
            if not stop.counted:
                self.visits.append(_Visit(stop, arrival, None))
                continue
            if takes_on(stop=stop, from_km=self.from_km, to_km=self.to_km):
                self.now = _taken(arrival, stop.take_l)
                self.points.append(self._point(taken=True))
            if stop.at_km == self.section.from_km:
                self.section.start, self.section.back_km = self.now, stop.at_km
            else:
                self.section = _Section(self.now, stop.at_km, stop.at_km)
                self.sections.append(self.section)
            self.visits.append(_Visit(stop, arrival, self.section))

    def _point(self, *, taken: bool = False) -> RoutePoint:
        asked, parts = self.asked, _parts(self.now, self.asked)
        weights = bank_weights(bank=self.now.bank)
        means, variances = [mean for mean, _ in parts], [variance for _, variance in parts]
        return RoutePoint(
            self.at_km,
            mixture(means=means, variances=variances, weights=weights),
            litres_at(parts=parts, weights=weights, p=0.5),
            litres_at(parts=parts, weights=weights, p=asked.p),
            _reach(self.now, asked),
            taken,
        )


def _parts(now: _Held, asked: _Asked) -> list[tuple[float, float]]:
    """Mean and variance of what is left, by kappa."""
    k, u_k = asked.counting.factor, asked.counting.factor_u
    left = [total_left(model=now.bank.model, estimate=one) for one in now.bank.estimates]
    return [
        (mean, variance + (used * u_k / k) ** 2)
        for (mean, variance), used in zip(left, now.used, strict=True)
    ]


def _reach(now: _Held, asked: _Asked) -> float:
    weights = bank_weights(bank=now.bank)
    return untouched(parts=_parts(now, asked), weights=weights, reserve_l=asked.counting.reserve_l)


def _driven(now: _Held, way: Mapping[str, float], asked: _Asked) -> _Held:
    indicated = {name: amount / asked.counting.factor for name, amount in way.items()}
    bank = even_use(bank=now.bank, way=indicated)
    pairs = zip(now.bank.estimates, bank.estimates, now.used, strict=True)
    return _Held(bank, tuple(used + before.mean[0] - after.mean[0] for before, after, used in pairs))


def _taken(now: _Held, take_l: float | None) -> _Held:
    """Filled up, or with some litres more; what does not fit fills up."""
    model = now.bank.model
    (capacity,) = model.capacity_l
    if take_l is None or bank_total(bank=now.bank).mean + take_l >= capacity:
        full = Start(TOGETHER, capacity, model.settings.full_u_l)
        return _Held(bank_advance(bank=now.bank, event=full), (0.0,) * len(now.used))
    variance = (model.settings.fill_u * take_l) ** 2
    estimates = []
    for one in now.bank.estimates:
        (first, *rest) = one.cov
        cov = ((first[0] + variance, *first[1:]), *rest)
        estimates.append(replace(one, mean=(one.mean[0] + take_l, *one.mean[1:]), cov=cov))
    return _Held(replace(now.bank, estimates=tuple(estimates)), now.used)


def _leads_on(piece: Piece) -> bool:
    """Whether a piece is any way at all, or a stay that uses something."""
    return piece.to_km > piece.from_km or any(amount > 0 for amount in piece.way.values())


def _judged(section: _Section, behind: Sequence[Piece], asked: _Asked) -> Section:
    now = section.start
    for piece in section.pieces:
        now = _driven(now, piece.way, asked)

    def onward(now: _Held, _: Sequence[Piece]) -> float:
        return _reach(now, asked)

    def back(now: _Held, so_far: Sequence[Piece]) -> float:
        for way in way_back(pieces=[*behind, *so_far], to_km=section.back_km or 0.0):
            now = _driven(now, way, asked)
        return _reach(now, asked)

    return Section(
        section.from_km,
        section.pieces[-1].to_km if section.pieces else section.from_km,
        _reach(now, asked),
        _first_below(section, asked, asked.p, onward),
        _first_below(section, asked, 0.5, onward),
        None if section.back_km is None else _first_below(section, asked, asked.p, back),
    )


def _first_below(
    section: _Section, asked: _Asked, p: float, chance: Callable[[_Held, Sequence[Piece]], float]
) -> float | None:
    """The first place of a section where a probability is below p."""
    now, so_far = section.start, list[Piece]()
    if chance(now, so_far) < p:
        return section.from_km
    for piece in section.pieces:
        after = _driven(now, piece.way, asked)
        if chance(after, [*so_far, piece]) < p:
            low, high = 0.0, 1.0
            for _ in range(HALVINGS):
                middle = part_of(piece=piece, share=(low + high) / 2)
                below = chance(_driven(now, middle.way, asked), [*so_far, middle]) < p
                low, high = (low, (low + high) / 2) if below else ((low + high) / 2, high)
            return part_of(piece=piece, share=low).to_km
        now = after
        so_far.append(piece)
    return None


def _told(visit: _Visit, asked: _Asked) -> StopAnswer:
    now, weights = visit.arrival, bank_weights(bank=visit.arrival.bank)
    parts = _parts(now, asked)
    (capacity,) = now.bank.model.capacity_l
    answer = StopAnswer(
        visit.stop.at_km,
        visit.stop.counted,
        litres_at(parts=parts, weights=weights, p=0.5),
        litres_at(parts=parts, weights=weights, p=asked.p),
        _reach(now, asked),
        max(capacity - bank_total(bank=now.bank).mean, 0.0),
    )
    if visit.section is None:
        return answer
    full = _taken(now, None)
    for piece in visit.section.pieces:
        now, full = _driven(now, piece.way, asked), _driven(full, piece.way, asked)
    return replace(answer, least_l=_least(now, asked), full_probability=_reach(full, asked))


def _least(now: _Held, asked: _Asked) -> float | None:
    """Litres that had to be there more for the reserve to be untouched with probability p."""
    parts, weights = _parts(now, asked), bank_weights(bank=now.bank)
    fill_u, reserve_l = now.bank.model.settings.fill_u, asked.counting.reserve_l

    def short(litres: float) -> bool:
        more = [(mean + litres, variance + (fill_u * litres) ** 2) for mean, variance in parts]
        return untouched(parts=more, weights=weights, reserve_l=reserve_l) < asked.p

    if not short(0.0):
        return 0.0
    low, high = 0.0, 1.0
    while short(high):
        if high >= LIMIT:
            return None
        low, high = high, 2 * high
    while high - low > TOLERANCE:
        middle = (low + high) / 2
        if middle in (low, high):
            break
        low, high = (middle, high) if short(middle) else (low, middle)
    return high
