"""From a generic article to an item's proposal for one vehicle: typical mass with its u, place, height.

Everything here is a beginning that its owner replaces: a typical mass by a weighing, a code's place by a tape.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

from .articles import (
    ARTICLES,
    BASE_VEHICLES,
    KITS,
    PLACES,
    REFERENCE_WHEELBASE_M,
    ROOF_Z_M,
    Article,
    BaseVehicle,
    Kit,
)
from .errors import DomainError, Unknown, check_finite, check_range
from .normal import quantile

PLACE_U_M = 0.15  # a place by code is good to 0.3 m at 95 % (common practice, no source)


@dataclass(frozen=True)
class Proposal:
    """An item as it would be entered; its fields are the record's."""

    name: str
    nature: str
    count: int
    mass_kg: float
    mass_u_kg: float
    x_m: float | None
    z_m: float | None
    roof: bool
    keep_aboard: bool
    taken_off: bool
    x_u_m: float = PLACE_U_M
    z_u_m: float | None = None
    known_by: str = "estimate"
    position_by: str = "described"


@dataclass(frozen=True)
class TypicalVehicle:
    """A vehicle as delivered, by what is typical of its form: never a plate, never a weighing."""

    body_form: str
    wheelbase_m: float
    front_overhang_m: float
    coupling_x_m: float
    base_front_kg: float
    base_front_u_kg: float
    base_rear_kg: float
    base_rear_u_kg: float
    base_correlation: float
    base_fuel_l: float
    base_driver_kg: float = 0.0
    base_known_by: str = "estimate"


def articles() -> Sequence[Article]:
    """All generic articles, in the order of the vehicle from front to tail, then loads."""
    return ARTICLES


def kits() -> Sequence[Kit]:
    """All kits."""
    return KITS


def base_vehicles() -> Sequence[BaseVehicle]:
    """All generic vehicles."""
    return BASE_VEHICLES


def range_u(*, low: float, high: float) -> float:
    """One standard uncertainty of what lies between low and high nine times in ten: (high - low) / (2 x 1.6449).

    The range is read as the middle 90 % of a normal distribution. The typical value need not be its middle: it stays
    the figure, and the range alone gives u. In the unit of its ends; low above high is refused.
    """
    check_finite("low", low)
    if check_finite("high", high) < low:
        raise DomainError("high", high, f"at least low, {low}", "Swap the two")
    return (high - low) / (2 * quantile(0.95))


def place_x_m(*, place: str, wheelbase_m: float) -> float:
    """Middle of a position code on a vehicle of this wheelbase, m behind the front axle.

    Codes are told for 3.2 m. Between the axles places go with the wheelbase, x L/3.2; ahead of the front axle they
    stay, and behind the rear axle they keep their distance to it, x + L - 3.2, for overhangs do not grow with the
    wheelbase (assumed). The two ends are moved so, and the middle taken. Wheelbase 1 to 10 m, else refused.
    """
    check_range("wheelbase_m", wheelbase_m, low=1.0, high=10.0, unit="m")
    if place not in PLACES:
        raise Unknown("place", place, list(PLACES))
    low, high = PLACES[place]
    return (_moved(low, wheelbase_m) + _moved(high, wheelbase_m)) / 2


def _moved(x_m: float, wheelbase_m: float) -> float:
    if x_m <= 0:
        return x_m
    if x_m <= REFERENCE_WHEELBASE_M:
        return x_m * wheelbase_m / REFERENCE_WHEELBASE_M
    return x_m + wheelbase_m - REFERENCE_WHEELBASE_M


def proposal(
    *,
    article: str,
    wheelbase_m: float | None = None,
    place: str | None = None,
    count: int | None = None,
) -> Proposal:
    """An article as an item of a vehicle: its typical mass with the u of its range, at one of its places.

    Place and count are the usual ones unless given. Without a wheelbase (m) the place is not known. On the roof the
    height is the middle of 1.9 to 2.2 m (from memory) with the u of that range; elsewhere it is not known. An
    article that there is not, a place that is none of its own or a count below 1 is refused.
    """
    found = next((one for one in ARTICLES if one.id == article), None)
    if found is None:
        raise Unknown("article", article, [one.id for one in ARTICLES])
    where = found.places[0] if place is None else place
    if where not in found.places:
        raise Unknown("place", where, list(found.places))
    if count is not None:
        check_range("count", count, low=1, high=1000)
    roof = where == "roof"
    return Proposal(
        found.name,
        found.nature,
        found.count if count is None else count,
        found.typical_kg,
        range_u(low=found.low_kg, high=found.high_kg),
        None if wheelbase_m is None else place_x_m(place=where, wheelbase_m=wheelbase_m),
        sum(ROOF_Z_M) / 2 if roof else None,
        roof,
        found.keep_aboard,
        found.taken_off,
        z_u_m=range_u(low=ROOF_Z_M[0], high=ROOF_Z_M[1]) if roof else None,
    )


def kit_proposals(*, kit: str, wheelbase_m: float | None = None) -> tuple[Proposal, ...]:
    """All articles of a kit as items of a vehicle, each at its usual place; an unknown kit is refused."""
    found = next((one for one in KITS if one.id == kit), None)
    if found is None:
        raise Unknown("kit", kit, [one.id for one in KITS])
    return tuple(
        proposal(article=article, wheelbase_m=wheelbase_m, count=count) for article, count in found.holds
    )


def typical_vehicle(*, base: str) -> TypicalVehicle:
    """What is typical of a generic vehicle as delivered: wheelbase, empty axle loads with u and correlation.

    Kerb mass M and front share s are independent, each with the u of its range. F = s M, R = (1 - s) M, with the
    exact moments of a product: var F = (s^2 + u_s^2)(M^2 + u_M^2) - s^2 M^2, var R likewise with 1 - s, and
    cov(F, R) = s (1 - s) u_M^2 - u_s^2 (M^2 + u_M^2). The kerb mass has full tanks and no driver. An unknown vehicle
    is refused.
    """
    found = next((one for one in BASE_VEHICLES if one.id == base), None)
    if found is None:
        raise Unknown("base", base, [one.id for one in BASE_VEHICLES])
    (m_low, m, m_high), (s_low, s, s_high) = found.kerb_kg, found.front_share
    m_var, s_var = range_u(low=m_low, high=m_high) ** 2, range_u(low=s_low, high=s_high) ** 2
    front_u = sqrt(s**2 * m_var + s_var * (m**2 + m_var))
    rear_u = sqrt((1 - s) ** 2 * m_var + s_var * (m**2 + m_var))
    cov = s * (1 - s) * m_var - s_var * (m**2 + m_var)
    return TypicalVehicle(
        found.body_form,
        found.wheelbase_m[1],
        found.front_overhang_m[1],
        found.wheelbase_m[1] + found.axle_to_coupling_m[1],
        s * m,
        front_u,
        (1 - s) * m,
        rear_u,
        cov / (front_u * rear_u),
        found.fuel_l,
    )
