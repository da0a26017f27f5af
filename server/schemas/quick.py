"""A first look at a record: most bodies are right, and need no machinery that could say what is wrong.

The answer is one-sided. True means that the schema has nothing to say; False only that the schema must be asked.
"""

from collections.abc import Callable, Mapping
from functools import cache
from typing import Any

from marshmallow import Schema, fields, validate

from .base import Strict, Typed
from .fields import Choice, Day, Flag, Form, Instant, Quantity, Text, Whole

Look = Callable[[Any], bool]
_FITTING = (Choice, Day, Flag, Form, Instant, Quantity, Text, Whole)


@cache
def look_at(schema: type[Schema]) -> Look:
    """A function that tells whether a value surely meets a schema."""
    made = schema()
    if not isinstance(made, Strict):
        raise TypeError(f"{schema.__name__} is no schema of a record.")
    looks = {name: _look(field) for name, field in made.fields.items() if name != "as_typed"}
    required = [name for name, field in made.fields.items() if field.required]

    def meets(value: Any) -> bool:
        if type(value) is not dict or not all(name in value for name in required):
            return False
        for name, one in value.items():
            look = looks.get(name)
            if look is None:
                if name != "as_typed" or not _typed(made, one, value):
                    return False
            elif not look(one):
                return False
        return not made.together(value)

    return meets


def _look(field: fields.Field[Any]) -> Look:
    look = _of_value(field)
    if field.allow_none:
        return lambda value: value is None or look(value)
    return look


def _of_value(field: fields.Field[Any]) -> Look:
    if isinstance(field, _FITTING):
        fits: Look = field.fits
        return fits
    if isinstance(field, fields.Nested):
        return look_at(type(field.schema))
    if isinstance(field, fields.List):
        inner, lengths = _look(field.inner), _lengths(field)
        return lambda value: (
            type(value) is list
            and all(low <= len(value) <= high for low, high in lengths)
            and all(map(inner, value))
        )
    raise TypeError(f"{field.name} is a {type(field).__name__}, at which nobody knows how to look.")


def _lengths(field: fields.List[Any]) -> list[tuple[float, float]]:
    found: list[tuple[float, float]] = []
    for rule in field.validators:
        if not isinstance(rule, validate.Length):
            raise TypeError(f"{field.name} has a rule that is no length.")
        low, high = (rule.equal, rule.equal) if rule.equal is not None else (rule.min, rule.max)
        found.append((low if low is not None else 0, high if high is not None else float("inf")))
    return found


def _typed(schema: Schema, typed: Any, body: Mapping[str, Any]) -> bool:
    if not isinstance(schema, Typed) or type(typed) is not dict:
        return False
    return all(
        _pair(pair) and schema.disagreement(name, pair[0], pair[1], body) is None
        for name, pair in typed.items()
    )


def _pair(pair: Any) -> bool:
    return (
        type(pair) is list
        and len(pair) == 2
        and all(type(one) is str and 1 <= len(one) <= 24 for one in pair)
    )
