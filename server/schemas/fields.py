"""Fields that the record schemas are made of: strict numbers, ids, instants, short text.

Each can also say by itself whether a value `fits`, without making an error: `quick.py` asks that first, for nearly all
that comes is right.
"""

import math
import re
from datetime import datetime
from typing import Any, ClassVar

from marshmallow import ValidationError, fields, validate

UUID = r"[0-9a-f]{8}-[0-9a-f]{4}-[1-8][0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}"
# half a surrogate pair is no character either: neither database can store it
_CONTROL = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f\ud800-\udfff]")


class Quantity(fields.Float):
    """A finite JSON number within a range; text is refused even when it would parse."""

    def __init__(self, low: float, high: float, *, unit: str = "", **kwargs: Any) -> None:
        span = f"{low:g} to {high:g} {unit}".rstrip()
        rule = validate.Range(low, high, error=f"{{input}} is not possible: it must be {span}.")
        kwargs.setdefault("allow_none", not kwargs.get("required", False))
        super().__init__(allow_nan=False, validate=rule, **kwargs)
        self.low, self.high = low, high
        self.error_messages = {
            **self.error_messages,
            "invalid": f"This must be a number from {span}.",
            "special": f"This must be a number from {span}.",
            "null": f"This cannot be blank: a number from {span} is needed.",
            "required": f"This is missing: a number from {span} is needed.",
        }

    def _validated(self, value: Any) -> float:
        if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
            raise self.make_error("invalid", input=value)
        return float(value) + 0.0  # turns -0.0 into 0.0

    def fits(self, value: Any) -> bool:
        """Whether this is a number within the range."""
        return type(value) in (int, float) and self.low <= value <= self.high


class Whole(fields.Integer):
    """A whole JSON number within a range."""

    def __init__(self, low: int, high: int, **kwargs: Any) -> None:
        rule = validate.Range(low, high, error=f"{{input}} is not possible: it must be {low} to {high}.")
        super().__init__(strict=True, validate=rule, **kwargs)
        self.low, self.high = low, high

    def _validated(self, value: Any) -> int:
        if isinstance(value, bool) or not isinstance(value, int):
            raise self.make_error("invalid", input=value)
        return int(super()._validated(value))

    def fits(self, value: Any) -> bool:
        """Whether this is a whole number within the range."""
        return type(value) is int and self.low <= value <= self.high


class Flag(fields.Boolean):
    """true or false; words and numbers that some take for them are refused."""

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> bool:
        if not isinstance(value, bool):
            raise self.make_error("invalid", input=value)
        return value

    def fits(self, value: Any) -> bool:
        """Whether this is true or false."""
        return type(value) is bool


class Text(fields.String):
    """Text without control characters, within a length."""

    def __init__(self, longest: int = 80, *, shortest: int = 0, **kwargs: Any) -> None:
        super().__init__(validate=[validate.Length(shortest, longest), _no_control], **kwargs)
        self.longest, self.shortest = longest, shortest

    def fits(self, value: Any) -> bool:
        """Whether this is such text."""
        return (
            type(value) is str and self.shortest <= len(value) <= self.longest and not _CONTROL.search(value)
        )


class Choice(fields.String):
    """One word of a fixed list."""

    def __init__(self, *words: str, **kwargs: Any) -> None:
        rule = validate.OneOf(words, error="{input} is not one of {choices}.")
        super().__init__(validate=rule, **kwargs)
        self.words = frozenset(words)

    def fits(self, value: Any) -> bool:
        """Whether this is one of the words."""
        return type(value) is str and value in self.words


class Form(fields.String):
    """Text of one form: all of it, for a pattern's `$` would let a line end through."""

    def __init__(self, pattern: str, sentence: str, **kwargs: Any) -> None:
        form = re.compile(pattern)

        def rule(text: str) -> None:
            if not form.fullmatch(text):
                raise ValidationError(sentence.format(input=text))

        metadata = {**kwargs.pop("metadata", {}), "pattern": f"^{pattern}$"}
        super().__init__(validate=rule, metadata=metadata, **kwargs)
        self.form = form

    def fits(self, value: Any) -> bool:
        """Whether this is text of the form."""
        return type(value) is str and self.form.fullmatch(value) is not None


class Id(Form):
    """An id made on a device: a UUID in lower case."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(UUID, "{input} is not a UUID in lower case.", **kwargs)


class _Moment(fields.String):
    """Text of a form that is also a real date."""

    form: ClassVar[re.Pattern[str]]
    format: ClassVar[str]
    sentence: ClassVar[str]

    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("metadata", {"format": self.format})
        super().__init__(validate=self._check, **kwargs)

    def fits(self, value: Any) -> bool:
        """Whether this is text of the form and on the calendar."""
        if type(value) is not str or not self.form.fullmatch(value):
            return False
        try:
            datetime.fromisoformat(value)
        except ValueError:
            return False
        return True

    def _check(self, text: str) -> None:
        if not self.fits(text):
            raise ValidationError(self.sentence.format(input=text))


class Instant(_Moment):
    """A UTC instant such as 2026-03-04T05:06:07.089Z; kept as text, so that it travels unchanged."""

    form = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}(\.[0-9]{1,6})?Z")
    format = "date-time"
    sentence = "{input} is not a UTC instant like 2026-03-04T05:06:07Z."


class Day(_Moment):
    """A calendar day such as 2026-03-04."""

    form = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
    format = "date"
    sentence = "{input} is not a day like 2026-03-04."


class Zone(Form):
    """An IANA time-zone name such as Australia/Darwin."""

    def __init__(self, **kwargs: Any) -> None:
        pattern = r"[A-Za-z][A-Za-z0-9_+\-]{0,30}(/[A-Za-z0-9_+\-]{1,30}){0,2}"
        super().__init__(pattern, "{input} is not a time zone's name.", **kwargs)


def _no_control(text: str) -> None:
    if _CONTROL.search(text):
        raise ValidationError("Control characters are not allowed.")
