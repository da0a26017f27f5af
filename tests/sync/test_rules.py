"""Merging an edit, and who may write what."""

import pytest

from server.sync.merge import merge_edit
from server.sync.redact import redact
from server.sync.roles import may_correct, may_share, may_write


def test_an_edit_replaces_only_its_fields() -> None:
    assert merge_edit({"name": "Box", "x_m": 2.0}, {"x_m": 2.5}) == {"name": "Box", "x_m": 2.5}


def test_a_changed_figure_loses_digits_that_no_longer_say_it() -> None:
    base = {"mass_kg": 20.0, "x_m": 1.0, "as_typed": {"mass_kg": ["20", "kg"], "x_m": ["1", "m"]}}
    assert merge_edit(base, {"mass_kg": 25.0})["as_typed"] == {"x_m": ["1", "m"]}


def test_new_digits_come_with_the_figure() -> None:
    base = {"mass_kg": 20.0, "as_typed": {"mass_kg": ["20", "kg"]}}
    edit = {"mass_kg": 1000.0, "as_typed": {"mass_kg": ["1", "t"]}}
    assert merge_edit(base, edit) == edit


@pytest.mark.parametrize(
    ("role", "kind", "allowed"),
    [
        ("owner", "person", True),
        ("owner", "fill", True),
        ("co_driver", "fill", True),
        ("co_driver", "item", False),
        ("fitter", "item", True),
        ("fitter", "person", False),
        ("fitter", "fill", False),
        ("fitter", "weighing", True),
    ],
)
def test_who_may_write(role: str, kind: str, allowed: bool) -> None:
    assert may_write(role=role, kind=kind) is allowed  # type: ignore[arg-type]


def test_a_fitter_corrects_only_his_own() -> None:
    assert may_correct(role="fitter", kind="weighing", own=True)
    assert not may_correct(role="fitter", kind="weighing", own=False)


def test_only_an_owner_shares() -> None:
    assert [may_share(role=role) for role in ("owner", "co_driver", "fitter")] == [True, False, False]


def test_a_fitter_sees_no_name_of_a_person() -> None:
    seen = redact(kind="person", body={"name": "Ada", "nature": "person", "mass_kg": 70.0}, role="fitter")
    assert seen["mass_kg"] == 70.0
    assert "Ada" not in str(seen)
