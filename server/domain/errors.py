"""What the domain refuses, and how it says so: the field, the value, what is allowed, and the way out."""

from collections.abc import Sequence
from numbers import Real
from typing import Any, ClassVar

# A figure beyond it is a slip of the finger, and its square could no longer be computed (our choice)
LARGEST = 1e30


class DomainError(ValueError):
    """A value that cannot be computed with. `code` is for programs, the message for people."""

    code = "refused"

    def __init__(
        self, field: str, value: Any, allowed: str, remedy: str = "Correct it", *, code: str | None = None
    ) -> None:
        self.field = field
        self.value = value
        self.allowed = allowed
        if code is not None:
            self.code = code
        super().__init__(f"{field} is {_shown(value)}, but allowed is {allowed}. {remedy}.")


class OutOfRange(DomainError):
    """A number outside a formula's range; `low` and `high` belong to the range, `above` and `below` do not."""

    code = "out_of_range"

    def __init__(
        self,
        field: str,
        value: float,
        low: float | None = None,
        high: float | None = None,
        unit: str = "",
        *,
        above: float | None = None,
        below: float | None = None,
    ) -> None:
        self.low, self.high, self.above, self.below, self.unit = low, high, above, below, unit
        allowed = _range_in_words(low, high, unit, above, below)
        super().__init__(field, value, allowed, "Correct the value or its unit")


class NotKnown(DomainError):
    """Something that the formula needs is blank; it is never guessed."""

    code = "not_known"

    def __init__(self, field: str, needed_for: str) -> None:
        super().__init__(field, None, f"a value, needed for {needed_for}", "Fill it in")


class Unknown(DomainError):
    """A name that is not among those there are."""

    code = "unknown"

    def __init__(self, field: str, value: Any, known: Sequence[Any]) -> None:
        names = ", ".join(str(one) for one in known) or "none"
        super().__init__(field, value, f"one of: {names}", "Choose one of these or add it first")


class Duplicate(DomainError):
    """The same name twice where each must stand once."""

    code = "duplicate"

    def __init__(self, field: str, value: Any, remedy: str = "Remove or rename one of them") -> None:
        super().__init__(field, value, "each name once", remedy)


class NotFixed(DomainError):
    """Readings that leave a load open."""

    code = "not_fixed"

    def __init__(self, field: str, value: Any) -> None:
        super().__init__(field, value, "loads that the readings fix", "Add a reading of what is missing")


class Redundant(DomainError, ArithmeticError):
    """A system that is singular to rounding: two of its equations say the same."""

    code = "redundant"

    def __init__(self, field: str = "readings", value: Any = "redundant to rounding") -> None:
        super().__init__(field, value, "equations that differ by more than rounding", "Leave one of them out")


class OnTheWay(DomainError):
    """Litres that a tank cannot give or take at a place of the way. `what`: dry, overfull or grey_full.

    `event` is the number of the event in the list, `tank_id` the tank, or what it holds where all of it is gone.
    """

    code = "on_the_way"
    _ALLOWED: ClassVar[dict[str, str]] = {
        "dry": "what is left",
        "overfull": "what fits",
        "grey_full": "what the grey tank takes",
    }

    def __init__(self, what: str, *, litres_l: float, tank_id: str, at_km: float, event: int) -> None:
        self.what, self.litres_l, self.tank_id = what, litres_l, tank_id
        self.at_km, self.event = at_km, event
        allowed = f"{self._ALLOWED[what]} ({tank_id}, at {at_km:g} km)"
        super().__init__("litres_l", litres_l, allowed, "Change what is taken on or used before")


def check_finite(field: str, value: Any) -> float:
    """Return the value as a float; refuse text, truth values, lists, None, infinities, NaN and sizes beyond 1e30."""
    number: Any = value
    if isinstance(value, bool) or not isinstance(value, float | Real):
        raise DomainError(field, value, "a finite number", "Type a number", code="not_finite")
    if not abs(number) <= LARGEST:
        allowed = f"a finite number from {-LARGEST:g} to {LARGEST:g}"
        raise DomainError(field, value, allowed, "Type a number", code="not_finite")
    return float(number)


def check_range(
    field: str,
    value: Any,
    *,
    low: float | None = None,
    high: float | None = None,
    unit: str = "",
    above: float | None = None,
    below: float | None = None,
) -> float:
    """Return the value as a float if low <= value <= high and above < value < below; refuse it otherwise."""
    number = check_finite(field, value)
    outside = (
        (low is not None and number < low)
        or (high is not None and number > high)
        or (above is not None and number <= above)
        or (below is not None and number >= below)
    )
    if outside:
        raise OutOfRange(field, number, low, high, unit, above=above, below=below)
    return number


def _shown(value: Any) -> str:
    if value is None:
        return "blank"
    return _number(value) if isinstance(value, float) else str(value)


def _number(value: float) -> str:
    """Fifteen digits: what lies a little above a bound must not look like it, and rounding must not be shown."""
    return f"{value:.15g}"


def _range_in_words(
    low: float | None, high: float | None, unit: str, above: float | None, below: float | None
) -> str:
    after = f" {unit}" if unit else ""
    lower = (
        f"above {_number(above)}"
        if above is not None
        else None
        if low is None
        else f"at least {_number(low)}"
    )
    upper = (
        f"below {_number(below)}"
        if below is not None
        else None
        if high is None
        else f"at most {_number(high)}"
    )
    return " and ".join(one for one in (lower, upper) if one) + after
