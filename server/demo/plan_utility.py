"""A dual-cab utility with a canopy: heavier at the tail than planned.

In truth the canopy's fit-out is far heavier than its line says, and something at the tail was never written
down. Masses lie within the usual ranges of the trade (common practice, no source).
"""

from .tables import Edit, Line, Nature, PersonRow, PlateRow, SeatRow, Sheet, TankRow, Unlisted

_CAB = ("behind the front seats", (2250, 0, 800))
_FRONT_LOCKER = ("front locker", (2750, -500, 1050))

_LINES = (
    Line("Tub with tailgate", "104 kg", "weighed", (3480, 0, 950), taken_off=True),
    Line("Front bar, steel", "64 kg", "data_sheet", (-720, 0, 780)),
    Line("Winch, synthetic rope", "29 kg", "data_sheet", (-780, 0, 760)),
    Line("Underbody plates", "24 kg", "similar", (300, 0, 420)),
    Line("Side steps, pair", "33 kg", "weighed", (1880, 0, 450)),
    Line("Snorkel and driving lamps", "12 kg", "estimate", (-150, 550, 1300), u="3 kg", told=True),
    Line("Heavier rear springs, net", "14 kg", "similar", (3180, 0, 520)),
    Line("Larger front tyres, extra", "6 kg", "weighed", (0, 0, 400), count=2, weighed_singly=True),
    Line("Larger rear tyres, extra", "6 kg", "weighed", (3220, 0, 400), count=2, weighed_singly=True),
    Line("Tray, alloy", "148 kg", "weighed", (3420, 0, 950)),
    Line("Canopy, alloy, empty", "152 kg", "data_sheet", (3400, 0, 1450)),
    Line(
        "Canopy fit-out: shelves, lining, kitchen",
        "72 kg",
        "estimate",
        (3750, 0, 1300),
        u="14 kg",
        x_u="250 mm",
        truly_more_kg=(74, 82),
    ),
    Line("Fridge slide, drop-down", "29 kg", "data_sheet", (3050, 600, 1150)),
    Line("Fridge 60 L, empty", "25 kg", "data_sheet", (3050, 600, 1350)),
    Line("Lithium battery 200 Ah", "24 kg", "weighed", (2780, -500, 1080)),
    Line("Inverter, charger and board", "16 kg", "similar", (2780, -450, 1350)),
    Line("Water tank shell 60 L, poly", "6 kg", "data_sheet", (2650, 0, 600)),
    Line("Roof rack, alloy", "27 kg", "data_sheet", (1750, 0, 1950), roof=True),
    Line("Awning on the canopy", "14 kg", "data_sheet", (3400, -850, 1950)),
    Line("Solar panel 100 W with mounts", "7.5 kg", "weighed", (3400, 0, 2120), count=2),
    Line("Rear bar, one wheel carrier", "64 kg", "similar", (4480, 0, 750)),
    Line("Spare wheel 33 in on the carrier", "38 kg", "weighed", (4620, 350, 1000)),
    Line("Towbar and tongue", "44 kg", "data_sheet", (4280, 0, 560)),
    Line("Two-way radio and aerial", "4 kg", "estimate", (900, 0, 1100), u="1 kg", told=True),
    Line("Shower kit", "11 kg", "data_sheet", (3900, -600, 1200), on_order=True),
    Line("Recovery kit", "33 kg", "weighed", (4050, 0, 1050), load=True, keep=True),
    Line("First-aid kit", "3 kg", "weighed", (2300, 300, 900), load=True, keep=True),
    Line("Fire extinguisher", "3.5 kg", "weighed", (1500, -300, 600), load=True, keep=True),
    Line(
        "Tools and spares",
        "44 kg",
        "estimate",
        (3950, -500, 1050),
        u="7 kg",
        load=True,
        slots=(_CAB, _FRONT_LOCKER),
    ),
    Line("Air compressor", "8 kg", "weighed", (3900, 500, 1050), load=True, slots=(_FRONT_LOCKER,)),
    Line("Swag, double", "15 kg", "weighed", (1700, 0, 2050), load=True, roof=True, stays=True),
    Line("Traction boards, pair", "8 kg", "weighed", (2000, 400, 2020), load=True, roof=True),
    Line("Camp kitchen and pots", "21 kg", "estimate", (4000, 500, 1100), u="4 kg", load=True),
    Line("Chairs and table", "18 kg", "similar", (3850, 0, 1500), load=True, stays=True),
    Line(
        "Food and drinks for nine days",
        "36 kg",
        "estimate",
        (3050, 500, 1250),
        u="6 kg",
        load=True,
        told=True,
    ),
    Line(
        "Clothes and bedding, a bag each", "13 kg", "estimate", (2350, 0, 850), u="3 kg", count=2, load=True
    ),
    Line("High-lift jack", "14 kg", "weighed", (4300, -550, 1000), load=True, slots=(_CAB,)),
    Line("Gas cylinder 9 kg, full", "18 kg", "weighed", (4150, -700, 1050), load=True),
    Line(
        "Firewood and odds",
        "22 kg",
        "estimate",
        (2050, 0, 2050),
        u="7 kg",
        load=True,
        roof=True,
        told=True,
        stays=True,
    ),
)

_PLATES = (
    PlateRow(
        "vehicle",
        "maker",
        1460,
        {
            "gross_kg": "3200 kg",
            "front_axle_kg": "1480 kg",
            "rear_axle_kg": "1870 kg",
            "combination_kg": "6000 kg",
            "trailer_kg": "3500 kg",
            "coupling_kg": "350 kg",
            "roof_kg": "100 kg",
        },
    ),
    PlateRow(
        "tyres",
        "marking on the tyre",
        254,
        {"front_axle_kg": "2500 kg", "rear_axle_kg": "2500 kg"},
        tyre_size="265/70R17",
        tyre_load_index=116,
    ),
    PlateRow("towbar", "towbar maker", 254, {"trailer_kg": "3000 kg", "coupling_kg": "300 kg"}),
    PlateRow(
        "rack", "rack maker", 254, {"roof_kg": "75 kg"}, conditions="Sealed roads; less on rough tracks."
    ),
    PlateRow(
        "vehicle",
        "second-stage approval",
        196,
        {"gross_kg": "3.6 t", "rear_axle_kg": "2.15 t"},
        conditions="With the springs and tyres of the approval.",
    ),
)

UTILITY = Sheet(
    key="utility",
    owner="orsolla",
    co_driver=None,
    begun_day=252,
    vehicle={
        "name": "Canopy utility",
        "body_form": "utility",
        "rear_axles": "single",
        "base_known_by": "weighed",
        "fuel_kind": "diesel",
        "terms": "au",
    },
    figures={
        "wheelbase_m": "3220 mm",
        "track_front_m": "1570 mm",
        "track_rear_m": "1570 mm",
        "front_overhang_m": "900 mm",
        "rear_overhang_m": "1.25 m",
        "coupling_x_m": "4560 mm",
        "base_front_kg": "1.15 t",
        "base_front_u_kg": "7 kg",
        "base_rear_kg": "905 kg",
        "base_rear_u_kg": "7 kg",
        "base_fuel_l": "10 L",
        "cg_height_m": "0.68 m",
        "cg_height_u_m": "0.03 m",
        "odometer_factor": "1 1",
        "odometer_factor_u": "0.01 1",
    },
    lines=_LINES,
    unlisted=(Unlisted("Gear box and second spare behind the carrier", (40, 52), 4.62, 1.0),),
    tanks=(
        TankRow(
            "main",
            "Main tank",
            "fuel",
            "80 L",
            (2250, 0, 400),
            "300 mm",
            gauge_bend=0.07,
            capacity_u="1 L",
            unusable="3 L",
            order=1,
        ),
        TankRow(
            "can", "Diesel can", "fuel", "20 L", (4100, 700, 1000), "450 mm", how="stick", empty="4.3 kg"
        ),
        TankRow(
            "water",
            "Water tank",
            "water",
            "60 L",
            (2650, 0, 500),
            "250 mm",
            how="tube",
            gauge_bend=0.02,
            capacity_u="1 L",
            unusable="2 L",
            order=1,
        ),
        TankRow(
            "reserve",
            "Drinking reserve",
            "water",
            "20 L",
            (2450, -400, 700),
            "400 mm",
            how="stick",
            empty="2 kg",
            reserve=True,
        ),
    ),
    seats=(
        SeatRow("driver", "Driver", (1450, 380, 900)),
        SeatRow("front", "Front passenger", (1450, -380, 900)),
        SeatRow("rear_left", "Rear left", (2250, -450, 900)),
        SeatRow("rear_mid", "Rear middle", (2250, 0, 900)),
        SeatRow("rear_right", "Rear right", (2250, 450, 900)),
    ),
    people=(
        PersonRow("orsolla", "Orsolla", "71 kg", "driver"),
        PersonRow("quill", "Quill", "86 kg", "front"),
        PersonRow(
            "biscuit", "Biscuit, the dog", "23 kg", "rear_mid", u="1 kg", animal=True, water_share="0.3 1"
        ),
    ),
    plates=_PLATES,
    edits=(Edit(168, "10:40", "Rear bar, one wheel carrier", "Weighed off the vehicle, bolts included."),),
    nature=Nature(
        forgotten_share=0.02,
        rate_l_per_100km=13.2,
        gravel=1.12,
        sand=1.6,
        odometer_factor=1.004,
        water_l_per_person_day=6.5,
        z_base_m=0.68,
    ),
)
