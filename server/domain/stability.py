"""Where the centre of gravity is, and the static stability factor.

Only parts on the vehicle count: the load on the coupling acts through the axles, it has no place of its own.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import sqrt

import numpy as np

from .errors import check_range
from .statics import Part, check_parts, mass_times


@dataclass(frozen=True, slots=True)
class Centre:
    """Mass and centre of gravity with its u; the height is None where a part's height is not known."""

    mass_kg: float
    x_m: float
    x_u_m: float
    y_m: float
    y_u_m: float
    z_m: float | None
    z_u_m: float | None


@dataclass(frozen=True, slots=True)
class Stability:
    """Static stability factor, and its standard uncertainty."""

    factor: float
    u: float


def centre_of_gravity(*, parts: Sequence[Part], base_correlation: float = 0.0) -> Centre | None:
    """Centre of gravity of the parts on the vehicle; None without mass.

    x_c = sum m x / M; u^2 = d' C d + sum (m_i/M)^2 u_xi^2 to first order, with d_i = (x_i - x_c)/M and C the
    covariance of the masses; y and z likewise. The two base parts have one height, whose error counts once.
    Heights come from the plan alone: no weighing on level ground says anything of them.
    """
    check_parts(parts)
    check_range("base_correlation", base_correlation, low=-1.0, high=1.0)
    own = [part for part in parts if part.on == "vehicle"]
    total = sum(part.sign * part.mass_kg for part in own)
    if total <= 0.0:
        return None
    x_m, x_u_m = _mean(own, total, base_correlation, lambda p: p.x_m, _independent(own, lambda p: p.x_u_m))
    y_m, y_u_m = _mean(own, total, base_correlation, lambda p: p.y_m, _independent(own, lambda p: p.y_u_m))
    if any(part.z_m is None for part in own):
        return Centre(total, x_m, x_u_m, y_m, y_u_m, None, None)
    z_m, z_u_m = _mean(own, total, base_correlation, lambda p: p.z_m or 0.0, _heights(own))
    return Centre(total, x_m, x_u_m, y_m, y_u_m, z_m, z_u_m)


def static_stability(*, track_m: float, height_m: float, height_u_m: float = 0.0) -> Stability:
    """SSF = t / (2 h) and u = SSF u_h / h, with t the mean track; track and height > 0 m.

    A figure to compare rigid vehicles on level ground with, no more. Source: NHTSA rollover notice, section V.
    """
    check_range("track_m", track_m, above=0.0, unit="m")
    check_range("height_m", height_m, above=0.0, unit="m")
    check_range("height_u_m", height_u_m, low=0.0, unit="m")
    factor = track_m / (2.0 * height_m)
    return Stability(factor, factor * height_u_m / height_m)


def _mean(
    parts: Sequence[Part],
    total: float,
    base_correlation: float,
    place: Callable[[Part], float],
    moment_variance: float,
) -> tuple[float, float]:
    centre = sum(p.sign * p.mass_kg * place(p) for p in parts) / total
    d = np.array([p.sign * (place(p) - centre) / total for p in parts])
    variance = float(d @ mass_times(parts, d[:, None], base_correlation)[:, 0])
    return centre, sqrt(max(variance, 0.0) + moment_variance / total**2)


def _independent(parts: Sequence[Part], u: Callable[[Part], float]) -> float:
    return sum((p.mass_kg * u(p)) ** 2 for p in parts)


def _heights(parts: Sequence[Part]) -> float:
    base = sum(p.mass_kg * p.z_u_m for p in parts if p.id in ("base_front", "base_rear"))
    others = [p for p in parts if p.id not in ("base_front", "base_rear")]
    return base**2 + _independent(others, lambda p: p.z_u_m)
