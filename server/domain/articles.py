"""The catalogue's figures: generic articles, kits, base vehicles, and where a position code lies. No brands.

Masses are net, low to high about nine in ten of what is sold. Sources, article by article: "memory" is from memory,
"practice" is common practice (trip lists, general travel press), "assumed" is our own assumption. What holds fuel or
water is a tank and who travels is a person: neither is here. The browser's `articles.ts` holds the same rows.
"""

from dataclasses import dataclass

REFERENCE_WHEELBASE_M = 3.2  # the position codes are told for about this wheelbase (from memory)

# Code -> from, to, metres behind the front axle at that wheelbase (from memory). Those of several codes are their
# whole stretch; "W" is what is shared by both axles, "S" a wheel under the tail, the roof is that of the cab (assumed).
PLACES: dict[str, tuple[float, float]] = {
    "F": (-0.9, -0.5),
    "E": (-0.3, 0.3),
    "FC": (-0.9, 1.6),
    "FM": (-0.9, 2.7),
    "C1": (1.3, 1.6),
    "W": (0.0, 3.2),
    "roof": (1.3, 2.5),
    "C2": (2.1, 2.5),
    "M": (1.5, 2.7),
    "T1": (2.5, 3.0),
    "A": (3.0, 3.4),
    "T": (2.5, 4.3),
    "AT": (3.0, 4.3),
    "T2": (3.5, 4.3),
    "S": (3.8, 4.2),
    "R": (4.4, 4.8),
}
ROOF_Z_M = (1.9, 2.2)  # height above the ground of what lies on a roof, low and high (from memory)


@dataclass(frozen=True)
class Article:
    """A generic thing that is bolted on or carried; the first of its places is the usual one."""

    id: str
    name: str
    low_kg: float
    typical_kg: float
    high_kg: float
    places: tuple[str, ...]
    nature: str
    source: str
    count: int = 1
    keep_aboard: bool = False
    taken_off: bool = False


@dataclass(frozen=True)
class Kit:
    """Articles that are placed together: an invented combination, each article with how many of it."""

    id: str
    name: str
    holds: tuple[tuple[str, int], ...]


@dataclass(frozen=True)
class BaseVehicle:
    """A generic vehicle as delivered, full of fuel, nobody aboard; each figure low, typical, high."""

    id: str
    name: str
    body_form: str
    kerb_kg: tuple[float, float, float]
    front_share: tuple[float, float, float]
    wheelbase_m: tuple[float, float, float]
    front_overhang_m: tuple[float, float, float]
    axle_to_coupling_m: tuple[float, float, float]
    fuel_l: float
    source: str


_MEMORY, _PRACTICE, _ASSUMED = "memory", "practice", "assumed"

ARTICLES: tuple[Article, ...] = (
    Article("front_bar_steel", "Front bar, steel, less the bumper", 40, 60, 95, ("F",), "part", _MEMORY),
    Article("front_bar_alloy", "Front bar, alloy or composite", 22, 38, 55, ("F",), "part", _MEMORY),
    Article("winch_steel", "Winch, steel rope", 32, 40, 50, ("F",), "part", _MEMORY),
    Article("winch_synthetic", "Winch, synthetic rope", 22, 28, 38, ("F",), "part", _MEMORY),
    Article("underbody", "Underbody plates", 12, 25, 50, ("FM",), "part", _MEMORY),
    Article("side_steps", "Side steps or sliders", 15, 35, 60, ("M",), "part", _MEMORY),
    Article("aerials", "Snorkel, lights, radio, aerials", 5, 12, 25, ("FC",), "part", _MEMORY),
    Article("suspension", "Heavier suspension, net", 5, 20, 50, ("W",), "part", _MEMORY),
    Article("tyres", "Larger tyre and wheel, extra of one", 2, 6, 12, ("W",), "part", _MEMORY, count=4),
    Article("rack_alloy", "Roof rack, alloy", 18, 28, 40, ("roof",), "part", _PRACTICE),
    Article("rack_steel", "Roof rack, steel", 40, 60, 80, ("roof",), "part", _PRACTICE),
    Article("tent_soft", "Rooftop tent, soft", 40, 55, 75, ("roof",), "part", _PRACTICE),
    Article("tent_hard", "Rooftop tent, hard", 50, 70, 95, ("roof",), "part", _PRACTICE),
    Article("awning", "Awning, straight", 8, 13, 18, ("roof",), "part", _MEMORY),
    Article("awning_wrap", "Awning, wrap-round", 18, 24, 38, ("roof",), "part", _MEMORY),
    # the middle is assumed: only the range is told, for a tray that replaces it
    Article("tub_off", "Tub, taken off", 90, 115, 140, ("A",), "part", _PRACTICE, taken_off=True),
    Article("tray_alloy", "Tray, alloy", 110, 150, 200, ("T", "A"), "part", _PRACTICE),
    Article("tray_steel", "Tray, steel", 220, 270, 340, ("T",), "part", _PRACTICE),
    Article("canopy_alloy", "Canopy, alloy, empty", 90, 150, 260, ("T",), "part", _MEMORY),
    Article("canopy_steel", "Canopy, steel", 180, 260, 380, ("T",), "part", _MEMORY),
    Article("canopy_moulded", "Tub canopy, moulded", 45, 65, 90, ("A",), "part", _MEMORY),
    Article("fit_out", "Fit-out: shelves, kitchen, wiring", 30, 80, 180, ("T",), "part", _MEMORY),
    Article("drawers", "Drawers, pair", 35, 70, 120, ("AT",), "part", _PRACTICE),
    Article("slide", "Fridge slide, plain", 12, 18, 25, ("T",), "part", _MEMORY),
    Article("slide_drop", "Fridge slide, drop-down", 22, 30, 40, ("T",), "part", _MEMORY),
    Article("fridge_40", "Fridge 40 L, empty", 16, 20, 26, ("T1",), "load", _MEMORY),
    Article("fridge_40_full", "Fridge 40 L, with contents", 35, 42, 55, ("T1",), "load", _MEMORY),
    Article("fridge_60", "Fridge 60 L, empty", 20, 25, 32, ("T1",), "load", _PRACTICE),
    Article("fridge_60_full", "Fridge 60 L, with contents", 45, 60, 75, ("T1",), "load", _PRACTICE),
    Article("fridge_80", "Fridge 80 L, empty", 25, 31, 40, ("T1",), "load", _MEMORY),
    Article("fridge_80_full", "Fridge 80 L, with contents", 55, 75, 95, ("T1",), "load", _MEMORY),
    Article("battery_agm", "Battery, lead AGM, 100 Ah", 25, 28, 32, ("E", "T1"), "part", _PRACTICE),
    Article("battery_lfp", "Battery, LiFePO4, 100 Ah", 9.5, 12, 15, ("T1", "C2"), "part", _PRACTICE),
    Article("wiring", "Wiring, charger, inverter, board", 8, 20, 45, ("T1",), "part", _MEMORY),
    Article("solar_glass", "Solar, glass, 100 W with mounts", 6, 8, 11, ("roof",), "part", _MEMORY),
    Article("solar_flexible", "Solar, flexible, 100 W", 1.5, 2.5, 3.5, ("roof",), "part", _MEMORY),
    Article("solar_blanket", "Solar blanket, 100 W", 2.5, 4, 6, ("T",), "load", _MEMORY),
    Article("spare_31", "Spare wheel, 31 to 32 in", 28, 33, 40, ("R", "S", "T"), "part", _PRACTICE),
    Article("spare_33", "Spare wheel, 33 in", 32, 38, 46, ("R", "S", "T"), "part", _MEMORY),
    Article("spare_35", "Spare wheel, 35 in", 38, 46, 56, ("R", "S", "T"), "part", _MEMORY),
    Article("rear_bar", "Rear bar, one carrier, no wheel", 45, 65, 95, ("R",), "part", _PRACTICE),
    Article("rear_bar_two", "Rear bar, two carriers, no wheels", 60, 90, 130, ("R",), "part", _PRACTICE),
    Article("towbar", "Towbar", 25, 40, 70, ("R",), "part", _PRACTICE),
    Article("tongue", "Hitch tongue", 4, 6, 10, ("R",), "load", _PRACTICE),
    Article("levelling_hitch", "Levelling hitch", 20, 32, 50, ("R",), "load", _MEMORY),
    Article("tank_shell", "Long-range tank shell, net", 8, 20, 35, ("M",), "part", _MEMORY),
    Article("shell_poly", "Water tank shell, poly, 50 L", 3, 5, 8, ("M", "T1", "C2"), "part", _MEMORY),
    Article("shell_steel", "Water tank shell, steel, 50 L", 8, 12, 18, ("M", "T1", "C2"), "part", _MEMORY),
    Article(
        "recovery",
        "Recovery gear: straps, shackles, boards",
        *(20, 35, 60, ("T", "roof"), "load", _PRACTICE),
        keep_aboard=True,
    ),
    Article("first_aid", "First aid kit", 1, 3, 6, ("C2", "T"), "load", _ASSUMED, keep_aboard=True),
    Article("tools", "Tools and spares", 20, 45, 100, ("T", "C2"), "load", _PRACTICE),
    Article("compressor", "Air compressor", 4, 8, 15, ("E", "T"), "load", _PRACTICE),
    Article("jack", "High-lift jack", 12, 14, 15, ("T", "R"), "load", _MEMORY, keep_aboard=True),
    Article("gas_4", "Gas cylinder, 4 kg, full", 8, 9, 11, ("T", "R"), "load", _MEMORY),
    Article("gas_9", "Gas cylinder, 9 kg, full", 16, 18, 21, ("T", "R"), "load", _MEMORY),
    Article("swag", "Swag, single", 6, 10, 15, ("roof", "T"), "load", _MEMORY),
    Article("swag_double", "Swag, double", 10, 15, 22, ("roof", "T"), "load", _MEMORY),
    Article("ground_tent", "Family tent, four chairs, table", 20, 40, 70, ("T", "roof"), "load", _PRACTICE),
    Article("kitchen", "Kitchen, stove, pots", 10, 22, 40, ("T",), "load", _PRACTICE),
    Article("food", "Food and drink, one person a day", 1.2, 2, 3.5, ("T1",), "load", _MEMORY),
    Article("clothes", "Clothes and bedding, one person", 8, 14, 25, ("C2", "T"), "load", _PRACTICE),
    Article("child_seat", "Child seat", 4, 8, 14, ("C2",), "load", _MEMORY),
    Article("odds", "Odds: phones, books, bikes, firewood", 10, 30, 90, ("T", "C2"), "load", _MEMORY),
    Article("mud", "Mud, dust, damp carpet", 0, 10, 40, ("W",), "load", _MEMORY),
)

KITS: tuple[Kit, ...] = (  # combinations of our own (assumed)
    Kit("front", "Front bar with winch", (("front_bar_steel", 1), ("winch_synthetic", 1))),
    Kit("tray", "Alloy tray in place of the tub", (("tub_off", 1), ("tray_alloy", 1))),
    Kit(
        "canopy",
        "Touring canopy with fit-out",
        (
            *(("canopy_alloy", 1), ("fit_out", 1), ("battery_lfp", 2), ("solar_glass", 2)),
            *(("slide_drop", 1), ("fridge_60_full", 1)),
        ),
    ),
    Kit(
        "camp_kitchen",
        "Camp kitchen",
        (("kitchen", 1), ("gas_4", 1), ("slide", 1), ("fridge_40_full", 1)),
    ),
    Kit("roof_camp", "Sleeping on the roof", (("rack_alloy", 1), ("tent_soft", 1), ("awning", 1))),
    Kit(
        "help",
        "Recovery, tools and first aid",
        (("recovery", 1), ("first_aid", 1), ("tools", 1), ("compressor", 1), ("jack", 1)),
    ),
    Kit("family", "Four people in a tent, a week", (("ground_tent", 1), ("clothes", 4), ("food", 28))),
)

_TANK_L = 80.0  # a tank of this size, full, is in the kerb mass (assumed)

BASE_VEHICLES: tuple[BaseVehicle, ...] = (
    BaseVehicle(
        *("utility", "Mid-size utility, dual cab", "utility"),
        kerb_kg=(1950, 2150, 2400),
        front_share=(0.53, 0.56, 0.60),
        wheelbase_m=(3.0, 3.2, 3.3),
        front_overhang_m=(0.85, 0.9, 1.0),
        axle_to_coupling_m=(1.2, 1.35, 1.55),
        fuel_l=_TANK_L,
        source=_MEMORY,
    ),
    BaseVehicle(
        *("wagon", "Mid-size wagon", "wagon"),
        kerb_kg=(2000, 2250, 2500),
        front_share=(0.50, 0.52, 0.55),
        wheelbase_m=(2.75, 2.8, 2.9),
        front_overhang_m=(0.85, 0.9, 1.0),
        axle_to_coupling_m=(1.15, 1.25, 1.4),
        fuel_l=_TANK_L,
        source=_MEMORY,
    ),
    BaseVehicle(
        *("van", "Long van", "van"),
        kerb_kg=(1900, 2150, 2450),
        front_share=(0.54, 0.58, 0.64),
        wheelbase_m=(3.45, 3.65, 4.05),
        front_overhang_m=(0.95, 1.0, 1.1),
        axle_to_coupling_m=(1.3, 1.5, 1.9),
        fuel_l=_TANK_L,
        source=_MEMORY,
    ),
)
