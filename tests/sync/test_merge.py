"""An edit onto a body."""

from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from server.sync.merge import merge_edit, same

NAMES = st.sampled_from(["name", "mass_kg", "x_m", "note"])
VALUES = (
    st.none()
    | st.booleans()
    | st.integers(0, 2)
    | st.floats(0, 2)
    | st.sampled_from(["1", ""])
    | st.lists(st.booleans(), max_size=2)
)
PAIRS = st.tuples(st.sampled_from(["1", "2"]), st.sampled_from(["kg", "t"])).map(list)


@st.composite
def bodies(draw: st.DrawFn) -> dict[str, Any]:
    body: dict[str, Any] = draw(st.dictionaries(NAMES, VALUES))
    typed = draw(st.dictionaries(NAMES, PAIRS))
    return {**body, "as_typed": typed} if typed else body


@given(bodies(), bodies())
def test_the_edit_s_fields_are_in_the_result(base: dict[str, Any], edit: dict[str, Any]) -> None:
    merged = merge_edit(base, edit)
    assert all(same(merged[name], value) for name, value in edit.items() if name != "as_typed")
    assert all(merged["as_typed"][name] == pair for name, pair in edit.get("as_typed", {}).items())
    untouched = base.keys() - edit.keys() - {"as_typed"}
    assert all(same(merged[name], base[name]) for name in untouched)


@given(bodies(), bodies())
def test_the_same_edit_twice_is_the_edit_once(base: dict[str, Any], edit: dict[str, Any]) -> None:
    once = merge_edit(base, edit)
    assert same(merge_edit(once, edit), once)


@given(bodies(), bodies())
def test_no_digits_outlive_their_figure(base: dict[str, Any], edit: dict[str, Any]) -> None:
    kept = merge_edit(base, edit).get("as_typed", {}).keys() - edit.get("as_typed", {}).keys()
    assert all(name not in edit or same(edit[name], base.get(name)) for name in kept)


@given(bodies())
def test_an_empty_edit_changes_nothing(base: dict[str, Any]) -> None:
    assert same(merge_edit(base, {}), base)


def test_the_same_figure_again_keeps_its_digits() -> None:
    base = {"mass_kg": 20.0, "as_typed": {"mass_kg": ["20", "kg"]}}
    assert merge_edit(base, {"mass_kg": 20, "name": "Box"})["as_typed"] == {"mass_kg": ["20", "kg"]}


def test_true_is_not_one_and_order_does_not_matter() -> None:
    assert not same(True, 1)
    assert not same({"a": [0]}, {"a": [False]})
    assert same({"a": 1, "b": [1.0, {}]}, {"b": [1, {}], "a": 1.0})
    assert not same([1], [1, 2])
    assert not same({"a": None}, {})
