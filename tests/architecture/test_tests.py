"""Tests are held to account too: none is skipped without a reason, none asserts nothing."""

import ast
import re
from collections.abc import Iterator

from architecture import python
from architecture.tree import line_of, report, text, under
from architecture.typescript import blank

SKIPS = {"skip", "skipif", "xfail", "importorskip"}
CHECKS = re.compile(r"^(?:assert|check|expect|must|same|raises|warns|fail|report|run_state_machine)")
SWITCHED_OFF = re.compile(
    r"\b(?:it|test|describe)(?:\.\w+)*\.(?:skip|only|todo|fails|skipIf|runIf)\b|\bx(?:it|describe)\("
)


def called(node: ast.AST) -> str:
    """The last name of what is called: `skip` of `pytest.mark.skip(...)`."""
    if isinstance(node, ast.Call):
        node = node.func
    return node.attr if isinstance(node, ast.Attribute) else node.id if isinstance(node, ast.Name) else ""


def reason_given(call: ast.Call, name: str) -> bool:
    reasons = [word.value for word in call.keywords if word.arg in ("reason", "msg")]
    if name == "skip" and not reasons:
        reasons = list(call.args)
    return any(not isinstance(one, ast.Constant) or len(str(one.value)) >= 10 for one in reasons)


def skips(name: str) -> Iterator[tuple[int, str, bool]]:
    """Each skip of a file: its line, its name, and whether a reason stands with it."""
    nodes = list(ast.walk(python.tree(name)))
    with_call = {id(node.func) for node in nodes if isinstance(node, ast.Call)}
    for node in nodes:
        if called(node) not in SKIPS or not isinstance(node, ast.Call | ast.Attribute):
            continue
        if isinstance(node, ast.Call) and "pytest" in ast.unparse(node.func):
            yield node.lineno, called(node), reason_given(node, called(node))
        elif id(node) not in with_call and ast.unparse(node).startswith("pytest.mark"):
            yield node.lineno, called(node), False


def test_each_skip_gives_its_reason() -> None:
    report(
        [
            f"{name}:{line}: {word} without a reason"
            for name in under("tests", suffixes=(".py",))
            for line, word, given in skips(name)
            if not given
        ]
    )


def test_no_browser_side_test_is_switched_off() -> None:
    report(
        [
            f"{name}:{line_of(text(name), match.start())}: {match[0]} is not for what is committed"
            for name in under("tests/web", "web", suffixes=(".ts", ".tsx"))
            for match in SWITCHED_OFF.finditer(blank(text(name)))
        ]
    )


def checks(node: python.FunctionNode, helpers: set[str]) -> bool:
    """Whether a test asserts, expects an error, or calls a helper that does."""
    return any(
        isinstance(one, ast.Assert)
        or (isinstance(one, ast.Call) and (CHECKS.match(called(one)) or called(one) in helpers))
        for one in ast.walk(node)
    )


def test_each_python_test_checks_something() -> None:
    broken = []
    for name in under("tests", suffixes=(".py",)):
        functions = python.functions(name)
        helpers = {one.name for one in functions if not one.name.startswith("test") and checks(one, set())}
        tests = [one for one in functions if one.name.startswith("test_")]
        broken += [
            f"{name}:{one.lineno}: {one.name} checks nothing" for one in tests if not checks(one, helpers)
        ]
    report(broken)


def test_each_browser_side_test_file_checks_something() -> None:
    broken = []
    for name in under("tests/web", suffixes=(".test.ts", ".test.tsx")):
        code = blank(text(name))
        tests = len(re.findall(r"\b(?:it|test)(?:\.\w+)*\(", code))
        wanted = len(re.findall(r"\b(?:expect|assert|check|same)\w*(?:\.\w+)*(?:<[^>]*>)*\(", code))
        if wanted < tests and "each(" not in code:
            broken.append(f"{name}:1: {tests} tests but {wanted} checks")
    report(broken)
