"""Mass that nobody planned: weighed minus planned, whether it is real, and where it may sit."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

import numpy as np

from .errors import check_finite, check_range
from .fieller import Zone, fieller
from .linalg import Array, finite
from .statics import Loads

Z95 = 1.959964  # two-sided 95 %


@dataclass(frozen=True, slots=True)
class Unplanned:
    """Weighed minus planned mass; `real` at 95 %.

    `finding`: placed; anywhere (the zone is the whole vehicle); no_single_mass (it lies outside: two errors, or a
    misread axle); too_small to be placed; or total_only, where the axles were not weighed.
    """

    mass_kg: float
    u_kg: float
    real: bool
    finding: str
    zone: Zone | None


def unplanned_mass(
    *, measured: Loads, planned: Loads, rear_x_m: float, ends: tuple[float, float], z: float = Z95
) -> Unplanned:
    """Unplanned mass and its zone from the front and rear axle, weighed and planned in the state of the day.

    r = measured - planned with covariance C_w + A P A' (they are independent); mass b = r_F + r_R, moment
    a = x_R r_R, place a/b by Fieller's set. A place is shown only for an interval, that is where the mass itself is
    significant; `ends` are the foremost and hindmost x of the vehicle, m. rear_x > 0 m, z > 0; else refused.
    """
    check_range("rear_x_m", rear_x_m, above=0.0, unit="m")
    for end in ends:
        check_finite("ends", end)
    found, cov = _axles(measured)
    expected, more = _axles(planned)
    turn = np.array([[0.0, rear_x_m], [1.0, 1.0]])
    moment_kgm, mass_kg = (float(one) for one in turn @ (found - expected))
    w = turn @ (cov + more) @ turn.T
    w_aa, w_ab, w_bb = float(w[0, 0]), float(w[0, 1]), float(w[1, 1])
    zone = fieller(moment_kgm=moment_kgm, mass_kg=mass_kg, w_aa=w_aa, w_ab=w_ab, w_bb=w_bb, z=z)
    return Unplanned(mass_kg, sqrt(w_bb), zone.kind == "interval", _finding(zone, ends), zone)


def unplanned_total(
    *, weighed_kg: float, weighed_u_kg: float, planned_kg: float, planned_u_kg: float, z: float = Z95
) -> Unplanned:
    """Unplanned mass from a total alone, which says nothing about its place."""
    check_finite("weighed_kg", weighed_kg)
    check_finite("planned_kg", planned_kg)
    check_range("weighed_u_kg", weighed_u_kg, low=0.0, unit="kg")
    check_range("planned_u_kg", planned_u_kg, low=0.0, unit="kg")
    check_range("z", z, above=0.0)
    mass_kg, u_kg = weighed_kg - planned_kg, sqrt(weighed_u_kg**2 + planned_u_kg**2)
    return Unplanned(mass_kg, u_kg, abs(mass_kg) > z * u_kg, "total_only", None)


def _axles(loads: Loads) -> tuple[Array, Array]:
    order = [loads.rows.index(row) for row in ("front", "rear")]
    mean, cov = finite("mean_kg", loads.mean_kg), finite("cov_kg2", loads.cov_kg2)
    return mean[order], cov[np.ix_(order, order)]


def _finding(zone: Zone, ends: Sequence[float]) -> str:
    if zone.kind != "interval" or zone.from_m is None or zone.to_m is None:
        return "too_small"
    if zone.to_m < ends[0] or zone.from_m > ends[1]:
        return "no_single_mass"
    return "anywhere" if zone.from_m <= ends[0] and zone.to_m >= ends[1] else "placed"
