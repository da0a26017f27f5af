"""What a record's schema lets in, and what it says of the rest."""

from typing import Any

import pytest

from server.schemas.register import KINDS, LOG_KINDS, PLAN_KINDS

ITEM: dict[str, Any] = {"name": "Box", "nature": "load"}
ENTRY: dict[str, Any] = {"at": "2026-05-01T08:00:00Z", "zone": "Etc/UTC"}
ID = "019cfe48-f480-7f7c-8ac5-04afc8eab7af"


def errors(kind: str, body: dict[str, Any]) -> Any:
    return KINDS[kind]().validate(body)


@pytest.mark.parametrize(
    "body",
    [
        ITEM,
        {**ITEM, "mass_kg": 1500.0, "as_typed": {"mass_kg": ["1.5", "t"]}},
        {**ITEM, "mass_kg": 45.359237, "as_typed": {"mass_kg": ["100", "lb"]}},
        {**ITEM, "mass_kg": None},
    ],
)
def test_good_items(body: dict[str, Any]) -> None:
    assert errors("item", body) == {}


@pytest.mark.parametrize(
    ("field", "value", "told"),
    [
        ("mass_kg", -3, "-3.0 is not possible: it must be 0 to 10000 kg."),
        ("mass_kg", "20", "This must be a number from 0 to 10000 kg."),
        ("mass_kg", True, "This must be a number from 0 to 10000 kg."),
        ("mass_kg", float("nan"), "This must be a number from 0 to 10000 kg."),
        ("count", 1.5, "Not a valid integer."),
        ("nature", "thing", "thing is not one of part, load."),
        ("colour", "red", "Unknown field."),
    ],
)
def test_bad_items_are_told_the_range(field: str, value: Any, told: str) -> None:
    assert errors("item", {**ITEM, field: value}) == {field: [told]}


@pytest.mark.parametrize(
    "pair", [["1.5", "kg"], ["1,5", "t"], ["1.5", "stone"], ["NaN", "t"], ["1500", "kg/L"], ["1e3", "kg"]]
)
def test_digits_and_unit_must_give_the_figure(pair: list[str]) -> None:
    assert errors("item", {**ITEM, "mass_kg": 1501.0, "as_typed": {"mass_kg": pair}})["as_typed"]


def test_a_figure_that_is_not_there_has_no_digits() -> None:
    assert errors("item", {**ITEM, "as_typed": {"name": ["1", "kg"]}})["as_typed"]


def test_lines_are_judged_one_by_one() -> None:
    line = {"tank_id": ID, "litres_l": 40.0, "full": True}
    body = {**ENTRY, "lines": [line, {**line, "litres_l": -1}]}
    assert errors("fill", {**ENTRY, "lines": [line]}) == {}
    assert list(errors("fill", body)["lines"]) == [1]


@pytest.mark.parametrize("at", ["2026-05-01", "2026-05-01T08:00:00+02:00", "2026-13-01T08:00:00Z", 5])
def test_an_instant_is_utc(at: Any) -> None:
    assert errors("fill", {**ENTRY, "at": at, "lines": []})["at"]


def test_every_kind_is_plan_or_log() -> None:
    assert set(KINDS) == PLAN_KINDS | LOG_KINDS
    assert not PLAN_KINDS & LOG_KINDS


def test_degrees_are_kept_as_typed() -> None:
    well = {"name": "Well", "at_km": 90, "fuel": False, "water": True, "certain": True}
    placed = {**well, "latitude_deg": -30.5, "as_typed": {"latitude_deg": ["-30.5", "deg"]}}
    legs = [{"distance_km": 90, "surface": {"sealed": 1, "gravel": 0, "sand": 0}}]
    assert errors("route", {"name": "R", "legs": legs, "supplies": [placed]}) == {}
    beyond = {**placed, "latitude_deg": -95, "as_typed": {}}
    wrong = errors("route", {"name": "R", "legs": legs, "supplies": [beyond]})
    assert list(wrong["supplies"][0]) == ["latitude_deg"]
