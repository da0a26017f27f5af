"""The two languages: file for file, function for function; and each public function says what it does."""

import re

import pytest
from architecture import python, typescript
from architecture.rooms import NUMPY, ONLY_PYTHON, ONLY_TYPESCRIPT
from architecture.tree import files, report, text, under

MIRRORED = ("domain", "sync")


def camel(name: str) -> str:
    """`snake_case` as `camelCase`."""
    return re.sub(r"_(\w)", lambda match: match[1].upper(), name)


def python_names(room: str) -> dict[str, set[str]]:
    """File -> what a twin may be called: the function's name, or for a method `f` also `fOf(object)`."""
    return {
        name.removeprefix("server/").removesuffix(".py"): {
            twin
            for label, _ in python.public(name)
            for twin in [camel(label.split(".")[-1])]
            for twin in ([twin, f"{twin}Of"] if "." in label else [twin])
        }
        for name in under(f"server/{room}", suffixes=(".py",))
        if not name.endswith("__init__.py")
    }


def needed(room: str) -> set[str]:
    """`file:function` for each function of a module, methods left out: a mirror may inline them."""
    return {
        f"{file}:{camel(label)}"
        for file in python_names(room)
        for label, _ in python.public(f"server/{file}.py")
        if "." not in label
    }


def typescript_names(room: str) -> dict[str, set[str]]:
    return {
        name.removeprefix("web/src/").rsplit(".", 1)[0]: set(typescript.exported(text(name)))
        for name in under(f"web/src/{room}", suffixes=(".ts", ".tsx"))
    }


def excused(entry: str, reasons: dict[str, str]) -> bool:
    return entry in reasons or entry.split(":")[0] in reasons


@pytest.mark.parametrize("room", MIRRORED)
def test_each_python_function_has_its_twin(room: str) -> None:
    twins = typescript_names(room)
    lost = [
        entry
        for entry in sorted(needed(room))
        if not excused(entry, ONLY_PYTHON)
        and entry.split(":")[1] not in twins.get(entry.split(":")[0], set())
    ]
    report([f"web/src/{entry.replace(':', '.ts: ')}: written in Python alone" for entry in lost])


@pytest.mark.parametrize("room", MIRRORED)
def test_each_typescript_function_has_its_twin(room: str) -> None:
    twins = python_names(room)
    lost = [
        f"{file}:{name}"
        for file, names in typescript_names(room).items()
        for name in sorted(names - twins.get(file, set()))
        if not excused(f"{file}:{name}", ONLY_TYPESCRIPT)
    ]
    report([f"server/{entry.replace(':', '.py: ')}: written in TypeScript alone" for entry in lost])


def test_exceptions_still_stand() -> None:
    def there(entry: str, top: str, suffix: str) -> bool:
        file, _, name = entry.partition(":")
        path = f"{top}/{file}.{suffix}"
        return path in files() and (not name or name in text(path) or snake(name) in text(path))

    gone = [entry for entry in ONLY_PYTHON if not there(entry, "server", "py")]
    gone += [entry for entry in ONLY_TYPESCRIPT if not there(entry, "web/src", "ts")]
    report([f"{entry}: an exception for what is not there" for entry in gone])


def snake(name: str) -> str:
    """`camelCase` as `snake_case`."""
    return re.sub(r"([A-Z])", lambda match: "_" + match[1].lower(), name)


def test_every_public_python_function_is_described() -> None:
    report(
        [
            f"{name}:{node.lineno}: {label} has no docstring"
            for name in under("server/domain", "server/sync", suffixes=(".py",))
            for label, node in python.public(name)
            if not described(python.ast.get_docstring(node))
        ]
    )


def described(docstring: str | None) -> bool:
    """A summary that is a sentence."""
    return bool(docstring) and docstring.split("\n\n")[0].rstrip().endswith((".", ":", "?"))


def test_every_public_typescript_function_is_described() -> None:
    broken = []
    for name in under("web/src/domain", "web/src/sync", suffixes=(".ts",)):
        lines = text(name).splitlines()
        for function, line in typescript.exported(text(name)).items():
            entry = f"{name.removeprefix('web/src/').removesuffix('.ts')}:{function}"
            if ONLY_TYPESCRIPT.get(entry) != NUMPY and not lines[line - 2].rstrip().endswith("*/"):
                broken.append(f"{name}:{line}: {function} has no description")
    report(broken)
