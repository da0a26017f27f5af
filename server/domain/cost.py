"""What a distance costs: money over true distance from full tank to full tank, each currency for itself."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from .errors import check_range
from .fuel_log import FuelLog


@dataclass(frozen=True, slots=True)
class Paid:
    """What one stop cost in all."""

    amount: float
    currency: str


@dataclass(frozen=True, slots=True)
class Cost:
    """Over all segments that are wholly paid in one currency: money, true km, money per 100 true km."""

    currency: str
    amount: float
    distance_km: float
    per_100km: float


def cost_per_distance(*, log: FuelLog, fill_ids: Sequence[str], paid: Mapping[str, Paid]) -> tuple[Cost, ...]:
    """Ratio of sums over the log's segments, by currency in order of the alphabet.

    A segment counts where every fill after its first full tank, up to its last, has a price in one currency: money
    for fuel that went into a can counts when it was bought (common practice, no source). `fill_ids` are the log's
    fills, `paid` what each cost, by id; an amount below 0 is refused.
    """
    for one in paid.values():
        check_range("amount", one.amount, low=0.0)
    place = {step.entry_id: n for n, step in enumerate(log.journal.steps)}
    fills = sorted((place[fill_id], fill_id) for fill_id in fill_ids if fill_id in place)
    sums: dict[str, tuple[float, float]] = {}
    for segment in log.segments:
        first, last = place[segment.from_id], place[segment.to_id]
        prices = [paid.get(fill_id) for n, fill_id in fills if first < n <= last]
        currencies = {one.currency if one else None for one in prices}
        if len(currencies) != 1 or None in currencies:
            continue
        currency = currencies.pop() or ""
        amount, distance = sums.get(currency, (0.0, 0.0))
        sums[currency] = (
            amount + sum(one.amount for one in prices if one),
            distance + segment.distance_km,
        )
    return tuple(
        Cost(currency, amount, distance, 100 * amount / distance)
        for currency, (amount, distance) in sorted(sums.items())
    )
