"""A weighing as recorded, read as numbers: bridge, readings, and which loads the readings alone fix."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

import numpy as np

from .agreement import AxleLoads, axle_loads
from .book import Body, Row
from .bridge import Bridge
from .errors import NotFixed
from .weighing import Reading, SplitSetup, merge_repeats, reading_covariance

INTERVAL_KG, MAX_KG = 20.0, 60_000.0  # the common public truck bridge (common practice, no source)
CG_HEIGHT_M = 0.8  # laden mid-size four-wheel drive (from memory); only the deck's tilt rests on it
SHORT_WHEELBASE_M = 2.6  # where the wheelbase is not known: short makes the tilt rather too great (assumed)

AXLES_OF = {"front": frozenset({"front"}), "rear": frozenset({"rear"}), "gross": frozenset({"front", "rear"})}


@dataclass(frozen=True, slots=True)
class Measured:
    """A load that the readings fix without any plan."""

    row: str
    value_kg: float
    u_kg: float


@dataclass(frozen=True, slots=True)
class Visit:
    """Readings, the loads they fix, and whether they agree; p is None where there is nothing to test."""

    id: str
    at: str
    bridge: Bridge
    readings: tuple[Reading, ...]
    setup: SplitSetup
    measured: tuple[Measured, ...]
    axles: AxleLoads | None
    p: float | None
    agree: bool

    def of(self, row: str) -> Measured | None:
        """The measured load of one row, if the readings fix it."""
        return next((one for one in self.measured if one.row == row), None)


def read_visit(*, weighing: Row, vehicle: Body) -> Visit:
    """One weighing as numbers; readings that a person set aside do not count, repeats are merged.

    Blank figures of the bridge take the common public bridge: class III, e = d = 20 kg, Max 60 t.
    """
    body = weighing.body
    bridge = _bridge(weighing.id, body["bridge"])
    readings = merge_repeats(readings=_readings(body))
    setup = _setup(readings, vehicle)
    solved = _solve(readings, bridge, setup)
    both = solved if solved and set(solved.axles) == {"front", "rear"} else None
    return Visit(
        weighing.id,
        body["at"],
        bridge,
        readings,
        setup,
        _measured(readings, bridge, setup, solved),
        both,
        solved.p if solved else None,
        solved.agree if solved else True,
    )


def bridge_key(bridge: Body) -> str | None:
    """What makes two bridges the same instrument: site number, else name; case and blanks ignored."""
    for name in ("key", "site_number", "name"):
        text = "".join((bridge.get(name) or "").split()).casefold()
        if text:
            return text
    return None


def _bridge(weighing_id: str, body: Body) -> Bridge:
    interval_kg = float(body.get("interval_kg") or INTERVAL_KG)
    percent = body.get("percent") if body.get("accuracy_class") == "percent" else None
    return Bridge(
        key=bridge_key(body) or weighing_id,
        interval_kg=interval_kg,
        displayed_kg=float(body.get("displayed_interval_kg") or interval_kg),
        accuracy_class="III" if percent is not None else body.get("accuracy_class") or "III",
        max_kg=float(body.get("max_kg") or MAX_KG),
        percent=None if percent is None else float(percent),
    )


def _readings(body: Body) -> tuple[Reading, ...]:
    single = (body["bridge"].get("form") or "single_deck") == "single_deck"
    out: list[Reading] = []
    for one in body["readings"]:
        if one.get("struck_out") or not set(one["on_deck"]) <= {"front", "rear"}:
            continue
        axles = tuple(sorted(set(one["on_deck"])))
        split = one["split"] if one.get("split") is not None else single and len(axles) == 1
        out.append(Reading(one["id"], axles, float(one["value_kg"]), bool(split)))
    return tuple(out)


def _setup(readings: Sequence[Reading], vehicle: Body) -> SplitSetup:
    whole = [reading.value_kg for reading in readings if len(reading.axles) == 2]
    singles = [reading.value_kg for reading in readings if len(reading.axles) == 1]
    total_kg = whole[0] if whole else sum(singles) if len(singles) == 2 else 2.0 * sum(singles)
    return SplitSetup(
        total_kg=total_kg,
        wheelbase_m=float(vehicle.get("wheelbase_m") or SHORT_WHEELBASE_M),
        cg_height_m=float(vehicle.get("cg_height_m") or CG_HEIGHT_M),
    )


def _solve(readings: Sequence[Reading], bridge: Bridge, setup: SplitSetup) -> AxleLoads | None:
    if not readings:
        return None
    covariance = reading_covariance(readings=readings, bridge=bridge, setup=setup)
    try:
        return axle_loads(readings=readings, covariance=covariance)
    except NotFixed:
        return None


def _measured(
    readings: Sequence[Reading], bridge: Bridge, setup: SplitSetup, solved: AxleLoads | None
) -> tuple[Measured, ...]:
    if solved is None:
        return _direct(readings, bridge, setup)
    mean, cov = np.array(solved.mean_kg), np.array(solved.cov_kg2)
    out: list[Measured] = []
    for row, axles in AXLES_OF.items():
        if axles <= set(solved.axles):
            pick = np.array([float(axle in axles) for axle in solved.axles])
            out.append(Measured(row, float(pick @ mean), sqrt(float(pick @ cov @ pick))))
    return tuple(out)


def _direct(readings: Sequence[Reading], bridge: Bridge, setup: SplitSetup) -> tuple[Measured, ...]:
    """One total alone fixes no axle, but it is itself the load of a row."""
    out: list[Measured] = []
    for row, axles in AXLES_OF.items():
        for reading in readings:
            if set(reading.axles) == axles:
                cov = reading_covariance(readings=(reading,), bridge=bridge, setup=setup)
                out.append(Measured(row, reading.value_kg, sqrt(cov[0][0])))
    return tuple(out)
