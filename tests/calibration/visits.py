"""Ten visits to one bridge are not ten bridges: the total, when half of the own error comes again and when all does."""

from server.domain.reconcile import reconcile
from tests.calibration.coverage import BAR, holds
from tests.calibration.figures import Figure, Result, Results, share
from tests.calibration.model import GEOMETRY, LASTING, contents, readings, session
from tests.calibration.world import Chance, Scale, draw_contents, draw_day, draw_vehicle, standing

VISITS = 10
STEADY = {"half": 0.5, "all": 1.0}  # the domain carries one half


def trial(chance: Chance) -> Result:
    """One vehicle weighed again and again, each time as a whole."""
    return {f"visits {name}": _held(chance, steady) for name, steady in STEADY.items()}


def _held(chance: Chance, steady: float) -> float:
    vehicle, scale = draw_vehicle(chance), Scale(chance, steady=steady)
    lasting = list(vehicle.masses.values())
    sessions = []
    for visit in range(VISITS):
        day = draw_day(chance)
        now = standing([*lasting, *draw_contents(chance, vehicle, day)])
        taken = readings(scale, ("total",), now, vehicle.cg_height_m)
        sessions.append(session(f"s{visit}", taken, scale, contents(day)))
    learnt = reconcile(lasting=LASTING, geometry=GEOMETRY, sessions=sessions)
    full = draw_day(chance, full=True)
    found = learnt.loads(lasting=LASTING, passing=contents(full), rows=["gross"])
    then = standing([*lasting, *draw_contents(chance, vehicle, full)])
    return holds(then.total, found.value_kg("gross"), found.u_kg("gross"))


def figures(results: Results) -> dict[str, list[Figure]]:
    """Beside the figures of C.1; that all of it comes again is a known limit and has no bar."""
    return {
        "Total at full tanks after ten visits to one bridge": [
            share(results, "visits half", "half of the own error comes again", **BAR),
            share(results, "visits all", "all of it comes again", printed="87 (C.1)"),
        ]
    }
