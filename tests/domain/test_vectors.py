"""Every case in tests/vectors, read by Python; tests/web/domain/vectors.test.ts reads the same files."""

import json
from pathlib import Path
from typing import Any

import pytest
from vectors.decode import call, differences, plain
from vectors.generate import books

from server.domain.errors import DomainError

FILES = sorted((Path(__file__).parent.parent / "vectors").glob("*.json"))


def cases() -> list[Any]:
    out = []
    for file in FILES:
        book = json.loads(file.read_text())
        for group in book["functions"]:
            for case in group["cases"]:
                name = f"{book['module']}.{group['function']}: {case['name']}"
                whole = {**case, "function": group["function"], "module": book["module"]}
                out.append(pytest.param(whole, id=name))
    return out


def test_every_file_names_its_module_and_sources() -> None:
    assert FILES
    for file in FILES:
        book = json.loads(file.read_text())
        assert book["module"] == file.stem
        assert all(group["source"].strip() and group["cases"] for group in book["functions"]), file.name


@pytest.mark.parametrize("case", cases())
def test_vector(case: dict[str, Any]) -> None:
    if "error" in case:
        with pytest.raises(DomainError) as caught:
            call(case["module"], case)
        assert type(caught.value).__name__ == case["error"]["name"]
        assert caught.value.field == case["error"].get("field", caught.value.field)
    else:
        found = plain(call(case["module"], case))
        wrong = differences(case["out"], found, rel=case.get("rel", 1e-9), abs_=case.get("abs", 1e-12))
        assert not wrong, "\n".join(wrong)


def test_what_the_makers_give_is_what_stands() -> None:
    """`python tests/vectors/generate.py` would change nothing but rounding."""
    folder, stale = Path(__file__).parent.parent / "vectors", []
    for name, text in books().items():
        stands = json.loads((folder / name).read_text())
        stale += [f"{name}{one}" for one in differences(json.loads(text), stands, rel=1e-9, abs_=1e-12)]
    assert not stale, "\n".join(stale[:10])
