"""What a bridge's figures say: their errors, the axle loads that fit them, and whether they agree.

A reading is the sum of the loads of a set of axles plus errors: rounding, the class error (shared gain,
shared zero, and the reading's own), and for split readings the levelness of the deck and the friction of
brakes and springs.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

import numpy as np

from .errors import Duplicate, NotFixed, NotKnown, OutOfRange, Unknown, check_range
from .linalg import Array, cho_solve, cholesky, least_squares, solve_lower
from .normal import chi2_upper
from .statics import as_tuple, as_tuples

# Maximum permissible errors at initial verification: up to `intervals` e the error is `share` e.
# OIML R 76-1:2006 table 6 (from memory); Directive 2014/31/EU annex I table 3 and UK S.I. 1995/1907 schedule
# 2 (read).
STEPS = {
    "III": ((500, 0.5), (2_000, 1.0), (10_000, 1.5)),
    "IIII": ((50, 0.5), (200, 1.0), (1_000, 1.5)),
}
IN_SERVICE = 2.0  # in service twice as much: 2014/31/EU annex I 4.2
ZERO_SHARE = 0.25  # accuracy of zero setting in e: OIML R 76-1 4.5.2 (from memory)
OWN_REPEATS = 0.5  # share of the own variance that the same axles meet again on the same bridge (assumed)
FRICTION_SHARE = 0.003  # brake and suspension friction of a split reading, of its value (assumed)
DECK_U_M = 0.02  # height of the deck against where the other axle stands (assumed)
DISAGREE_P = 0.01  # below this the readings do not agree with each other


@dataclass(frozen=True, slots=True)
class Bridge:
    """A scale: intervals e and d, class III or IIII with its Max, or `percent` of the reading."""

    key: str
    interval_kg: float = 20.0
    displayed_kg: float = 20.0
    accuracy_class: str = "III"
    max_kg: float = 60_000.0
    percent: float | None = None


@dataclass(frozen=True, slots=True)
class SplitSetup:
    """What moves load between axles while only a part of the vehicle stands on the deck."""

    total_kg: float
    wheelbase_m: float
    cg_height_m: float
    deck_u_m: float = DECK_U_M
    friction_share: float = FRICTION_SHARE
    level_correlation: float = 0.0


@dataclass(frozen=True, slots=True)
class Reading:
    """One figure of the deck and the axles that stood on it; `repeats` figures were averaged."""

    id: str
    axles: tuple[str, ...]
    value_kg: float
    split: bool = False
    repeats: int = 1


@dataclass(frozen=True, slots=True)
class ReadingError:
    """Standard uncertainties of one reading, kg: the parts, and all of them together."""

    rounding_kg: float
    gain_kg: float
    zero_kg: float
    own_kg: float
    tilt_kg: float
    friction_kg: float
    total_kg: float


@dataclass(frozen=True, slots=True)
class AxleLoads:
    """Axle loads that fit the readings best, with their covariance and the test of agreement."""

    axles: tuple[str, ...]
    mean_kg: tuple[float, ...]
    cov_kg2: tuple[tuple[float, ...], ...]
    chi2: float
    dof: int
    p: float | None
    agree: bool
    z: tuple[float, ...]


def permissible_error(
    *, load_kg: float, interval_kg: float, accuracy_class: str, in_service: bool = True
) -> float:
    """Largest permissible error at a load, kg; the upper end of a step belongs to it.

    interval > 0 kg, load from 0 to the class's last step (10 000 e for III, 1 000 e for IIII); else refused.
    Below Min (20 e, 10 e) no limit of error holds: a caller warns. Source: STEPS.
    """
    check_range("interval_kg", interval_kg, above=0.0, unit="kg")
    steps = _steps(accuracy_class)
    check_range("load_kg", load_kg, low=0.0, high=steps[-1][0] * interval_kg, unit="kg")
    share = next(share for end, share in steps if load_kg <= end * interval_kg)
    return share * interval_kg * (IN_SERVICE if in_service else 1.0)


def gain_u(*, bridge: Bridge) -> float:
    """Relative standard uncertainty of the gain, common to all readings on one bridge.

    The largest relative error that keeps within the permissible error at every load up to Max, uniform: its
    least over the ends of the steps, / sqrt 3. A scale stated as percent of the reading is all gain.
    """
    if bridge.percent is not None:
        return check_range("percent", bridge.percent, above=0.0, high=100.0) / 100 / sqrt(3)
    check_range("max_kg", bridge.max_kg, above=0.0, unit="kg")
    ends = [end * bridge.interval_kg for end, _ in _steps(bridge.accuracy_class)]
    loads = [min(end, bridge.max_kg) for end in ends]
    return min(_mpe(bridge, load) / load for load in loads) / sqrt(3)


def zero_u(*, bridge: Bridge) -> float:
    """Standard uncertainty of the zero of one session, kg."""
    return 0.0 if bridge.percent is not None else ZERO_SHARE * bridge.interval_kg / sqrt(3)


def own_variance(*, bridge: Bridge, value_kg: float) -> float:
    """What is left of the class error for one axle set, kg^2: linearity, place on the deck; at least 0."""
    if bridge.percent is not None:
        return 0.0
    class_variance = _mpe(bridge, value_kg) ** 2 / 3
    return max(class_variance - (gain_u(bridge=bridge) * value_kg) ** 2 - zero_u(bridge=bridge) ** 2, 0.0)


def reading_error(*, reading: Reading, bridge: Bridge, setup: SplitSetup | None = None) -> ReadingError:
    """All parts of one reading's error. A split reading needs `setup`; repeats divide only friction."""
    rounding = bridge.displayed_kg / sqrt(12)  # GUM F.2.2.1 (from memory)
    gain, zero = gain_u(bridge=bridge) * reading.value_kg, zero_u(bridge=bridge)
    own = sqrt(own_variance(bridge=bridge, value_kg=reading.value_kg))
    tilt = friction = 0.0
    if reading.split:
        tilt = tilt_u(setup)
        friction = _need(setup).friction_share * reading.value_kg / sqrt(reading.repeats)
    total = sqrt(rounding**2 + gain**2 + zero**2 + own**2 + tilt**2 + friction**2)
    return ReadingError(rounding, gain, zero, own, tilt, friction, total)


def tilt_u(setup: SplitSetup | None) -> float:
    """Load that a deck too high by u_dh moves between axles, kg: M h u_dh / L^2 (moment balance)."""
    setup = _need(setup)
    check_range("wheelbase_m", setup.wheelbase_m, above=0.0, unit="m")
    check_range("cg_height_m", setup.cg_height_m, above=0.0, unit="m")
    check_range("deck_u_m", setup.deck_u_m, low=0.0, unit="m")
    return setup.total_kg * setup.cg_height_m * setup.deck_u_m / setup.wheelbase_m**2


def reading_covariance(
    *,
    readings: Sequence[Reading],
    bridge: Bridge,
    setup: SplitSetup | None = None,
    with_gain: bool = True,
    own_share: float = 1.0,
) -> tuple[tuple[float, ...], ...]:
    """Covariance of the readings of one session, kg^2.

    u_g^2 r_i r_j + u_0^2 + delta_ij (d^2/12 + own_i + tilt_i^2 + friction_i^2) + rho tilt_i tilt_j for two
    split readings. `with_gain` False and `own_share` < 1 leave out what a caller carries as states of its
    own. Two readings of the same axles must be merged first; rho from -1/(n-1) to 1 for n split readings;
    else refused.
    """
    _check_readings(readings)
    split = [reading.split for reading in readings]
    n_split, rho = sum(split), setup.level_correlation if setup else 0.0
    check_range("level_correlation", rho, low=-1.0 / max(n_split - 1, 1), high=1.0)
    parts = [reading_error(reading=reading, bridge=bridge, setup=setup) for reading in readings]
    gains = np.array([part.gain_kg if with_gain else 0.0 for part in parts])
    tilts = np.array([part.tilt_kg for part in parts])
    v = np.outer(gains, gains) + zero_u(bridge=bridge) ** 2 + rho * np.outer(tilts, tilts)
    for i, part in enumerate(parts):
        v[i, i] += part.rounding_kg**2 + own_share * part.own_kg**2 + part.friction_kg**2
        v[i, i] += (1.0 - rho) * part.tilt_kg**2
    return as_tuples(v)


def merge_repeats(*, readings: Sequence[Reading]) -> tuple[Reading, ...]:
    """Readings of the same axles become one: the mean of the figures, counted as repeats.

    The same deck has the same step and the same class error each time, so only friction averages out.
    """
    groups: dict[frozenset[str], list[Reading]] = {}
    for reading in readings:
        groups.setdefault(frozenset(reading.axles), []).append(reading)
    return tuple(_merged(group) for group in groups.values())


def axle_loads(*, readings: Sequence[Reading], covariance: Sequence[Sequence[float]]) -> AxleLoads:
    """Axle loads by generalised least squares with a flat prior, and the redundancy test.

    Whitened with V = C C', then QR. chi2 = |residual|^2 with readings - axles degrees of freedom; p < 0.01
    means that the readings do not agree. z_i is the measurement test (Mah & Tamhane 1982, AIChE J. 28:828,
    from memory): with one redundancy all |z| are equal, and it cannot be said which reading is wrong.
    Readings that do not fix every axle named are refused with NotFixed.
    """
    _check_readings(readings)
    axles = tuple(dict.fromkeys(axle for reading in readings for axle in reading.axles))
    b = np.array([[float(axle in reading.axles) for axle in axles] for reading in readings])
    y = np.array([reading.value_kg for reading in readings])
    if len(readings) < len(axles) or np.linalg.matrix_rank(b) < len(axles):
        named = " and ".join(axles)
        raise NotFixed("axles", named)
    lower = cholesky(np.array(covariance))
    white = solve_lower(lower, b)
    mean, chi2 = least_squares(white, solve_lower(lower, y))
    cov = cho_solve(cholesky(white.T @ white), np.eye(len(axles)))
    dof = len(readings) - len(axles)
    p = chi2_upper(chi2, dof) if dof else None
    z = _measurement_tests(lower, b, cov, y - b @ mean) if dof else ()
    agree = p is None or p >= DISAGREE_P
    return AxleLoads(axles, as_tuple(mean), as_tuples(cov), chi2 if dof else 0.0, dof, p, agree, z)


def _measurement_tests(lower: Array, b: Array, cov: Array, residual: Array) -> tuple[float, ...]:
    weighted = cho_solve(lower, residual)
    left = cho_solve(lower, b)
    spread = cho_solve(lower, np.eye(len(residual))) - left @ cov @ left.T
    return as_tuple(np.abs(weighted) / np.sqrt(np.diag(spread)))


def _merged(group: Sequence[Reading]) -> Reading:
    first = group[0]
    count = sum(reading.repeats for reading in group)
    mean = sum(reading.value_kg * reading.repeats for reading in group) / count
    return Reading(first.id, first.axles, mean, any(reading.split for reading in group), count)


def _check_readings(readings: Sequence[Reading]) -> None:
    seen: set[frozenset[str]] = set()
    for reading in readings:
        check_range("value_kg", reading.value_kg, low=0.0, unit="kg")
        check_range("repeats", reading.repeats, low=1)
        if not reading.axles:
            raise OutOfRange("axles", 0, low=1)
        axles = frozenset(reading.axles)
        if axles in seen:
            raise Duplicate(
                "axles", "+".join(sorted(axles)), "Merge it with the earlier reading of the same axles"
            )
        seen.add(axles)


def _mpe(bridge: Bridge, load_kg: float) -> float:
    return permissible_error(
        load_kg=load_kg, interval_kg=bridge.interval_kg, accuracy_class=bridge.accuracy_class
    )


def _steps(accuracy_class: str) -> tuple[tuple[int, float], ...]:
    if accuracy_class not in STEPS:
        raise Unknown("accuracy_class", accuracy_class, tuple(STEPS))
    return STEPS[accuracy_class]


def _need(setup: SplitSetup | None) -> SplitSetup:
    if setup is None:
        raise NotKnown("cg_height_m", "a reading of a part of the vehicle")
    return setup
