"""JSON to the domain's own types and back, by the type hints of what is called.

The vectors and the parity cases are plain JSON that both languages read. Here it becomes the dataclasses and
tuples that a Python function asks for, and a result becomes JSON again.
"""

import dataclasses
import importlib
import types
import typing
from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

Json = Any
POSITIONAL = ("linalg", "normal")  # modules whose functions take their arguments in order, in both languages


def decode(value: Json, hint: Any) -> Any:
    """One JSON value as the hinted type; {"$call": case} stands for what that call gives."""
    if isinstance(value, Mapping) and "$call" in value:
        return call(value["$call"]["module"], value["$call"])
    origin, inner = typing.get_origin(hint), typing.get_args(hint)
    if origin in (types.UnionType, typing.Union):
        if value is None:
            return None
        return decode(value, _member([one for one in inner if one is not type(None)], value))
    if dataclasses.is_dataclass(hint) and isinstance(hint, type):
        hints = typing.get_type_hints(hint)
        return hint(**{name: decode(one, hints[name]) for name, one in value.items()})
    if origin is tuple and Ellipsis not in inner:
        return tuple(decode(one, kind) for one, kind in zip(value, inner, strict=True))
    if origin in (tuple, Sequence, list) and isinstance(value, list):
        return tuple(decode(one, inner[0]) for one in value)
    if origin in (dict, Mapping):
        return {name: decode(one, inner[1]) for name, one in value.items()}
    return value


def _member(members: list[Any], value: Json) -> Any:
    """The member of a union that a value is meant for: events name their `kind`."""
    kind = value.get("kind") if isinstance(value, Mapping) else None
    named = (one for one in members if kind and dataclasses.is_dataclass(one))
    return next((one for one in named if _kind(one) == kind), members[0])


def _kind(one: Any) -> Any:
    return next((field.default for field in dataclasses.fields(one) if field.name == "kind"), None)


def plain(value: Any, *, sparse: bool = False) -> Json:
    """A result as JSON: dataclasses as objects, tuples and arrays as lists.

    `sparse` leaves out fields that have their default, as the other language may.
    """
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        kept = [one.name for one in dataclasses.fields(value) if not (sparse and _is_default(value, one))]
        return {name: plain(getattr(value, name), sparse=sparse) for name in kept}
    if isinstance(value, np.ndarray | np.generic):
        return value.tolist()
    if isinstance(value, Mapping):
        return {name: plain(one, sparse=sparse) for name, one in value.items()}
    if isinstance(value, tuple | list):
        return [plain(one, sparse=sparse) for one in value]
    if hasattr(value, "__dict__"):  # an object that is asked through methods: its plain figures
        return {name: one for name, one in vars(value).items() if isinstance(one, float | int)}
    return value


def _is_default(value: Any, field: dataclasses.Field[Any]) -> bool:
    return field.default is not dataclasses.MISSING and getattr(value, field.name) == field.default


def call(module: str, case: Mapping[str, Json]) -> Any:
    """Call a function of the domain with a case's input; `then` calls methods of what came back."""
    function = getattr(importlib.import_module(f"server.domain.{module}"), case["function"])
    found = _apply(function, case)
    for step in case.get("then", ()):
        found = _apply(getattr(found, step["call"]), step)
    return found


def _apply(function: Any, case: Mapping[str, Json]) -> Any:
    hints = typing.get_type_hints(function)
    if "args" in case:
        names = [name for name in hints if name != "return"]
        kinds = [hints[names[min(i, len(names) - 1)]] for i in range(len(case["args"]))]
        return function(*(decode(one, kind) for one, kind in zip(case["args"], kinds, strict=True)))
    return function(**{name: decode(one, hints.get(name, Any)) for name, one in case["in"].items()})


def differences(
    expected: Json,
    found: Json,
    *,
    rel: float,
    abs_: float,
    path: str = "",
    near: bool = False,
    floor: float = 0.0,
) -> list[str]:
    """Where a result differs; of an object only the expected fields count.

    `near` allows `rel` of the largest figure in the same vector or matrix: an element that cancels to almost
    nothing carries the rounding of its neighbours.
    """
    if isinstance(expected, Mapping) and isinstance(found, Mapping):
        pairs = [(f"{path}.{name}", one, found.get(name)) for name, one in expected.items()]
    elif isinstance(expected, list) and isinstance(found, list):
        if len(expected) != len(found):
            return [f"{path}: {len(found)} elements instead of {len(expected)}"]
        pairs = [(f"{path}[{i}]", one, found[i]) for i, one in enumerate(expected)]
        floor = max(floor, largest(expected)) if near else 0.0
    else:
        return _leaf(expected, found, rel=rel, abs_=max(abs_, rel * floor), path=path)
    return [
        text
        for name, one, other in pairs
        for text in differences(one, other, rel=rel, abs_=abs_, path=name, near=near, floor=floor)
    ]


def largest(value: Json) -> float:
    """The greatest size of a number in a vector or matrix."""
    if isinstance(value, list):
        return max(map(largest, value), default=0.0)
    return abs(value) if isinstance(value, float | int) and not isinstance(value, bool) else 0.0


def _leaf(expected: Json, found: Json, *, rel: float, abs_: float, path: str) -> list[str]:
    numbers = all(isinstance(one, float | int) and not isinstance(one, bool) for one in (expected, found))
    same = abs(found - expected) <= max(abs_, rel * abs(expected)) if numbers else expected == found
    return [] if same else [f"{path or 'result'}: {found!r} instead of {expected!r}"]
