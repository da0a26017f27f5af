"""Consumption from full tank to full tank: litres over distance, with what they share of their errors.

Litres between two full fills are summed; there is no result at a partial fill (common practice, no source).
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import sqrt

import numpy as np

from .bank import Value
from .errors import OutOfRange, check_finite, check_range
from .linalg import tuples

# Class 0.5 dispenser: +-0.5 %, uniform. Directive 2014/32/EU annex VII table 2; class from memory.
PUMP_U = 0.005 / sqrt(3)
FULL_U_L = 1.0  # scatter of the automatic shut-off (common practice, no source)
STEP_KM = 1.0  # what the odometer counts in
FACTOR, FACTOR_U = 1.0, 0.0  # true km per km of an odometer that nobody has measured, and its u (assumed)


@dataclass(frozen=True, slots=True)
class Stop:
    """One stop at the odometer's value: litres of all tanks and pumps together.

    `full`: every tank is full after it. `missed_before`: a fill since the stop before was not entered.
    `taken_l` left the tanks without being burnt.
    """

    id: str
    odometer_km: float
    litres_l: float
    full: bool
    missed_before: bool = False
    litres_u_l: float | None = None
    taken_l: float = 0.0


@dataclass(frozen=True, slots=True)
class Accuracy:
    """u of litres (relative), of a full tank, the odometer's step, and k = true / indicated km with its u."""

    pump_u: float = PUMP_U
    full_u_l: float = FULL_U_L
    step_km: float = STEP_KM
    factor: float = FACTOR
    factor_u: float = FACTOR_U


@dataclass(frozen=True, slots=True)
class Segment:
    """From one full tank to the next: litres, true km, litres per 100 true km with its u."""

    from_id: str
    to_id: str
    litres_l: float
    litres_u_l: float
    distance_km: float
    l_per_100km: float
    u: float


def segments(*, stops: Sequence[Stop], accuracy: Accuracy | None = None) -> tuple[Segment, ...]:
    """All segments of a log in order of the odometer; stops at one odometer value are added first.

    c = 100 V/(k D); var V = sum (u_p V_i)^2 + 2 u_f^2; var D = 2 k^2 step^2/12;
    (u_c/c)^2 = var V/V^2 + var D/(k D)^2 + (u_k/k)^2. A missed fill voids the open segment; the next begins at
    the next full tank. Refused: an odometer that goes backwards, litres below 0. A segment in which nothing
    was put in (the tank was full twice without a drop) has rate 0 and the u of its filling error.
    """
    accuracy = _checked(accuracy)
    found: list[Segment] = []
    opened: Stop | None = None
    litres = variance = 0.0
    for stop in _merged(stops, accuracy):
        if stop.missed_before:
            opened = None
        litres += stop.litres_l - stop.taken_l
        variance += (stop.litres_u_l or 0.0) ** 2
        if not stop.full:
            continue
        if opened is not None:
            found.append(_segment(opened, stop, litres, variance, accuracy))
        opened, litres, variance = stop, 0.0, 0.0
    return tuple(found)


def pooled(*, segments: Sequence[Segment], accuracy: Accuracy | None = None) -> Value | None:
    """Consumption of several segments together: the ratio of sums, L per 100 true km; None without a segment.

    Between adjacent segments cov(V, V') = -u_f^2 and cov(D, D') = -k^2 step^2/12, so that only the first and
    the last filling error of a run remain; u_k/k counts once. A mean of ratios would overstate.
    """
    if not segments:
        return None
    accuracy = _checked(accuracy)
    adjacent = sum(one.to_id == following.from_id for one, following in pairwise(segments))
    litres = sum(one.litres_l for one in segments)
    distance = sum(one.distance_km for one in segments)
    litres_variance = sum(one.litres_u_l**2 for one in segments) - 2 * adjacent * accuracy.full_u_l**2
    distance_variance = (2 * len(segments) - 2 * adjacent) * (accuracy.factor * accuracy.step_km) ** 2 / 12
    return _rate(litres, litres_variance, distance, distance_variance, accuracy)


def segment_covariance(
    *, segments: Sequence[Segment], accuracy: Accuracy | None = None
) -> tuple[tuple[float, ...], ...]:
    """Covariance of the segments' rates, (L per 100 km)^2.

    Off the diagonal 100^2 cov(V, V')/(D D') + c c' cov(D, D')/(D D') + c c' (u_k/k)^2, the first two only
    for adjacent segments: they share a fill and an odometer reading.
    """
    accuracy = _checked(accuracy)
    rates = np.array([one.l_per_100km for one in segments])
    cov = np.outer(rates, rates) * (accuracy.factor_u / accuracy.factor) ** 2
    step_variance = (accuracy.factor * accuracy.step_km) ** 2 / 12
    for j, one in enumerate(segments):
        cov[j, j] = one.u**2
        if j + 1 < len(segments) and one.to_id == segments[j + 1].from_id:
            following = segments[j + 1]
            shared = 1e4 * accuracy.full_u_l**2 + one.l_per_100km * following.l_per_100km * step_variance
            cov[j, j + 1] -= shared / (one.distance_km * following.distance_km)
            cov[j + 1, j] = cov[j, j + 1]
    out: tuple[tuple[float, ...], ...] = tuples(cov)
    return out


def _checked(accuracy: Accuracy | None) -> Accuracy:
    accuracy = accuracy or Accuracy()
    check_range("factor", accuracy.factor, above=0.0)
    for name in ("pump_u", "full_u_l", "step_km", "factor_u"):
        check_range(name, getattr(accuracy, name), low=0.0)
    return accuracy


def _merged(stops: Sequence[Stop], accuracy: Accuracy) -> list[Stop]:
    merged: list[Stop] = []
    for stop in stops:
        check_finite("odometer_km", stop.odometer_km)
        check_range("litres_l", stop.litres_l, low=0.0, unit="L")
        check_range("litres_u_l", stop.litres_u_l or 0.0, low=0.0, unit="L")
        check_range("taken_l", stop.taken_l, low=0.0, unit="L")
        own = accuracy.pump_u * stop.litres_l if stop.litres_u_l is None else stop.litres_u_l
        before = merged[-1] if merged else None
        if before is not None and stop.odometer_km < before.odometer_km:
            raise OutOfRange("odometer_km", stop.odometer_km, before.odometer_km, None, "km")
        if before is None or stop.odometer_km > before.odometer_km:
            merged.append(replace(stop, litres_u_l=own))
            continue
        merged[-1] = replace(
            stop,
            litres_l=before.litres_l + stop.litres_l,
            full=before.full or stop.full,
            missed_before=before.missed_before or stop.missed_before,
            litres_u_l=sqrt((before.litres_u_l or 0.0) ** 2 + own**2),
            taken_l=before.taken_l + stop.taken_l,
        )
    return merged


def _segment(first: Stop, last: Stop, litres: float, variance: float, accuracy: Accuracy) -> Segment:
    distance = accuracy.factor * (last.odometer_km - first.odometer_km)
    litres_variance = variance + 2 * accuracy.full_u_l**2
    distance_variance = 2 * (accuracy.factor * accuracy.step_km) ** 2 / 12
    rate = _rate(litres, litres_variance, distance, distance_variance, accuracy)
    return Segment(first.id, last.id, litres, sqrt(litres_variance), distance, rate.mean, rate.u)


def _rate(
    litres: float, litres_variance: float, distance: float, distance_variance: float, accuracy: Accuracy
) -> Value:
    """100 V/D and its u, written without a division by V."""
    rate = 100 * litres / distance
    relative = distance_variance / distance**2 + (accuracy.factor_u / accuracy.factor) ** 2
    return Value(rate, sqrt(litres_variance * (100 / distance) ** 2 + rate**2 * relative))
