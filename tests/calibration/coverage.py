"""How often 95 % intervals hold the truth after one visit with three readings, and how far each answer is off.

Twice: with the plan's errors uniform, and with the same errors normal. A uniform error of sd u never leaves
1.73 u, so the interval of an entry of which the visit says little always holds it; only normal errors show whether
the interval of a single mass holds the 95 % that it claims.
"""

from collections.abc import Sequence
from math import sqrt

from server.domain.agreement import axle_loads
from server.domain.posterior import Reconciled
from server.domain.reconcile import reconcile
from server.domain.statics import Loads, loads
from tests.calibration.figures import Figure, Result, Results, mean_of, root_mean_square, share
from tests.calibration.model import (
    ALL_THREE,
    GEOMETRY,
    LASTING,
    ROWS,
    contents,
    covariance,
    readings,
    session,
)
from tests.calibration.sheet import ITEMS
from tests.calibration.world import (
    Chance,
    Error,
    Scale,
    Vehicle,
    draw_contents,
    draw_day,
    draw_vehicle,
    normal,
    standing,
    uniform,
)
from tests.calibration.world import Loads as TrueLoads

Z95 = 1.96
SHAPES: dict[str, Error] = {"uniform": uniform, "normal": normal}
BAR = {"least": 93.0, "most": 97.0}


def holds(truth: float, value: float, u: float) -> float:
    """1 where the two-sided 95 % interval holds the truth."""
    return float(abs(truth - value) <= Z95 * u)


def trial(chance: Chance) -> Result:
    """One vehicle of either shape, weighed once."""
    return {
        f"{shape} {key}": value
        for shape, error in SHAPES.items()
        for key, value in _visit(chance, error).items()
    }


def _visit(chance: Chance, error: Error) -> dict[str, float]:
    vehicle, scale = draw_vehicle(chance, error), Scale(chance)
    day, full = draw_day(chance), draw_day(chance, full=True)
    lasting = list(vehicle.masses.values())
    now, then = (
        standing([*lasting, *draw_contents(chance, vehicle, day, error)]),
        standing([*lasting, *draw_contents(chance, vehicle, full, error)]),
    )
    taken = readings(scale, ALL_THREE, now, vehicle.cg_height_m)
    passing = contents(day)
    learnt = reconcile(lasting=LASTING, geometry=GEOMETRY, sessions=[session("s", taken, scale, passing)])
    out = {"rejected": float(learnt.p is not None and learnt.p < 0.05)}
    told = learnt.loads(lasting=LASTING, passing=passing, rows=ROWS, session="s")
    out |= _held("day", now, told)
    out |= _held("full", then, learnt.loads(lasting=LASTING, passing=contents(full), rows=ROWS))
    out |= _items(vehicle, learnt)
    gls = axle_loads(readings=taken, covariance=covariance(taken, scale, passing))
    found = {
        "gls": Loads(gls.rows, gls.mean_kg, gls.cov_kg2),
        "told": told,
        "plan": loads(parts=(*LASTING, *passing), geometry=GEOMETRY, rows=ROWS),
    }
    reading = next(one.value_kg for one in taken if one.id == "rear")
    answers = {name: (one.value_kg("rear"), one.u_kg("rear")) for name, one in found.items()}
    for name, (value, u) in {"reading": (reading, scale.interval_kg / sqrt(12)), **answers}.items():
        out |= {f"{name} error": value - now.rear, f"{name} holds": holds(now.rear, value, u)}
    return out


def _held(when: str, truth: TrueLoads, found: Loads) -> dict[str, float]:
    true = {"front": truth.front, "rear": truth.rear, "gross": truth.total}
    return {f"{when} {row}": holds(true[row], found.value_kg(row), found.u_kg(row)) for row in ROWS}


def _items(vehicle: Vehicle, learnt: Reconciled) -> dict[str, float]:
    out = {}
    for item in ITEMS:
        one = learnt.learnt(item.name)
        out[item.name] = holds(vehicle.masses[item.name].kg, one.now_kg, one.now_u_kg)
        out[f"{item.name} told"] = 100 * one.told
    return out | {"items": sum(out[item.name] for item in ITEMS) / len(ITEMS)}


def figures(results: Results) -> dict[str, list[Figure]]:
    """The figures of J.3's first paragraph."""
    return {
        "95 % intervals, errors of the plan uniform": _intervals(results, "uniform"),
        "95 % intervals, errors of the plan normal": _intervals(results, "normal"),
        "One item each, errors normal": [
            share(
                results,
                f"normal {item.name}",
                item.name,
                **BAR,
                note=f"{results[f'normal {item.name} told'].mean():.0f} % of its variance removed",
            )
            for item in ITEMS
        ],
        "Rear load of the day, errors of the plan uniform": _answers(results),
    }


def _intervals(results: Results, shape: str) -> list[Figure]:
    items = mean_of(results, f"{shape} items", "ten item masses", printed="94")
    # a uniform error of which nothing is learnt never leaves its interval: only too few held would be a fault
    asked = {"least": BAR["least"]} if shape == "uniform" else BAR
    whole: Sequence[tuple[str, str, str]] = (
        ("day front", "front of the day", ""),
        ("day rear", "rear of the day", "95"),
        ("day gross", "total of the day", ""),
        ("full rear", "rear at full tanks", "97"),
        ("full gross", "total at full tanks", ""),
    )
    return [
        Figure(items.name, 100 * items.value, 100 * items.se, printed="94", **asked),
        *(share(results, f"{shape} {key}", name, printed=said, **BAR) for key, name, said in whole),
        share(results, f"{shape} rejected", "chi2 rejects at 5 %", printed="3.4", most=5.0),
    ]


def _answers(results: Results) -> list[Figure]:
    sizes = (
        ("reading", "reading taken as it is", "14.3"),
        ("gls", "generalised least squares of three", "11.5"),
        ("told", "full reconciliation", "10.2"),
        ("plan", "plan alone", "26"),
    )
    shares = (
        ("reading", "reading ± d/sqrt 12 holds", "54", {}),
        ("gls", "generalised least squares holds", "95", BAR),
        ("told", "full reconciliation holds", "95", BAR),
    )
    return [
        *(root_mean_square(results, f"uniform {key} error", name, printed=said) for key, name, said in sizes),
        *(
            share(results, f"uniform {key} holds", name, printed=said, **bar)
            for key, name, said, bar in shares
        ),
    ]
