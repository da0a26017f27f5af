"""The frame of the benchmarks, and the budget of the shell, which is exact and so held in every run."""

import pytest

from tests.bench import shell
from tests.bench.__main__ import main, names
from tests.bench.frame import Row, table


def test_a_bar_is_a_most_or_a_least() -> None:
    assert Row("a", 1.0, "s", 0.9, bar=1.0).within
    assert not Row("a", 1.0, "s", 1.1, bar=1.0).within
    assert Row("a", 1.0, "s", 0.7, bar=0.6, at_least=True).within
    assert not Row("a", 1.0, "s", 0.5, bar=0.6, at_least=True).within


def test_the_table_says_machine_ratio_and_bar() -> None:
    text = table("title", [Row("bare", 2.0, "ms", 1.0), Row("push", 4.0, "ms", 0.5, bar=0.6, at_least=True)])
    assert "cores" in text
    assert "x   0.50  bar >= 0.60  MISSED" in text


def test_an_unknown_name_lists_the_known(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["no such"]) == 2
    said = capsys.readouterr().out
    assert all(name in said for name in names())


def test_the_shell_keeps_its_budget() -> None:
    if not (shell.STATIC / "sw.js").is_file():
        pytest.skip("server/static is not built; the test command builds it")
    rows = shell.measure()
    print(table("The shell", rows))
    assert all(row.within for row in rows), rows
