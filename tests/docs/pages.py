"""The pages that people read, and what can be taken out of them."""

import re
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
README, DEVELOPERS = ROOT / "README.md", ROOT / "DEVELOPERS.md"


def pages() -> list[Path]:
    """README, DEVELOPERS and the page of each room."""
    rooms = [
        path for top in ("server", "web", "service_worker", "tests") for path in (ROOT / top).rglob("*.md")
    ]
    return [README, DEVELOPERS, *(path for path in rooms if "node_modules" not in path.parts)]


def described() -> str:
    """All that is written for developers, as one text."""
    return "\n".join(page.read_text(encoding="utf-8") for page in pages() if page != README)


def section(page: Path, heading: str) -> str:
    """The text below a heading of the second level, up to the next one."""
    match = re.search(
        rf"^## {re.escape(heading)}\n(.*?)(?=^## |\Z)", page.read_text(), re.MULTILINE | re.DOTALL
    )
    assert match, f"{page.name} has no heading '## {heading}'"
    return match[1]


def fenced(text: str) -> list[str]:
    """The content of each fenced block."""
    return re.findall(r"^```\w*\n(.*?)^```", text, re.MULTILINE | re.DOTALL)
