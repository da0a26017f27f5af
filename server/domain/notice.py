"""Noticing that consumption has changed: a second bank that does not follow the change away.

Its innovations feed two one-sided cumulative sums (Page 1954, Biometrika 41:100, from memory). The main bank
adapts and would miss a third to a half of the smaller changes.
"""

from dataclasses import dataclass, replace

from .bank import Bank, bank_advance, bank_innovation, bank_prior
from .events import Event, is_observation
from .filter import Model

REFERENCE_WALK = 0.01  # drift of the reference bank; its classes do not drift alone (assumed)
SKIP = 3  # the first readings only tell the rate
SLACK, ALARM, SINGLE = 0.5, 5.0, 3.5  # of the sums, and of one reading alone


@dataclass(frozen=True, slots=True)
class Notice:
    """The reference bank, readings seen, and the two sums (more used, less used)."""

    bank: Bank
    seen: int = 0
    more: float = 0.0
    less: float = 0.0
    alarm: str | None = None
    z: float | None = None


def notice_prior(*, model: Model, kappas: tuple[float, ...]) -> Notice:
    """The reference bank before the first entry: as the main one, but hardly drifting."""
    settings = replace(model.settings, walk=REFERENCE_WALK, walk_class=0.0)
    return Notice(bank_prior(model=replace(model, settings=settings), kappas=kappas))


def notice_advance(*, notice: Notice, event: Event) -> Notice:
    """The reference bank after one event; `alarm` is "more", "less" or None for this event alone.

    For an observation z = nu / sqrt(s) of the mixture, before it is used; negative means more was used than
    expected. more <- max(0, more - z - 0.5), less <- max(0, less + z - 0.5); alarm above 5, or |z| > 3.5.
    The first 3 readings are skipped; an alarm restarts both sums.
    """
    after = bank_advance(bank=notice.bank, event=event)
    if not is_observation(event):
        return replace(notice, bank=after, alarm=None, z=None)
    z = bank_innovation(bank=notice.bank, event=event).z
    seen = notice.seen + 1
    if seen <= SKIP:
        return Notice(after, seen, notice.more, notice.less, None, z)
    more, less = max(0.0, notice.more - z - SLACK), max(0.0, notice.less + z - SLACK)
    alarm = _alarm(more, less, z)
    if alarm:
        more = less = 0.0
    return Notice(after, seen, more, less, alarm, z)


def _alarm(more: float, less: float, z: float) -> str | None:
    if more > ALARM or z < -SINGLE:
        return "more"
    return "less" if less > ALARM or z > SINGLE else None
