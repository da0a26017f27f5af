"""Which further reading would settle a doubt; how sure it makes a load does not depend on its value."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import sqrt

from .axles import Geometry
from .bridge import Bridge, can_weigh
from .deck import Deck, read_deck
from .errors import Unknown, check_finite, check_range
from .normal import cdf, z_at
from .reconcile import Session, reconcile
from .statics import Part
from .weighing import Reading, SplitSetup

NO_HELP = 1e-6  # a fall of the sd by less than this share is rounding
WORTH_OFFERING = 0.2  # below this chance say that no further reading here will settle it (our choice)


@dataclass(frozen=True, slots=True)
class Prospect:
    """A reading not yet taken: how sure it would make the load, and the chance that it settles the doubt.

    `chance` is None where the load is not fixed without it.
    """

    id: str
    before_u_kg: float | None
    after_u_kg: float
    chance: float | None


def settle_chance(
    *, limit_kg: float, value_kg: float, before_u_kg: float, after_u_kg: float, confidence: float = 0.95
) -> float:
    """Chance that a verdict is under or over once u has fallen from s0 to s1.

    m = limit - value, w = sqrt(s0^2 - s1^2): P = Phi((m - z s1)/w) + Phi((-m - z s1)/w). A reading that takes nothing
    away (w = 0) is no help: 0. Confidence from 0.5 to below 1, u >= 0 kg; else refused.
    """
    check_finite("limit_kg", limit_kg)
    check_finite("value_kg", value_kg)
    before = check_range("before_u_kg", before_u_kg, low=0.0, unit="kg")
    after = check_range("after_u_kg", after_u_kg, low=0.0, unit="kg")
    reach = z_at(confidence) * after
    moved = sqrt(max((before - after) * (before + after), 0.0))
    if moved <= NO_HELP * before:
        return 0.0
    margin = limit_kg - value_kg
    return cdf((margin - reach) / moved) + cdf((-margin - reach) / moved)


def next_by_plan(
    *,
    lasting: Sequence[Part],
    geometry: Geometry,
    sessions: Sequence[Session],
    session_id: str,
    candidates: Sequence[Reading],
    row: str,
    limit_kg: float,
    confidence: float = 0.95,
    unlisted: Sequence[Part] = (),
    base_correlation: float = 0.0,
) -> tuple[Prospect, ...]:
    """Further readings of one session, the most promising first, where the row rests on the reconciled plan.

    Each candidate is stacked at its predicted value; the value that it carries is not used, and what the scale does not
    reach is left out. The load judged is that of the session's own state. `unlisted` and `base_correlation` as in
    `reconcile`.
    """
    session = next((one for one in sessions if one.id == session_id), None)
    if session is None:
        raise Unknown("session_id", session_id, [one.id for one in sessions])
    others = [one for one in sessions if one is not session]
    day = session.geometry or geometry
    here = [part for part in unlisted if part.on in ("vehicle", day.trailer.id if day.trailer else None)]

    def stacked(more: Sequence[Reading], rows: Sequence[str]) -> tuple[float, float]:
        """Sum of some rows on the day, and its u, with further readings."""
        now = replace(session, readings=(*session.readings, *more))
        posterior = reconcile(
            lasting=lasting,
            geometry=geometry,
            sessions=[*others, now],
            unlisted=unlisted,
            base_correlation=base_correlation,
        )
        found = posterior.loads(
            lasting=(*session.lasting, *here),
            passing=session.passing,
            rows=rows,
            geometry=session.geometry,
            session=session.id if now.readings else None,
        )
        return sum(found.mean_kg), sqrt(max(sum(sum(line) for line in found.cov_kg2), 0.0))

    value_kg, before = stacked((), (row,))
    apart = stacked((), ("coupling",))[0] if day.trailer else 0.0
    out = []
    for one in candidates:
        predicted = max(stacked((), one.axles)[0] - (apart if one.uncoupled else 0.0), 0.0)
        if not can_weigh(bridge=session.bridge, value_kg=predicted):
            continue
        _, after = stacked((replace(one, value_kg=predicted),), (row,))
        out.append(_prospect(one.id, value_kg, before, after, limit_kg, confidence))
    return _best_first(out)


def next_by_readings(
    *,
    readings: Sequence[Reading],
    bridge: Bridge,
    setup: SplitSetup | None = None,
    deck: Deck,
    candidates: Sequence[Reading],
    row: str,
    limit_kg: float,
    confidence: float = 0.95,
) -> tuple[Prospect, ...]:
    """Further readings, the most promising first, where a row rests on the readings alone.

    A candidate's value is its caller's expectation; it only sizes the candidate's own error. Candidates that leave
    the load open are left out, and those that the scale does not reach.
    """
    now = _fixed(readings, bridge, setup, deck, row)
    out = []
    for one in candidates:
        within = can_weigh(bridge=bridge, value_kg=one.value_kg)
        after = _fixed([*readings, one], bridge, setup, deck, row) if within else None
        if after is None:
            continue
        if now is None:
            out.append(Prospect(one.id, None, after[1], None))
        else:
            out.append(_prospect(one.id, now[0], now[1], after[1], limit_kg, confidence))
    return _best_first(out)


def _fixed(
    readings: Sequence[Reading], bridge: Bridge, setup: SplitSetup | None, deck: Deck, row: str
) -> tuple[float, float] | None:
    found = read_deck(readings=readings, bridge=bridge, setup=setup, deck=deck)
    if found is None or row not in found.rows:
        return None
    k = found.rows.index(row)
    return found.mean_kg[k], sqrt(found.cov_kg2[k][k])


def _prospect(
    name: str, value_kg: float, before: float, after: float, limit_kg: float, confidence: float
) -> Prospect:
    after = min(after, before)
    chance = settle_chance(
        limit_kg=limit_kg, value_kg=value_kg, before_u_kg=before, after_u_kg=after, confidence=confidence
    )
    return Prospect(name, before, after, chance)


def _best_first(prospects: Sequence[Prospect]) -> tuple[Prospect, ...]:
    """By chance; what fixes an open load stands before all, the surest of them first."""
    return tuple(
        sorted(prospects, key=lambda one: (one.chance is not None, -(one.chance or 0.0), one.after_u_kg))
    )
