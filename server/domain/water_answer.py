"""What a water log answers: litres, days that can be counted on, and days of drink alone."""

from dataclasses import dataclass
from math import hypot

from .bank import Bank, Value, bank_advance, bank_state, bank_total
from .events import Pour
from .journal import Part, lower_banks, plan_way
from .normal import quantile
from .water import CLASS, DRINKING_RATE, EARLY, days_at, floor_days, people_at, person_days, uncounted_water
from .water_log import WaterLog

APART_U = 0.05  # of a can or reserve that only its entries tell of, as a share of it (assumed)


@dataclass(frozen=True, slots=True)
class Days:
    """Litres left (shown from empty to full), and days: to count on, likely, and of drink and food alone.

    Days are None while nobody is aboard.
    """

    litres: Value
    count_on_days: float | None
    likely_days: float | None
    floor_days: float | None


@dataclass(frozen=True, slots=True)
class TankWater:
    """One tank: litres with u, and whether they may be drunk. What is counted apart has u 0."""

    tank_id: str
    litres: Value
    drinkable: str


@dataclass(frozen=True, slots=True)
class Survival:
    """If nothing more comes: litres known to be drinkable, of all tanks and cans, and the days that they last.

    `least_l` is what there is at least, one-sided; `apart_l` the part of the mean in cans and reserves; `doubtful_l`
    what is in tanks not known to be drinkable. `days` at `rate_l` a person and day on `least_l`, None with nobody.
    """

    litres: Value
    least_l: float
    apart_l: float
    doubtful_l: float
    people: float
    rate_l: float
    days: float | None


@dataclass(frozen=True, slots=True)
class WaterAnswer:
    """`stands` is the lower of `counted` and `other`, which is None where nothing is held or missing.

    `drinkable`: the same of the drawn tanks that are known to be drinkable.
    `drinkable_word` is the worst of the drawn tanks that hold water. `early`: fewer than 3 readings, so that
    the rate is mostly the planning figure.
    """

    stands: Days
    counted: Days
    other: Days | None
    drinkable: Days
    drinkable_word: str
    tanks: tuple[TankWater, ...]
    people: float
    rate: Value
    reserve_l: float
    readings: int
    early: bool


def water_answer(
    *,
    log: WaterLog,
    now_s: float,
    people: float | None = None,
    p: float = 0.95,
    reserve_l: float | None = None,
) -> WaterAnswer:
    """The answer at an instant, for `people` by their shares (default: those aboard).

    An instant before the last entry, from another phone's clock, is taken as that of the entry.
    `p`: one-sided probability of the count-on days; likely is the median. The reserve (default the set-up's, else
    10 % of the drawn tanks, assumed) is not counted on; stores that are not drawn from are not counted either, but
    named.
    """
    people = _people(log, now_s, people)
    own = log.setup.reserve_l if reserve_l is None else reserve_l
    reserve = uncounted_water(tanks=log.setup.tanks) if own is None else own
    banks = water_banks(log=log, now_s=now_s)
    days = [_days(bank, people, p, reserve) for bank in banks]
    fit = [_days(_drinkable_only(log, bank), people, p, reserve) for bank in banks]
    readings = sum(len(one.readings) for one in log.journal.outcomes if not one.held)
    return WaterAnswer(
        stands=lower_days(days=days),
        counted=days[0],
        other=lower_days(days=days[1:]) if len(days) > 1 else None,
        drinkable=lower_days(days=fit),
        drinkable_word=_word(log, banks[0]),
        tanks=_tanks(log, banks[0]),
        people=people,
        rate=bank_state(bank=banks[0])[-1],
        reserve_l=reserve,
        readings=readings,
        early=readings < EARLY,
    )


def water_banks(*, log: WaterLog, now_s: float) -> tuple[Bank, ...]:
    """The banks whose lower answer stands, brought from the last entry to an instant by who was aboard."""
    since = now_s if log.until_s is None else log.until_s
    amount = person_days(presences=log.setup.presences, from_s=since, until_s=max(now_s, since))
    return tuple(_moved(bank, amount) for bank in lower_banks(state=log.journal.state))


def survival(
    *,
    log: WaterLog,
    now_s: float,
    people: float | None = None,
    rate_l: float = DRINKING_RATE,
    p: float = 0.95,
) -> Survival:
    """What is left to drink if we stay here, with the reserves that are otherwise never planned to be drunk.

    least = mean - z_p u, not below 0, with u of the tanks' estimate and 5 % of what is counted apart; of the two
    answers while an entry is held, the lower. Instants and people as in `water_answer`.
    """
    people = _people(log, now_s, people)
    good = {one.tank_id for one in log.qualities if one.drinkable == "yes"}
    apart = sum(one.litres_l for one in log.apart if one.tank_id in good)
    found: list[tuple[float, Value, float]] = []
    for now in water_banks(log=log, now_s=now_s):
        total, all_of_it = bank_total(bank=_drinkable_only(log, now)), bank_total(bank=now)
        mean, u = max(total.mean, 0.0) + apart, hypot(total.u, APART_U * apart)
        doubtful = max(all_of_it.mean - max(total.mean, 0.0), 0.0)
        found.append((max(mean - quantile(p) * u, 0.0), Value(mean, u), doubtful))
    least, litres, doubtful = min(found, key=lambda one: one[0])
    doubtful += sum(one.litres_l for one in log.apart if one.tank_id not in good)
    days = floor_days(litres_l=least, people=people, rate_l=rate_l)
    return Survival(litres, least, apart, doubtful, people, rate_l, days)


def lower_days(*, days: list[Days]) -> Days:
    """The lower of each figure; None stays None, since then nobody is aboard in any of them."""
    return Days(
        min((one.litres for one in days), key=lambda litres: litres.mean),
        _least([one.count_on_days for one in days]),
        _least([one.likely_days for one in days]),
        _least([one.floor_days for one in days]),
    )


def _people(log: WaterLog, now_s: float, people: float | None) -> float:
    """Who is asked about: by default all who are aboard, at the instant of the last entry at the earliest."""
    at_s = max(now_s, now_s if log.until_s is None else log.until_s)
    return people_at(presences=log.setup.presences, at_s=at_s) if people is None else people


def _moved(bank: Bank, amount: float) -> Bank:
    for event in plan_way(bank=bank, way=(Part(CLASS, amount),)):
        bank = bank_advance(bank=bank, event=event)
    return bank


def _days(bank: Bank, people: float, p: float, reserve_l: float) -> Days:
    total, most = bank_total(bank=bank), sum(bank.model.capacity_l)
    litres = Value(min(max(total.mean, 0.0), most), total.u)
    return Days(
        litres,
        days_at(bank=bank, people=people, p=p, reserve_l=reserve_l),
        days_at(bank=bank, people=people, p=0.5, reserve_l=reserve_l),
        floor_days(litres_l=litres.mean, people=people, reserve_l=reserve_l),
    )


def _drinkable_only(log: WaterLog, bank: Bank) -> Bank:
    """The bank as if every drawn tank that is not known to be drinkable were poured away."""
    drinkable = {one.tank_id for one in log.qualities if one.drinkable == "yes"}
    for tank_id in log.model.tank_ids:
        if tank_id not in drinkable:
            bank = bank_advance(bank=bank, event=Pour(tank_id, None))
    return bank


def _tanks(log: WaterLog, bank: Bank) -> tuple[TankWater, ...]:
    words = {one.tank_id: one.drinkable for one in log.qualities}
    state = bank_state(bank=bank)
    drawn = [
        TankWater(
            tank_id, Value(min(max(state[t].mean, 0.0), log.model.capacity_l[t]), state[t].u), words[tank_id]
        )
        for t, tank_id in enumerate(log.model.tank_ids)
    ]
    apart = [TankWater(one.tank_id, Value(one.litres_l, 0.0), words[one.tank_id]) for one in log.apart]
    return (*drawn, *apart)


def _word(log: WaterLog, bank: Bank) -> str:
    holding = [one.drinkable for one in _tanks(log, bank)[: len(log.model.tank_ids)] if one.litres.mean > 0]
    for word in ("no", "unknown"):
        if word in holding:
            return word
    return "yes" if holding else "unknown"


def _least(values: list[float | None]) -> float | None:
    known = [value for value in values if value is not None]
    return min(known) if len(known) == len(values) else None
