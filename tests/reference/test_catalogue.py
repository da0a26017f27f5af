"""The catalogue against the trade's table, copied out by hand: what it says and not what the code says.

The table is from memory, with trip lists and general travel press (common practice) where it says so.
"""

import pytest

from server.domain.articles import ARTICLES, BASE_VEHICLES

# id | low | typical | high | where; a dash: the table has no figure of its own there
TABLE = """
front_bar_steel 40 60 95 F
front_bar_alloy 22 38 55 F
winch_steel 32 40 50 F
winch_synthetic 22 28 38 F
underbody 12 25 50 F-M
side_steps 15 35 60 M
aerials 5 12 25 F/E/C1
suspension 5 20 50 A,F
tyres 2 6 12 axles
rack_alloy 18 28 40 roof
rack_steel 40 60 80 roof
tent_soft 40 55 75 roof
tent_hard 50 70 95 roof
awning 8 13 18 roof
awning_wrap 18 24 38 roof
tub_off 90 - 140 A
tray_alloy 110 150 200 T1-T2
tray_steel 220 270 340 T1-T2
canopy_alloy 90 150 260 T1-T2
canopy_steel 180 260 380 T1-T2
canopy_moulded 45 65 90 A
fit_out 30 80 180 T1-T2
drawers 35 70 120 A-T2
slide 12 18 25 T1-T2
slide_drop 22 30 40 T1-T2
fridge_40 16 20 26 T1
fridge_40_full 35 42 55 T1
fridge_60 20 25 32 T1
fridge_60_full 45 60 75 T1
fridge_80 25 31 40 T1
fridge_80_full 55 75 95 T1
battery_agm 25 28 32 E/T1
battery_lfp 9.5 12 15 T1/C2
wiring 8 20 45 T1
solar_glass 6 8 11 roof
solar_flexible 1.5 2.5 3.5 roof
solar_blanket 2.5 4 6 T
spare_31 28 33 40 R
spare_33 32 38 46 R
spare_35 38 46 56 R
rear_bar 45 65 95 R
rear_bar_two 60 90 130 R
towbar 25 40 70 R
tongue 4 6 10 R
levelling_hitch 20 32 50 R
tank_shell 8 20 35 M
shell_poly 3 5 8 M/T1/C2
shell_steel 8 12 18 M/T1/C2
recovery 20 35 60 T/roof
tools 20 45 100 T/C2
compressor 4 8 15 E/T
jack 12 14 15 T/R
gas_4 8 9 11 T/R
gas_9 16 18 21 T/R
swag 6 10 15 roof/T
swag_double 10 15 22 roof/T
ground_tent 20 40 70 T/roof
kitchen 10 22 40 T
food 1.2 2.0 3.5 T1
clothes 8 14 25 C2/T
child_seat 4 8 14 C2
odds 10 30 90 any
mud 0 10 40 under
"""
ROWS = [line.split() for line in TABLE.split("\n") if line]
# a stretch of the table is one code of ours, the first is where it usually is
CODES = {
    "F-M": "FM",
    "F/E/C1": "FC",
    "A,F": "W",
    "axles": "W",
    "under": "W",
    "T1-T2": "T",
    "A-T2": "AT",
    "any": "T",
}


@pytest.mark.parametrize(("article", "low", "typical", "high", "where"), ROWS, ids=[row[0] for row in ROWS])
def test_figures_and_places(article: str, low: str, typical: str, high: str, where: str) -> None:
    found = next(one for one in ARTICLES if one.id == article)
    assert (found.low_kg, found.high_kg) == (float(low), float(high))
    assert typical == "-" or found.typical_kg == float(typical)
    first = CODES.get(where, where.split("/")[0])
    assert found.places[0] == first
    assert where in CODES or set(where.split("/")) <= set(found.places)


def test_only_the_first_aid_kit_is_our_own() -> None:
    assert {one.id for one in ARTICLES} - {row[0] for row in ROWS} == {"first_aid"}
    assert [one.id for one in ARTICLES if one.source == "assumed"] == ["first_aid"]


def test_the_base_vehicle_of_the_table() -> None:
    """Kerb mass, front share, wheelbase 3.15 to 3.25, overhang, rear axle to ball 1.30 to 1.40: from memory."""
    found = next(one for one in BASE_VEHICLES if one.id == "utility")
    assert found.kerb_kg == (1950, 2150, 2400)
    assert found.front_share == (0.53, 0.56, 0.60)
    assert (found.wheelbase_m[0], found.wheelbase_m[2]) == (3.0, 3.3)
    assert 3.15 <= found.wheelbase_m[1] <= 3.25
    assert found.front_overhang_m == (0.85, 0.90, 1.00)
    assert (found.axle_to_coupling_m[0], found.axle_to_coupling_m[2]) == (1.20, 1.55)
    assert 1.30 <= found.axle_to_coupling_m[1] <= 1.40
