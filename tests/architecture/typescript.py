"""What the rules need to know of TypeScript: its imports, its functions, its code without words and comments.

Not a compiler: a scanner that is right for code formatted as ours is. Its own tests say what it can tell.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from .tree import line_of

_IMPORT = re.compile(
    r"""^(?P<verb>import|export)\b(?!\s*[.(])(?P<type>\s+type\b)?(?P<what>[^;"'`]*?)(?P<from>\bfrom\s*)?"""
    r"""["'](?P<path>[^"'\n]+)["']""",
    re.MULTILINE,
)
_LAZY = re.compile(r"""\bimport\(\s*["'](?P<path>[^"'\n]+)["']\s*\)""")
_REGEX_BEFORE = re.compile(r"(?:[=(,:;!&|?{}\[>~+*%^-]|\breturn|\btypeof|\bcase)\s*$")
_CLOSES = {"(": ")", "[": "]", "{": "}"}
_KEYWORDS = {"if", "for", "while", "switch", "catch", "with", "return", "function", "await", "typeof"}
_DESCRIBE = re.compile(r"""\bdescribe(?:\.\w+)*\(\s*(["'`])\s*\1,\s*(?:async\s*)?$""")


@dataclass(frozen=True)
class Import:
    """One import: what is named, from where, and whether types alone come over."""

    path: str
    line: int
    types_only: bool


@dataclass(frozen=True)
class Function:
    """One function: where it starts and how many lines its body has."""

    line: int
    body_lines: int


def imports(source: str) -> list[Import]:
    """Static imports, re-exports and lazy imports."""
    code = blank(source, words=False)
    found = []
    for match in _IMPORT.finditer(code):
        what = match["what"].strip()
        if match["verb"] == "export" and not match["from"]:
            continue
        names = [name.strip() for name in what.strip("{} \n").split(",") if name.strip()]
        inline = bool(names) and what.startswith("{") and all(name.startswith("type ") for name in names)
        found.append(Import(match["path"], line_of(code, match.start()), bool(match["type"]) or inline))
    found += [Import(match["path"], line_of(code, match.start()), False) for match in _LAZY.finditer(code)]
    return found


def blank(source: str, *, words: bool = True) -> str:
    """The source with comments, and unless told otherwise the inside of strings, turned to blanks.

    Positions and lines stay; code inside `${}` of a template stays code.
    """
    out = list(source)
    for start, end, kind in _dead(source):
        if kind == "comment" or words:
            out[start:end] = (char if char == "\n" else " " for char in source[start:end])
    return "".join(out)


def _dead(source: str) -> Iterator[tuple[int, int, str]]:
    """Spans that are no code: comments, and the inside of strings, templates and regular expressions."""
    at, depth, templates = 0, 0, list[int]()
    while at < len(source):
        char, two = source[at], source[at : at + 2]
        if two == "//" or two == "/*":
            end = source.find("\n", at) if two == "//" else source.find("*/", at + 2) + 2
            end = len(source) if end < 2 else end
            yield at, end, "comment"
            at = end
            continue
        if char in "\"'" or (char == "/" and _REGEX_BEFORE.search(source[max(0, at - 40) : at])):
            end = _one_line(source, at)
            if end is not None:
                yield at + 1, end, "word"
                at = end
        elif char == "`" or (char == "}" and templates and templates[-1] == depth):
            if char == "}":
                templates.pop()
            end = _template(source, at + 1)
            yield at + 1, end, "word"
            at = end
            if source[at : at + 2] == "${":
                templates.append(depth)
                at += 1
        elif char in "{}":
            depth += 1 if char == "{" else -1
        at += 1


def _one_line(source: str, at: int) -> int | None:
    """Where a string or regular expression ends; none if not on its line (then it was an apostrophe)."""
    quote, within = source[at], False
    for end in range(at + 1, len(source)):
        char = source[end]
        if char == "\n":
            return None
        if _escaped(source, end):
            continue
        if quote == "/" and char in "[]":
            within = char == "["
        if char == quote and not within:
            return end
    return None


def _template(source: str, at: int) -> int:
    """Where the words of a template stop: at its closing quote or at the next `${`."""
    for end in range(at, len(source)):
        if not _escaped(source, end) and (source[end] == "`" or source[end : end + 2] == "${"):
            return end
    return len(source)


def _escaped(source: str, at: int) -> bool:
    backslashes = len(source[:at]) - len(source[:at].rstrip("\\")) if source[at - 1] == "\\" else 0
    return backslashes % 2 == 1


def functions(source: str) -> list[Function]:
    """Every function, method and arrow function; a `describe` block of tests is none."""
    code = blank(source)
    found = [_method(code, match) for match in re.finditer(r"([\w$]+)\s*(?:<[^<>(){}]*>)?\s*\(", code)]
    found += [_arrow(code, match.start()) for match in re.finditer(r"=>", code)]
    return [one for one in found if one]


def _method(code: str, match: re.Match[str]) -> Function | None:
    """`name(parameters): type {`, with or without the word `function` before it."""
    if match[1] in _KEYWORDS and match[1] != "function":
        return None
    body = _after_type(code, closing(code, match.end() - 1) + 1)
    if body is None:
        return None
    return Function(line_of(code, match.start()), code.count("\n", body, closing(code, body)) - 1)


def _after_type(code: str, at: int) -> int | None:
    """Where the body's brace opens after a parameter list, past a return type; none if no body follows."""
    rest = re.compile(r"\s*(:)?\s*").match(code, at)
    assert rest
    at = rest.end()
    typed = bool(rest[1])
    while at < len(code):
        char = code[at]
        if char == "{":
            before = code[max(0, at - 80) : at].rstrip()[-1:]
            if not typed or before not in ":|&<,(=[":
                return at
        if not typed or char in ";=)}":
            return None
        at = closing(code, at) + 1 if char in _CLOSES else at + 1
    return None


def _arrow(code: str, at: int) -> Function | None:
    """`(parameters) => body`; without braces the body ends at a comma, bracket or semicolon."""
    start = at + 2 + len(code[at + 2 :]) - len(code[at + 2 :].lstrip())
    if _DESCRIBE.search(re.sub(r"\([^()]*\)\s*$|\w+\s*$", "", code[:at].rstrip()[-200:])):
        return None
    if code[start : start + 1] == "{":
        return Function(line_of(code, at), code.count("\n", start, closing(code, start)) - 1)
    end, angles = start, 0
    while end < len(code) and code[end] not in ",;)]}":
        angles += _angle(code, end)
        if angles < 0:  # the arrow stood in a type: `Record<A, (b: B) => C>`
            return None
        end = closing(code, end) + 1 if code[end] in _CLOSES else end + 1
    return Function(line_of(code, at), code.count("\n", start, end) + 1)


def _angle(code: str, at: int) -> int:
    """1 for `<` that opens a tag or type arguments, -1 for their `>`; a comparison has blanks round it."""
    if code[at] == "<":
        return 1 if re.match(r"[\w/>]", code[at + 1 : at + 2]) else 0
    if code[at] == ">" and code[at - 1] != "=":
        return 0 if code[at - 1] == " " and code[at + 1 : at + 2] in (" ", "=") else -1
    return 0


def closing(code: str, at: int) -> int:
    """The bracket that closes the one at `at`."""
    stack = []
    for end in range(at, len(code)):
        char = code[end]
        if char in _CLOSES:
            stack.append(_CLOSES[char])
        elif char in ")]}":
            if not stack or stack.pop() != char:
                raise ValueError(f"brackets do not match at line {line_of(code, end)}")
            if not stack:
                return end
    raise ValueError(f"bracket of line {line_of(code, at)} is never closed")


def exported(source: str) -> dict[str, int]:
    """Exported functions, by name, with their line."""
    code = blank(source)
    named = re.finditer(r"^export (?:async )?function\*? (\w+)", code, re.MULTILINE)
    arrows = re.finditer(r"^export const (\w+)(?:: [^=\n]+)? = (?:async )?\([^;{]*?=>", code, re.MULTILINE)
    found: dict[str, int] = {}
    for match in (*named, *arrows):
        found.setdefault(match[1], line_of(code, match.start()))  # the first overload
    return found
