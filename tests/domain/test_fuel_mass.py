"""Fuel weighs what its density at 15 C says at the day's temperature, whoever asks."""

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from strategies import number
from vectors.decode import decode

from server.domain.book import Book, Row, open_book
from server.domain.centre import plan_centre
from server.domain.errors import OutOfRange
from server.domain.fill_room import fill_room
from server.domain.learning import weighed_days
from server.domain.parts import DENSITY, FUEL_C, FUEL_U_C, TOLD_U_C, density_of, fuel_of
from server.domain.plan import plan_in
from server.domain.state import State, full_state
from server.domain.volume import volume_factor
from tests.vectors.books import PLAN, STATE, weighing

BOOK: Book = open_book(rows=[Row(**one) for one in PLAN])
DAY: State = decode(STATE, State)
TANK_ROW = next(row for row in BOOK.tanks if row.id == "tank")
TANK = TANK_ROW.body
DIESEL_KG_PER_M3 = 1000 * DENSITY["diesel"][0]


def warm(temperature_c: float, u_c: float | None = None, state: State = DAY) -> State:
    return replace(state, fuel_temperature_c=temperature_c, fuel_temperature_u_c=u_c)


def rho(temperature_c: float) -> float:
    factor = volume_factor(temperature_c=temperature_c, density_15_kg_per_m3=DIESEL_KG_PER_M3)
    return DENSITY["diesel"][0] * factor


def held_kg(book: Book, state: State) -> float:
    return next(part.mass_kg for part in plan_in(book, state).parts if part.id == "tank:content")


@given(number(-40, 90), number(1, 60))
def test_plan_centre_and_fill_take_the_same_mass(temperature_c: float, litres_l: float) -> None:
    state = warm(temperature_c)
    assert held_kg(BOOK, state) == pytest.approx(40 * rho(temperature_c))
    heavier = replace(TANK_ROW, body={**TANK, "density_kg_per_l": rho(temperature_c)})
    book = replace(BOOK, tanks=tuple(heavier if row.id == "tank" else row for row in BOOK.tanks))
    found = plan_centre(book=BOOK, state=state).centre
    alike = plan_centre(book=book, state=warm(15.0)).centre
    assert found is not None and alike is not None
    off = BOOK.vehicle.body["base_fuel_l"] * (rho(temperature_c) - rho(15.0)) if BOOK.vehicle else 0.0
    assert found.mass_kg == pytest.approx(alike.mass_kg + off)
    gross = {}
    for litres in (litres_l, 2 * litres_l):
        room = fill_room(book=BOOK, state=state, day="2026-05-01", tank_id="tank", litres_l=litres)
        assert room is not None
        gross[litres] = next(one for one in room.after if one.rating == "gross").value_kg
    assert gross[2 * litres_l] - gross[litres_l] == pytest.approx(litres_l * rho(temperature_c))


def test_a_full_tank_on_a_hot_day_is_about_two_percent_lighter() -> None:
    full = full_state(book=BOOK)
    assert held_kg(BOOK, full) == pytest.approx(80 * DENSITY["diesel"][0])
    assert held_kg(BOOK, warm(40.0, state=full)) == pytest.approx(
        80 * DENSITY["diesel"][0] * 0.9785, rel=1e-3
    )


def test_who_says_nothing_has_fuel_at_15_c_with_a_wide_u() -> None:
    silent = fuel_of({"fuel_kind": "diesel"})
    assert (silent.temperature_c, silent.temperature_u_c) == (FUEL_C, FUEL_U_C)
    usual = {"fuel_temperature_c": 30.0, "fuel_temperature_u_c": 4.0}
    assert fuel_of(usual, DAY).temperature_c == 30.0
    told = fuel_of(usual, warm(8.0))
    assert (told.temperature_c, told.temperature_u_c) == (8.0, TOLD_U_C)
    sure, unsure = density_of(TANK, fuel_of(None, warm(15.0, 0.0))), density_of(TANK, silent)
    assert sure == pytest.approx(DENSITY["diesel"])
    assert unsure[0] == sure[0]
    assert sure[1] < unsure[1] < 2 * sure[1]


@pytest.mark.parametrize("stated", [0.5, 1.2])
def test_a_density_beyond_the_table_stands_as_it_is(stated: float) -> None:
    body = {**TANK, "density_kg_per_l": stated, "density_u_kg_per_l": 0.01}
    assert density_of(body, fuel_of(None, warm(60.0))) == (stated, 0.01)


@pytest.mark.parametrize("holds", ["water", "grey", "gas", "stores"])
def test_only_fuel_goes_by_the_temperature(holds: str) -> None:
    body = {**TANK, "holds": holds}
    assert density_of(body, fuel_of(None, warm(60.0))) == density_of(body, fuel_of(None))


@pytest.mark.parametrize("temperature_c", [-40.1, 90.1])
def test_a_temperature_beyond_the_table_is_refused_by_name(temperature_c: float) -> None:
    with pytest.raises(OutOfRange) as refused:
        plan_in(BOOK, warm(temperature_c))
    assert refused.value.field == "temperature_c"


def test_each_weighing_counts_the_fuel_of_its_own_day() -> None:
    def visit(id: str, day: int, **more: Any) -> Row:
        made = weighing(id, (["front"], 1300.0), (["rear"], 1240.0), day=day)
        return Row(**{**made, "body": {**made["body"], "state": {**made["body"]["state"], **more}}})

    rows = [*(Row(**one) for one in PLAN), visit("w1", 1), visit("w2", 2, fuel_temperature_c=40.0)]
    book = open_book(rows=rows)
    masses = {
        day.visit.id: part.mass_kg
        for day in weighed_days(book=book)
        if day.plan
        for part in day.plan.passing
        if part.id == "tank:content"
    }
    assert masses["w1"] == pytest.approx(40 * rho(15.0))
    assert masses["w2"] == pytest.approx(40 * rho(40.0))
