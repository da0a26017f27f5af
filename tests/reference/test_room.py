"""The room left against linear programming, and against the whole list of parts brought to a limit by root finding."""

import numpy as np
import pytest
from scipy import optimize, stats

from server.domain.axles import Geometry, coefficient
from server.domain.room import LOWER, UPPER, Bound, most_kg, room_at
from server.domain.statics import Part, loads

GEOMETRY = Geometry(3.2)
ROWS = ("front", "rear", "gross")


def drawn(seed: int) -> tuple[list[Part], dict[str, float]]:
    rng = np.random.default_rng(seed)
    base = [Part("f", 1250.0, 8.0, 0.0), Part("r", 1100.0, 9.0, 3.2)]
    items = [
        Part(f"i{n}", m, 0.15 * m, rng.uniform(-0.8, 4.6), rng.uniform(0, 0.2))
        for n, m in enumerate(rng.uniform(5, 90, 6))
    ]
    parts = [*base, *items]
    found = loads(parts=parts, geometry=GEOMETRY, rows=ROWS)
    return parts, {row: found.value_kg(row) + rng.uniform(60, 400) for row in ROWS}


def bounds(parts: list[Part], limits: dict[str, float]) -> list[Bound]:
    found = loads(parts=parts, geometry=GEOMETRY, rows=ROWS)
    sides = [(row, UPPER, limits[row]) for row in ROWS] + [("front", LOWER, 0.0)]
    out = []
    for row, side, limit in sides:
        one = coefficient(row=row, geometry=GEOMETRY, x_m=0.0)
        out.append(Bound(row, side, limit, found.value_kg(row), found.u_kg(row), one.share, one.per_m))
    return out


@pytest.mark.parametrize("seed", range(20))
def test_a_linear_programme_finds_the_same_room(seed: int) -> None:
    parts, limits = drawn(seed)
    held, z = bounds(parts, limits), float(stats.norm.ppf(0.9))
    for x_m in np.linspace(-0.9, 4.6, 12):
        rows, sides = [], []
        for one in held:
            sign = 1.0 if one.side == UPPER else -1.0
            rows.append([sign * (one.share + one.per_m * x_m)])
            sides.append(sign * (float(one.limit_kg or 0.0) - one.mean_kg) - z * one.u_kg)
        best = optimize.linprog([-1.0], A_ub=rows, b_ub=sides, bounds=[(0, None)])
        assert best.success
        found = room_at(bounds=held, x_m=float(x_m), confidence=0.9).most_kg
        assert found == pytest.approx(float(best.x[0]), rel=1e-7)


@pytest.mark.parametrize("seed", range(20))
def test_an_unsure_mass_comes_to_the_limit_by_the_plan_itself(seed: int) -> None:
    """Brent's method on limit - load - z u of the whole list of parts with one more, mass and place unsure."""
    parts, limits = drawn(seed)
    z, share, x_u_m = float(stats.norm.ppf(0.95)), 0.15, 0.15
    for one in bounds(parts, limits)[:3]:
        limit_kg = limits[one.rating]
        for x_m in (1.0, 2.2, 4.4):
            if one.rating == "front" and x_m > 3.2:
                continue

            def spare(m: float, x: float = x_m, row: str = one.rating, limit: float = limit_kg) -> float:
                new = Part("new", m, share * m, x, x_u_m)
                found = loads(parts=[*parts, new], geometry=GEOMETRY, rows=[row])
                return limit - found.value_kg(row) - z * found.u_kg(row)

            root = optimize.brentq(spare, 0.0, 1e5, xtol=1e-10)
            found = most_kg(bound=one, x_m=x_m, mass_share=share, x_u_m=x_u_m)
            assert found == pytest.approx(root, rel=1e-8)
