"""README keeps what it promises to a stranger."""

import ast
import re
import shlex
import sys

import pytest
from docs.pages import README, ROOT, fenced, pages, section

LINK = re.compile(r"""(?:\]\(|\bsrc=")([^)"#\s]+)""")


@pytest.mark.parametrize("heading", ["Run it", "Test it"])
def test_one_block_with_one_line(heading: str) -> None:
    blocks = fenced(section(README, heading))
    assert len(blocks) == 1
    assert len(blocks[0].strip().splitlines()) == 1
    assert "\\\n" not in blocks[0]


def test_the_run_line_makes_the_environment_and_starts_the_demo() -> None:
    words = shlex.split(fenced(section(README, "Run it"))[0])
    assert {".venv", "demo"} <= set(words)
    assert not {"node", "npm", "sudo", "curl"} & set(words)


def test_the_test_line_is_the_one_test_command() -> None:
    assert fenced(section(README, "Test it"))[0].strip() == "python3 tests/run.py"


def test_the_test_command_needs_only_the_standard_library() -> None:
    tree = ast.parse((ROOT / "tests/run.py").read_text())
    modules = {alias.name for node in ast.walk(tree) if isinstance(node, ast.Import) for alias in node.names}
    modules |= {node.module or "" for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)}
    assert {module.split(".")[0] for module in modules} <= sys.stdlib_module_names


def test_the_licence_stands_in_full() -> None:
    licence = section(README, "Licence")
    assert "MIT License" in licence
    assert "shall be included in all copies" in licence
    assert "WITHOUT WARRANTY OF ANY KIND" in licence


def test_the_cautions_stand() -> None:
    text = " ".join(README.read_text().split())
    for caution in ("certify nothing", "cannot tell", "use a verified weighbridge", "carry the reserve"):
        assert caution in text


def test_one_picture_shows_the_product() -> None:
    pictures = re.findall(r'<img src="([^"]+)"', README.read_text())
    assert len(pictures) == 1
    assert (ROOT / pictures[0]).read_bytes().startswith(b"\x89PNG")


def test_links_lead_somewhere() -> None:
    broken = []
    for page in pages():
        for target in LINK.findall(page.read_text()):
            if not re.match(r"https?:|mailto:", target) and not (page.parent / target).exists():
                broken.append(f"{page.relative_to(ROOT)}: {target}")
    assert not broken, broken
