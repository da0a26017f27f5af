"""What is refused, and how it is said: the field, the value, the allowed range, the way out."""

import math


class DomainError(ValueError):
    """Something that cannot be computed. `code` is for programs, the message is a sentence for people."""

    code = "not_possible"

    def __init__(self, field: str, value: object, allowed: str, *, way_out: str = "") -> None:
        self.field = field
        self.value = value
        self.allowed = allowed
        sentence = f"{field} is {value!r}: it must be {allowed}."
        super().__init__(f"{sentence} {way_out}".strip())


class OutOfRange(DomainError):
    """A number outside its range, or no number at all."""

    code = "out_of_range"


class NotKnown(DomainError):
    """Something needed is blank."""

    code = "not_known"


class Unknown(DomainError, LookupError):
    """A name, id or class that is not there."""

    code = "unknown"

    __str__ = ValueError.__str__


class Duplicate(DomainError):
    """One id twice."""

    code = "duplicate"


class NotFixed(DomainError):
    """The readings do not fix every axle that they name."""

    code = "not_fixed"


class Redundant(DomainError, ArithmeticError):
    """The readings say the same thing to rounding, so that the equations cannot be solved."""

    code = "redundant"


def check_range(
    field: str,
    value: float,
    *,
    low: float = -math.inf,
    high: float = math.inf,
    above: float = -math.inf,
    unit: str = "",
) -> float:
    """The value, if it is a finite number with low <= value <= high and value > above; else OutOfRange."""
    number = isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value)
    if number and low <= value <= high and value > above:
        return float(value)
    raise OutOfRange(field, value, _span(low, high, above, unit))


def check_finite(field: str, value: float) -> float:
    """The value, if it is a finite number; else OutOfRange."""
    return check_range(field, value)


def _span(low: float, high: float, above: float, unit: str) -> str:
    if above > -math.inf:
        words = f"above {above:g}" + (f" and at most {high:g}" if high < math.inf else "")
    elif low > -math.inf:
        words = f"from {low:g} to {high:g}" if high < math.inf else f"at least {low:g}"
    else:
        words = f"at most {high:g}" if high < math.inf else "a finite number"
    return f"{words} {unit}".rstrip()
