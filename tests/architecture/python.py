"""What the rules need to know of Python: its imports and its functions."""

import ast
from dataclasses import dataclass
from functools import cache
from pathlib import PurePosixPath

from .tree import text

FunctionNode = ast.FunctionDef | ast.AsyncFunctionDef


@dataclass(frozen=True)
class Import:
    """One module that is imported, and the names taken from it; none where the module itself is taken."""

    module: str
    names: tuple[str, ...]
    line: int


@cache
def tree(name: str) -> ast.Module:
    """A file's syntax tree."""
    return ast.parse(text(name), filename=name)


def imports(name: str) -> list[Import]:
    """All imports of a file, those within functions too, with relative ones spelled out."""
    found = []
    for node in ast.walk(tree(name)):
        if isinstance(node, ast.Import):
            found += [Import(alias.name, (), node.lineno) for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            names = tuple(alias.name for alias in node.names)
            module = _absolute(name, node.level, node.module or "")
            if "." in module:
                found.append(Import(module, names, node.lineno))
            else:
                found += [Import(f"{module}.{one}", (), node.lineno) for one in names]
    return found


def _absolute(name: str, level: int, module: str) -> str:
    if not level:
        return module
    package = PurePosixPath(name).parent.parts
    return ".".join([*package[: len(package) - level + 1], *([module] if module else [])])


def functions(name: str) -> list[FunctionNode]:
    """Every function and method, inner ones too."""
    return [node for node in ast.walk(tree(name)) if isinstance(node, FunctionNode)]


def body_lines(node: FunctionNode) -> int:
    """Lines of a function's body without its docstring."""
    body = node.body[1:] if ast.get_docstring(node) is not None else node.body
    return node.body[-1].end_lineno - body[0].lineno + 1 if body else 0  # type: ignore[operator]


def public(name: str) -> list[tuple[str, FunctionNode]]:
    """Public functions of a module and public methods of its public classes, as (`Class.` +) name."""
    found = [(node.name, node) for node in tree(name).body if isinstance(node, FunctionNode)]
    for owner in tree(name).body:
        if isinstance(owner, ast.ClassDef) and not owner.name.startswith("_"):
            inner = [node for node in owner.body if isinstance(node, FunctionNode)]
            found += [(f"{owner.name}.{node.name}", node) for node in inner]
    return [(label, node) for label, node in found if not node.name.startswith("_")]
