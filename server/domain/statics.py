"""Statics: every load is a sum over parts.

Axes: x rearwards from the front axle (from the coupling on a trailer), y to the right, z up. A load is in kg
(force / g).
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

import numpy as np

from .axles import (
    ROWS,
    VEHICLE_ROWS,
    Geometry,
    check_geometry,
    coefficient,
    hitch_offset_kg,
    line,
    rear_x_m,
)
from .errors import Duplicate, check_finite, check_range
from .linalg import Array


@dataclass(frozen=True, slots=True)
class Part:
    """A mass at a place, each with one standard uncertainty; `taken_off` counts it negative.

    `on` is "vehicle" or a trailer's id; `axle` a mass that stands on that axle alone, as a delivered axle load
    does. Parts of one `article` have the same unknown mass. `copies` says of how many copies it is.
    """

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
    on: str = "vehicle"
    axle: str | None = None
    copies: int = 1

    @property
    def sign(self) -> int:
        """-1 for what was taken off the delivered vehicle."""
        return -1 if self.taken_off else 1


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


def check_parts(parts: Sequence[Part]) -> None:
    """Refuse figures that are not finite, a negative mass or u, and one id twice."""
    seen: set[str] = set()
    for part in parts:
        check_range("mass_kg", part.mass_kg, low=0.0, unit="kg")
        check_range("mass_u_kg", part.mass_u_kg, low=0.0, unit="kg")
        check_range("copies", part.copies, low=1)
        check_finite("x_m", part.x_m)
        check_finite("y_m", part.y_m)
        check_finite("z_m", 0.0 if part.z_m is None else part.z_m)
        for name in ("x_u_m", "y_u_m", "z_u_m"):
            check_range(name, getattr(part, name), low=0.0, unit="m")
        if part.id in seen:
            raise Duplicate("id", part.id)
        seen.add(part.id)


@dataclass(frozen=True, slots=True)
class Design:
    """Rows over parts: load per kg, and its change per metre rearwards and per metre to the right."""

    shares: Array
    per_m: Array
    per_m_right: Array


def design(*, parts: Sequence[Part], geometry: Geometry, rows: Sequence[str]) -> Design:
    """The coefficients of every row for every part, with the sign of what was taken off."""
    shape = (len(rows), len(parts))
    out = Design(np.zeros(shape), np.zeros(shape), np.zeros(shape))
    for k, row in enumerate(rows):
        straight = line(row=row, geometry=geometry) if row in VEHICLE_ROWS else None
        for j, part in enumerate(parts):
            if straight is not None and part.axle is None and part.on == "vehicle":
                c0, c1 = straight
                out.shares[k, j], out.per_m[k, j] = part.sign * (c0 + c1 * part.x_m), part.sign * c1
                continue
            one = coefficient(
                row=row,
                geometry=geometry,
                x_m=part.x_m,
                y_m=part.y_m,
                on=part.on,
                axle=part.axle,
                roof=part.roof,
            )
            out.shares[k, j], out.per_m[k, j] = part.sign * one.share, part.sign * one.per_m
            out.per_m_right[k, j] = part.sign * one.per_m_right
    return out


def loads(
    *, parts: Sequence[Part], geometry: Geometry, rows: Sequence[str] = ROWS, base_correlation: float = 0.0
) -> Loads:
    """Mean and exact covariance of the loads of independent parts.

    W_k = sum_i s_i l_ki m_i + offset. cov(W_k, W_l) = sum_ij l_ki l_lj cov(m_i, m_j)
    + sum_i (m_i^2 + u_i^2) (g_ki g_li u_xi^2 + h_ki h_li u_yi^2), g and h the slopes of l: exact for a product
    of independent mass and position (the wheels of a flexible frame to first order). Copies of one article have
    the same unknown mass: cov(m_i, m_j) = u_i u_j. `base_correlation` in [-1, 1] links the two base masses.
    Masses >= 0 kg; no parts give zero.
    """
    check_geometry(geometry)
    check_parts(parts)
    check_range("base_correlation", base_correlation, low=-1.0, high=1.0)
    d = design(parts=parts, geometry=geometry, rows=rows)
    square = np.array([p.mass_kg**2 + p.mass_u_kg**2 for p in parts])
    along = square * np.array([p.x_u_m for p in parts]) ** 2
    across = square * np.array([p.y_u_m for p in parts]) ** 2
    cov = d.shares @ mass_times(parts, d.shares.T, base_correlation)
    cov += (d.per_m * along) @ d.per_m.T + (d.per_m_right * across) @ d.per_m_right.T
    mean = d.shares @ np.array([p.mass_kg for p in parts])
    mean += np.array([hitch_offset_kg(row=row, geometry=geometry) for row in rows])
    return Loads(tuple(rows), as_tuple(mean), as_tuples((cov + cov.T) / 2))


def mass_times(parts: Sequence[Part], columns: Array, base_correlation: float = 0.0) -> Array:
    """The mass covariance of parts times columns (n, m), without forming the n x n matrix."""
    u = np.array([p.mass_u_kg for p in parts])
    out: Array = (u**2)[:, None] * columns
    for members in article_groups([p.article for p in parts]):
        out[members] = np.outer(u[members], u[members] @ columns[members])
    base = [i for i, p in enumerate(parts) if p.id in ("base_front", "base_rear")]
    if base_correlation and len(base) == 2:
        i, j = base
        linked = base_correlation * u[i] * u[j]
        out[i] += linked * columns[j]
        out[j] += linked * columns[i]
    return out


def article_groups(articles: Sequence[str | None]) -> list[list[int]]:
    """Positions of the copies of one article, for articles with more than one."""
    groups: dict[str, list[int]] = {}
    for i, article in enumerate(articles):
        if article is not None:
            groups.setdefault(article, []).append(i)
    return [members for members in groups.values() if len(members) > 1]


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
    on: str = "vehicle",
) -> Part:
    """The content of a tank as a part: m = density x capacity x level, with the exact variance of the
    product.

    Density and capacity > 0, level in [0, 1], uncertainties >= 0; else refused.
    """
    check_range("density_kg_per_l", density_kg_per_l, above=0.0, unit="kg/L")
    check_range("capacity_l", capacity_l, above=0.0, unit="L")
    check_range("level", level, low=0.0, high=1.0)
    for name, place in (("x_m", x_m), ("y_m", y_m), ("z_m", 0.0 if z_m is None else z_m)):
        check_finite(name, place)
    check_range("x_u_m", x_u_m, low=0.0, unit="m")
    for name, u in (
        ("density_u_kg_per_l", density_u_kg_per_l),
        ("capacity_u_l", capacity_u_l),
        ("level_u", level_u),
    ):
        check_range(name, u, low=0.0)
    mass_kg, u_kg = product_moments(
        (density_kg_per_l, density_u_kg_per_l), (capacity_l, capacity_u_l), (level, level_u)
    )
    return Part(id, mass_kg, u_kg, x_m, x_u_m, y_m=y_m, z_m=z_m, on=on)


def base_parts(
    *,
    geometry: Geometry,
    front_kg: float,
    front_u_kg: float = 0.0,
    rear_kg: float,
    rear_u_kg: float = 0.0,
    z_m: float | None = None,
    z_u_m: float = 0.0,
) -> tuple[Part, Part]:
    """The delivered vehicle as two parts that stand on its axles; their height is one and the same."""
    rear_x = rear_x_m(geometry)
    return (
        Part("base_front", front_kg, front_u_kg, 0.0, z_m=z_m, z_u_m=z_u_m, axle="front"),
        Part("base_rear", rear_kg, rear_u_kg, rear_x, z_m=z_m, z_u_m=z_u_m, axle="rear"),
    )


def as_tuple(values: Array) -> tuple[float, ...]:
    """A vector as plain floats."""
    return tuple(float(value) for value in values)


def as_tuples(matrix: Array) -> tuple[tuple[float, ...], ...]:
    """A matrix as plain floats."""
    return tuple(as_tuple(row) for row in matrix)
