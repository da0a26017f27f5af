"""An edit onto a body."""

from collections.abc import Mapping
from typing import Any

from .mutation import Body


def merge_edit(base: Body, edit: Body) -> dict[str, Any]:
    """The body after an edit.

    The edit's fields replace those of the base. `as_typed` is merged name by name; a changed figure without its
    own `as_typed` loses the old one, for those digits no longer say what the figure is.
    """
    typed = base.get("as_typed") or {}
    figures = {
        name: pair
        for name, pair in typed.items()
        if name not in edit or (name in base and same(edit[name], base[name]))
    }
    figures |= edit.get("as_typed") or {}
    body = {name: value for name, value in {**base, **edit}.items() if name != "as_typed"}
    return {**body, "as_typed": figures} if figures else body


def same(a: Any, b: Any) -> bool:
    """Equal as JSON values: the order of names does not matter, and true is not 1."""
    if isinstance(a, bool) or isinstance(b, bool):
        return a is b
    if isinstance(a, Mapping) and isinstance(b, Mapping):
        return a.keys() == b.keys() and all(same(value, b[name]) for name, value in a.items())
    if isinstance(a, list) and isinstance(b, list):
        return len(a) == len(b) and all(same(x, y) for x, y in zip(a, b, strict=True))
    return bool(a == b)
