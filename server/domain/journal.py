"""A log run through the bank, entry by entry, so that it can be continued and one bad entry hides nothing.

What an entry says is held when it does not fit: then only its way counts, and another branch takes it as typed. Of
up to three entries in doubt every choice has its branch, so that one more doubt only adds branches; of more, the first
three have all, and each further one adds the branch that takes all as typed. The lowest answer stands. Every step
leaves its state behind, so that a new or a late entry is run from where it belongs, not from the beginning.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from .bank import Bank, bank_advance, bank_innovation, bank_prior, bank_state, bank_total
from .events import Event, Fill, Full, Missed, Use, is_observation
from .filter import Innovation, Model, class_index, shut_off_u
from .notice import Notice, notice_advance, notice_prior
from .state import TankLevel

HOLD = 4.0  # an observation further off than this many of its standard deviations is held (assumed)
# Above the capacity by so many of the level's sd, or of the tank's own shut-off, a fill is held (assumed)
OVERFULL = 3.0
BEYOND = 0.5  # driven further than the tanks reach by this share of them: held (assumed)
EVERY_CHOICE = 3  # of so many entries in doubt every choice is run (assumed)
MOST_OTHERS = 10  # branches beside the main one; beyond them the last takes all that is in doubt (assumed)
EVERY = 16  # states kept for continuing: one in so many, and the last two


@dataclass(frozen=True, slots=True)
class Part:
    """An amount in one class."""

    class_id: str
    amount: float


@dataclass(frozen=True, slots=True)
class Step:
    """One entry: the way since the step before, then what it says. `refused`: only the way counts.

    `tank_ids` are the tanks whose level is open if the entry is not used. `confirmed`: never held; `doubt`: held for
    that reason.
    """

    entry_id: str
    way: tuple[Part, ...] = ()
    events: tuple[Event, ...] = ()
    tank_ids: tuple[str, ...] = ()
    refused: bool = False
    confirmed: bool = False
    doubt: str | None = None


@dataclass(frozen=True, slots=True)
class Branch:
    """A bank, and the tanks whose level must be forgotten before the next reading: a fill may be missing.

    `passing`: it takes a missed fill for none, until the levels are read again.
    """

    bank: Bank
    unknown: tuple[str, ...] = ()
    passing: bool = False


@dataclass(frozen=True, slots=True)
class Standing:
    """All that the next step needs: `main` leaves out what is in doubt, the last of `others` takes it all as typed."""

    main: Branch
    others: tuple[Branch, ...]
    notice: Notice


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of one step: readings against what was expected, why it is held, whether the rate has changed.

    `held` is None, `far_off`, `overfull`, `beyond_tank` or the step's own doubt; `levels_l` are the mean levels
    after it.
    """

    entry_id: str
    readings: tuple[Innovation, ...]
    held: str | None
    alarm: str | None
    levels_l: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Journal:
    """A log that has been run: steps with their outcomes, the state now, and states to continue from."""

    model: Model
    kappas: tuple[float, ...]
    steps: tuple[Step, ...]
    outcomes: tuple[Outcome, ...]
    state: Standing
    kept: tuple[tuple[int, Standing], ...]


def run_journal(
    *, model: Model, kappas: Sequence[float], steps: Sequence[Step], previous: Journal | None = None
) -> Journal:
    """Run the steps of a log in their order; with `previous`, only from where it differs.

    But for which states are kept, the result does not depend on `previous`. A model or kappas that differ run
    everything again.
    """
    kappas = tuple(kappas)
    first = Standing(
        Branch(bank_prior(model=model, kappas=kappas)), (), notice_prior(model=model, kappas=kappas)
    )
    start, state = 0, first
    kept: list[tuple[int, Standing]] = []
    outcomes: list[Outcome] = []
    if previous is not None and previous.model == model and previous.kappas == kappas:
        same = _same(previous.steps, steps)
        kept = [(n, one) for n, one in previous.kept if n <= same]
        if kept:
            start, state = kept[-1]
            outcomes = list(previous.outcomes[:start])
    for n in range(start, len(steps)):
        state, outcome = step_on(state=state, step=steps[n])
        outcomes.append(outcome)
        kept.append((n + 1, state))
        if len(kept) > 2 and kept[-3][0] % EVERY:
            del kept[-3]
    return Journal(model, kappas, tuple(steps), tuple(outcomes), state, tuple(kept))


def step_on(*, state: Standing, step: Step) -> tuple[Standing, Outcome]:
    """One step further: the way, then the entry, which is used, held or left out.

    Held: a reading more than 4 standard deviations off; a level above the capacity by 3 after a fill; a way
    that would have emptied the tanks and half of them again. Then the level is open from the next reading on.
    """
    main, uses = _drive(state.main, step.way)
    others = [_drive(one, step.way)[0] for one in state.others]
    notice = state.notice
    for use in uses:
        notice = notice_advance(notice=notice, event=use)
    after, used, readings = _apply(main, step)
    held = None if step.refused else step.doubt or _doubt(main, after, step, readings)
    if step.refused or held:
        left = [_open(one, step.tank_ids) for one in others]
        typed = [replace(_apply(one, step)[0], passing=False) for one in _doubled(main, others) if held]
        settled = Standing(_open(main, step.tank_ids), _beside(left, typed), notice)
        return settled, _outcome(step, readings if held else (), held, None, settled)
    alarm = None
    for event in used:
        notice = notice_advance(notice=notice, event=event)
        alarm = notice.alarm or alarm
    settled = Standing(after, _others(main, others, step), notice)
    return settled, _outcome(step, readings, None, alarm, settled)


def lower_banks(*, state: Standing) -> tuple[Bank, ...]:
    """The banks whose lowest answer stands: the main one, and the others while an entry is held or missing."""
    return (state.main.bank, *(one.bank for one in state.others))


def levels_now(*, state: Standing) -> tuple[TankLevel, ...]:
    """Level of each drawn tank as a fraction from 0 to 1 with its u; one that is open is anything."""
    bank = state.main.bank
    for tank_id in state.main.unknown:
        bank = bank_advance(bank=bank, event=Missed(tank_id))
    return bank_levels(bank=bank)


def bank_levels(*, bank: Bank) -> tuple[TankLevel, ...]:
    """Level of each tank of a bank as a fraction from 0 to 1 with its u."""
    values = bank_state(bank=bank)
    return tuple(
        TankLevel(tank_id, min(max(value.mean / capacity, 0.0), 1.0), value.u / capacity, "estimate")
        for tank_id, capacity, value in zip(bank.model.tank_ids, bank.model.capacity_l, values, strict=False)
    )


def plan_way(*, bank: Bank, way: Sequence[Part]) -> tuple[Use, ...]:
    """A way as `use` events: each tank in its turn, until the mean of what is left in it is gone.

    The last tank gives the rest, so that a total that runs out shows as a level below 0. With one tank there
    is nothing to plan.
    """
    tanks = len(bank.model.tank_ids)
    if tanks == 1:
        return tuple(Use(part.amount, part.class_id) for part in way if part.amount > 0)
    state = bank_state(bank=bank)
    levels = [max(state[t].mean, 0.0) for t in range(tanks)]
    uses: list[Use] = []
    for part in way:
        rate = state[class_index(bank.model, part.class_id)].mean / bank.model.settings.per
        left = part.amount
        for t in range(tanks):
            last = t == tanks - 1 or rate <= 0
            taken = left if last else min(left, levels[t] / rate)
            if taken > 0:
                shares = tuple(1.0 if u == t else 0.0 for u in range(tanks))
                uses.append(Use(taken, part.class_id, shares))
                levels[t] = max(levels[t] - taken * rate, 0.0)
                left -= taken
            if last:
                break
    return tuple(uses)


def _drive(branch: Branch, way: Sequence[Part]) -> tuple[Branch, tuple[Use, ...]]:
    bank, uses = branch.bank, plan_way(bank=branch.bank, way=way)
    for event in uses:
        bank = bank_advance(bank=bank, event=event)
    return replace(branch, bank=bank), uses


def _apply(
    branch: Branch, step: Step, *, ignore_missed: bool = False
) -> tuple[Branch, list[Event], tuple[Innovation, ...]]:
    """The branch after the entry, the events that were used, and its readings."""
    bank, unknown = branch.bank, list(branch.unknown)
    used: list[Event] = []
    readings: list[Innovation] = []
    for event in () if step.refused else step.events:
        if ignore_missed and isinstance(event, Missed):
            unknown.append(event.tank_id)
            continue
        forgotten = [tank_id for tank_id in _read_tanks(event) if tank_id in unknown]
        unknown = [tank_id for tank_id in unknown if tank_id not in forgotten]
        for one in (*(Missed(tank_id) for tank_id in forgotten), event):
            if is_observation(one):
                readings.append(bank_innovation(bank=bank, event=one))
            bank = bank_advance(bank=bank, event=one)
            used.append(one)
    return Branch(bank, tuple(unknown), branch.passing), used, tuple(readings)


def _read_tanks(event: Event) -> tuple[str, ...]:
    if not is_observation(event):
        return ()
    return event.tank_ids if isinstance(event, Full) else (event.tank_id,)


def _doubt(main: Branch, after: Branch, step: Step, readings: Sequence[Innovation]) -> str | None:
    if step.confirmed:
        return None
    model = main.bank.model
    if step.way and step.events and not main.unknown:
        missed = any(isinstance(event, Missed) for event in step.events)
        short = bank_total(bank=main.bank).mean < -BEYOND * sum(model.capacity_l)
        if short and not missed:
            return "beyond_tank"
    if any(abs(one.z) > HOLD for one in readings):
        return "far_off"
    state, shut_off = bank_state(bank=after.bank), shut_off_u(model=model)
    filled = {event.tank_id for event in step.events if isinstance(event, Fill)}
    for t, tank_id in enumerate(model.tank_ids):
        above = state[t].mean - model.capacity_l[t]
        if tank_id in filled and above > OVERFULL * max(state[t].u, shut_off[t]):
            return "overfull"
    return None


def _open(branch: Branch, tank_ids: Sequence[str]) -> Branch:
    added = [tank_id for tank_id in tank_ids if tank_id not in branch.unknown]
    return replace(branch, unknown=(*branch.unknown, *added))


def _doubled(main: Branch, others: Sequence[Branch]) -> Sequence[Branch]:
    """The branches that a new doubt gives a second one beside: each, or only the one that takes all as typed."""
    every = [main, *others]
    return every if 2 * len(every) <= 2**EVERY_CHOICE else every[-1:]


def _beside(others: Sequence[Branch], more: Sequence[Branch]) -> tuple[Branch, ...]:
    """The others with those of a new doubt; where they are too many, the last gives way."""
    room = len(others) + len(more) <= MOST_OTHERS
    return (*(others if room or not more else others[:-1]), *more)


def _others(main: Branch, others: Sequence[Branch], step: Step) -> tuple[Branch, ...]:
    """The other branches after a step that counts; one that takes a missed fill for none ends at the next reading."""
    after = [_apply(one, step)[0] for one in others]
    missed = any(isinstance(event, Missed) for event in step.events)
    none = [
        replace(_apply(one, step, ignore_missed=True)[0], passing=True)
        for one in (_doubled(main, others) if missed else ())
    ]
    after, none = ([one for one in some if one.unknown or not one.passing] for some in (after, none))
    return _beside(after, none)


def _outcome(
    step: Step, readings: tuple[Innovation, ...], held: str | None, alarm: str | None, state: Standing
) -> Outcome:
    levels = bank_state(bank=state.main.bank)[: len(state.main.bank.model.tank_ids)]
    return Outcome(step.entry_id, readings, held, alarm, tuple(one.mean for one in levels))


def _same(before: Sequence[Step], after: Sequence[Step]) -> int:
    n = 0
    while n < min(len(before), len(after)) and before[n] == after[n]:
        n += 1
    return n
