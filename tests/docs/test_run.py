"""The test command's own small parts, and that CI runs what README promises."""

import subprocess

import pytest
import run
from docs.pages import ROOT, fenced, section


def outcome(status: int, closing: str = "") -> run.Outcome:
    return run.Outcome("pytest", status, 1.5, closing)


def test_closing_lines_are_added_up() -> None:
    outcomes = [
        outcome(0, "12 passed, 1 skipped in 3.21s"),
        outcome(1, "1 failed, 3 passed, 230 deselected in 9s"),
    ]
    assert run.added_up(outcomes) == "==== 15 passed, 1 skipped, 1 failed in 3.00s ===="


@pytest.mark.parametrize(
    ("status", "closing", "good"),
    [
        (0, "", True),
        (0, "3 passed", True),
        (1, "1 failed", False),
        (5, "no tests ran", True),
        (5, "", False),
        (-9, "", False),
    ],
)
def test_what_counts_as_good(status: int, closing: str, good: bool) -> None:
    assert outcome(status, closing).good is good


def test_a_failed_step_fails_the_run(capsys: pytest.CaptureFixture[str]) -> None:
    assert run.close([outcome(0, "3 passed in 1s"), outcome(1, "1 failed in 1s")]) == 1
    assert "FAILED (1)" in capsys.readouterr().out
    assert run.close([outcome(0, "3 passed in 1s")]) == 0


def test_what_a_failed_step_said_last_is_said_again(capsys: pytest.CaptureFixture[str]) -> None:
    script = "print(*range(200), sep=chr(10)); raise SystemExit(1)"
    failed = run.run(run.Step("types", [run.sys.executable, "-c", script]))
    capsys.readouterr()
    assert run.close([failed, outcome(0, "3 passed in 1s")]) == 1
    said = capsys.readouterr().out
    assert "the end of types" in said and "\n199\n" in said and "\n100\n" not in said


def test_a_step_runs_and_its_last_line_is_kept() -> None:
    done = run.run(run.Step("pytest", [str(run.sys.executable), "-c", "print('== 2 passed ==')", "pytest"]))
    assert (done.status, done.closing) == (0, "2 passed")


def test_what_is_current_is_not_made_again(tmp_path: run.Path) -> None:
    made = []
    for wanted in ("a", "a", "b"):
        run.unless_current(tmp_path / "stamp", wanted, lambda: made.append(1))
    assert len(made) == 2


def test_fast_leaves_out_the_browser_and_postgresql() -> None:
    names = {step.name: step for step in run.steps(fast=True)}
    assert run.BROWSER not in names
    assert "sqlite" in names["pytest"].command


def test_ci_runs_the_line_of_the_readme() -> None:
    script = (ROOT / ".ci/run").read_text()
    assert fenced(section(ROOT / "README.md", "Test it"))[0].strip() not in script
    line = next(line for line in script.splitlines() if line.startswith("line=$("))
    said = subprocess.run(
        ["bash", "-c", f'{line}; printf %s "$line"'], cwd=ROOT, capture_output=True, text=True, check=True
    )
    assert said.stdout == "python3 tests/run.py"
