/**
 * The catalogue's figures: generic articles, kits, base vehicles, and where a position code lies. No brands.
 *
 * Masses are net, low to high about nine in ten of what is sold. Sources, article by article: "memory" is from memory,
 * "practice" is common practice (trip lists, general travel press), "assumed" is our own assumption. What holds fuel or
 * water is a tank and who travels is a person: neither is here. The server's `articles.py` holds the same rows.
 */

export const REFERENCE_WHEELBASE_M = 3.2; // the position codes are told for about this wheelbase (from memory)

type Span = readonly [from: number, to: number];
type Range = readonly [low: number, typical: number, high: number];

// Code -> from, to, metres behind the front axle at that wheelbase (from memory). Those of several codes are their
// whole stretch; "W" is what is shared by both axles, "S" a wheel under the tail, the roof is that of the cab (assumed).
export const PLACES: Readonly<Record<string, Span>> = {
  F: [-0.9, -0.5],
  E: [-0.3, 0.3],
  FC: [-0.9, 1.6],
  FM: [-0.9, 2.7],
  C1: [1.3, 1.6],
  W: [0, 3.2],
  roof: [1.3, 2.5],
  C2: [2.1, 2.5],
  M: [1.5, 2.7],
  T1: [2.5, 3],
  A: [3, 3.4],
  T: [2.5, 4.3],
  AT: [3, 4.3],
  T2: [3.5, 4.3],
  S: [3.8, 4.2],
  R: [4.4, 4.8],
};
export const ROOF_Z_M: Span = [1.9, 2.2]; // height above the ground of what lies on a roof, low and high (from memory)

/** A generic thing that is bolted on or carried; the first of its places is the usual one. */
export interface Article {
  readonly id: string;
  readonly name: string;
  readonly low_kg: number;
  readonly typical_kg: number;
  readonly high_kg: number;
  readonly places: readonly string[];
  readonly nature: string;
  readonly source: string;
  readonly count: number;
  readonly keep_aboard: boolean;
  readonly taken_off: boolean;
}

/** Articles that are placed together: an invented combination, each article with how many of it. */
export interface Kit {
  readonly id: string;
  readonly name: string;
  readonly holds: readonly (readonly [article: string, count: number])[];
}

/** A generic vehicle as delivered, full of fuel, nobody aboard; each figure low, typical, high. */
export interface BaseVehicle {
  readonly id: string;
  readonly name: string;
  readonly body_form: string;
  readonly kerb_kg: Range;
  readonly front_share: Range;
  readonly wheelbase_m: Range;
  readonly front_overhang_m: Range;
  readonly axle_to_coupling_m: Range;
  readonly fuel_l: number;
  readonly source: string;
}

type Line = readonly [
  id: string,
  name: string,
  low_kg: number,
  typical_kg: number,
  high_kg: number,
  places: string,
  nature: string,
  source: string,
  more?: Partial<Article>,
];

// of the tub the middle is assumed: only the range is told, for a tray that replaces it
const LINES: readonly Line[] = [
  ["front_bar_steel", "Front bar, steel, less the bumper", 40, 60, 95, "F", "part", "memory"],
  ["front_bar_alloy", "Front bar, alloy or composite", 22, 38, 55, "F", "part", "memory"],
  ["winch_steel", "Winch, steel rope", 32, 40, 50, "F", "part", "memory"],
  ["winch_synthetic", "Winch, synthetic rope", 22, 28, 38, "F", "part", "memory"],
  ["underbody", "Underbody plates", 12, 25, 50, "FM", "part", "memory"],
  ["side_steps", "Side steps or sliders", 15, 35, 60, "M", "part", "memory"],
  ["aerials", "Snorkel, lights, radio, aerials", 5, 12, 25, "FC", "part", "memory"],
  ["suspension", "Heavier suspension, net", 5, 20, 50, "W", "part", "memory"],
  ["tyres", "Larger tyre and wheel, extra of one", 2, 6, 12, "W", "part", "memory", { count: 4 }],
  ["rack_alloy", "Roof rack, alloy", 18, 28, 40, "roof", "part", "practice"],
  ["rack_steel", "Roof rack, steel", 40, 60, 80, "roof", "part", "practice"],
  ["tent_soft", "Rooftop tent, soft", 40, 55, 75, "roof", "part", "practice"],
  ["tent_hard", "Rooftop tent, hard", 50, 70, 95, "roof", "part", "practice"],
  ["awning", "Awning, straight", 8, 13, 18, "roof", "part", "memory"],
  ["awning_wrap", "Awning, wrap-round", 18, 24, 38, "roof", "part", "memory"],
  ["tub_off", "Tub, taken off", 90, 115, 140, "A", "part", "practice", { taken_off: true }],
  ["tray_alloy", "Tray, alloy", 110, 150, 200, "T A", "part", "practice"],
  ["tray_steel", "Tray, steel", 220, 270, 340, "T", "part", "practice"],
  ["canopy_alloy", "Canopy, alloy, empty", 90, 150, 260, "T", "part", "memory"],
  ["canopy_steel", "Canopy, steel", 180, 260, 380, "T", "part", "memory"],
  ["canopy_moulded", "Tub canopy, moulded", 45, 65, 90, "A", "part", "memory"],
  ["fit_out", "Fit-out: shelves, kitchen, wiring", 30, 80, 180, "T", "part", "memory"],
  ["drawers", "Drawers, pair", 35, 70, 120, "AT", "part", "practice"],
  ["slide", "Fridge slide, plain", 12, 18, 25, "T", "part", "memory"],
  ["slide_drop", "Fridge slide, drop-down", 22, 30, 40, "T", "part", "memory"],
  ["fridge_40", "Fridge 40 L, empty", 16, 20, 26, "T1", "load", "memory"],
  ["fridge_40_full", "Fridge 40 L, with contents", 35, 42, 55, "T1", "load", "memory"],
  ["fridge_60", "Fridge 60 L, empty", 20, 25, 32, "T1", "load", "practice"],
  ["fridge_60_full", "Fridge 60 L, with contents", 45, 60, 75, "T1", "load", "practice"],
  ["fridge_80", "Fridge 80 L, empty", 25, 31, 40, "T1", "load", "memory"],
  ["fridge_80_full", "Fridge 80 L, with contents", 55, 75, 95, "T1", "load", "memory"],
  ["battery_agm", "Battery, lead AGM, 100 Ah", 25, 28, 32, "E T1", "part", "practice"],
  ["battery_lfp", "Battery, LiFePO4, 100 Ah", 9.5, 12, 15, "T1 C2", "part", "practice"],
  ["wiring", "Wiring, charger, inverter, board", 8, 20, 45, "T1", "part", "memory"],
  ["solar_glass", "Solar, glass, 100 W with mounts", 6, 8, 11, "roof", "part", "memory"],
  ["solar_flexible", "Solar, flexible, 100 W", 1.5, 2.5, 3.5, "roof", "part", "memory"],
  ["solar_blanket", "Solar blanket, 100 W", 2.5, 4, 6, "T", "load", "memory"],
  ["spare_31", "Spare wheel, 31 to 32 in", 28, 33, 40, "R S T", "part", "practice"],
  ["spare_33", "Spare wheel, 33 in", 32, 38, 46, "R S T", "part", "memory"],
  ["spare_35", "Spare wheel, 35 in", 38, 46, 56, "R S T", "part", "memory"],
  ["rear_bar", "Rear bar, one carrier, no wheel", 45, 65, 95, "R", "part", "practice"],
  ["rear_bar_two", "Rear bar, two carriers, no wheels", 60, 90, 130, "R", "part", "practice"],
  ["towbar", "Towbar", 25, 40, 70, "R", "part", "practice"],
  ["tongue", "Hitch tongue", 4, 6, 10, "R", "load", "practice"],
  ["levelling_hitch", "Levelling hitch", 20, 32, 50, "R", "load", "memory"],
  ["tank_shell", "Long-range tank shell, net", 8, 20, 35, "M", "part", "memory"],
  ["shell_poly", "Water tank shell, poly, 50 L", 3, 5, 8, "M T1 C2", "part", "memory"],
  ["shell_steel", "Water tank shell, steel, 50 L", 8, 12, 18, "M T1 C2", "part", "memory"],
  [
    "recovery",
    "Recovery gear: straps, shackles, boards",
    20,
    35,
    60,
    "T roof",
    "load",
    "practice",
    { keep_aboard: true },
  ],
  ["first_aid", "First aid kit", 1, 3, 6, "C2 T", "load", "assumed", { keep_aboard: true }],
  ["tools", "Tools and spares", 20, 45, 100, "T C2", "load", "practice"],
  ["compressor", "Air compressor", 4, 8, 15, "E T", "load", "practice"],
  ["jack", "High-lift jack", 12, 14, 15, "T R", "load", "memory", { keep_aboard: true }],
  ["gas_4", "Gas cylinder, 4 kg, full", 8, 9, 11, "T R", "load", "memory"],
  ["gas_9", "Gas cylinder, 9 kg, full", 16, 18, 21, "T R", "load", "memory"],
  ["swag", "Swag, single", 6, 10, 15, "roof T", "load", "memory"],
  ["swag_double", "Swag, double", 10, 15, 22, "roof T", "load", "memory"],
  ["ground_tent", "Family tent, four chairs, table", 20, 40, 70, "T roof", "load", "practice"],
  ["kitchen", "Kitchen, stove, pots", 10, 22, 40, "T", "load", "practice"],
  ["food", "Food and drink, one person a day", 1.2, 2, 3.5, "T1", "load", "memory"],
  ["clothes", "Clothes and bedding, one person", 8, 14, 25, "C2 T", "load", "practice"],
  ["child_seat", "Child seat", 4, 8, 14, "C2", "load", "memory"],
  ["odds", "Odds: phones, books, bikes, firewood", 10, 30, 90, "T C2", "load", "memory"],
  ["mud", "Mud, dust, damp carpet", 0, 10, 40, "W", "load", "memory"],
];

export const ARTICLES: readonly Article[] = LINES.map(
  ([id, name, low_kg, typical_kg, high_kg, places, nature, source, more]) => ({
    ...{ id, name, low_kg, typical_kg, high_kg, places: places.split(" "), nature, source },
    ...{ count: 1, keep_aboard: false, taken_off: false, ...more },
  }),
);

// combinations of our own (assumed)
export const KITS: readonly Kit[] = [
  {
    id: "front",
    name: "Front bar with winch",
    holds: [
      ["front_bar_steel", 1],
      ["winch_synthetic", 1],
    ],
  },
  {
    id: "tray",
    name: "Alloy tray in place of the tub",
    holds: [
      ["tub_off", 1],
      ["tray_alloy", 1],
    ],
  },
  {
    id: "canopy",
    name: "Touring canopy with fit-out",
    holds: [
      ["canopy_alloy", 1],
      ["fit_out", 1],
      ["battery_lfp", 2],
      ["solar_glass", 2],
      ["slide_drop", 1],
      ["fridge_60_full", 1],
    ],
  },
  {
    id: "camp_kitchen",
    name: "Camp kitchen",
    holds: [
      ["kitchen", 1],
      ["gas_4", 1],
      ["slide", 1],
      ["fridge_40_full", 1],
    ],
  },
  {
    id: "roof_camp",
    name: "Sleeping on the roof",
    holds: [
      ["rack_alloy", 1],
      ["tent_soft", 1],
      ["awning", 1],
    ],
  },
  {
    id: "help",
    name: "Recovery, tools and first aid",
    holds: [
      ["recovery", 1],
      ["first_aid", 1],
      ["tools", 1],
      ["compressor", 1],
      ["jack", 1],
    ],
  },
  {
    id: "family",
    name: "Four people in a tent, a week",
    holds: [
      ["ground_tent", 1],
      ["clothes", 4],
      ["food", 28],
    ],
  },
];

const TANK_L = 80; // a tank of this size, full, is in the kerb mass (assumed)

export const BASE_VEHICLES: readonly BaseVehicle[] = [
  {
    id: "utility",
    name: "Mid-size utility, dual cab",
    body_form: "utility",
    kerb_kg: [1950, 2150, 2400],
    front_share: [0.53, 0.56, 0.6],
    wheelbase_m: [3, 3.2, 3.3],
    front_overhang_m: [0.85, 0.9, 1],
    axle_to_coupling_m: [1.2, 1.35, 1.55],
    fuel_l: TANK_L,
    source: "memory",
  },
  {
    id: "wagon",
    name: "Mid-size wagon",
    body_form: "wagon",
    kerb_kg: [2000, 2250, 2500],
    front_share: [0.5, 0.52, 0.55],
    wheelbase_m: [2.75, 2.8, 2.9],
    front_overhang_m: [0.85, 0.9, 1],
    axle_to_coupling_m: [1.15, 1.25, 1.4],
    fuel_l: TANK_L,
    source: "memory",
  },
  {
    id: "van",
    name: "Long van",
    body_form: "van",
    kerb_kg: [1900, 2150, 2450],
    front_share: [0.54, 0.58, 0.64],
    wheelbase_m: [3.45, 3.65, 4.05],
    front_overhang_m: [0.95, 1, 1.1],
    axle_to_coupling_m: [1.3, 1.5, 1.9],
    fuel_l: TANK_L,
    source: "memory",
  },
];
