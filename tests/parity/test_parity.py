"""Both languages on the same random input: 1e-9 relative, or of the largest figure in the same vector.

A module takes part with a file in `makers` that yields calls from a seeded generator: {"function", "in" or "args"},
and where needed "then", "rel" and "abs".
"""

import importlib
import json
import pkgutil
import zlib
from typing import Any

import numpy as np
import pytest
from parity import makers
from parity.bundle import ask
from vectors.decode import call, differences, plain

from server.domain.errors import DomainError

MODULES = [found.name for found in pkgutil.iter_modules(makers.__path__)]


def calls_of(module: str) -> list[dict[str, Any]]:
    maker = importlib.import_module(f"parity.makers.{module}")
    rng = np.random.default_rng(zlib.crc32(b"parity " + module.encode()))
    made = [{"module": module, **one} for one in maker.calls(rng)]
    assert len(made) >= 20
    return made


def answer(one: dict[str, Any]) -> dict[str, Any]:
    try:
        return {"out": plain(call(one["module"], one), sparse=True)}
    except DomainError as error:
        return {"error": {"name": type(error).__name__, "field": error.field}}


@pytest.mark.parametrize("module", MODULES)
def test_both_languages_give_the_same(module: str) -> None:
    calls = calls_of(module)
    ours, theirs = [answer(one) for one in calls], ask(calls)
    wrong = []
    for one, mine, other in zip(calls, ours, theirs, strict=True):
        rel, abs_ = one.get("rel", 1e-9), one.get("abs", 1e-12)
        for text in differences(mine, other, rel=rel, abs_=abs_, near=True):
            wrong.append(f"{one['function']}: {text}\n  {json.dumps(one)[:600]}")
    assert not wrong, "\n".join(wrong[:5])


@pytest.mark.parametrize("module", MODULES)
def test_most_calls_are_answered(module: str) -> None:
    """Random input that is refused all the time would compare nothing."""
    answers = [answer(one) for one in calls_of(module)]
    assert sum("out" in one for one in answers) >= 0.7 * len(answers)
