"""What is told as taken for granted names the figures that are used, and has none of its own."""

import ast
import re

import pytest
from architecture.tree import text
from vectors.centre_books import row

from server.domain.assumed import assumed
from server.domain.book import Row, open_book
from server.domain.fuel import DIP_U, FUEL
from server.domain.parts import stated_density
from server.domain.water import WATER

FILES = ("assumed", "log_defaults")
FIGURE = re.compile(r"(?<![\w.$])\d+(?:\.\d+)?(?![\w.])")


def figures(source: str) -> list[object]:
    """Numbers written out in Python, but for the places of a tuple and a count to compare with."""
    tree = ast.parse(source)
    places = {id(node.slice) for node in ast.walk(tree) if isinstance(node, ast.Subscript)}
    counts = {id(one) for node in ast.walk(tree) if isinstance(node, ast.Compare) for one in node.comparators}
    counts |= {id(one) for node in ast.walk(tree) if isinstance(node, ast.BoolOp) for one in node.values}
    return [
        node.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant)
        and type(node.value) in (int, float)
        and id(node) not in places | counts
    ]


def written(source: str) -> list[str]:
    """The same in TypeScript."""
    bare = re.sub(r"/\*.*?\*/|//[^\n]*|\"[^\"]*\"", "", source, flags=re.DOTALL)
    return FIGURE.findall(re.sub(r"\[\d\]|[<>=] [01]\b|\|\| 1\b", "", bare))


@pytest.mark.parametrize("name", FILES)
def test_a_list_has_no_figure_of_its_own(name: str) -> None:
    assert figures(text(f"server/domain/{name}.py")) == []
    assert written(text(f"web/src/domain/{name}.ts")) == []


def test_figures_are_found() -> None:
    assert figures("a = f(0.5, x[0])\nb = {'c': 1}") == [0.5, 1]
    assert written('const a = f(0.5, x[0]); // 3\nconst b = { c: 1, d: "4" };') == ["0.5", "1"]


def test_a_gauge_is_as_exact_as_is_told() -> None:
    assert DIP_U["gauge"] == FUEL.gauge_u == WATER.gauge_u


@pytest.mark.parametrize(
    ("body", "value", "u"),
    [
        ({}, 0.8325, 0.0072),
        ({"density_u_kg_per_l": 0.02}, 0.8325, 0.02),
        ({"density_kg_per_l": 0.81}, None, 0.0),
    ],
)
def test_the_u_of_a_density_is_told_as_it_holds(
    body: dict[str, float], value: float | None, u: float
) -> None:
    tank = {"name": "M", "holds": "fuel", "capacity_l": 80.0, "x_m": 1.0, **body}
    rows = [
        row("v", "vehicle", name="V"),
        row("m", "tank", 1, **tank),
        row("n", "tank", 2, **{**tank, "name": "N"}),
    ]
    told = [
        one for one in assumed(book=open_book(rows=[Row(**one) for one in rows])) if "density" in one.code
    ]
    assert [(one.value, one.u) for one in told] == [(u, None) if value is None else (value, u)]
    assert [blank.record_id for blank in told[0].blanks] == ["m", "n"]
    assert stated_density(tank, None) == (tank.get("density_kg_per_l", value), u)
