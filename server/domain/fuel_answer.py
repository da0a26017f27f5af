"""What a fuel log answers: how far on what is left, and what that rests on."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import sqrt

from .bank import Bank, Value, bank_advance, bank_state, bank_total
from .errors import check_range
from .fuel import usual_reserve
from .fuel_log import FuelLog, accuracy_of
from .fullfull import Segment, pooled
from .journal import Part, lower_banks, plan_way
from .remain import LIMIT, Counting, range_at, reach


@dataclass(frozen=True, slots=True)
class Ranges:
    """Litres left (shown from empty to full), the two ranges, and the chance of a typed distance."""

    litres: Value
    count_on_km: float
    likely_km: float
    reach: float | None


@dataclass(frozen=True, slots=True)
class Rate:
    """Consumption of one class, L per 100 true km with its u, and the way and full tanks that it rests on."""

    class_id: str
    l_per_100km: float
    u: float
    way_km: float
    full_tanks: int


@dataclass(frozen=True, slots=True)
class FuelAnswer:
    """`stands` is the lower of `counted` and `other`, figure by figure.

    `counted` leaves held entries out and takes a missed fill for any level; `other` is the lower of the branches that
    take some or all of them as typed, and a missed fill for none. It is None where nothing is held or missing.
    `readings` counts full tanks and levels used; with none the answer is the prior's alone.
    """

    stands: Ranges
    counted: Ranges
    other: Ranges | None
    since_full: Segment | None
    pooled: Value | None
    rates: tuple[Rate, ...]
    mix: Mapping[str, float]
    reserve_l: float
    readings: int


def fuel_answer(
    *,
    log: FuelLog,
    mix: Mapping[str, float] | None = None,
    p: float = 0.95,
    distance_km: float | None = None,
    odometer_km: float | None = None,
    reserve_l: float | None = None,
) -> FuelAnswer:
    """The answer for a mix of classes ahead; by default that of the last entry.

    `p`: one-sided probability of the count-on range; the likely range is the median. `distance_km`: a true
    distance to be reached. `odometer_km`: where the vehicle is now, not before the last entry: the way since
    then is run on the same mix. The reserve (default the set-up's, else `usual_reserve`) is not counted on. Each
    figure that stands is the lower of the two answers while an entry is held or missing.
    """
    mix = dict(log.mix) if mix is None else mix
    reserve = _reserve(log) if reserve_l is None else reserve_l
    counting = Counting(log.setup.factor, log.setup.factor_u, reserve)
    way = _way_since(log, mix, odometer_km)
    banks = [_moved(bank, way) for bank in lower_banks(state=log.journal.state)]
    counted = _ranges(banks[:1], mix, p, distance_km, counting)
    other = _ranges(banks[1:], mix, p, distance_km, counting) if banks[1:] else None
    return FuelAnswer(
        stands=lower(ranges=[counted] if other is None else [counted, other]),
        counted=counted,
        other=other,
        since_full=log.segments[-1] if log.segments else None,
        pooled=pooled(segments=log.segments, accuracy=accuracy_of(setup=log.setup)),
        rates=_rates(log),
        mix=mix,
        reserve_l=reserve,
        readings=sum(len(one.readings) for one in log.journal.outcomes if not one.held),
    )


def lower(*, ranges: list[Ranges]) -> Ranges:
    """The lower of each figure."""
    reached = [one.reach for one in ranges if one.reach is not None]
    return Ranges(
        min((one.litres for one in ranges), key=lambda litres: litres.mean),
        min(one.count_on_km for one in ranges),
        min(one.likely_km for one in ranges),
        min(reached) if reached else None,
    )


def _reserve(log: FuelLog) -> float:
    own = log.setup.reserve_l
    return usual_reserve(tanks=log.setup.tanks) if own is None else own


def _way_since(log: FuelLog, mix: Mapping[str, float], odometer_km: float | None) -> tuple[Part, ...]:
    if odometer_km is None or log.odometer_km is None:
        return ()
    check_range("odometer_km", odometer_km, low=log.odometer_km, unit="km")
    amount = odometer_km - log.odometer_km
    return tuple(Part(name, share * amount) for name, share in mix.items() if share * amount > 0)


def _moved(bank: Bank, way: tuple[Part, ...]) -> Bank:
    for event in plan_way(bank=bank, way=way):
        bank = bank_advance(bank=bank, event=event)
    return bank


def _ranges(
    banks: Sequence[Bank], mix: Mapping[str, float], p: float, distance_km: float | None, counting: Counting
) -> Ranges:
    """The lower of each figure over some banks."""
    total = min((bank_total(bank=one) for one in banks), key=lambda one: one.mean)
    most = sum(banks[0].model.capacity_l)

    def chance(bank: Bank, amount: float) -> float:
        return reach(bank=bank, mix=mix, amount=amount, counting=counting)

    def lowest(p: float) -> float:
        found = LIMIT
        for one in banks:
            # what reaches as far as the lowest so far need not be searched
            if found >= LIMIT or chance(one, found) < p:
                found = min(found, range_at(bank=one, mix=mix, p=p, counting=counting))
        return found

    return Ranges(
        Value(min(max(total.mean, 0.0), most), total.u),
        lowest(p),
        lowest(0.5),
        None if distance_km is None else min(chance(one, distance_km) for one in banks),
    )


def _rates(log: FuelLog) -> tuple[Rate, ...]:
    """b/k per class, with the u of k."""
    state = bank_state(bank=log.journal.state.main.bank)[len(log.model.tank_ids) :]
    k, u_k = log.setup.factor, log.setup.factor_u
    return tuple(
        Rate(
            name,
            rate.mean / k,
            sqrt(rate.u**2 + (rate.mean * u_k / k) ** 2) / k,
            log.ways_km.get(name, 0.0),
            log.full_tanks.get(name, 0),
        )
        for name, rate in zip(log.model.class_ids, state, strict=True)
    )
