"""Where a mass sits: a ratio of an uncertain moment to an uncertain mass.

Fieller 1954, J. R. Stat. Soc. B 16:175.
"""

from dataclasses import dataclass
from math import sqrt

from .errors import check_finite, check_range


@dataclass(frozen=True, slots=True)
class Zone:
    """Confidence set of a place. `kind`: interval, outside (all but an interval) or line (everything).

    `g` = z^2 W_bb / b^2 says how skew it is (None for b = 0); only an interval may be shown as a place.
    """

    kind: str
    from_m: float | None
    to_m: float | None
    g: float | None


def fieller(
    *, moment_kgm: float, mass_kg: float, w_aa: float, w_ab: float, w_bb: float, z: float = 1.959964
) -> Zone:
    """The set of x with (a - x b)^2 <= z^2 (W_aa - 2 x W_ab + x^2 W_bb), a the moment and b the mass.

    An interval exactly when |b| > z sqrt(W_bb): when the mass itself is significant. Variances >= 0; the
    discriminant is taken in its sum form, not as B^2 - A C. z is two-sided, 1.959964 for 95 %.
    """
    check_finite("moment_kgm", moment_kgm)
    check_finite("mass_kg", mass_kg)
    check_finite("w_ab", w_ab)
    check_range("w_aa", w_aa, low=0.0)
    check_range("w_bb", w_bb, low=0.0)
    check_range("z", z, above=0.0)
    a, b = moment_kgm, mass_kg
    lead = b * b - z * z * w_bb
    half = a * b - z * z * w_ab
    tail = a * a - z * z * w_aa
    square = z * z * ((w_aa * b * b - 2 * w_ab * a * b + w_bb * a * a) - z * z * (w_aa * w_bb - w_ab**2))
    g = z * z * w_bb / (b * b) if b else None
    if lead > 0:
        return Zone("interval", *_roots(lead, half, tail, max(square, 0.0)), g)
    if lead < 0 and square > 0:
        return Zone("outside", *_roots(lead, half, tail, square), g)
    return Zone("line", None, None, g)


def _roots(lead: float, half: float, tail: float, square: float) -> tuple[float, float]:
    q = half + (sqrt(square) if half >= 0 else -sqrt(square))
    first, second = q / lead, tail / q if q else 0.0
    return min(first, second), max(first, second)
