"""Mass that nobody planned, at the tail: is it significant, does the zone hold its place, how wide is the zone."""

from math import nan

import numpy as np

from server.domain.agreement import axle_loads
from server.domain.fieller import Zone
from server.domain.statics import Loads, loads
from server.domain.unplanned import unplanned_mass
from tests.calibration.coverage import BAR, holds
from tests.calibration.figures import Figure, Result, Results, median_of, share
from tests.calibration.model import ALL_THREE, GEOMETRY, LASTING, contents, covariance, readings
from tests.calibration.sheet import ENDS_M, WHEELBASE_M
from tests.calibration.world import Chance, Mass, Scale, draw_contents, draw_day, draw_vehicle, standing

PLACE_M = 4.0
# kg -> how often J.3 has an interval, its median width, and C.3 how often the intervals shown hold the place
MASSES = {
    30.0: ("16", "5.5", "83"),
    60.0: ("44", "6.4", "94"),
    100.0: ("89", "4.0", "95"),
    200.0: ("100", "1.7", "95"),
}
ZONE_BAR = {"least": 94.0, "most": 96.0}


def inside(zone: Zone, x_m: float) -> bool:
    """Whether a place belongs to the zone; the whole line holds every place."""
    if zone.from_m is None or zone.to_m is None:
        return True
    between = zone.from_m <= x_m <= zone.to_m
    return between if zone.kind == "interval" else not between


def trial(chance: Chance) -> Result:
    """Each mass on a vehicle of its own."""
    return {f"{kg:.0f} {key}": value for kg in MASSES for key, value in _placed(chance, kg).items()}


def _placed(chance: Chance, kg: float) -> dict[str, float]:
    vehicle, scale = draw_vehicle(chance), Scale(chance)
    day = draw_day(chance)
    now = standing([*vehicle.masses.values(), *draw_contents(chance, vehicle, day), Mass(kg, PLACE_M)])
    taken = readings(scale, ALL_THREE, now, vehicle.cg_height_m)
    passing = contents(day)
    gls = axle_loads(readings=taken, covariance=covariance(taken, scale, passing))
    found = unplanned_mass(
        measured=Loads(gls.rows, gls.mean_kg, gls.cov_kg2),
        planned=loads(parts=(*LASTING, *passing), geometry=GEOMETRY, rows=("front", "rear")),
        rear_x_m=WHEELBASE_M,
        ends=ENDS_M,
    )
    zone = found.zone
    assert zone is not None
    shown = zone.kind == "interval" and zone.from_m is not None and zone.to_m is not None
    return {
        "held": float(inside(zone, PLACE_M)),
        "mass": holds(kg, found.mass_kg, found.u_kg),
        "interval": float(shown),
        "width": zone.to_m - zone.from_m if shown else nan,
    }


def figures(results: Results) -> dict[str, list[Figure]]:
    """What J.3 and C.3 say of unexplained mass."""
    return {f"Unexplained {kg:.0f} kg at {PLACE_M:.0f} m": _figures(results, kg) for kg in MASSES}


def _figures(results: Results, kg: float) -> list[Figure]:
    often, width, of_shown = MASSES[kg]
    key = f"{kg:.0f}"
    shown = results[f"{key} interval"] == 1.0
    found = [
        share(results, f"{key} held", "the zone holds the place", printed="94.5-96.0", **ZONE_BAR),
        share(results, f"{key} mass", "the interval of the mass holds it", **BAR),
        share(results, f"{key} interval", "a place is shown", printed=often),
        median_of(results[f"{key} width"][shown], "its median width", unit="m", printed=width),
    ]
    if np.any(shown):
        kept = {"held": results[f"{key} held"][shown]}
        found.append(share(kept, "held", "zones shown that hold it", printed=f"{of_shown} (C.3)"))
    return found
