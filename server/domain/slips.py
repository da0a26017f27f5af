"""Readings that do not agree: which one to take again, and which single slips would make the sum fit.

A slip is a question to the person who typed, never applied: with one redundancy every reading is as doubtful as any
other, and a slip that fits is no proof of itself.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import sqrt

from .bridge import Bridge, can_weigh
from .deck import Deck, below_zero, deck_sums, read_deck
from .statics import Loads
from .weighing import FRICTION_SHARE, Reading, SplitSetup, merge_repeats

POUND_KG = 0.45359237  # international agreement of 1959, NIST SP 811
EQUAL = 1e-6  # doubts nearer to each other than this share are the same but for rounding
APART_SD = 4.0  # repeats that differ by more than so many standard deviations are not one figure (our choice)
SETS = (("front",), ("rear",), ("front", "rear"))
TOWED_SETS = (*SETS, ("front", "rear", "trailer_axles"), ("trailer_axles",), ("rear", "trailer_axles"))


@dataclass(frozen=True, slots=True)
class Slip:
    """One slip that would make the readings fit: what the reading would then be, and p of the sum check.

    `kind`: digits_swapped, wrong_axles, pounds, somebody_out (`part_id`) or uncoupled.
    """

    reading_id: str
    kind: str
    value_kg: float
    axles: tuple[str, ...]
    part_id: str | None
    p: float | None


@dataclass(frozen=True, slots=True)
class Typed:
    """The digits of a reading as typed, and how many kg one of its units is."""

    digits: str
    unit_kg: float = 1.0


def repeats_apart(*, readings: Sequence[Reading], bridge: Bridge) -> tuple[str, ...]:
    """Ids of repeats of one set in one state whose figures are too far apart to be one load.

    Rounding and friction alone tell repeats apart: more than 4 sqrt(2 (d^2/12 + (0.003 w)^2)) is a slip or another
    load (our choice; friction as for a split reading, assumed).
    """
    groups: dict[object, list[Reading]] = {}
    for one in readings:
        groups.setdefault((one.axle_key, one.deck, one.approach, one.state_key), []).append(one)
    out: list[str] = []
    for group in groups.values():
        values = [one.value_kg for one in group]
        sd = sqrt(2 * (bridge.displayed_kg**2 / 12 + (FRICTION_SHARE * max(values)) ** 2))
        if max(values) - min(values) > APART_SD * sd:
            out += [one.id for one in group]
    return tuple(out)


def slips(
    *,
    readings: Sequence[Reading],
    bridge: Bridge,
    setup: SplitSetup | None,
    deck: Deck,
    typed: Mapping[str, Typed],
) -> tuple[Slip, ...]:
    """Every single slip that would make readings that disagree fit, the best fit first.

    `readings` are those of one visit before repeats are merged. Tried for each: two neighbouring digits swapped, other
    axles on the deck, pounds for kilograms, somebody out of the vehicle, the trailer uncoupled. A slip counts if the
    sum check then passes with something left to test, or if it parts repeats that were far apart; a figure beyond the
    scale's reach is none.
    """
    apart = repeats_apart(readings=readings, bridge=bridge)
    out = []
    for k, reading in enumerate(readings):
        for kind, other, part_id in _changed(reading, deck, typed.get(reading.id)):
            if not can_weigh(bridge=bridge, value_kg=other.value_kg):
                continue
            changed = [*readings[:k], other, *readings[k + 1 :]]
            fits, p = _check(changed, bridge, setup, deck)
            if fits and (p is not None or reading.id in apart):
                out.append(Slip(reading.id, kind, other.value_kg, other.axles, part_id, p))
    return tuple(sorted(out, key=lambda one: -(one.p or 0.0)))


def to_repeat(
    *,
    readings: Sequence[Reading],
    bridge: Bridge,
    setup: SplitSetup | None,
    deck: Deck,
    planned: Loads | None,
) -> str | None:
    """Which reading to take again: the one that the others speak against most.

    Repeats far apart come first. With one redundancy all are as doubtful: then the one farthest from the plan;
    without a plan the one of most axles, for one stop settles most. None without readings.
    """
    apart = repeats_apart(readings=readings, bridge=bridge)
    if apart:
        return apart[-1]
    merged = merge_repeats(readings=readings)
    sums = deck_sums(readings=merged, deck=deck)
    found = read_deck(readings=merged, bridge=bridge, setup=setup, deck=deck)
    used = [one for one in merged if one.id in sums.used]
    if found is None or not used:
        return None
    doubts = [z or 0.0 for z in found.z[: len(used)]]
    if found.dof > 1:
        return _first(used, doubts)
    if planned is not None and set(sums.names) <= set(planned.rows):
        gaps = [
            abs(value - sum(c * planned.value_kg(name) for c, name in zip(row, sums.names, strict=True)))
            for value, row in zip(sums.values_kg, sums.rows, strict=True)
        ]
        return _first(used, gaps)
    return _first(used, [float(len(one.axles)) for one in used])


def _first(readings: Sequence[Reading], doubts: Sequence[float]) -> str:
    """The reading of the greatest doubt; of equals to rounding the first."""
    most = max(doubts)
    return next(one.id for one, doubt in zip(readings, doubts, strict=True) if doubt >= most - EQUAL * most)


def _check(
    readings: Sequence[Reading], bridge: Bridge, setup: SplitSetup | None, deck: Deck
) -> tuple[bool, float | None]:
    if repeats_apart(readings=readings, bridge=bridge):
        return False, None
    found = read_deck(readings=merge_repeats(readings=readings), bridge=bridge, setup=setup, deck=deck)
    fits = found is None or (found.agree and not below_zero(found=found))
    return fits, (found.p if found else None)


def _changed(reading: Reading, deck: Deck, typed: Typed | None) -> Iterator[tuple[str, Reading, str | None]]:
    """A reading with each slip undone: its kind, the reading as it would then be, and who was out."""
    if typed is not None:
        for digits in swapped_digits(digits=typed.digits):
            yield "digits_swapped", replace(reading, value_kg=float(digits) * typed.unit_kg), None
        if typed.unit_kg == 1.0:
            yield "pounds", replace(reading, value_kg=reading.value_kg * POUND_KG), None
    for axles in TOWED_SETS if deck.towed and not reading.uncoupled else SETS:
        if set(axles) != set(reading.axles):
            yield "wrong_axles", replace(reading, axles=axles, split=_split(axles)), None
    for part in deck.occupants:
        if part.id not in reading.without:
            yield "somebody_out", replace(reading, without=(*reading.without, part.id)), part.id
    if deck.towed and not {"trailer", "trailer_axles"} & set(reading.axles):
        yield "uncoupled", replace(reading, uncoupled=not reading.uncoupled), None


def swapped_digits(*, digits: str) -> tuple[str, ...]:
    """All figures that two neighbouring digits swapped make of this one; a leading zero is none."""
    places = [i for i, sign in enumerate(digits) if sign.isdigit()]
    out = []
    for i, j in pairwise(places):
        if digits[i] != digits[j]:
            other = digits[:i] + digits[j] + digits[i + 1 : j] + digits[i] + digits[j + 1 :]
            if not other.startswith("0"):
                out.append(other)
    return tuple(out)


def _split(axles: Sequence[str]) -> bool:
    return not {"front", "rear"} <= set(axles)
