"""Hard stops on size. The aim is far below them: a file of 120 lines, a function of 10."""

import pytest
from architecture import python, typescript
from architecture.rooms import DATA_TABLES, FILE_LINES, FUNCTION_LINES, TABLES
from architecture.tree import GENERATED, files, report, text

SOURCES = (".py", ".ts", ".tsx", ".css", ".mjs")


def written(*suffixes: str) -> list[str]:
    return [name for name in files() if name.endswith(suffixes) and name not in GENERATED]


def test_files() -> None:
    lengths = {name: text(name).count("\n") for name in written(*SOURCES) if name not in DATA_TABLES}
    report([f"{name}:{n}: {n} lines, at most {FILE_LINES}" for name, n in lengths.items() if n > FILE_LINES])


def test_python_functions() -> None:
    report(
        [
            f"{name}:{node.lineno}: {node.name} has {python.body_lines(node)} lines, at most {FUNCTION_LINES}"
            for name in written(".py")
            if not name.startswith(TABLES)
            for node in python.functions(name)
            if python.body_lines(node) > FUNCTION_LINES
        ]
    )


def test_typescript_functions() -> None:
    report(
        [
            f"{name}:{one.line}: a function of {one.body_lines} lines, at most {FUNCTION_LINES}"
            for name in written(".ts", ".tsx")
            for one in counted(name)
            if one.body_lines > FUNCTION_LINES
        ]
    )


def counted(name: str) -> list[typescript.Function]:
    try:
        return typescript.functions(text(name))
    except ValueError as error:
        pytest.fail(f"{name}: {error}")


def test_exceptions_are_needed() -> None:
    missing = [name for name in DATA_TABLES if text(name).count("\n") <= FILE_LINES]
    report([f"{name}: no longer an exception, take it off the list" for name in missing])
