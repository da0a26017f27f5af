"""Readings of one session and their errors.

A reading is the sum of the loads of a set of axles plus errors: those of the scale, and for a split reading, with
a part of the vehicle beside the deck, the levelness of the deck and the friction of brakes and springs.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import sqrt

import numpy as np

from .bridge import Bridge, gain_u, own_variance, zero_u
from .errors import Duplicate, NotKnown, OutOfRange, check_range
from .statics import as_tuples

FRICTION_SHARE = 0.003  # brake and suspension friction of a split reading, of its value (assumed)
DECK_U_M = 0.02  # height of the deck against where the other axle stands (assumed)


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
    """One figure and the axles or wheels that stood on the deck; `repeats` figures were averaged.

    `deck` names the deck of a bridge or the pad of a set, where there are several: each has its own gain and
    zero. `approach` tells readings of one set taken from opposite directions apart. The load may differ from
    the visit's state: parts in `without` were off, or the trailer was `uncoupled`.
    """

    id: str
    axles: tuple[str, ...]
    value_kg: float
    split: bool = False
    repeats: int = 1
    deck: str = ""
    approach: str = ""
    without: tuple[str, ...] = ()
    uncoupled: bool = False

    @property
    def axle_key(self) -> str:
        """The set of axles, whatever their order."""
        return "+".join(sorted(self.axles))

    @property
    def state_key(self) -> tuple[tuple[str, ...], bool]:
        """What the load differed in from the visit's state."""
        return tuple(sorted(self.without)), self.uncoupled


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


def reading_error(*, reading: Reading, bridge: Bridge, setup: SplitSetup | None = None) -> ReadingError:
    """All parts of one reading's error. A split reading needs `setup`; repeats divide only friction."""
    _check_figure(reading)
    displayed_kg = check_range("displayed_kg", bridge.displayed_kg, above=0.0, unit="kg")
    rounding = displayed_kg / sqrt(12)  # GUM F.2.2.1 (from memory)
    gain, zero = gain_u(bridge=bridge) * reading.value_kg, zero_u(bridge=bridge)
    own = sqrt(own_variance(bridge=bridge, value_kg=reading.value_kg))
    tilt = friction = 0.0
    if reading.split:
        tilt = tilt_u(setup)
        share = check_range("friction_share", _need(setup).friction_share, low=0.0)
        friction = share * reading.value_kg / sqrt(reading.repeats)
    total = sqrt(rounding**2 + gain**2 + zero**2 + own**2 + tilt**2 + friction**2)
    return ReadingError(rounding, gain, zero, own, tilt, friction, total)


def tilt_u(setup: SplitSetup | None) -> float:
    """Load that a deck too high by u_dh moves between axles, kg: M h u_dh / L^2 (moment balance)."""
    setup = _need(setup)
    check_range("wheelbase_m", setup.wheelbase_m, above=0.0, unit="m")
    check_range("total_kg", setup.total_kg, low=0.0, unit="kg")
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

    u_g^2 r_i r_j + u_0^2 (on one deck) + delta_ij (d^2/12 + own_i + tilt_i^2 + friction_i^2) + rho tilt_i tilt_j
    for two split readings. `with_gain` False and `own_share` < 1 leave out what a caller carries as states of
    its own. rho from -1/(n-1) to 1 for n split readings; repeats must have been merged; else refused.
    """
    check_readings(readings)
    check_range("own_share", own_share, low=0.0, high=1.0)
    n_split, rho = sum(reading.split for reading in readings), setup.level_correlation if setup else 0.0
    check_range("level_correlation", rho, low=-1.0 / max(n_split - 1, 1), high=1.0)
    parts = [reading_error(reading=reading, bridge=bridge, setup=setup) for reading in readings]
    gains = np.array([part.gain_kg if with_gain else 0.0 for part in parts])
    tilts = np.array([part.tilt_kg for part in parts])
    same_deck = np.array([[one.deck == other.deck for other in readings] for one in readings])
    v = same_deck * (np.outer(gains, gains) + zero_u(bridge=bridge) ** 2) + rho * np.outer(tilts, tilts)
    for i, part in enumerate(parts):
        v[i, i] += part.rounding_kg**2 + own_share * part.own_kg**2 + part.friction_kg**2
        v[i, i] += (1.0 - rho) * part.tilt_kg**2
    return as_tuples(v)


def merge_repeats(*, readings: Sequence[Reading]) -> tuple[Reading, ...]:
    """Readings of the same axles in the same state on the same deck become one: the mean of the figures.

    The same deck has the same step and the same class error each time, so only friction averages out.
    """
    groups: dict[object, list[Reading]] = {}
    for reading in readings:
        _check_figure(reading)
        groups.setdefault(_key(reading), []).append(reading)
    return tuple(_merged(group) for group in groups.values())


def check_readings(readings: Sequence[Reading]) -> None:
    """Refuse a load below zero, a reading of nothing, and repeats that have not been merged."""
    seen: set[object] = set()
    for reading in readings:
        _check_figure(reading)
        if not reading.axles:
            raise OutOfRange("axles", 0, low=1)
        if _key(reading) in seen:
            raise Duplicate("axles", reading.axle_key, "Merge it with the earlier reading of the same axles")
        seen.add(_key(reading))


def _check_figure(reading: Reading) -> None:
    check_range("value_kg", reading.value_kg, low=0.0, unit="kg")
    check_range("repeats", reading.repeats, low=1)


def _merged(group: Sequence[Reading]) -> Reading:
    count = sum(reading.repeats for reading in group)
    mean = sum(reading.value_kg * reading.repeats for reading in group) / count
    return replace(group[0], value_kg=mean, split=any(reading.split for reading in group), repeats=count)


def _key(reading: Reading) -> object:
    return reading.axle_key, reading.deck, reading.approach, reading.state_key


def _need(setup: SplitSetup | None) -> SplitSetup:
    if setup is None:
        raise NotKnown("cg_height_m", "a reading of a part of the vehicle")
    return setup
