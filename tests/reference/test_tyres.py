"""Tyres against published tables: load indices, speed symbols, diameters, twin tyres, the speedometer."""

from itertools import pairwise

import pytest

from server.domain.tyres import (
    GREATEST_INDEX,
    LEAST_INDEX,
    LOADS_KG,
    SPEEDS_KMH,
    axle_capacity_kg,
    circumference_m,
    highest_reading_kmh,
    load_capacity_kg,
    odometer_factor,
    overall_diameter_m,
    parse_designation,
    revolutions_per_km,
    top_speed_kmh,
)

# 7.1: UN R30 6.1.2 (from memory; 25.4 mm per rim code read in a reproduction), numbers our own arithmetic, mm
DIAMETERS_MM = {
    "205/55R16": 631.9, "225/75R16": 743.9, "235/85R16": 805.9,
    "265/65R17": 776.3, "265/70R17": 802.8, "285/75R16": 833.9,
}  # fmt: skip
# 7.4: from UN R39 5.3; true speed -> the most that may be shown, km/h
READINGS = {40: 48, 80: 92, 100: 114, 110: 125, 120: 136}


def diameter(size: str) -> float:
    read = parse_designation(text=size)
    return overall_diameter_m(
        width_mm=read.width_mm, aspect_percent=read.aspect_percent, rim_code=read.rim_code
    )


@pytest.mark.parametrize(("size", "mm"), DIAMETERS_MM.items())
def test_design_diameter(size: str, mm: float) -> None:
    """7.1."""
    assert diameter(size) * 1000 == pytest.approx(mm, abs=0.05)


def test_circumference_and_turns() -> None:
    """7.2: geometry, unloaded."""
    for size, m, turns in (("265/70R17", 2.5221, 396.5), ("285/75R16", 2.6198, 381.7)):
        assert circumference_m(diameter_m=diameter(size)) == pytest.approx(m, abs=5e-5)
        assert revolutions_per_km(diameter_m=diameter(size)) == pytest.approx(turns, abs=0.1)


@pytest.mark.parametrize(("shown_at", "most"), READINGS.items())
def test_the_most_a_speedometer_may_show(shown_at: float, most: float) -> None:
    """7.3 and 7.4: 0 <= V1 - V2 <= 0.1 V2 + 4, UN R39 5.3; ADR 18/03 the same (read in a reproduction)."""
    found = highest_reading_kmh(true_speed_kmh=shown_at)
    assert found == pytest.approx(most, abs=1e-9)
    assert found - shown_at == pytest.approx(0.1 * shown_at + 4, abs=1e-9)


def test_twin_tyres_carry_less_each() -> None:
    """7.5: 112/109 is 1120 kg single and 1030 kg dual (tyre trade table, read in a reproduction)."""
    read = parse_designation(text="225/75R16 112/109R")
    assert read.load_index is not None
    assert read.load_index_dual is not None
    assert load_capacity_kg(load_index=read.load_index) == 1120
    assert load_capacity_kg(load_index=read.load_index_dual) == 1030
    assert axle_capacity_kg(load_index=read.load_index_dual, tyres=4) == 4120


def test_the_table_follows_the_preferred_numbers() -> None:
    """45 x 10^(LI/80), series R80: our observation, a guard against typing errors. The largest gap is 1.74 %."""
    gaps = [abs(load_capacity_kg(load_index=i) / (45 * 10 ** (i / 80)) - 1) for i in indices()]
    assert len(gaps) == len(LOADS_KG) == 71
    assert max(gaps) == pytest.approx(0.0174, abs=5e-5)


def test_the_misprint_of_a_common_table_would_be_caught() -> None:
    """LI 62 = 165 kg is printed there; it is 265 kg (check-values, section of published errors)."""
    assert load_capacity_kg(load_index=62) == 265
    assert abs(165 / (45 * 10 ** (62 / 80)) - 1) > 0.02


def test_a_higher_index_carries_more() -> None:
    loads = [load_capacity_kg(load_index=i) for i in indices()]
    assert all(first < second for first, second in pairwise(loads))


def indices() -> range:
    return range(LEAST_INDEX, GREATEST_INDEX + 1)


def test_rules_of_thumb_for_two_tyres() -> None:
    """Index 113 is 1150, 116 is 1250, 121 is 1450 kg (from memory, ETRTO and ADR tables)."""
    assert [axle_capacity_kg(load_index=i) / 2 for i in (113, 116, 121)] == [1150, 1250, 1450]


def test_h_sits_after_u() -> None:
    """Speed symbols of UN R30 and R54 (read in a reproduction): the alphabet, but for H."""
    speeds = list(SPEEDS_KMH.values())
    assert speeds == sorted(speeds)
    assert [one for one in SPEEDS_KMH if one != "H"] == sorted(set(SPEEDS_KMH) - {"H"})
    assert top_speed_kmh(speed_symbol="U") < top_speed_kmh(speed_symbol="H") < top_speed_kmh(speed_symbol="V")


def test_larger_tyres_make_the_odometer_read_short() -> None:
    """265/65R17 to 265/70R17 + 3.4 %, to 285/70R17 + 7.0 % (computed, trade knowledge section 5)."""
    for size, percent in (("265/70R17", 3.4), ("285/70R17", 7.0)):
        found = odometer_factor(from_diameter_m=diameter("265/65R17"), to_diameter_m=diameter(size))
        assert (found.factor - 1) * 100 == pytest.approx(percent, abs=0.05)
