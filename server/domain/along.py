"""Loads along a way: tanks that empty one after the other, grey water, supplies, people and loads in and out.

Between events every mass is linear in the distance, and every kink is made an event, so that each load's extremes
lie at the marks.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from math import inf, sqrt

from .axles import Geometry, check_geometry
from .errors import OnTheWay, Unknown, check_finite, check_range
from .happenings import NOTHING_L, Empty, Happening, Rest, Take, Vessel, Way, check_happenings, check_vessels
from .limits import chance_over
from .linalg import finite
from .statics import Loads, Part, design

NEVER = 1e-6  # below this chance everywhere, a rating is nearest where its margin is least (assumed)


@dataclass(frozen=True, slots=True)
class Mark:
    """The loads at a place, row by row. `cause`: start, the event's kind, or `ran_empty` inside a way.

    `event` is the event's number, -1 at the start; `empty` are the tanks that hold nothing there.
    """

    at_km: float
    event: int
    cause: str
    value_kg: tuple[float, ...]
    u_kg: tuple[float, ...]
    empty: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Range:
    """Least and greatest load of a row, by the numbers of their marks."""

    row: str
    least_at: int
    greatest_at: int


@dataclass(frozen=True, slots=True)
class Nearest:
    """A rating along the way: the greatest chance to be over and, separately, the least margin, with their marks."""

    rating: str
    limit_kg: float
    chance: float
    chance_at: int
    margin_kg: float
    margin_at: int


@dataclass(frozen=True, slots=True)
class LoadsAlong:
    """Each row's load over the distance: straight lines between the marks."""

    rows: tuple[str, ...]
    marks: tuple[Mark, ...]
    ranges: tuple[Range, ...]
    nearest: tuple[Nearest, ...]


def loads_along(
    *,
    fixed: Loads,
    vessels: Sequence[Vessel],
    events: Sequence[Happening],
    geometry: Geometry,
    limits: Mapping[str, float] | None = None,
    from_km: float = 0.0,
) -> LoadsAlong:
    """Loads of the rows of `fixed`, which is all but the vessels' contents, along a list of events.

    value = fixed + sum l_k rho_k V_k. Variance: that of `fixed`, and of independent starting levels, litres used,
    densities and places of the tanks, each with what it moves: one litre more used comes out of the tank in draw and
    goes in part to its grey tank; an emptied tank's litre more is a litre less out of the one after it. Running dry,
    overfilling and a grey tank that overflows are refused with `OnTheWay`, which says where. Burning fuel behind the
    rear axle raises the front axle. `limits` are ratings by row, > 0.
    """
    check_geometry(geometry)
    check_finite("from_km", from_km)
    finite("mean_kg", fixed.mean_kg)
    finite("cov_kg2", fixed.cov_kg2)
    check_vessels(vessels=vessels)
    check_happenings(vessels=vessels, events=events, rows=fixed.rows)
    for row, limit in (limits or {}).items():
        if row not in fixed.rows:
            raise Unknown("row", row, fixed.rows)
        check_range("limit_kg", limit, above=0.0, unit="kg")
    walk = _Walk(fixed, vessels, geometry, from_km)
    for n, event in enumerate(events):
        walk.step(n, event)
    marks = tuple(walk.marks)
    return LoadsAlong(
        fixed.rows,
        marks,
        tuple(_range(row, k, marks) for k, row in enumerate(fixed.rows)),
        tuple(_nearest(row, limit, fixed.rows.index(row), marks) for row, limit in (limits or {}).items()),
    )


def _range(row: str, k: int, marks: Sequence[Mark]) -> Range:
    order = range(len(marks))
    return Range(
        row, min(order, key=lambda n: marks[n].value_kg[k]), max(order, key=lambda n: marks[n].value_kg[k])
    )


def _nearest(row: str, limit_kg: float, k: int, marks: Sequence[Mark]) -> Nearest:
    def nearness(n: int) -> tuple[float, float]:
        value, u = marks[n].value_kg[k], marks[n].u_kg[k]
        far = (value - limit_kg) / u if u > 0.0 else inf if value > limit_kg else -inf
        return far, value

    def chance(n: int) -> float:
        return chance_over(limit_kg=limit_kg, value_kg=marks[n].value_kg[k], u_kg=marks[n].u_kg[k])

    at = max(range(len(marks)), key=nearness)
    heaviest = _range(row, k, marks).greatest_at
    at = at if chance(at) >= NEVER else heaviest
    return Nearest(row, limit_kg, chance(at), at, limit_kg - marks[heaviest].value_kg[k], heaviest)


@dataclass
class _Tank:
    """A vessel on its way: what is in it, the u of its own level, and its coefficients per kg, row by row."""

    vessel: Vessel
    share: tuple[float, ...]
    per_m: tuple[float, ...]
    litres: float
    u: float
    came_u2: float = 0.0  # variance of what came into a grey tank before levels were known again
    emptied: bool = False  # on the way: what it had more or less, the next tank has


class _Walk:
    """Steps through the events; `used_u2` is the variance of what a group used since its level was known."""

    def __init__(self, fixed: Loads, vessels: Sequence[Vessel], geometry: Geometry, from_km: float) -> None:
        parts = [Part(one.id, 0.0, 0.0, one.x_m, on=one.on) for one in vessels]
        lines = design(parts=parts, geometry=geometry, rows=fixed.rows)
        self.fixed, self.at_km = fixed, from_km
        self.tanks = {
            one.id: _Tank(
                one,
                tuple(lines.shares[:, j].tolist()),
                tuple(lines.per_m[:, j].tolist()),
                one.litres_l,
                one.litres_u_l,
            )
            for j, one in enumerate(vessels)
        }
        self.groups: dict[str, list[_Tank]] = {}
        for tank in sorted(self.tanks.values(), key=lambda tank: tank.vessel.drain_order):
            self.groups.setdefault(tank.vessel.holds, []).append(tank)
        self.used_u2 = dict.fromkeys(self.groups, 0.0)
        self.marks: list[Mark] = []
        self.mark(-1, "start")

    def step(self, n: int, event: Happening) -> None:
        if isinstance(event, Way):
            self.way(n, event)
            return
        if isinstance(event, Rest):
            self.fixed = event.loads
        elif isinstance(event, Empty):
            tank = self.tanks[event.tank_id]
            tank.litres, tank.u, tank.came_u2, tank.emptied = 0.0, 0.0, 0.0, False
        else:
            self.take(n, event)
        self.mark(n, event.kind)

    def take(self, n: int, event: Take) -> None:
        group = self.groups[event.holds]
        if event.litres_l is None:
            self.settle(event.holds)
            for tank in group:
                own = tank.vessel.full_u_l
                tank.u = event.litres_u_l if own is None else own
                tank.litres, tank.emptied = tank.vessel.capacity_l, False
            return
        room = sum(tank.vessel.capacity_l - tank.litres for tank in group)
        if event.litres_l > room + NOTHING_L:
            raise OnTheWay(
                "overfull", litres_l=event.litres_l, tank_id=event.holds, at_km=self.at_km, event=n
            )
        self.keep(event.holds)
        left = event.litres_l
        for tank in reversed(group):
            into = min(left, tank.vessel.capacity_l - tank.litres)
            if into > 0.0:
                tank.litres, tank.emptied = tank.litres + into, False
                tank.u = sqrt(tank.u**2 + (event.litres_u_l * into / event.litres_l) ** 2)
                left -= into

    def keep(self, holds: str) -> None:
        """The tank that was in draw keeps what is uncertain so far, whichever is drawn from next."""
        kept, used = self.drawn(holds) or self.groups[holds][-1], self.used_u2[holds]
        gone = [tank for tank in self.groups[holds] if tank.emptied and tank is not kept]
        u = sqrt(kept.u**2 + used + sum(tank.u**2 for tank in gone))
        self.settle(holds)
        kept.u = u

    def settle(self, holds: str) -> None:
        """A level is known again: what was used before is uncertain in the grey tank alone."""
        drawn = self.drawn(holds)
        if drawn:
            self.into(drawn, self.used_u2[holds])
        for tank in self.groups[holds]:
            if tank.emptied:
                self.into(tank, tank.u**2)
                tank.u = 0.0
        self.used_u2[holds] = 0.0

    def into(self, tank: _Tank, variance: float) -> None:
        if tank.vessel.grey_id:
            self.tanks[tank.vessel.grey_id].came_u2 += tank.vessel.grey_fraction**2 * variance

    def drawn(self, holds: str) -> _Tank | None:
        """The tank of a group that is in draw."""
        return next((tank for tank in self.groups[holds] if tank.litres > NOTHING_L), None)

    def way(self, n: int, event: Way) -> None:
        start_km, done = self.at_km, 0.0
        used = {holds: litres for holds, litres in event.used_l.items() if litres > 0.0}
        before = {holds: self.total_u2(holds) for holds in event.left_u_l}
        while True:
            ends = self.until_empty(n, event, used, done, start_km)
            share = min([1.0, *ends.values()])
            self.draw(used, share - done, [holds for holds, end in ends.items() if end == share])
            self.at_km = start_km + share * event.distance_km
            for holds, u in event.left_u_l.items():
                total = before[holds] + share * (u**2 - before[holds])
                own = sum(tank.u**2 for tank in self.groups[holds])
                self.used_u2[holds] = max(total - own, 0.0)
            done = share
            if done >= 1.0:
                break
            self.mark(n, "ran_empty")
        self.mark(n, event.kind)

    def until_empty(
        self, n: int, event: Way, used: Mapping[str, float], done: float, start_km: float
    ) -> dict[str, float]:
        """The share of a way at which each group's tank in draw is empty; refused before something cannot be."""
        ends: dict[str, float] = {}
        into: dict[str, float] = {}
        for holds, litres in used.items():
            tank = self.drawn(holds)
            if tank is None:
                if litres * (1.0 - done) > NOTHING_L:
                    at = start_km + done * event.distance_km
                    raise OnTheWay("dry", litres_l=litres * (1.0 - done), tank_id=holds, at_km=at, event=n)
                continue
            end = done + tank.litres / litres
            if end < 1.0 or (end - 1.0) * litres <= NOTHING_L:
                ends[holds] = min(end, 1.0)
            if tank.vessel.grey_id:
                grey_id = tank.vessel.grey_id
                into[grey_id] = into.get(grey_id, 0.0) + tank.vessel.grey_fraction * litres
        share = min([1.0, *ends.values()])
        for grey_id, litres in into.items():
            grey = self.tanks[grey_id]
            room = grey.vessel.capacity_l - grey.litres
            if litres * (share - done) > room + NOTHING_L:
                at = start_km + (done + max(room, 0.0) / litres) * event.distance_km
                over = grey.litres + litres * (share - done)
                raise OnTheWay("grey_full", litres_l=over, tank_id=grey_id, at_km=at, event=n)
        return ends

    def draw(self, used: Mapping[str, float], share: float, emptied: Sequence[str]) -> None:
        for holds, litres in used.items():
            tank = self.drawn(holds)
            if tank is None:
                continue
            gone = tank.litres if holds in emptied else litres * share
            tank.emptied = holds in emptied
            tank.litres = 0.0 if tank.emptied else max(tank.litres - gone, 0.0)
            if tank.vessel.grey_id:
                self.tanks[tank.vessel.grey_id].litres += tank.vessel.grey_fraction * gone

    def total_u2(self, holds: str) -> float:
        """Variance of what a group holds altogether."""
        return sum(tank.u**2 for tank in self.groups[holds]) + self.used_u2[holds]

    def mark(self, n: int, cause: str) -> None:
        level_u2 = {name: self.variance(partial(_is, tank)) for name, tank in self.tanks.items()}
        value, u = [], []
        for k, mean in enumerate(self.fixed.mean_kg):
            variance = self.fixed.cov_kg2[k][k] + self.variance(partial(_weighs, k))
            for tank in self.tanks.values():
                rho, u_rho = tank.vessel.density_kg_per_l, tank.vessel.density_u_kg_per_l
                square = tank.litres**2 + level_u2[tank.vessel.id]
                variance += (tank.share[k] * u_rho) ** 2 * square
                mass_square = (rho**2 + u_rho**2) * square
                variance += (tank.per_m[k] * tank.vessel.x_u_m) ** 2 * mass_square
                mean += tank.share[k] * rho * tank.litres
            value.append(mean)
            u.append(sqrt(max(variance, 0.0)))
        empty = tuple(name for name, tank in self.tanks.items() if tank.litres <= NOTHING_L)
        self.marks.append(Mark(self.at_km, n, cause, tuple(value), tuple(u), empty))

    def variance(self, per_litre: Callable[[_Tank], float]) -> float:
        """Variance of a sum over what the tanks hold, by what a litre in each counts in it.

        Of independent parts: levels, litres used, what came into a grey tank before.
        """
        total = 0.0
        for holds, group in self.groups.items():
            drawn = self.drawn(holds)
            in_draw = per_litre(drawn) - self.into_grey(drawn, per_litre) if drawn else 0.0
            total += self.used_u2[holds] * in_draw**2
            for tank in group:
                own = self.into_grey(tank, per_litre) + in_draw if tank.emptied else per_litre(tank)
                total += (tank.u * own) ** 2 + tank.came_u2 * per_litre(tank) ** 2
        return total

    def into_grey(self, tank: _Tank, per_litre: Callable[[_Tank], float]) -> float:
        """What a litre drawn from a tank counts in its grey tank."""
        grey_id = tank.vessel.grey_id
        return tank.vessel.grey_fraction * per_litre(self.tanks[grey_id]) if grey_id else 0.0


def _is(tank: _Tank, one: _Tank) -> float:
    return float(one is tank)


def _weighs(k: int, one: _Tank) -> float:
    """What a litre in a tank weighs on a row, kg."""
    return one.share[k] * one.vessel.density_kg_per_l
