"""What a build sheet leaves out: brackets, bolts, wiring, lining, contents. Gaps nearly always fall that one way."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from math import sqrt

from .errors import check_range
from .parts import DESCRIBED_U_M
from .statics import Part

FORGOTTEN = "forgotten"
# Of the added mass, 3 to 6 % (common practice, no source): the middle, and the u of anything between as likely.
LEAST_SHARE, GREATEST_SHARE = 0.03, 0.06
FORGOTTEN_SHARE = (LEAST_SHARE + GREATEST_SHARE) / 2
RELATIVE_U = (GREATEST_SHARE - LEAST_SHARE) / sqrt(12) / FORGOTTEN_SHARE
MOST_SHARE = 0.2
# Brackets, wiring, lining, tools, contents, tow gear, tyres: what practice names, each somewhere among the items
KINDS = 7  # (assumed)
NOTHING = 0.0  # the share where a record says none (assumed)


def forgotten_part(*, added: Sequence[Part], share: float) -> Part | None:
    """The forgotten mass of a build as one more part; None for a share of 0 or where nothing was added.

    m = share M, M the mass added to the vehicle (not what was taken off, nothing on a trailer). u = 0.19 m at any
    share: the range of common practice, 3 to 6 %, is a third either side of its middle, any value as likely. It stands
    at the middle of the added mass. u_x^2 = s^2/7 + 0.15^2, s the spread of that mass: seven kinds of things are
    forgotten, each as likely with any of the items, and the middle is told in words (assumed); y and z likewise. Its
    height is the middle of those known. Share 0 to 0.2, else refused.
    """
    check_range("share", share, low=0.0, high=MOST_SHARE)
    own = [part for part in added if counts(part=part)]
    total = sum(part.mass_kg for part in own)
    if share == 0.0 or total <= 0.0:
        return None
    x_m, x_u_m = _middle(own, lambda part: part.x_m)
    y_m, y_u_m = _middle(own, lambda part: part.y_m)
    high = [part for part in own if part.z_m is not None and part.mass_kg > 0.0]
    z_m, z_u_m = _middle(high, lambda part: part.z_m or 0.0) if high else (None, 0.0)
    mass_kg = share * total
    return Part(FORGOTTEN, mass_kg, RELATIVE_U * mass_kg, x_m, x_u_m, y_m, y_u_m, z_m, z_u_m)


def counts(*, part: Part) -> bool:
    """Whether a part is mass added to the vehicle, of which a share is forgotten."""
    return part.on == "vehicle" and not part.taken_off


def forgotten_after(*, part: Part, share: float, before: Sequence[Part], after: Sequence[Part]) -> Part:
    """The forgotten part once some of the added parts stand elsewhere along the vehicle, from what it was.

    M = m/share and s^2 = 7 (u_x^2 - 0.15^2) give back the sums behind them: M x = sum m_i x_i, M (s^2 + x^2) = sum
    m_i x_i^2. Share above 0, as it was counted with.
    """
    check_range("share", share, above=0.0, high=MOST_SHARE)
    total = part.mass_kg / share
    moment, square = total * part.x_m, total * (KINDS * (part.x_u_m**2 - DESCRIBED_U_M**2) + part.x_m**2)
    for sign, parts in ((-1.0, before), (1.0, after)):
        for one in parts:
            if counts(part=one):
                moment += sign * one.mass_kg * one.x_m
                square += sign * one.mass_kg * one.x_m**2
    x_m = moment / total
    return replace(part, x_m=x_m, x_u_m=_spread(square / total - x_m**2))


def _middle(parts: Sequence[Part], place: Callable[[Part], float]) -> tuple[float, float]:
    """Mass-weighted mean of places, and the u of something that may be at any of them."""
    total = sum(part.mass_kg for part in parts)
    mean = sum(part.mass_kg * place(part) for part in parts) / total
    return mean, _spread(sum(part.mass_kg * (place(part) - mean) ** 2 for part in parts) / total)


def _spread(variance: float) -> float:
    return sqrt(max(variance, 0.0) / KINDS + DESCRIBED_U_M**2)
