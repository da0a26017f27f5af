"""Where an entry of a log belongs: by its odometer where that is known, else by when it happened.

A fill entered late takes its place by odometer; an odometer that fits nowhere is refused for that entry alone.
"""

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass

from .errors import DomainError, OutOfRange


@dataclass(frozen=True, slots=True)
class Placed:
    """What places an entry: id, UTC second, order of recording, and the odometer if it is known."""

    id: str
    at_s: float
    sequence: int
    odometer_km: float | None = None


@dataclass(frozen=True, slots=True)
class Finding:
    """Something to say about one entry: what is the matter with which field, and what would fit.

    `standing`: refused (its figures are not used), held (used only for the other answer until somebody
    confirms or corrects it), asked (used, but to be looked at), noted. `missing_l`: litres of a fill that may be
    missing before it, as the filter reckons, with u; without a u at least so many.
    """

    entry_id: str
    code: str
    standing: str
    field: str
    value: float | str | None = None
    low: float | None = None
    high: float | None = None
    unit: str = ""
    missing_l: float | None = None
    missing_u_l: float | None = None


@dataclass(frozen=True, slots=True)
class Places:
    """Ids in the order in which they happened, and what is to be said about the places."""

    ids: tuple[str, ...]
    findings: tuple[Finding, ...]


def finding_of(*, entry_id: str, error: DomainError, code: str | None = None) -> Finding:
    """A refusal of the domain as a finding about the entry that caused it."""
    value = error.value if isinstance(error.value, float | int | str) or error.value is None else None
    if isinstance(error, OutOfRange):
        low = error.above if error.low is None else error.low
        return Finding(
            entry_id, code or error.code, "refused", error.field, value, low, error.high, error.unit
        )
    return Finding(entry_id, code or error.code, "refused", error.field, value)


def place(*, entries: Sequence[Placed]) -> Places:
    """Put entries in order and find those whose odometer goes backwards.

    In order of time the longest run of odometers that never falls is taken as right; of two that contradict
    each other the later one is doubted. An entry off that run is `late` if it was recorded after the one
    that follows it by odometer: it takes its place, which is noted. Else it is refused as
    `odometer_backwards`, with the range that its time allows. Entries without odometer follow the last one of
    the run before them in time.
    """
    known = sorted((one for one in entries if one.odometer_km is not None), key=_time)
    steady = longest_rise(values=[one.odometer_km or 0.0 for one in known])
    run = [known[i] for i in steady]
    keys: dict[str, tuple[float, int, float, int, str]] = {
        one.id: (one.odometer_km or 0.0, 0, *_time(one)) for one in run
    }
    findings: list[Finding] = []
    on_run = set(steady)
    for n, one in enumerate(known):
        if n in on_run:
            continue
        late = _is_late(one, run)
        findings.append(_late(one) if late else _backwards(one, run))
        if late:
            keys[one.id] = (one.odometer_km or 0.0, 0, *_time(one))
    times = [one.at_s for one in run]
    for one in entries:
        if one.odometer_km is None:
            n = bisect_right(times, one.at_s)
            after = run[n - 1].odometer_km or 0.0 if n else float("-inf")
            keys[one.id] = (after, 1, *_time(one))
    return Places(tuple(sorted(keys, key=lambda id: keys[id])), tuple(findings))


def longest_rise(*, values: Sequence[float]) -> tuple[int, ...]:
    """Indices of the longest subsequence that never falls; where several are longest, one that ends early.

    Patience sorting, n log n (Fredman 1975, Discrete Math. 11:29, from memory).
    """
    tops: list[float] = []
    piles: list[list[int]] = []
    for i, value in enumerate(values):
        pile = bisect_right(tops, value)
        if pile == len(tops):
            tops.append(value)
            piles.append([i])
        else:
            tops[pile] = value
            piles[pile].append(i)
    rise: list[int] = []
    for pile in reversed(range(len(piles))):
        if rise:
            fitting = (i for i in piles[pile] if i < rise[-1] and values[i] <= values[rise[-1]])
            rise.append(next(fitting))
        else:
            rise.append(piles[pile][0])
    return tuple(reversed(rise))


def _time(one: Placed) -> tuple[float, int, str]:
    return (one.at_s, one.sequence, one.id)


def _is_late(one: Placed, run: Sequence[Placed]) -> bool:
    odometer = one.odometer_km or 0.0
    n = bisect_right([other.odometer_km or 0.0 for other in run], odometer)
    return 0 < n < len(run) and one.sequence > run[n].sequence


def _late(one: Placed) -> Finding:
    return Finding(one.id, "late", "noted", "odometer_km", one.odometer_km, unit="km")


def _backwards(one: Placed, run: Sequence[Placed]) -> Finding:
    n = bisect_right([_time(other) for other in run], _time(one))
    low = run[n - 1].odometer_km if n else None
    high = run[n].odometer_km if n < len(run) else None
    return Finding(one.id, "odometer_backwards", "refused", "odometer_km", one.odometer_km, low, high, "km")
