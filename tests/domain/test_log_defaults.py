"""What is listed as taken for granted is what the logs use: written out it changes nothing, said otherwise it does."""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from parity.log_books import given as drawn
from strategies import number
from vectors.decode import decode

from server.domain.book import Book
from server.domain.fuel_answer import fuel_answer
from server.domain.log_defaults import LogDefault, log_defaults
from server.domain.supplies import fuel_log_of, water_log_of
from server.domain.water_answer import water_answer

UNTIL = "2026-06-01T00:00:00Z"
SEEDS = number(0, 5_000, 0).map(int)
FEW = settings(max_examples=15)  # a log takes its time


def book_of(seed: int) -> Book:
    return decode(drawn(np.random.default_rng(seed)), Book)


def written(book: Book, one: LogDefault, value: float) -> Book:
    """The book with one figure in the record where it can be said."""
    field = {one.field: value}
    if one.kind == "vehicle" and book.vehicle:
        return replace(book, vehicle=replace(book.vehicle, body={**book.vehicle.body, **field}))
    tanks = [
        replace(row, body={**row.body, **field}) if row.id == one.record_id else row for row in book.tanks
    ]
    return replace(book, tanks=tuple(tanks))


def answers(book: Book) -> list[float]:
    """Everything that the two logs say."""
    out: list[float] = []
    fuel = fuel_log_of(book=book)
    if fuel and fuel.journal.steps:
        found = fuel_answer(log=fuel, mix={"sealed": 1.0})
        stands = found.stands
        out += [stands.count_on_km, stands.likely_km, stands.litres.mean, stands.litres.u, found.reserve_l]
        out += [part for one in fuel.segments for part in (one.l_per_100km, one.u)]
    water = water_log_of(book=book, until=UNTIL)
    if water and water.journal.steps:
        told = water_answer(log=water, now_s=1_780_272_000.0)
        out += [told.stands.litres.mean, told.stands.litres.u, told.rate.mean, told.rate.u, told.reserve_l]
    return out


@FEW
@given(SEEDS)
def test_written_out_it_changes_no_answer(seed: int) -> None:
    book = book_of(seed)
    before = answers(book)
    for holds in ("fuel", "water"):
        for one in log_defaults(book=book, holds=holds):
            if one.field is None or one.own:
                continue
            same = written(book, one, one.value)
            assert answers(same) == pytest.approx(before, rel=1e-9), one.code
            again = next(
                new
                for new in log_defaults(book=same, holds=holds)
                if (new.code, new.record_id) == (one.code, one.record_id)
            )
            assert again == replace(one, own=True)


OTHER: dict[str, Any] = {
    "sealed_rate": 9.0, "fuel_guess_u": 0.6, "fuel_surface_u": 0.5, "fuel_drift": 0.4, "fuel_unsteady_km": 400.0,
    "pump_u": 0.05, "odometer_factor": 1.1, "odometer_step_km": 10.0, "fuel_reserve_l": 31.0, "water_rate": 4.0,
    "water_guess_u": 0.1, "water_drift": 0.5, "water_fill_u": 0.2, "water_reserve_l": 17.0, "full_u_l": 6.0,
}  # fmt: skip


@pytest.mark.parametrize("code", OTHER)
def test_said_otherwise_it_changes_an_answer(code: str) -> None:
    for seed in range(20):
        book = book_of(seed)
        told = [one for holds in ("fuel", "water") for one in log_defaults(book=book, holds=holds)]
        for one in told:
            if one.code == code:
                other = answers(written(book, one, OTHER[code]))
                if other != pytest.approx(answers(book), rel=1e-9):
                    return
    pytest.fail(f"{code} changes nothing in twenty books")
