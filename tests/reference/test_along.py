"""Loads along a way against a plain simulation: tiny steps, one litre at a time, and errors drawn at random."""

import numpy as np
import pytest

from server.domain.along import loads_along
from server.domain.axles import Geometry
from server.domain.happenings import Empty, Happening, Rest, Take, Vessel, Way
from server.domain.statics import Loads

WHEELBASE = 3.0
FIXED = Loads(("front", "rear"), (1300.0, 1200.0), ((90.0, -10.0), (-10.0, 120.0)))
PEOPLE = Loads(("front", "rear"), (1345.0, 1230.0), ((95.0, -9.0), (-9.0, 124.0)))
VESSELS = [
    Vessel("main", "fuel", 90.0, 80.0, 1.9, 2.0, 0.83, 0.007, 0.02, drain_order=2),
    Vessel("tail", "fuel", 45.0, 40.0, 4.0, 1.0, 0.83, 0.007, 0.02, drain_order=1),
    Vessel("fresh", "water", 60.0, 55.0, 2.5, 1.5, 1.0, 0.0, 0.02, grey_id="grey", grey_fraction=0.7),
    Vessel("grey", "grey", 50.0, 3.0, 4.4, 0.5, 1.0, 0.0, 0.02),
]
FIRST = Way(600.0, {"fuel": 75.0, "water": 30.0}, {"fuel": 9.0, "water": 5.0})
LAST = Way(400.0, {"fuel": 50.0, "water": 20.0}, {"fuel": 6.0, "water": 4.0})
EVENTS: list[Happening] = [
    FIRST,
    Take("fuel", None, 1.0),
    Rest(PEOPLE),
    Empty("grey"),
    LAST,
]


def test_tiny_steps_find_the_same_extremes() -> None:
    """A day driven in steps of 10 m: who empties first, where the grey water goes, which place is worst."""
    found = loads_along(fixed=FIXED, vessels=VESSELS, events=EVENTS, geometry=Geometry(WHEELBASE))
    kms, front, rear = _stepped()
    for row, loads in (("front", front), ("rear", rear)):
        k = found.rows.index(row)
        span = found.ranges[k]
        least, greatest = found.marks[span.least_at], found.marks[span.greatest_at]
        assert least.value_kg[k] == pytest.approx(loads.min(), abs=0.01)
        assert greatest.value_kg[k] == pytest.approx(loads.max(), abs=0.01)
        assert least.at_km == pytest.approx(kms[loads.argmin()], abs=0.02)
        assert greatest.at_km == pytest.approx(kms[loads.argmax()], abs=0.02)
    (kink,) = [mark for mark in found.marks if mark.cause == "ran_empty" and mark.event == 0]
    assert kink.at_km == pytest.approx(600 * 40 / 75)
    assert kink.empty == ("tail",)


def _stepped() -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    litres = {one.id: one.litres_l for one in VESSELS}
    x = {one.id: one.x_m for one in VESSELS}
    base, kms, out, at = FIXED.mean_kg, [], [], 0.0

    def note() -> None:
        mass = {name: held * (0.83 if name in ("main", "tail") else 1.0) for name, held in litres.items()}
        rear = sum(mass[name] * x[name] / WHEELBASE for name in mass)
        kms.append(at)
        out.append((base[0] + sum(mass.values()) - rear, base[1] + rear))

    note()
    for way in (FIRST, LAST):
        steps = round(way.distance_km / 0.01)
        for _ in range(steps):
            at += 0.01
            fuel, water = way.used_l["fuel"] / steps, way.used_l["water"] / steps
            from_tail = min(fuel, litres["tail"])
            litres["tail"] -= from_tail
            litres["main"] -= fuel - from_tail
            litres["fresh"] -= water
            litres["grey"] += 0.7 * water
            note()
        if way is FIRST:
            litres |= {"main": 90.0, "tail": 45.0}
            note()
            base = PEOPLE.mean_kg
            note()
            litres["grey"] = 0.0
            note()
    return np.array(kms), *np.array(out).T


def test_the_spread_is_that_of_errors_drawn() -> None:
    """200 000 vehicles with levels, litres used, densities and places of their own; sd of a sd 0.2 %."""
    rng, count = np.random.default_rng(12), 200_000
    found = loads_along(fixed=FIXED, vessels=VESSELS, events=[FIRST], geometry=Geometry(WHEELBASE))
    end = found.marks[-1]

    def drawn(mean: float, u: float) -> np.ndarray:
        return mean + u * rng.standard_normal(count)

    start = {one.id: drawn(one.litres_l, one.litres_u_l) for one in VESSELS}
    # the u of what is left at the end holds the starting levels too
    fuel = drawn(75.0, (9.0**2 - 2.0**2 - 1.0**2) ** 0.5)
    water = drawn(30.0, (5.0**2 - 1.5**2) ** 0.5)
    litres = {
        "tail": np.zeros(count),
        "main": start["main"] + start["tail"] - fuel,
        "fresh": start["fresh"] - water,
        "grey": start["grey"] + 0.7 * water,
    }
    base = rng.multivariate_normal(FIXED.mean_kg, FIXED.cov_kg2, count)
    front, rear = base[:, 0], base[:, 1]
    for one in VESSELS:
        mass = litres[one.id] * drawn(one.density_kg_per_l, one.density_u_kg_per_l)
        x = drawn(one.x_m, one.x_u_m)
        front, rear = front + mass * (1 - x / WHEELBASE), rear + mass * x / WHEELBASE
    assert end.value_kg == pytest.approx((front.mean(), rear.mean()), abs=0.1)
    assert end.u_kg == pytest.approx((front.std(), rear.std()), rel=0.008)
