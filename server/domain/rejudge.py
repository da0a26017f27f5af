"""What has been judged, judged again under other ratings: the what-if of a planned plate."""

from collections.abc import Sequence
from dataclasses import replace

from .judge import Judged
from .limits import CONFIDENCE, verdict
from .plates import Rating


def rejudged(
    *, judged: Sequence[Judged], ratings: Sequence[Rating], confidence: float = CONFIDENCE
) -> tuple[Judged, ...]:
    """The same values with the same u against `ratings`; only limit, margin, chance and word may differ.

    What was not weighed stays so, and what the readings leave open stays "cannot tell" while there is a rating. A
    row without a rating among `ratings` is left as it is. Confidence one-sided, as in `limits.verdict`.
    """
    limits = {one.rating: one.limit_kg for one in ratings}
    return tuple(
        _again(one, limits[one.verdict.rating], confidence) if one.verdict.rating in limits else one
        for one in judged
    )


def _again(judged: Judged, limit_kg: float | None, confidence: float) -> Judged:
    old = judged.verdict
    if judged.source == "none":
        return replace(judged, verdict=replace(old, limit_kg=limit_kg))
    new = verdict(
        rating=old.rating,
        value_kg=old.value_kg,
        u_kg=old.u_kg,
        limit_kg=limit_kg,
        confidence=confidence,
    )
    if judged.why is not None and limit_kg is not None:
        new = replace(new, word="cannot_tell")
    return replace(judged, verdict=new)
