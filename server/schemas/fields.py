"""Fields that the record schemas are made of: strict numbers, ids, instants, short text."""

import math
import re
from datetime import datetime
from typing import Any

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


class Whole(fields.Integer):
    """A whole JSON number within a range."""

    def __init__(self, low: int, high: int, **kwargs: Any) -> None:
        rule = validate.Range(low, high, error=f"{{input}} is not possible: it must be {low} to {high}.")
        super().__init__(strict=True, validate=rule, **kwargs)

    def _validated(self, value: Any) -> int:
        if isinstance(value, bool) or not isinstance(value, int):
            raise self.make_error("invalid", input=value)
        return int(super()._validated(value))


class Text(fields.String):
    """Text without control characters, within a length."""

    def __init__(self, longest: int = 80, *, shortest: int = 0, **kwargs: Any) -> None:
        super().__init__(validate=[validate.Length(shortest, longest), _no_control], **kwargs)


class Choice(fields.String):
    """One word of a fixed list."""

    def __init__(self, *words: str, **kwargs: Any) -> None:
        rule = validate.OneOf(words, error="{input} is not one of {choices}.")
        super().__init__(validate=rule, **kwargs)


class Form(fields.String):
    """Text of one form: all of it, for a pattern's `$` would let a line end through."""

    def __init__(self, pattern: str, sentence: str, **kwargs: Any) -> None:
        form = re.compile(pattern)

        def rule(text: str) -> None:
            if not form.fullmatch(text):
                raise ValidationError(sentence.format(input=text))

        metadata = {**kwargs.pop("metadata", {}), "pattern": f"^{pattern}$"}
        super().__init__(validate=rule, metadata=metadata, **kwargs)


class Id(Form):
    """An id made on a device: a UUID in lower case."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(UUID, "{input} is not a UUID in lower case.", **kwargs)


class Instant(fields.String):
    """A UTC instant such as 2026-03-04T05:06:07.089Z; kept as text, so that it travels unchanged."""

    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("metadata", {"format": "date-time"})
        super().__init__(validate=_is_instant, **kwargs)


class Day(fields.String):
    """A calendar day such as 2026-03-04."""

    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("metadata", {"format": "date"})
        super().__init__(validate=_is_day, **kwargs)


class Zone(Form):
    """An IANA time-zone name such as Australia/Darwin."""

    def __init__(self, **kwargs: Any) -> None:
        pattern = r"[A-Za-z][A-Za-z0-9_+\-]{0,30}(/[A-Za-z0-9_+\-]{1,30}){0,2}"
        super().__init__(pattern, "{input} is not a time zone's name.", **kwargs)


def _no_control(text: str) -> None:
    if _CONTROL.search(text):
        raise ValidationError("Control characters are not allowed.")


def _is_instant(text: str) -> None:
    try:
        if not re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d{1,6})?Z", text):
            raise ValueError(text)
        datetime.fromisoformat(text)
    except ValueError:
        raise ValidationError(f"{text} is not a UTC instant like 2026-03-04T05:06:07Z.") from None


def _is_day(text: str) -> None:
    try:
        if not re.fullmatch(r"\d{4}-\d\d-\d\d", text):
            raise ValueError(text)
        datetime.fromisoformat(text)
    except ValueError:
        raise ValidationError(f"{text} is not a day like 2026-03-04.") from None
