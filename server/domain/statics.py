"""Statics: every axle load is a sum over parts.

Axes: x rearwards from the front axle, y to the right, z up. A load is in kg (force / g). Two axles and a
rigid body: a part at x puts x / L of its mass on the rear axle and the rest on the front, also when x is
outside [0, L].
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import sqrt

import numpy as np

from .errors import Duplicate, Unknown, check_finite, check_range
from .linalg import Array

ROWS = ("front", "rear", "gross")


@dataclass(frozen=True, slots=True)
class Part:
    """A mass at a place, each with one standard uncertainty; `taken_off` counts it negative."""

    id: str
    mass_kg: float
    mass_u_kg: float
    x_m: float
    x_u_m: float = 0.0
    y_m: float = 0.0
    y_u_m: float = 0.0
    z_m: float | None = None
    z_u_m: float = 0.0
    roof: bool = False
    article: str | None = None
    taken_off: bool = False

    @property
    def sign(self) -> int:
        """-1 for what was taken off the delivered vehicle."""
        return -1 if self.taken_off else 1


@dataclass(frozen=True, slots=True)
class Geometry:
    """Where the supports of the beam are."""

    wheelbase_m: float


@dataclass(frozen=True, slots=True)
class Loads:
    """Means and covariance of named rows, kg and kg^2."""

    rows: tuple[str, ...]
    mean_kg: tuple[float, ...]
    cov_kg2: tuple[tuple[float, ...], ...]

    def value_kg(self, row: str) -> float:
        """Mean of one row."""
        return self.mean_kg[self.rows.index(row)]

    def u_kg(self, row: str) -> float:
        """Standard uncertainty of one row."""
        k = self.rows.index(row)
        return sqrt(max(self.cov_kg2[k][k], 0.0))


def check_geometry(geometry: Geometry) -> None:
    """Refuse a wheelbase that is not above zero."""
    check_range("wheelbase_m", geometry.wheelbase_m, above=0.0, unit="m")


def check_parts(parts: Sequence[Part]) -> None:
    """Refuse figures that are not finite, a negative mass or u, and one id twice."""
    seen: set[str] = set()
    for part in parts:
        check_range("mass_kg", part.mass_kg, low=0.0, unit="kg")
        check_range("mass_u_kg", part.mass_u_kg, low=0.0, unit="kg")
        check_finite("x_m", part.x_m)
        check_range("x_u_m", part.x_u_m, low=0.0, unit="m")
        if part.id in seen:
            raise Duplicate("id", part.id)
        seen.add(part.id)


def share(*, row: str, geometry: Geometry, x_m: float, roof: bool = False) -> float:
    """Load on a row per kg at x: front 1 - x/L, rear x/L, gross 1, roof 1 for what is carried on it.

    Nothing is clipped: behind the rear axle the front share is negative, ahead of the front axle the rear
    one.
    """
    if row == "gross":
        return 1.0
    if row == "rear":
        return x_m / geometry.wheelbase_m
    if row == "front":
        return 1.0 - x_m / geometry.wheelbase_m
    if row == "roof":
        return 1.0 if roof else 0.0
    raise Unknown("row", row, (*ROWS, "roof"))


def slope(*, row: str, geometry: Geometry) -> float:
    """Change of the share per metre rearwards, 1/m."""
    return {"rear": 1.0, "front": -1.0}.get(row, 0.0) / geometry.wheelbase_m


def loads(
    *, parts: Sequence[Part], geometry: Geometry, rows: Sequence[str] = ROWS, base_correlation: float = 0.0
) -> Loads:
    """Mean and exact covariance of the loads of independent parts.

    W_k = sum_i s_i l_ki m_i. cov(W_k, W_l) = sum_ij l_ki l_lj cov(m_i, m_j)
    + sum_i (m_i^2 + u_i^2) g_ki g_li u_xi^2: exact for a product of independent mass and position. Copies
    of one article have the same unknown mass: cov(m_i, m_j) = u_i u_j. `base_correlation` in [-1, 1] links
    the two base masses. Masses >= 0 kg, wheelbase > 0 m; no parts give zero.
    """
    check_geometry(geometry)
    check_parts(parts)
    check_range("base_correlation", base_correlation, low=-1.0, high=1.0)
    shares = np.array(
        [[p.sign * share(row=row, geometry=geometry, x_m=p.x_m, roof=p.roof) for p in parts] for row in rows]
    ).reshape(len(rows), len(parts))
    slopes = np.array([slope(row=row, geometry=geometry) for row in rows])
    mass = np.array([p.mass_kg for p in parts])
    spread = sum((p.mass_kg**2 + p.mass_u_kg**2) * p.x_u_m**2 for p in parts)
    cov = shares @ mass_times(parts, shares.T, base_correlation) + spread * np.outer(slopes, slopes)
    mean = shares @ mass if len(parts) else np.zeros(len(rows))
    return Loads(tuple(rows), as_tuple(mean), as_tuples(cov))


def mass_times(parts: Sequence[Part], columns: Array, base_correlation: float = 0.0) -> Array:
    """The mass covariance of parts times columns (n, m), without forming the n x n matrix."""
    u = np.array([p.mass_u_kg for p in parts])
    out: Array = (u**2)[:, None] * columns
    for members in article_groups(parts):
        ids = list(members)
        total = u[ids] @ columns[ids]
        out[ids] = np.outer(u[ids], total)
    base = [i for i, p in enumerate(parts) if p.id in ("base_front", "base_rear")]
    if base_correlation and len(base) == 2:
        i, j = base
        linked = base_correlation * u[i] * u[j]
        out[i] += linked * columns[j]
        out[j] += linked * columns[i]
    return out


def article_groups(parts: Sequence[Part]) -> list[tuple[int, ...]]:
    """Positions of parts that are copies of one article, for articles with more than one."""
    groups: dict[str, list[int]] = {}
    for i, part in enumerate(parts):
        if part.article is not None:
            groups.setdefault(part.article, []).append(i)
    return [tuple(members) for members in groups.values() if len(members) > 1]


def copies_u(*, count: int, unit_u_kg: float, weighed_singly: bool = False) -> float:
    """Uncertainty of `count` copies, kg: n u for one unknown unit mass, sqrt(n) u when weighed one by one."""
    check_range("count", count, low=1)
    check_range("unit_u_kg", unit_u_kg, low=0.0, unit="kg")
    return (sqrt(count) if weighed_singly else count) * unit_u_kg


def product_moments(*factors: tuple[float, float]) -> tuple[float, float]:
    """Mean and standard uncertainty of a product of independent factors (mean, u).

    u^2 = prod(v^2 + u^2) - prod v^2, summed without the difference of squares.
    """
    mean, square, variance = 1.0, 1.0, 0.0
    for value, u in factors:
        variance = variance * (value**2 + u**2) + square * u**2
        square *= value**2
        mean *= value
    return mean, sqrt(variance)


def tank_content(
    *,
    id: str,
    density_kg_per_l: float,
    density_u_kg_per_l: float = 0.0,
    capacity_l: float,
    capacity_u_l: float = 0.0,
    level: float,
    level_u: float = 0.0,
    x_m: float,
    x_u_m: float = 0.0,
    y_m: float = 0.0,
    z_m: float | None = None,
) -> Part:
    """The content of a tank as a part: m = density x capacity x level, with the exact variance of the
    product.

    Density and capacity > 0, level in [0, 1], uncertainties >= 0; else refused.
    """
    check_range("density_kg_per_l", density_kg_per_l, above=0.0, unit="kg/L")
    check_range("capacity_l", capacity_l, above=0.0, unit="L")
    check_range("level", level, low=0.0, high=1.0)
    for name, u in (
        ("density_u_kg_per_l", density_u_kg_per_l),
        ("capacity_u_l", capacity_u_l),
        ("level_u", level_u),
    ):
        check_range(name, u, low=0.0)
    mass_kg, u_kg = product_moments(
        (density_kg_per_l, density_u_kg_per_l), (capacity_l, capacity_u_l), (level, level_u)
    )
    return Part(id, mass_kg, u_kg, x_m, x_u_m, y_m=y_m, z_m=z_m)


def centre_of_gravity(*, parts: Sequence[Part]) -> tuple[float, float] | None:
    """x of the centre of gravity and its u, m, over the parts on the vehicle; None without mass.

    x_c = sum m x / M; u^2 = d' C d + sum (m/M)^2 u_x^2 with d_i = (x_i - x_c)/M, first order.
    """
    check_parts(parts)
    mass = np.array([p.sign * p.mass_kg for p in parts])
    total = float(mass.sum()) if len(parts) else 0.0
    if total <= 0.0:
        return None
    x = np.array([p.x_m for p in parts])
    x_c = float(mass @ x) / total
    d = np.array([p.sign * (p.x_m - x_c) / total for p in parts])
    variance = float(d @ mass_times(parts, d[:, None])[:, 0])
    variance += sum((p.mass_kg / total * p.x_u_m) ** 2 for p in parts)
    return x_c, sqrt(variance)


def moved(part: Part, x_m: float) -> Part:
    """The same part at another place."""
    return replace(part, x_m=x_m)


def as_tuple(values: Array) -> tuple[float, ...]:
    """A vector as plain floats."""
    return tuple(float(value) for value in values)


def as_tuples(matrix: Array) -> tuple[tuple[float, ...], ...]:
    """A matrix as plain floats."""
    return tuple(as_tuple(row) for row in matrix)
