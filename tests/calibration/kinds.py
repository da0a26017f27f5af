"""What each kind of weighing leaves open at full tanks: the sd that is stated, and the error that is truly left."""

from math import sqrt

import numpy as np

from server.domain.reconcile import reconcile
from tests.calibration.figures import Figure, Result, Results, root_mean_square
from tests.calibration.model import ALL_THREE, GEOMETRY, LASTING, ROWS, contents, readings, session
from tests.calibration.world import Chance, Scale, draw_contents, draw_day, draw_vehicle, standing

# name, readings, scale, and the sd of front, rear and total that J.3 prints
KINDS: tuple[tuple[str, tuple[str, ...], dict[str, float], tuple[str, str, str]], ...] = (
    ("none", (), {}, ("18.7", "25.8", "30.5")),
    ("20 kg, total only", ("total",), {}, ("16.5", "18.1", "13.5")),
    ("20 kg, front + rear", ("front", "rear"), {}, ("11.5", "13.1", "17.8")),
    ("20 kg, all three", ALL_THREE, {}, ("10.0", "11.1", "12.4")),
    ("10 kg, all three", ALL_THREE, {"interval_kg": 10.0, "max_kg": 40_000.0}, ("7.0", "8.0", "8.9")),
    ("5 kg, all three", ALL_THREE, {"interval_kg": 5.0, "max_kg": 20_000.0}, ("5.9", "7.1", "8.5")),
    ("pads 1 %, all three", ALL_THREE, {"interval_kg": 2.0, "percent": 1.0}, ("8.2", "9.8", "15.5")),
)
APART = 0.05  # stated and true sd may differ by so much (assumed)


def trial(chance: Chance) -> Result:
    """One vehicle, weighed in every way."""
    vehicle, day, full = draw_vehicle(chance), draw_day(chance), draw_day(chance, full=True)
    lasting = list(vehicle.masses.values())
    now = standing([*lasting, *draw_contents(chance, vehicle, day)])
    then = standing([*lasting, *draw_contents(chance, vehicle, full)])
    true = {"front": then.front, "rear": then.rear, "gross": then.total}
    out = {}
    for name, sets, about, _ in KINDS:
        scale = Scale(chance, **about)
        taken = readings(scale, sets, now, vehicle.cg_height_m)
        learnt = reconcile(
            lasting=LASTING, geometry=GEOMETRY, sessions=[session("s", taken, scale, contents(day))]
        )
        found = learnt.loads(lasting=LASTING, passing=contents(full), rows=ROWS)
        for row in ROWS:
            out[f"{name} {row} error"] = found.value_kg(row) - true[row]
            out[f"{name} {row} variance"] = found.u_kg(row) ** 2
    return out


def figures(results: Results) -> dict[str, list[Figure]]:
    """The table of J.3: the true error beside the sd that is stated."""
    made = []
    for name, _, _, printed in KINDS:
        for row, said in zip(ROWS, printed, strict=True):
            stated = sqrt(float(np.mean(results[f"{name} {row} variance"])))
            made.append(
                root_mean_square(
                    results,
                    f"{name} {row} error",
                    f"{name}: {'total' if row == 'gross' else row}",
                    printed=said,
                    least=stated * (1 - APART),
                    most=stated * (1 + APART),
                    note=f"stated {stated:.1f}",
                )
            )
    return {"Error left at full tanks, by kind of weighing": made}
