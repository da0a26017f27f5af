"""Vectors of tyres: designations read by hand, published loads, geometry in exact fractions."""

from fractions import Fraction
from math import pi, sqrt
from typing import Any

import numpy as np
from vectors.frame import case, function, refused

# text -> width mm, aspect %, rim code, load index, dual index, speed symbol
READ = (
    ("265/70R17 121/118S", 265, 70, 17, 121, 118, "S"),
    ("265/70 R 17 115T", 265, 70, 17, 115, None, "T"),
    ("LT265/70R17", 265, 70, 17, None, None, None),
    ("lt 235/85r16 120/116q", 235, 85, 16, 120, 116, "Q"),
    ("  265 / 70 zr 17  ", 265, 70, 17, None, None, None),
    ("P225/75R16C 8PR 121/120R M+S", 225, 75, 16, 121, 120, "R"),
    ("265/70R17 XL (115T)", 265, 70, 17, 115, None, "T"),
    ("265-70-17", 265, 70, 17, None, None, None),
    ("265 70 17 115", 265, 70, 17, 115, None, None),
    ("275/70R22.5 148/145M", 275, 70, 22.5, 148, 145, "M"),
    ("185R14C 102/100Q", 185, None, 14, 102, 100, "Q"),
    ("185R14XL", 185, None, 14, None, None, None),
    ("7.50R16", 190.5, None, 16, None, None, None),
    ("7,50-16 10PR 114/112L", 190.5, None, 16, 114, 112, "L"),
    ("11R22.5", float(Fraction("25.4") * 11), None, 22.5, None, None, None),
    ("31x10.5R15", 266.7, float(Fraction(100 * 16, 21)), 15, None, None, None),
    ("35×12,50 R 17 LT 121Q", 317.5, 72, 17, 121, None, "Q"),
)
UNREADABLE = {
    "no size at all": "all terrain",
    "nothing": "",
    "no mark between the figures": "2657017",
    "the rim left out": "265/70",
    "the dual index first": "265/70R17 118/121S",
    "a letter that is no speed symbol": "265/70R17 115Z",
    "a rim that is none": "265/70R99",
    "a section that is none": "265/12R17",
    "a width that is none": "900/70R17",
    "wider than it is high": "31x35R15",
    "figures after the end": "265/70R17 115T 4",
    "other digits": "٢٦٥/70R17",
}
# UN R30 6.1.2; numbers in exact fractions: width mm, aspect %, rim code
SIZES = ((205, 55, 16), (225, 75, 16), (235, 85, 16), (265, 65, 17), (265, 70, 17), (285, 75, 16))


def diameter(width: int, aspect: int, rim: int) -> float:
    return float((Fraction("25.4") * rim + Fraction(2 * width * aspect, 100)) / 1000)


def read(width: float, aspect: Any, rim: float, index: Any, dual: Any, symbol: Any) -> dict[str, Any]:
    return {
        "width_mm": width, "aspect_percent": aspect, "rim_code": rim,
        "load_index": index, "load_index_dual": dual, "speed_symbol": symbol,
    }  # fmt: skip


def designations() -> dict[str, Any]:
    return function(
        "parse_designation",
        "the markings of UN R30 and R54 (from memory), read by hand",
        *(case(text, read(*told), text=text) for text, *told in READ),
        *(refused(name, "DomainError", "tyre_size", text=text) for name, text in UNREADABLE.items()),
    )


def loads() -> list[dict[str, Any]]:
    table = (
        (60, 250),
        (62, 265),
        (75, 387),
        (98, 750),
        (100, 800),
        (113, 1150),
        (116, 1250),
        (121, 1450),
        (130, 1900),
    )
    return [
        function(
            "load_capacity_kg",
            "ISO 4000-1, ETRTO, UN R30 and R54 Annex 4 as nine open tables have it",
            *(case(f"index {index}", float(kg), load_index=index) for index, kg in table),
            refused("below the table", "OutOfRange", "load_index", load_index=59),
            refused("above the table", "OutOfRange", "load_index", load_index=131),
            refused("half an index", "DomainError", "load_index", load_index=116.5),
            refused("blank", "DomainError", "load_index", load_index=None),
        ),
        function(
            "axle_capacity_kg",
            "the table times the tyres; 112/109 is 1120 kg alone and 1030 beside another (tyre trade table)",
            case("two unless said", 2240.0, load_index=112),
            case("twin tyres by the dual index", 4120.0, load_index=109, tyres=4),
            case("three", 3090.0, load_index=109, tyres=3),
            refused("one tyre is no axle", "OutOfRange", "tyres_per_axle", load_index=109, tyres=1),
            refused("a spare counted", "OutOfRange", "tyres_per_axle", load_index=109, tyres=5),
            refused("half a tyre", "DomainError", "tyres_per_axle", load_index=109, tyres=2.5),
        ),
        function(
            "top_speed_kmh",
            "speed symbols of UN R30 and R54; H sits after U",
            *(case(one, kmh, speed_symbol=one) for one, kmh in (("F", 80.0), ("U", 200.0), ("H", 210.0), ("Y", 300.0))),
            refused("no such symbol", "Unknown", "speed_symbol", speed_symbol="Z"),
            refused("a name that every object has", "Unknown", "speed_symbol", speed_symbol="constructor"),
        ),
    ]  # fmt: skip


def geometry() -> list[dict[str, Any]]:
    wide = {"width_mm": 265.0, "aspect_percent": 70.0, "rim_code": 17.0}
    return [
        function(
            "overall_diameter_m",
            "UN R30 6.1.2 (from memory) in exact fractions",
            *(
                case(f"{w}/{a}R{r}", diameter(w, a, r), width_mm=w, aspect_percent=a, rim_code=r)
                for w, a, r in SIZES
            ),
            refused("no aspect", "NotKnown", "aspect_percent", **{**wide, "aspect_percent": None}),
            refused("a width in metres", "OutOfRange", "width_mm", **{**wide, "width_mm": 0.265}),
            refused(
                "an aspect as a share", "OutOfRange", "aspect_percent", **{**wide, "aspect_percent": 0.7}
            ),
            refused("a rim in millimetres", "OutOfRange", "rim_code", **{**wide, "rim_code": 431.8}),
        ),
        function(
            "circumference_m",
            "geometry: pi D",
            case("265/70R17", 2.5221, rel=0.0, abs=5e-5, diameter_m=0.8028),
            refused("in millimetres", "OutOfRange", "diameter_m", diameter_m=802.8),
        ),
        function(
            "revolutions_per_km",
            "geometry: 1000/(pi D)",
            case("265/70R17", 396.5, rel=0.0, abs=0.05, diameter_m=0.8028),
            case("285/75R16", 381.7, rel=0.0, abs=0.05, diameter_m=0.8339),
            refused("none", "OutOfRange", "diameter_m", diameter_m=0.0),
        ),
        function(
            "highest_reading_kmh",
            "UN R39 5.3",
            *(
                case(f"{v} km/h", float(top), true_speed_kmh=v)
                for v, top in ((0, 4), (40, 48), (80, 92), (100, 114), (110, 125), (120, 136))
            ),
            refused("backwards", "OutOfRange", "true_speed_kmh", true_speed_kmh=-1.0),
        ),
    ]


def odometer() -> dict[str, Any]:
    small, large = 0.7763, 0.8028
    sizes = {"from_diameter_m": small, "to_diameter_m": large}
    ratio = float(Fraction("0.8028") / Fraction("0.7763"))
    both = ratio * sqrt((0.004 / small) ** 2 + (0.004 / large) ** 2)
    known = 1.02 * ratio
    return function(
        "odometer_factor",
        "ratio of diameters in exact fractions; relative errors added in squares",
        case("265/65R17 to 265/70R17", {"factor": ratio, "factor_u": 0.0}, **sizes),
        case("with worn treads", {"factor": ratio, "factor_u": both}, **sizes, from_u_m=0.004, to_u_m=0.004),
        case(
            "on top of what was known",
            {"factor": known, "factor_u": known * 0.005 / 1.02},
            **sizes, factor=1.02, factor_u=0.005,
        ),
        case("the same size", {"factor": 1.0, "factor_u": 0.0}, from_diameter_m=small, to_diameter_m=small),
        refused("no size before", "OutOfRange", "from_diameter_m", from_diameter_m=0.0, to_diameter_m=large),
        refused("a factor of nothing", "OutOfRange", "factor", **sizes, factor=0.0),
        refused("a negative u", "OutOfRange", "to_u_m", **sizes, to_u_m=-0.001),
    )  # fmt: skip


def fittings() -> dict[str, Any]:
    both, alone = "265/70R17 121/118S", "265/70R17 115T"

    def told(index: Any, tyre: Any, axle: Any) -> dict[str, Any]:
        return {"load_index": index, "tyre_kg": tyre, "axle_kg": axle}

    return function(
        "fitted",
        "the table of load indices, by hand",
        case("index of the size, two tyres", told(121, 1450.0, 2900.0), tyre_size=both),
        case("twin tyres take the dual index", told(118, 1320.0, 5280.0), tyre_size=both, tyres_per_axle=4),
        case(
            "also when the single one is entered",
            told(118, 1320.0, 5280.0),
            tyre_size=both,
            tyre_load_index=121,
            tyres_per_axle=4,
        ),
        case(
            "a dual index entered stands",
            told(117, 1285.0, 5140.0),
            tyre_size=both,
            tyre_load_index=117,
            tyres_per_axle=4,
        ),
        case(
            "the single index does not tell of twins",
            told(None, None, None),
            tyre_size=alone,
            tyres_per_axle=4,
        ),
        case(
            "unless it was entered for them",
            told(115, 1215.0, 4860.0),
            tyre_size=alone,
            tyre_load_index=115,
            tyres_per_axle=4,
        ),
        case(
            "an index entered goes before the size's",
            told(116, 1250.0, 2500.0),
            tyre_size=alone,
            tyre_load_index=116,
        ),
        case(
            "an index without a size",
            {**told(116, 1250.0, 2500.0), "designation": None, "diameter_m": None},
            tyre_load_index=116,
        ),
        case(
            "a size alone gives its diameter",
            {**told(None, None, None), "diameter_m": diameter(265, 70, 17)},
            tyre_size="265/70R17",
        ),
        case(
            "a size without its aspect gives none",
            {**told(None, None, None), "diameter_m": None},
            tyre_size="7.50R16",
        ),
        case("an index past the table", told(148, None, None), tyre_size="275/70R22.5 148/145M"),
        case("half an index", told(None, None, None), tyre_load_index=116.5),
        case(
            "what cannot be read",
            {**told(None, None, None), "designation": None},
            tyre_size="round and black",
        ),
        case("nothing entered", {**told(None, None, None), "designation": None, "diameter_m": None}),
    )


def functions(rng: np.random.Generator) -> list[dict[str, Any]]:
    assert abs(pi * 0.8028 - 2.5221) < 5e-5  # row 7.2 agrees with its own diameter
    return [designations(), *loads(), *geometry(), odometer(), fittings()]
