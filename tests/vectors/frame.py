"""How a vector file is put together: functions with their source, each with cases."""

from collections.abc import Sequence
from typing import Any

from vectors.decode import call, plain

Json = Any
SELF = "our own arithmetic in Python, so that the other language and later versions give the same"


def function(name: str, source: str, *cases: dict[str, Json]) -> dict[str, Json]:
    """One function's cases; `source` says where the expected values come from."""
    return {"function": name, "source": source, "cases": list(cases)}


def case(
    name: str, /, out: Json = None, *, rel: float = 1e-9, abs: float = 1e-12, **given: Json
) -> dict[str, Json]:
    """One case by keyword arguments."""
    return {"name": name, "in": given, "out": plain(out), "rel": rel, "abs": abs}


def by_order(
    name: str, args: Sequence[Json], out: Json, *, rel: float = 1e-9, abs: float = 1e-12
) -> dict[str, Json]:
    """One case by arguments in order."""
    return {"name": name, "args": list(args), "out": plain(out), "rel": rel, "abs": abs}


def refused(name: str, /, error: str, field: str, **given: Json) -> dict[str, Json]:
    """One case that must be refused."""
    return {"name": name, "in": given, "error": {"name": error, "field": field}}


def refused_by_order(name: str, args: Sequence[Json], error: str, field: str) -> dict[str, Json]:
    """One case by arguments in order that must be refused."""
    return {"name": name, "args": list(args), "error": {"name": error, "field": field}}


def then(one: dict[str, Json], method: str, out: Json, *args: Json, **given: Json) -> dict[str, Json]:
    """The same case, asked further through a method of its result, by keyword or by order."""
    step = {"call": method, **({"args": list(args)} if args else {"in": given})}
    return {**one, "then": [*one.get("then", ()), step], "out": plain(out)}


def ours(module: str, name: str, /, function_name: str, **given: Json) -> dict[str, Json]:
    """A case whose expected value our own Python gives."""
    made = {"function": function_name, "in": given}
    return case(name, plain(call(module, made)), **given)
