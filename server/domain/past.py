"""Consumption as it was, with everything that is known now: for display only, no answer rests on it."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

from .bank import bank_advance, bank_prior
from .events import Event, Full, Missed, Rescale, is_observation
from .fuel_log import FuelLog
from .journal import Journal, plan_way
from .smooth import smooth_bank


@dataclass(frozen=True, slots=True)
class RateThen:
    """A class's rate at the end of a way in it, L per 100 true km with u; `at_km`: true km since the log began."""

    entry_id: str
    at_km: float
    class_id: str
    l_per_100km: float
    u: float


def events_run(*, journal: Journal) -> tuple[tuple[Event, ...], ...]:
    """What the main branch went through, step by step: ways as `use`, tanks forgotten, entries that counted."""
    bank = bank_prior(model=journal.model, kappas=journal.kappas)
    unknown: list[str] = []
    out: list[tuple[Event, ...]] = []
    for step, outcome in zip(journal.steps, journal.outcomes, strict=True):
        done: list[Event] = []
        for use in plan_way(bank=bank, way=step.way):
            bank = bank_advance(bank=bank, event=use)
            done.append(use)
        left_out = step.refused or outcome.held is not None
        unknown += [tank_id for tank_id in step.tank_ids if left_out and tank_id not in unknown]
        for event in () if left_out else step.events:
            forgotten = [tank_id for tank_id in _read(event) if tank_id in unknown]
            unknown = [tank_id for tank_id in unknown if tank_id not in forgotten]
            for one in (*(Missed(tank_id) for tank_id in forgotten), event):
                bank = bank_advance(bank=bank, event=one)
                done.append(one)
        out.append(tuple(done))
    return tuple(out)


def rates_over_time(*, log: FuelLog) -> tuple[RateThen, ...]:
    """The smoothed rate of each class after each way driven in it (`smooth_bank`), in order.

    b / k with k as it was then; u with that of k now. Entries that are held or refused say nothing.
    """
    runs = events_run(journal=log.journal)
    flat = [event for run in runs for event in run]
    if not flat:
        return ()
    states = smooth_bank(model=log.model, kappas=log.journal.kappas, events=flat)
    k = log.setup.factor / _product([event.ratio for event in flat if isinstance(event, Rescale)])
    relative = log.setup.factor_u / log.setup.factor
    tanks, n, at_km = len(log.model.tank_ids), 0, 0.0
    out: list[RateThen] = []
    for step, run in zip(log.journal.steps, runs, strict=True):
        at_km += k * sum(part.amount for part in step.way)
        n += len(run)
        after = k * _product([event.ratio for event in run if isinstance(event, Rescale)])
        for part in step.way:
            found = states[n - 1][tanks + log.model.class_ids.index(part.class_id)]
            rate = found.mean / after
            u = sqrt((found.u / after) ** 2 + (rate * relative) ** 2)
            out.append(RateThen(step.entry_id, at_km, part.class_id, rate, u))
        k = after
    return tuple(out)


def _read(event: Event) -> tuple[str, ...]:
    if not is_observation(event):
        return ()
    return event.tank_ids if isinstance(event, Full) else (event.tank_id,)


def _product(ratios: Sequence[float]) -> float:
    out = 1.0
    for ratio in ratios:
        out *= ratio
    return out
