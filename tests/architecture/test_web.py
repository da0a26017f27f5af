"""What the code of the browser may not do, and where it alone may do it."""

import re

import pytest
from architecture.tree import line_of, report, text, under
from architecture.typescript import blank

CODE = (".ts", ".tsx")
STORE, TRANSPORT, MAIN = "web/src/store/", "web/src/services/transport.ts", "web/src/main.tsx"

# name -> (what is forbidden, where it is allowed)
RULES: dict[str, tuple[str, tuple[str, ...]]] = {
    "markup from text": (
        r"\b(?:innerHTML|outerHTML|insertAdjacentHTML|dangerouslySetInnerHTML|document\.write)\b",
        (),
    ),
    "code from text": (r"\beval\s*\(|\bnew Function\b|\bsetTimeout\(\s*[\"'`]", ()),
    "inline style": (r"\bstyle=|\.style\b|\bcssText\b", ()),
    "the network": (r"\b(?:fetch|XMLHttpRequest|WebSocket|EventSource|sendBeacon)\b", (TRANSPORT,)),
    "the database": (r"\b(?:indexedDB|IDB[A-Z]\w+|Dexie)\b", (STORE, MAIN)),
    "storage that holds strings": (r"\b(?:localStorage|sessionStorage|document\.cookie)\b", ()),
    "the clock": (r"\bDate\.now\b|\bnew Date\(\s*\)|\bperformance\.now\b", (MAIN,)),
    "chance": (r"\bMath\.random\b|\bcrypto\.(?:getRandomValues|randomUUID)\b", (MAIN,)),
}
PURE = re.compile(
    r"\b(?:document|window|navigator|self|globalThis|console|crypto|performance|setTimeout|setInterval|"
    r"queueMicrotask|localStorage)\s*[.(]"
)


@pytest.mark.parametrize("rule", RULES)
def test_forbidden_but_in_its_place(rule: str) -> None:
    pattern, places = RULES[rule]
    report(
        [
            f"{name}:{line_of(code, match.start())}: {rule}: {match[0]}"
            for name in under("web/src", suffixes=CODE)
            if not name.startswith(places or ("-",))
            for code in [blank(text(name))]
            for match in re.finditer(pattern, code)
        ]
    )


def test_the_mirrors_touch_nothing() -> None:
    report(
        [
            f"{name}:{line_of(code, match.start())}: reaches outside: {match[0]}"
            for name in under("web/src/domain", "web/src/sync", suffixes=CODE)
            for code in [blank(text(name))]
            for match in PURE.finditer(code)
        ]
    )


def test_the_worker_holds_no_state_and_stays_small() -> None:
    names = under("service_worker", suffixes=(".ts",))
    assert sum(text(name).count("\n") for name in names) <= 150
    report([f"{name}: touches the database" for name in names if "indexedDB" in blank(text(name))])
