"""The product never says that a vehicle may go: it says under, over or cannot tell."""

import re

from architecture.tree import files, line_of, report, text, under

PROMISES = re.compile(
    r"\b(?:un)?(?:safe|safely|safety)\b|\b(?:il)?legal(?:ly)?\b|\broadworthy\b|\bcompliant\b", re.I
)

# Words that are no promise, as "file: the line's text".
ALLOWED: set[str] = set()


def read_by_users() -> list[str]:
    """Files with words that reach a screen."""
    names = under("web/src/ui", suffixes=(".ts", ".tsx")) + under(
        "web/public", suffixes=(".html", ".webmanifest")
    )
    names += under("server/api", "server/services", "server/demo", suffixes=(".py",))
    return [*names, *(name for name in ("web/index.html", "README.md") if name in files())]


def test_no_promise_in_what_the_user_reads() -> None:
    broken = []
    for name in read_by_users():
        lines = text(name).splitlines()
        for match in PROMISES.finditer(text(name)):
            number = line_of(text(name), match.start())
            if f"{name}: {lines[number - 1].strip()}" not in ALLOWED:
                broken.append(f"{name}:{number}: promises: {match[0]}")
    report(broken)
