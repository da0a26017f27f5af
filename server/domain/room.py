"""Room left: the greatest mass that may still be added at a place, and what a typed mass does there.

A rating is held at a confidence, load + z u <= limit; a lower limit (front axle and coupling must not lift) is
the same with its signs turned. What is added there loads a rating by share + per_m x for each kilogram. A
rating that the mass relieves, or that it does not touch, does not bind.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import inf, sqrt

from .errors import Unknown, check_finite, check_range
from .limits import CONFIDENCE, Verdict, chance_over, verdict
from .normal import z_at

UPPER, LOWER = "upper", "lower"
SLIVER_M = 1e-12  # stretches shorter than this are rounding


@dataclass(frozen=True, slots=True)
class Bound:
    """One limit in one state: its load before anything is added, and what a kilogram at x adds to it.

    `side` is "upper" (load at most the limit) or "lower" (at least). A blank limit is "not known".
    """

    rating: str
    side: str
    limit_kg: float | None
    mean_kg: float
    u_kg: float
    share: float = 0.0
    per_m: float = 0.0


@dataclass(frozen=True, slots=True)
class Which:
    """A limit by its rating and its side."""

    rating: str
    side: str


@dataclass(frozen=True, slots=True)
class Room:
    """What may be added at one place; `most_kg` is None where no known limit binds.

    `already` are limits not held even now that the mass would worsen, so that nothing may be added; `unknown` are
    ratings that take some of the mass and are not known.
    """

    most_kg: float | None
    binds: Which | None
    already: tuple[Which, ...]
    unknown: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Stretch:
    """Places along which one limit binds: the room there is spare_kg / (share + per_m x), 0 if nothing is to spare.

    `from_kg` and `to_kg` are the room at its ends, None without a binding limit.
    """

    from_m: float
    to_m: float
    binds: Which | None
    spare_kg: float
    share: float
    per_m: float
    from_kg: float | None
    to_kg: float | None


@dataclass(frozen=True, slots=True)
class After:
    """One limit after a mass was added, and the greatest mass known as well that it would bear there."""

    side: str
    verdict: Verdict
    most_kg: float | None


@dataclass(frozen=True, slots=True)
class Asked:
    """A typed mass at a place: the room for such a mass there, and every limit after it."""

    room: Room
    after: tuple[After, ...]


def headroom_kg(*, bound: Bound, confidence: float = CONFIDENCE) -> float | None:
    """How far a load stays from its limit at the confidence, kg.

    limit - mean - z u, of a lower limit mean - limit - z u. Below zero the limit is not held even now; None where
    it is not known. u >= 0 kg, confidence from 0.5 to below 1.
    """
    _check(bound)
    return _headroom(bound, z_at(confidence))


def most_kg(
    *,
    bound: Bound,
    x_m: float,
    confidence: float = CONFIDENCE,
    mass_share: float = 0.0,
    x_u_m: float = 0.0,
) -> float | None:
    """The greatest mass at x that one limit bears, kg; None where it does not bind or is not known.

    For an exact mass at an exact place headroom / l with l = share + per_m x, and it binds where l > 0. With u =
    `mass_share` m and a place known to `x_u_m` the variance grows by q^2 m^2, q^2 = l^2 s^2 + g^2 (1 + s^2) u_x^2
    (maths A.3, g = per_m), and the mass is the greatest root of l m + z sqrt(u^2 + q^2 m^2) = h, a quadratic; h is
    limit - mean. It then binds where l + z q > 0. A limit not held even now bears nothing where l > 0; elsewhere it
    bears what leaves it no worse. mass_share and x_u_m >= 0.
    """
    _check(bound)
    _check_put(x_m, mass_share, x_u_m)
    return _most(bound, x_m, z_at(confidence), mass_share, x_u_m)


def room_at(
    *,
    bounds: Sequence[Bound],
    x_m: float,
    confidence: float = CONFIDENCE,
    mass_share: float = 0.0,
    x_u_m: float = 0.0,
) -> Room:
    """The greatest mass that may be added at x with every limit held that is held now, and none made worse.

    The least of `most_kg` over the limits, with the one that binds; of equal ones the first.
    """
    z = z_at(confidence)
    _check_put(x_m, mass_share, x_u_m)
    for one in bounds:
        _check(one)
    found = [_most(one, x_m, z, mass_share, x_u_m) for one in bounds]
    least = min((kg for kg in found if kg is not None), default=None)
    binds = None if least is None else _which(bounds[found.index(least)])
    already = [one for one in bounds if _share(one, x_m) > 0.0 and (_headroom(one, z) or 0.0) < 0.0]
    unknown = [one.rating for one in bounds if one.limit_kg is None and _share(one, x_m) > 0.0]
    return Room(least, binds, tuple(map(_which, already)), tuple(unknown))


def stretches(
    *, bounds: Sequence[Bound], from_m: float, to_m: float, confidence: float = CONFIDENCE
) -> tuple[Stretch, ...]:
    """The room for an exact mass along a stretch, cut where another limit begins to bind.

    1/room is the greatest of the straight lines (share + per_m x) / headroom, so the cuts are where two of them cross
    or one crosses zero: exact, with nothing sampled. from_m < to_m.
    """
    check_finite("from_m", from_m)
    check_range("to_m", to_m, above=from_m, unit="m")
    z = z_at(confidence)
    for one in bounds:
        _check(one)
    known = [(one, spare) for one in bounds if (spare := _headroom(one, z)) is not None]
    cuts = sorted({from_m, to_m, *(x for x in _crossings(known) if from_m < x < to_m)})
    out: list[Stretch] = []
    for left, right in pairwise(cuts):
        if right - left <= SLIVER_M and right < to_m:
            continue
        start = out[-1].to_m if out else from_m
        fresh = _stretch(known, (left + right) / 2, start, right)
        if out and out[-1].binds == fresh.binds:
            fresh = _stretch(known, (left + right) / 2, out.pop().from_m, right)
        out.append(fresh)
    return tuple(out)


def ask(
    *,
    bounds: Sequence[Bound],
    x_m: float,
    mass_kg: float,
    mass_u_kg: float = 0.0,
    x_u_m: float = 0.0,
    confidence: float = CONFIDENCE,
) -> Asked:
    """Every limit after a mass m +- u is added at x +- u_x, and the room there for one known as well (same u/m).

    mean + l m, variance u_k^2 + l^2 u^2 + g^2 (m^2 + u^2) u_x^2 (maths A.3). The word of a lower limit is "over" where
    the load would be below it. m > 0 kg, u >= 0 kg, u_x >= 0 m.
    """
    check_range("mass_kg", mass_kg, above=0.0, unit="kg")
    check_range("mass_u_kg", mass_u_kg, low=0.0, unit="kg")
    share = mass_u_kg / mass_kg
    room = room_at(bounds=bounds, x_m=x_m, confidence=confidence, mass_share=share, x_u_m=x_u_m)
    z = z_at(confidence)
    square = mass_kg**2 + mass_u_kg**2
    after = []
    for one in bounds:
        value = one.mean_kg + (one.share + one.per_m * x_m) * mass_kg
        own = _share(one, x_m) ** 2 * mass_u_kg**2 + one.per_m**2 * square * x_u_m**2
        u = sqrt(one.u_kg**2 + own)
        judged = _judged(one, value, u, z, confidence)
        after.append(After(one.side, judged, _most(one, x_m, z, share, x_u_m)))
    return Asked(room, tuple(after))


def _check(bound: Bound) -> None:
    if bound.side not in (UPPER, LOWER):
        raise Unknown("side", bound.side, (UPPER, LOWER))
    for name in ("mean_kg", "share", "per_m"):
        check_finite(name, getattr(bound, name))
    check_range("u_kg", bound.u_kg, low=0.0, unit="kg")
    if bound.limit_kg is not None and bound.side == UPPER:
        check_range("limit_kg", bound.limit_kg, above=0.0, unit="kg")
    elif bound.limit_kg is not None:
        check_finite("limit_kg", bound.limit_kg)


def _check_put(x_m: float, mass_share: float, x_u_m: float) -> None:
    check_finite("x_m", x_m)
    check_range("mass_share", mass_share, low=0.0)
    check_range("x_u_m", x_u_m, low=0.0, unit="m")


def _which(bound: Bound) -> Which:
    return Which(bound.rating, bound.side)


def _sign(bound: Bound) -> float:
    return 1.0 if bound.side == UPPER else -1.0


def _share(bound: Bound, x_m: float) -> float:
    """What a kilogram at x takes from the headroom."""
    return _sign(bound) * (bound.share + bound.per_m * x_m)


def _headroom(bound: Bound, z: float) -> float | None:
    if bound.limit_kg is None:
        return None
    return _sign(bound) * (bound.limit_kg - bound.mean_kg) - z * bound.u_kg


def _most(bound: Bound, x_m: float, z: float, mass_share: float, x_u_m: float) -> float | None:
    """The root in the form without cancellation: with b = h l, A = l^2 - z^2 q^2, c = h^2 - z^2 u^2 as products."""
    spare = _headroom(bound, z)
    if spare is None:
        return None
    per_kg, reach = _share(bound, x_m), z * bound.u_kg
    q = sqrt((per_kg * mass_share) ** 2 + bound.per_m**2 * (1.0 + mass_share**2) * x_u_m**2)
    spare = max(spare, 0.0)
    if per_kg + z * q <= 0.0:
        return None
    if q == 0.0 or (spare == 0.0 and per_kg > 0.0):
        return spare / per_kg
    limit, c = spare + reach, spare * (spare + 2.0 * reach)
    root = z * sqrt((per_kg * bound.u_kg) ** 2 + q**2 * c)
    if per_kg > 0.0:
        return c / (limit * per_kg + root)
    return (limit * per_kg - root) / ((per_kg - z * q) * (per_kg + z * q))


Known = Sequence[tuple[Bound, float]]


def _crossings(known: Known) -> Iterator[float]:
    """Where (share + per_m x) / spare of two limits are equal, or one is zero."""
    for k, (one, spare) in enumerate(known):
        sign = _sign(one)
        if one.per_m != 0.0:
            yield -one.share / one.per_m
        for other, other_spare in known[:k]:
            a, b = sign * other_spare, _sign(other) * spare
            slope = one.per_m * a - other.per_m * b
            if spare > 0.0 and other_spare > 0.0 and slope != 0.0:
                yield (other.share * b - one.share * a) / slope


def _stretch(known: Known, middle_m: float, from_m: float, to_m: float) -> Stretch:
    """The limit that binds in the middle binds from end to end."""
    best, least = None, inf
    for one, spare in known:
        per_kg = _share(one, middle_m)
        if per_kg > 0.0 and max(spare, 0.0) / per_kg < least:
            best, least = (one, max(spare, 0.0)), max(spare, 0.0) / per_kg
    if best is None:
        return Stretch(from_m, to_m, None, 0.0, 0.0, 0.0, None, None)
    one, spare = best
    share, per_m = _sign(one) * one.share, _sign(one) * one.per_m

    def room(x_m: float) -> float | None:
        per_kg = share + per_m * x_m
        return 0.0 if spare == 0.0 else spare / per_kg if per_kg > 0.0 else None

    return Stretch(from_m, to_m, _which(one), spare, share, per_m, room(from_m), room(to_m))


def _judged(bound: Bound, value_kg: float, u_kg: float, z: float, confidence: float) -> Verdict:
    if bound.side == UPPER or bound.limit_kg is None:
        return verdict(
            rating=bound.rating,
            value_kg=value_kg,
            u_kg=u_kg,
            limit_kg=bound.limit_kg,
            confidence=confidence,
        )
    margin, reach = value_kg - bound.limit_kg, z * u_kg
    word = "under" if margin >= reach else "over" if margin < -reach else "cannot_tell"
    chance = chance_over(limit_kg=-bound.limit_kg, value_kg=-value_kg, u_kg=u_kg)
    return Verdict(bound.rating, bound.limit_kg, value_kg, u_kg, reach, margin, chance, word)
