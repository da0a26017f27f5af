"""Every error code that a program can meet, read out of the server's source."""

import ast
import itertools
import re
from collections.abc import Iterator
from pathlib import Path

SERVER = Path(__file__).resolve().parent.parent.parent / "server"
WORD = re.compile(r"[a-z]+(?:_[a-z]+)*")
SPEAKING = ("app.py", "api", "services", "sync", "domain/errors.py")  # who says a code with its sentence


def error_codes() -> set[str]:
    """Codes stand before their sentence, in a call or in a table, or are the value of a name `code`."""
    tops = [SERVER / name for name in SPEAKING]
    paths = [path for top in tops for path in ([top] if top.suffix else sorted(top.rglob("*.py")))]
    return {code for path in paths for code in _codes(ast.parse(path.read_text()))}


def _codes(tree: ast.Module) -> Iterator[str]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Call | ast.Tuple):
            parts = node.args if isinstance(node, ast.Call) else node.elts
            for code, sentence in itertools.pairwise(parts):
                if _is_word(code) and _is_sentence(sentence):
                    yield code.value
        elif isinstance(node, ast.keyword) and node.arg == "code" and _is_word(node.value):
            yield node.value.value
        elif isinstance(node, ast.Assign) and any(_named_code(target) for target in node.targets):
            yield from [node.value.value] if _is_word(node.value) else []
        elif isinstance(node, ast.arguments):
            yield from _defaults(node)


def _defaults(node: ast.arguments) -> Iterator[str]:
    for argument, value in zip(reversed(node.args), reversed(node.defaults), strict=False):
        if argument.arg == "code" and _is_word(value):
            yield value.value


def _named_code(node: ast.expr) -> bool:
    return isinstance(node, ast.Name) and node.id == "code"


def _is_word(node: ast.expr) -> bool:
    return isinstance(node, ast.Constant) and isinstance(node.value, str) and bool(WORD.fullmatch(node.value))


def _is_sentence(node: ast.expr) -> bool:
    if isinstance(node, ast.Constant):
        return isinstance(node.value, str) and " " in node.value and node.value.endswith((".", "?"))
    return isinstance(node, ast.JoinedStr) or (isinstance(node, ast.Name) and node.id == "message")
