"""A scale and its errors: what is common to all its readings, and what is not.

The class error of a verified scale is split into gain (span), the same at any time, zero, the same within a
session, and the rest, which belongs to the set of axles on the deck.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from math import sqrt
from typing import Any

from .errors import NotKnown, Unknown, check_finite, check_range

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
LEAST_INTERVALS = {"III": 20, "IIII": 10}  # Min: below it no limit of error holds; R 76-1 (from memory)
INTERVAL_KG = 20.0  # the common public truck bridge (common practice, no source)
MAX_KG = 60_000.0  # likewise


@dataclass(frozen=True, slots=True)
class Bridge:
    """A scale: intervals e and d, class III or IIII with its Max, or `percent` of the reading."""

    key: str
    interval_kg: float = 20.0
    displayed_kg: float = 20.0
    accuracy_class: str = "III"
    max_kg: float = 60_000.0
    percent: float | None = None
    own_repeats: float = OWN_REPEATS


def bridge_key(*, bridge: Mapping[str, Any]) -> str | None:
    """What makes two bridges the same instrument: site number, else name; case and blanks ignored."""
    for name in ("key", "site_number", "name"):
        text = "".join((bridge.get(name) or "").split()).casefold()
        if text:
            return text
    return None


def bridge_of(*, key: str, body: Mapping[str, Any]) -> Bridge:
    """The scale of a weighing as recorded; one without name or number has the `key`.

    Blanks take the common public bridge: class III, e = d = 20 kg, Max 60 t. One stated in percent of the reading needs
    the percentage; else refused.
    """
    interval_kg = float(body.get("interval_kg") or INTERVAL_KG)
    percent = body.get("percent") if body.get("accuracy_class") == "percent" else None
    if percent is None and body.get("accuracy_class") == "percent":
        raise NotKnown("percent", "a scale whose error is stated in percent of the reading")
    return Bridge(
        key=bridge_key(bridge=body) or key,
        interval_kg=interval_kg,
        displayed_kg=float(body.get("displayed_interval_kg") or interval_kg),
        accuracy_class="III" if percent is not None else body.get("accuracy_class") or "III",
        max_kg=float(body.get("max_kg") or MAX_KG),
        percent=None if percent is None else float(percent),
    )


def reach_kg(*, bridge: Bridge) -> float | None:
    """Heaviest load that the table of its class reaches, kg; None for a scale stated in percent, which has none."""
    return None if bridge.percent is not None else _steps(bridge.accuracy_class)[-1][0] * _interval(bridge)


def can_weigh(*, bridge: Bridge, value_kg: float) -> bool:
    """Whether the table of its class reaches a load: `reach_kg` itself belongs to it."""
    check_finite("value_kg", value_kg)
    reach = reach_kg(bridge=bridge)
    return reach is None or value_kg <= reach


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
    ends = [end * _interval(bridge) for end, _ in _steps(bridge.accuracy_class)]
    loads = [min(end, bridge.max_kg) for end in ends]
    return min(_mpe(bridge, load) / load for load in loads) / sqrt(3)


def zero_u(*, bridge: Bridge) -> float:
    """Standard uncertainty of the zero of one session, kg."""
    return 0.0 if bridge.percent is not None else ZERO_SHARE * _interval(bridge) / sqrt(3)


def own_variance(*, bridge: Bridge, value_kg: float) -> float:
    """What is left of the class error for one axle set, kg^2: linearity, place on the deck; at least 0."""
    if bridge.percent is not None:
        return 0.0
    class_variance = _mpe(bridge, value_kg) ** 2 / 3
    return max(class_variance - (gain_u(bridge=bridge) * value_kg) ** 2 - zero_u(bridge=bridge) ** 2, 0.0)


def below_min(*, bridge: Bridge, value_kg: float) -> bool:
    """Whether a reading lies below the scale's Min, 20 e for class III and 10 e for IIII: warn, do not refuse."""
    if bridge.percent is not None:
        return False
    _steps(bridge.accuracy_class)
    check_finite("value_kg", value_kg)
    return value_kg < LEAST_INTERVALS[bridge.accuracy_class] * _interval(bridge)


def _interval(bridge: Bridge) -> float:
    return check_range("interval_kg", bridge.interval_kg, above=0.0, unit="kg")


def _mpe(bridge: Bridge, load_kg: float) -> float:
    return permissible_error(
        load_kg=load_kg, interval_kg=bridge.interval_kg, accuracy_class=bridge.accuracy_class
    )


def _steps(accuracy_class: str) -> tuple[tuple[int, float], ...]:
    if accuracy_class not in STEPS:
        raise Unknown("accuracy_class", accuracy_class, tuple(STEPS))
    return STEPS[accuracy_class]
