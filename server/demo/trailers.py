"""Two trailers: one that presses the long wagon's rear axle over its rating, and a light one for the high van.

Places count rearwards from the coupling. Masses lie within the usual ranges of the trade (common practice, no
source); what towing does to consumption is from memory.
"""

from .tables import Line, PlateRow, TankRow, TrailerSheet

WAGON_TRAILER = TrailerSheet(
    key="camp",
    day=73,
    trailer={
        "name": "Camp trailer",
        "body_form": "box",
        "axles": 1,
        "base_known_by": "data_sheet",
        "levelling_hitch": False,
    },
    figures={
        "coupling_to_axle_m": "3100 mm",
        "rear_overhang_m": "1.4 m",
        "base_coupling_kg": "94 kg",
        "base_coupling_u_kg": "4 kg",
        "base_axles_kg": "668 kg",
        "base_axles_u_kg": "9 kg",
    },
    lines=(
        Line("Drawbar box with stone guard", "34 kg", "data_sheet", (950, 0, 800)),
        Line("Spare wheel of the trailer", "22 kg", "weighed", (1250, 0, 700)),
        Line("Lead battery 100 Ah, trailer", "28 kg", "weighed", (1500, -500, 700)),
        Line("Slide-out kitchen", "46 kg", "estimate", (4100, 0, 900), u="5 kg"),
        Line("Tent on the lid", "64 kg", "data_sheet", (2900, 0, 1500)),
        Line("Water tank shell 70 L, poly", "7 kg", "data_sheet", (2400, 0, 550)),
        Line("Gas cylinder 9 kg, trailer", "18 kg", "weighed", (800, 0, 900), load=True),
        Line(
            "Pegs, ropes and hand tools",
            "36 kg",
            "estimate",
            (2000, 300, 800),
            u="4 kg",
            load=True,
            slots=(("behind the trailer's axle", (3700, 300, 800)),),
        ),
        Line("Bedding for the tent", "24 kg", "estimate", (3300, 0, 1000), u="3 kg", load=True, stays=True),
    ),
    tanks=(
        TankRow(
            "trailer_water",
            "Trailer's water tank",
            "water",
            "70 L",
            (2400, 0, 500),
            "220 mm",
            how="tube",
            capacity_u="1 L",
            unusable="2 L",
            breadth="900 mm",
        ),
    ),
    plates=(
        PlateRow("trailer", "trailer maker", 400, {"trailer_kg": "1400 kg", "trailer_axles_kg": "1.3 t"}),
        PlateRow("coupling", "marking on the coupling", 400, {"trailer_kg": "2 t", "coupling_kg": "250 kg"}),
    ),
    forgotten_share=0.02,
    z_base_m=0.7,
    towing=1.3,
)

VAN_TRAILER = TrailerSheet(
    key="boats",
    day=80,
    trailer={
        "name": "Boat trailer",
        "body_form": "open",
        "axles": 1,
        "base_known_by": "weighed",
        "levelling_hitch": False,
    },
    figures={
        "coupling_to_axle_m": "2.6 m",
        "rear_overhang_m": "1.2 m",
        "base_coupling_kg": "28 kg",
        "base_coupling_u_kg": "2 kg",
        "base_axles_kg": "192 kg",
        "base_axles_u_kg": "3 kg",
    },
    lines=(
        Line("Rack with two levels", "31 kg", "data_sheet", (2500, 0, 1100)),
        Line("Box on the drawbar", "17 kg", "weighed", (900, 0, 750)),
        Line("Spare wheel of the trailer", "14 kg", "weighed", (750, 250, 650)),
        Line("Kayaks", "26 kg", "weighed", (2650, 0, 1300), count=2, load=True, stays=True),
        Line("Paddles, vests and ropes", "19 kg", "estimate", (1000, 0, 800), u="3 kg", load=True),
    ),
    tanks=(
        TankRow(
            "trailer_water",
            "Drum on the trailer",
            "water",
            "40 L",
            (1600, 0, 600),
            "400 mm",
            how="stick",
            capacity_u="0.5 L",
        ),
    ),
    plates=(
        PlateRow("trailer", "trailer maker", 900, {"trailer_kg": "750 kg", "trailer_axles_kg": "700 kg"}),
        PlateRow(
            "coupling", "marking on the coupling", 900, {"trailer_kg": "750 kg", "coupling_kg": "100 kg"}
        ),
    ),
    forgotten_share=0.0,
    z_base_m=0.55,
    towing=1.15,
)
