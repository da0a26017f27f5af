"""Every state that the tanks can be in: extremes of loads, of the chance to be over, and of the CG's height.

Tanks are prismatic and stand level: a level moves the mass and the height of a content, not its x and y.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import product
from math import inf, sqrt

from .axles import Geometry
from .errors import NotKnown, check_finite, check_range
from .limits import chance_over
from .statics import Part, check_parts, design, loads, tank_content

MOST_VERTICES = 10  # up to this many tanks every combination of ends is looked at: 2^10
SETTLED_M = 1e-13


@dataclass(frozen=True, slots=True)
class Tank:
    """A tank between two levels; `bottom_m` and `height_m` say where its content is in height."""

    id: str
    capacity_l: float
    x_m: float
    least_level: float = 0.0
    greatest_level: float = 1.0
    level_u: float = 0.0
    density_kg_per_l: float = 1.0
    density_u_kg_per_l: float = 0.0
    capacity_u_l: float = 0.0
    x_u_m: float = 0.0
    y_m: float = 0.0
    bottom_m: float | None = None
    height_m: float = 0.0
    on: str = "vehicle"


@dataclass(frozen=True, slots=True)
class Span:
    """Least and greatest mean load of a row, kg, and the levels there, tank by tank."""

    row: str
    least_kg: float
    greatest_kg: float
    least_at: tuple[float, ...]
    greatest_at: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Worst:
    """The state to judge a limit by. `found`: vertex (the greatest chance), over (the mean is), or bound."""

    chance: float
    value_kg: float
    u_kg: float
    levels: tuple[float, ...]
    found: str


@dataclass(frozen=True, slots=True)
class WorstEnds:
    """The ends to judge a limit by: 0 or 1 for each content, with load, u and chance there. `found` as in `Worst`."""

    chance: float
    value_kg: float
    u_kg: float
    ends: tuple[int, ...]
    found: str


@dataclass(frozen=True, slots=True)
class Heights:
    """Least and greatest height of the centre of gravity, m, and the levels there."""

    least_m: float
    greatest_m: float
    least_at: tuple[float, ...]
    greatest_at: tuple[float, ...]


def content(*, tank: Tank, level: float) -> Part:
    """What a tank holds at a level, as a part; its centre is half way up what is in it."""
    return tank_content(
        id=tank.id,
        density_kg_per_l=tank.density_kg_per_l,
        density_u_kg_per_l=tank.density_u_kg_per_l,
        capacity_l=tank.capacity_l,
        capacity_u_l=tank.capacity_u_l,
        level=level,
        level_u=tank.level_u,
        x_m=tank.x_m,
        x_u_m=tank.x_u_m,
        y_m=tank.y_m,
        z_m=None if tank.bottom_m is None else tank.bottom_m + level * tank.height_m / 2,
        on=tank.on,
    )


def envelope(
    *, parts: Sequence[Part], tanks: Sequence[Tank], geometry: Geometry, rows: Sequence[str]
) -> tuple[Span, ...]:
    """Least and greatest load of each row over independent levels.

    Linear in every content, so each tank is at one of its ends and no combination need be tried. A tank behind
    the rear axle makes the front axle heaviest when it is empty. Levels from 0 to 1, the least first; else
    refused.
    """
    _check_tanks(parts, tanks)
    ends = _ends(tanks)
    fixed = loads(parts=parts, geometry=geometry, rows=rows).mean_kg
    shares = design(parts=[low for low, _ in ends], geometry=geometry, rows=rows).shares
    out = []
    for k, row in enumerate(rows):
        pairs = [
            (float(shares[k, j]) * low.mass_kg, float(shares[k, j]) * high.mass_kg)
            for j, (low, high) in enumerate(ends)
        ]
        rising = [high >= low for low, high in pairs]
        out.append(
            Span(
                row,
                fixed[k] + sum(min(pair) for pair in pairs),
                fixed[k] + sum(max(pair) for pair in pairs),
                tuple(_level(tank, not up) for tank, up in zip(tanks, rising, strict=True)),
                tuple(_level(tank, up) for tank, up in zip(tanks, rising, strict=True)),
            )
        )
    return tuple(out)


def worst_chance(
    *, parts: Sequence[Part], tanks: Sequence[Tank], geometry: Geometry, row: str, limit_kg: float
) -> Worst:
    """The tank state by which to judge a limit.

    The mean is linear in the levels and sigma convex, so while the greatest mean is below the limit the greatest
    chance to be over is at a vertex. Beyond 10 tanks the greatest mean is taken with the greatest sigma, an upper
    bound. A greatest mean at or above the limit settles the matter: that very state is given, with its own
    sigma; an inner level may give a still greater chance.
    """
    _check_tanks(parts, tanks)
    check_range("limit_kg", limit_kg, above=0.0, unit="kg")
    base = loads(parts=parts, geometry=geometry, rows=[row])
    fixed, fixed_variance = base.mean_kg[0], base.cov_kg2[0][0]
    ends = [(_loaded(low, geometry, row), _loaded(high, geometry, row)) for low, high in _ends(tanks)]
    worst = worst_ends(fixed_kg=fixed, fixed_kg2=fixed_variance, contents=ends, limit_kg=limit_kg)
    levels = tuple(_level(tank, bool(end)) for tank, end in zip(tanks, worst.ends, strict=True))
    return Worst(worst.chance, worst.value_kg, worst.u_kg, levels, worst.found)


def worst_ends(
    *,
    fixed_kg: float,
    fixed_kg2: float,
    contents: Sequence[tuple[tuple[float, float], tuple[float, float]]],
    limit_kg: float,
) -> WorstEnds:
    """The ends of some contents by which to judge a limit; see `worst_chance`.

    Each content is (load, variance) at its one end and at its other; `fixed` is all else. kg, kg^2, limit > 0.
    """
    check_range("limit_kg", limit_kg, above=0.0, unit="kg")

    def state(picks: Sequence[int]) -> WorstEnds:
        chosen = [content[pick] for content, pick in zip(contents, picks, strict=True)]
        value = fixed_kg + sum(mean for mean, _ in chosen)
        u = sqrt(fixed_kg2 + sum(variance for _, variance in chosen))
        chance = chance_over(limit_kg=limit_kg, value_kg=value, u_kg=u)
        return WorstEnds(chance, value, u, tuple(picks), "vertex")

    heaviest = state([int(high[0] >= low[0]) for low, high in contents])
    if heaviest.value_kg >= limit_kg:
        return replace(heaviest, found="over")
    if len(contents) <= MOST_VERTICES:
        vertices = (state(picks) for picks in product((0, 1), repeat=len(contents)))
        return max(vertices, key=lambda one: _nearness(one, limit_kg))
    u = sqrt(fixed_kg2 + sum(max(low[1], high[1]) for low, high in contents))
    chance = chance_over(limit_kg=limit_kg, value_kg=heaviest.value_kg, u_kg=u)
    return WorstEnds(chance, heaviest.value_kg, u, heaviest.ends, "bound")


def _nearness(state: WorstEnds, limit_kg: float) -> tuple[float, float]:
    """How near the limit in u, then in kg: in the order of the chances, but far below the limit those are all 0."""
    return ((state.value_kg - limit_kg) / state.u_kg if state.u_kg > 0.0 else -inf, state.value_kg)


def height_span(*, parts: Sequence[Part], tanks: Sequence[Tank]) -> Heights:
    """Least and greatest height of the centre of gravity over the levels, for any number of tanks.

    A content's own height grows with its level, so the centre is *lowest at a part-full level*: where the liquid's
    surface is level with the combined centre of gravity. It is highest with every tank at an end. Both are fixed
    points of z = sum m z / sum m at the levels that are best for that z (Dinkelbach 1967, Management Science
    13:492, from memory); they need every height and some mass.
    """
    _check_tanks(parts, tanks)
    own = [part for part in parts if part.on == "vehicle"]
    aboard = [tank for tank in tanks if tank.on == "vehicle"]
    if any(part.z_m is None for part in own) or any(tank.bottom_m is None for tank in aboard):
        raise NotKnown("z_m", "the height of the centre of gravity")
    mass = sum(part.sign * part.mass_kg for part in own)
    check_range("mass_kg", mass, above=0.0, unit="kg")
    moment = sum(part.sign * part.mass_kg * (part.z_m or 0.0) for part in own)
    least, least_at = _fixed_point(mass, moment, tanks, _surface_at)
    greatest, greatest_at = _fixed_point(mass, moment, tanks, _end_above)
    return Heights(least, greatest, least_at, greatest_at)


def _fixed_point(
    mass: float, moment: float, tanks: Sequence[Tank], best: Callable[[Tank, float, float], float]
) -> tuple[float, tuple[float, ...]]:
    z, levels = moment / mass, tuple(tank.least_level for tank in tanks)
    for _ in range(100):
        levels = tuple(best(tank, tank.bottom_m or 0.0, z) for tank in tanks)
        contents = [content(tank=tank, level=f) for tank, f in zip(tanks, levels, strict=True)]
        aboard = [one for one in contents if one.on == "vehicle"]
        total = mass + sum(one.mass_kg for one in aboard)
        before, z = z, (moment + sum(one.mass_kg * (one.z_m or 0.0) for one in aboard)) / total
        if abs(z - before) <= SETTLED_M:
            break
    return z, levels


def _surface_at(tank: Tank, bottom_m: float, z_m: float) -> float:
    """The level whose surface is at z: what is poured in below z lowers the centre, above z it raises it."""
    if tank.height_m == 0.0:
        return _level(tank, bottom_m < z_m)
    return min(max((z_m - bottom_m) / tank.height_m, tank.least_level), tank.greatest_level)


def _end_above(tank: Tank, bottom_m: float, z_m: float) -> float:
    """The end whose content has the greater moment about z."""

    def lift(level: float) -> float:
        return level * (bottom_m - z_m + level * tank.height_m / 2)

    return _level(tank, lift(tank.greatest_level) > lift(tank.least_level))


def _ends(tanks: Sequence[Tank]) -> list[tuple[Part, Part]]:
    return [
        (content(tank=tank, level=tank.least_level), content(tank=tank, level=tank.greatest_level))
        for tank in tanks
    ]


def _level(tank: Tank, greatest: bool) -> float:
    return tank.greatest_level if greatest else tank.least_level


def _loaded(part: Part, geometry: Geometry, row: str) -> tuple[float, float]:
    """Mean and variance that one content adds to a row."""
    found = loads(parts=[part], geometry=_solo(geometry), rows=[row])
    return found.mean_kg[0], found.cov_kg2[0][0]


def _solo(geometry: Geometry) -> Geometry:
    """Without the hitch's moment, which counts once and not per content."""
    if geometry.trailer is None:
        return geometry
    return replace(geometry, trailer=replace(geometry.trailer, hitch_moment_kgm=0.0))


def _check_tanks(parts: Sequence[Part], tanks: Sequence[Tank]) -> None:
    for tank in tanks:
        greatest = check_range("greatest_level", tank.greatest_level, low=0.0, high=1.0)
        check_range("least_level", tank.least_level, low=0.0, high=greatest)
        check_range("height_m", tank.height_m, low=0.0, unit="m")
        check_finite("bottom_m", 0.0 if tank.bottom_m is None else tank.bottom_m)
    check_parts([*parts, *(content(tank=tank, level=tank.greatest_level) for tank in tanks)])
