"""Water: the same filter over person-days, and the days that follow from it.

A person-day is one person's day, morning to morning; a child or an animal counts by its share.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from .bank import Bank
from .errors import check_finite, check_range
from .filter import Model, Settings
from .fuel import GAUGE_U, RESERVE_SHARE, TankSpec, drawn_tanks, shut_offs
from .fullfull import FULL_U_L
from .remain import Counting, range_at

# u_common, walk, ell and the kappas: assumed (simulated in tests/calibration); u of a fill without meter 2 %
WATER = Settings(
    per=1.0,
    u_common=0.5,
    u_class=0.0,
    walk=0.05,
    walk_class=0.0,
    walk_ref=20.0,
    ell=1.0,
    fill_u=0.02,
    full_u_l=FULL_U_L,
    gauge_u=GAUGE_U,
)
# How far heat, company or showers may move the use of water, relative: 6 L on the road and 10 L active in the heat
# (DRINKING) are two of it apart (assumed)
WATER_CHANGE_U = 0.33
WATER_KAPPAS = (0.1, 0.2, 0.4, 0.8, 1.6)
# "At least 6 L" a person and day, and 3 to 4 days in reserve: South Australian advice for remote travel
# (second-hand). All basic needs 7.5 to 15 L: Sphere Handbook 2011 (second-hand).
WATER_RATE = 6.0
# Drink and food 2.5 to 3 L: Sphere Handbook 2011, water supply standard 1 (second-hand)
DRINKING_RATE = 3.0
# Litres of drink a person and day by heat and work: at rest as above; on the road in dry country as WATER_RATE; active
# in the heat 5 to 10 L (common practice, no source); at hard work in it at most 12 US quarts, US Army fluid
# replacement guide, TB MED 507 family (second-hand)
DRINKING: Mapping[str, float] = {"rest": DRINKING_RATE, "road": WATER_RATE, "active": 10.0, "work": 11.36}
CLASS = "all"
DAY_S = 86_400.0
EARLY = 3  # with fewer readings the prior rules


@dataclass(frozen=True, slots=True)
class Presence:
    """Somebody aboard from one UTC second to another (open: None), with a share of an adult's water."""

    share: float
    from_s: float
    until_s: float | None = None


def water_model(*, tanks: Sequence[TankSpec], rate: float = WATER_RATE, settings: Settings = WATER) -> Model:
    """The filter's model: the drawn tanks in their turn and one class; rate in litres per person-day, > 0."""
    drawn = drawn_tanks(tanks=tanks)
    return Model(
        tuple(tank.id for tank in drawn),
        tuple(tank.capacity_l for tank in drawn),
        (CLASS,),
        (check_range("rate", rate, above=0.0, unit="L"),),
        settings,
        shut_offs(tanks=drawn, settings=settings),
    )


def person_days(*, presences: Sequence[Presence], from_s: float, until_s: float) -> float:
    """Person-days between two instants: the shares of those aboard times the days they were.

    Refused: an end before its beginning, a share below 0. Nobody aboard: 0.
    """
    check_range("until_s", until_s, low=check_finite("from_s", from_s), unit="s")
    total = 0.0
    for one in presences:
        _check_presence(one)
        end = until_s if one.until_s is None else min(one.until_s, until_s)
        total += one.share * max(end - max(one.from_s, from_s), 0.0) / DAY_S
    return total


def people_at(*, presences: Sequence[Presence], at_s: float) -> float:
    """Shares of all who are aboard at an instant."""
    check_finite("at_s", at_s)
    for one in presences:
        _check_presence(one)
    return sum(
        one.share for one in presences if one.from_s <= at_s and (one.until_s is None or at_s < one.until_s)
    )


def _check_presence(one: Presence) -> None:
    check_range("share", one.share, low=0.0)
    check_finite("from_s", one.from_s)
    check_finite("until_s", one.from_s if one.until_s is None else one.until_s)


def days_at(*, bank: Bank, people: float, p: float, reserve_l: float = 0.0) -> float | None:
    """Days for which the water lasts with probability p: range in person-days / people; None with nobody aboard.

    People >= 0 by their shares; 0 < p < 1; reserve >= 0 L.
    """
    check_range("people", people, low=0.0)
    if people == 0:
        return None
    counting = Counting(reserve_l=reserve_l)
    return range_at(bank=bank, mix={CLASS: 1.0}, p=p, counting=counting) / people


def uncounted_water(*, tanks: Sequence[TankSpec]) -> float:
    """Litres of water not to be counted on: 10 % of the drawn tanks (common practice, no source)."""
    return RESERVE_SHARE * sum(tank.capacity_l for tank in drawn_tanks(tanks=tanks))


def floor_days(
    *, litres_l: float, people: float, reserve_l: float = 0.0, rate_l: float = DRINKING_RATE
) -> float | None:
    """Days of drink and food alone: (V - reserve)/(rate x people), not below 0; None with nobody aboard.

    `rate_l` > 0 L a person and day, 3 at rest (DRINKING_RATE); heat and work need more (DRINKING).
    """
    check_range("people", people, low=0.0)
    check_range("reserve_l", reserve_l, low=0.0, unit="L")
    check_range("rate_l", rate_l, above=0.0, unit="L")
    check_finite("litres_l", litres_l)
    if people == 0:
        return None
    return max(litres_l - reserve_l, 0.0) / (rate_l * people)
