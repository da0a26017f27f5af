"""Fuel against published figures: unit definitions, full-to-full, volume with temperature, an open fill log."""

import pint
import pytest
from scipy import constants

from server import units
from server.domain.entries import FillEntry, FillLine
from server.domain.fuel import TankSpec
from server.domain.fuel_answer import fuel_answer
from server.domain.fuel_log import FuelLog, FuelSetup, read_fuel_log
from server.domain.fullfull import Stop, pooled, segments
from server.domain.volume import expansion, volume_factor

MILE_KM, GALLON_L = units.factor("mi"), units.factor("gal_us")

# Rows 1 to 10 of CarMileageData, R package gvlma 1.0.0.3, used in Pena & Slate 2006, JASA 101:341 (data read):
# odometer and trip in miles, US gallons; row 1 is the first full tank
FILLS = [
    (392, 12.995, 371), (779, 12.568, 387), (1167, 12.618, 388), (1506, 11.618, 343), (1884, 12.809, 378),
    (2218, 12.621, 334), (2661, 13.804, 447), (3057, 13.606, 396), (3431, 12.517, 374), (3769, 12.206, 338),
]  # fmt: skip


def stops(partial: tuple[int, ...] = ()) -> list[Stop]:
    """The log with each trip added up, so that the odd odometer misreading of the source does not enter."""
    out, at = [], 0.0
    for row, (_, gallons, trip) in enumerate(FILLS, start=1):
        at += trip if row > 1 else 0
        out.append(Stop(str(row), at * MILE_KM, gallons * GALLON_L, row not in partial))
    return out


def mpg(litres_per_100km: float) -> float:
    return 100 / MILE_KM / (litres_per_100km / GALLON_L)


def test_first_ten_fills() -> None:
    found = segments(stops=stops())
    assert sum(one.distance_km for one in found) / MILE_KM == pytest.approx(3385.0, abs=1e-6)
    assert sum(one.litres_l for one in found) / GALLON_L == pytest.approx(114.367, abs=1e-6)
    both = pooled(segments=found)
    assert both is not None
    assert both.mean == pytest.approx(7.9471, abs=1e-4)
    assert mpg(both.mean) == pytest.approx(29.5977, abs=1e-4)


def test_the_same_with_partial_fills() -> None:
    """Fills 3, 6 and 9 partial: the litres of a partial fill belong to the next full one."""
    found = segments(stops=stops(partial=(3, 6, 9)))
    expected = [30.7925, 30.1617, 29.5105, 29.5553, 29.1048, 28.7991]
    assert [mpg(one.l_per_100km) for one in found] == pytest.approx(expected, abs=1e-4)
    both, whole = pooled(segments=found), pooled(segments=segments(stops=stops()))
    assert both is not None
    assert whole is not None
    assert both.mean == pytest.approx(whole.mean, rel=1e-12)


def test_one_tank_by_the_odometer() -> None:
    """US government fuel-economy site, odometer method (read): 32 645.1 to 33 001.3 mi on 13.5 gal is 26.4 mpg."""
    log = [
        Stop("a", 32_645.1 * MILE_KM, 0.0, True),
        Stop("b", 33_001.3 * MILE_KM, 13.5 * GALLON_L, True),
    ]
    (found,) = segments(stops=log)
    assert mpg(found.l_per_100km) == pytest.approx(26.4, abs=0.05)
    assert found.l_per_100km == pytest.approx(8.915, abs=1e-3)


@pytest.mark.parametrize(("gallon", "k"), [("gal_us", 235.214583333), ("gal_imp", 282.480936332)])
def test_litres_per_100_km_and_miles_per_gallon(gallon: str, k: float) -> None:
    """Exact by definition (second-hand for the first): L/100 km = k / mpg."""
    assert 100 * units.factor(gallon) / MILE_KM == pytest.approx(k, rel=1e-11)


@pytest.mark.parametrize(
    ("unit", "exact"),
    [("lb", 0.45359237), ("gal_us", 3.785411784), ("gal_imp", 4.54609), ("mi", 1.609344), ("in", 0.0254)],
)
def test_unit_definitions(unit: str, exact: float) -> None:
    """1959 agreement and NIST SP 811; UK Units of Measurement Regulations; against scipy and pint."""
    here = {"lb": constants.lb, "gal_us": constants.gallon_US * 1000, "gal_imp": constants.gallon_imp * 1000}
    there = {**here, "mi": constants.mile / 1000, "in": constants.inch}
    assert units.factor(unit) == pytest.approx(exact, rel=1e-12)
    assert there[unit] == pytest.approx(exact, rel=1e-9)
    assert pint.UnitRegistry()("1 mile").to("km").magnitude == pytest.approx(MILE_KM, rel=1e-12)


# ASTM D1250-80 table 54B, ISO 91-1 formula (constants seen in reproductions; results by the same formula elsewhere)
FACTORS = [
    (740, 30, 0.98152), (740, 0, 1.01828), (750, 30, 0.98189), (830, 25, 0.99135), (835, 30, 0.98716),
    (835, 40, 0.97855), (840, 30, 0.98730), (840, 0, 1.01261), (845, 40, 0.97894),
]  # fmt: skip


@pytest.mark.parametrize(("density", "temperature", "factor"), FACTORS)
def test_volume_factor(density: float, temperature: float, factor: float) -> None:
    found = volume_factor(temperature_c=temperature, density_15_kg_per_m3=density)
    assert found == pytest.approx(factor, abs=2e-5)


def test_diesel_straddles_two_groups() -> None:
    """The step at 838.75 is 0.06 % of the coefficient."""
    below, above = expansion(density_15_kg_per_m3=838.7), expansion(density_15_kg_per_m3=838.8)
    assert above / below == pytest.approx(1.0, abs=1e-3)


def log_of(rows: list[tuple[float, float]], **setup: object) -> FuelLog:
    """Full tanks at odometer values in miles with US gallons, through the whole log of a tank of 15 gallons."""
    entries = [
        FillEntry(f"f{n}", n * 86_400.0, n, at * MILE_KM, (FillLine("main", gallons * GALLON_L, True),))
        for n, (at, gallons) in enumerate(rows)
    ]
    tank = TankSpec("main", 15 * GALLON_L)
    return read_fuel_log(setup=FuelSetup((tank,), base_rate=8.0, **setup), entries=entries)  # type: ignore[arg-type]


def by_trips() -> list[tuple[float, float]]:
    at, out = 0.0, []
    for n, (_, gallons, trip) in enumerate(FILLS):
        at += trip if n else 0
        out.append((at, gallons))
    return out


def test_the_printed_log_through_the_filter() -> None:
    """Its segments are the printed ones, nothing is held, and the filter's rate is the pooled one within its u."""
    log = log_of(by_trips())
    assert [one.code for one in log.findings if one.standing != "noted"] == []
    printed = [trip / gallons for _, gallons, trip in FILLS[1:]]
    assert [mpg(one.l_per_100km) for one in log.segments] == pytest.approx(printed, rel=1e-9)
    answer = fuel_answer(log=log)
    assert answer.pooled is not None
    assert answer.pooled.mean == pytest.approx(7.9471, abs=1e-4)
    (rate,) = answer.rates
    assert abs(rate.l_per_100km - answer.pooled.mean) < 2 * rate.u
    assert rate.u < 0.4  # its own scatter is 0.59 per tank; nine tanks, and the rate may drift


def test_a_real_missed_fill_is_flagged_with_about_its_litres() -> None:
    """Row 149 of the same log: 760 mi on the odometer, 406.7 mi since the last entry, so 353.3 mi have no fuel entry.

    Its gallons are those of the trip at the log's own 29.2833 mpg.
    """
    rows = by_trips()
    last = rows[-1][0]
    log = log_of([*rows, (last + 760, 406.7 / 29.2833)])
    (found,) = [one for one in log.findings if one.standing == "held"]
    assert found.code == "beyond_tank"
    assert found.value == pytest.approx(760 * MILE_KM)
    assert found.missing_l is not None
    assert found.missing_u_l is not None
    assert abs(found.missing_l - 353.3 / 29.2833 * GALLON_L) < 2 * found.missing_u_l
    assert found.missing_u_l < 8
