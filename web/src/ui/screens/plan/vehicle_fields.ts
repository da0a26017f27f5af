/** What the plan asks of the vehicle and of a trailer. */
import {
  choice,
  count,
  type FieldSpec,
  fraction,
  type KindSpec,
  length,
  mass,
  temperature,
  text,
  volume,
  yesNo,
} from "./spec";

export const KNOWN_BY = choice("known_by", "How is the mass known?", [
  ["weighed", "Weighed"],
  ["data_sheet", "Data sheet"],
  ["similar", "Similar one"],
  ["estimate", "Estimate"],
]);

/** Springs of each axle, only their ratios count; 1 each where blank (assumed). */
const SPRINGS: readonly FieldSpec[] = (["front", "rear_1", "rear_2"] as const).map((axle) => ({
  ...fraction(
    `stiffness_${axle}`,
    `Stiffness, ${{ front: "front axle", rear_1: "first rear axle", rear_2: "second rear axle" }[axle]}`,
    0.01,
    100,
    "In any unit, the same for all three. Blank: 1",
  ),
  only_if: ["rear_axles", ["independent_pair"]],
}));

/** What fuel and water begin with until the log has told better; each blank takes what its hint says. */
const SUPPLIES: readonly FieldSpec[] = [
  fraction("odometer_factor_u", "± of that factor (one standard uncertainty)", 0, 0.2, "Blank: 0"),
  fraction("sealed_l_per_100km", "L/100 km on sealed roads", 1, 200, "A first guess. Blank: 12"),
  fraction("gravel_l_per_100km", "L/100 km on gravel", 1, 200, "Blank: 1.15 times sealed"),
  fraction("sand_l_per_100km", "L/100 km on sand", 1, 200, "Blank: 1.6 times sealed"),
  fraction("towing_ratio", "Towing: times as much", 1, 5, "Blank: 1.4"),
  fraction(
    "pump_u",
    "± of a pump, as a share (one standard uncertainty)",
    0,
    0.1,
    "Blank: 0.0029, of class 0.5",
  ),
  {
    ...length("odometer_step_km", "What the odometer counts in", 0.01, 10),
    dimension: "distance",
    hint: "Blank: 1 km",
  },
  fraction("fuel_guess_u", "u of the first guesses, common to all surfaces", 0.01, 2, "A share. Blank: 0.25"),
  fraction("fuel_surface_u", "u of each surface's guess beside that", 0, 2, "A share. Blank: 0.15"),
  fraction("fuel_drift", "Drift of all rates in 1000 km", 0, 1, "A share. Blank: 0.05"),
  fraction("fuel_surface_drift", "Drift of one surface in 1000 km", 0, 1, "A share. Blank: 0.02"),
  {
    ...length("fuel_unsteady_km", "Length of a leg with the usual unsteadiness", 1, 10_000),
    ...{ dimension: "distance", hint: "Blank: 100 km" },
  },
  { ...volume("fuel_reserve_l", "Fuel never counted on", 0, 1_000), hint: "Blank: 8 L or 10 %, the greater" },
  fraction("water_l_per_day", "Litres of water a person and day", 0.5, 100, "A first guess. Blank: 6"),
  fraction("water_guess_u", "u of that guess", 0.01, 2, "A share. Blank: 0.5"),
  fraction("water_drift", "Drift of the rate in 20 person-days", 0, 1, "A share. Blank: 0.05"),
  fraction("water_fill_u", "u of litres of water put in", 0, 0.5, "A share. Blank: 0.02"),
  { ...volume("water_reserve_l", "Water never counted on", 0, 1_000), hint: "Blank: 10 % of the tanks" },
];

export const VEHICLE: KindSpec = {
  title: "Vehicle",
  add: "",
  first: [
    text("name", "Name"),
    choice("body_form", "Body", [
      ["utility", "Utility"],
      ["wagon", "Wagon"],
      ["van", "Van"],
      ["cab_chassis", "Cab-chassis"],
    ]),
    length("wheelbase_m", "Wheelbase", 1, 10, "Front axle to the first rear axle"),
    choice("rear_axles", "Rear axles", [
      ["single", "One"],
      ["load_sharing_pair", "Two that share the load"],
      ["independent_pair", "Two, each on its own springs"],
    ]),
    {
      ...length("rear_spread_m", "First to second rear axle", 0.1, 3),
      only_if: ["rear_axles", ["load_sharing_pair", "independent_pair"]],
    },
    mass("base_front_kg", "Empty mass on the front axle", 20_000, "As delivered, before anything was fitted"),
    mass("base_rear_kg", "Empty mass on the rear axle", 20_000),
    choice("base_known_by", "How is the empty mass known?", KNOWN_BY.options),
    length("coupling_x_m", "Where the coupling sits", 0, 16, "Metres behind the front axle"),
    volume("base_fuel_l", "Fuel that the empty mass includes", 0, 1_000),
    mass("base_driver_kg", "Driver that the empty mass includes", 200),
    choice("fuel_kind", "Fuel", [
      ["diesel", "Diesel"],
      ["petrol", "Petrol"],
    ]),
  ],
  more: [
    temperature("fuel_temperature_c", "Usual temperature of the fuel", -40, 90, "Blank: 15 °C"),
    temperature("fuel_temperature_u_c", "± of it (one standard uncertainty)", 0, 50, "Blank: 10 °C"),
    length("front_overhang_m", "Front overhang", 0, 3),
    length("rear_overhang_m", "Rear overhang", 0, 6, "From the last axle to the tail"),
    length("track_front_m", "Track of the front axle", 0.8, 3, "Middle to middle of its tyres"),
    length("track_rear_m", "Track of the rear axle", 0.8, 3),
    {
      ...fraction(
        "rear_share",
        "Share of the second rear axle",
        0,
        1,
        "Of what the pair carries. Blank: half",
      ),
      only_if: ["rear_axles", ["load_sharing_pair"]],
    },
    ...SPRINGS,
    choice("frame", "Wheels reckoned with which frame?", [
      ["flexible", "Flexible"],
      ["rigid", "Rigid"],
    ]),
    {
      ...fraction("front_roll_share", "Share of the roll stiffness at the front", 0, 1, "Blank: half"),
      only_if: ["frame", ["rigid"]],
    },
    length("cg_height_m", "Height of the centre of gravity", 0.2, 3),
    length("cg_height_u_m", "± of that height (one standard uncertainty)", 0, 1),
    fraction("forgotten_share", "Share of the added mass that is forgotten", 0, 0.2, "Blank: not counted"),
    fraction("confidence", "Confidence of verdicts, ranges and days", 0.5, 0.9999, "One-sided. Blank: 0.95"),
    fraction(
      "base_correlation",
      "How the errors of the two empty masses are linked",
      -1,
      1,
      "1 together, −1 one up as the other goes down. Blank: 0, not at all",
    ),
    mass("base_front_u_kg", "± of the front mass (one standard uncertainty)", 5_000),
    mass("base_rear_u_kg", "± of the rear mass (one standard uncertainty)", 5_000),
    fraction(
      "odometer_factor",
      "True km per km on the odometer",
      0.5,
      2,
      "1 if it reads true; more with bigger tyres",
    ),
    ...SUPPLIES,
    choice("terms", "Words for the ratings", [
      ["au", "Australia"],
      ["eu", "EU"],
      ["uk", "UK"],
      ["us", "US, Canada"],
      ["za", "South Africa"],
      ["nz", "New Zealand"],
    ]),
  ],
};

export const TRAILER: KindSpec = {
  title: "Trailer",
  add: "Add a trailer",
  first: [
    text("name", "Name"),
    choice("body_form", "Body", [
      ["box", "Closed, such as a caravan"],
      ["open", "Open, such as a flat or boat trailer"],
    ]),
    length("coupling_to_axle_m", "Coupling to axle", 0.3, 15, "To the middle of its axles"),
    count("axles", "How many axles", 3),
    mass(
      "base_coupling_kg",
      "Empty mass on the coupling",
      5_000,
      "With its tanks empty, before items were added",
    ),
    mass("base_axles_kg", "Empty mass on its axles", 20_000),
    choice("base_known_by", "How is the empty mass known?", KNOWN_BY.options),
    yesNo("levelling_hitch", "Has it a levelling hitch?"),
    {
      ...{ type: "number", name: "hitch_moment_kgm", label: "Moment of the hitch as set" },
      ...{ dimension: "moment", low: 0, high: 2_000, hint: "What its bars hold. Blank: not known" },
      only_if: ["levelling_hitch", [true]],
    },
  ],
  more: [
    length("rear_overhang_m", "Rear overhang", 0, 8, "From its last axle to the tail"),
    mass(
      "least_coupling_kg",
      "Least load on the coupling",
      5_000,
      "What a least change keeps. Blank: it only must not lift",
    ),
    mass("base_coupling_u_kg", "± of the mass on the coupling (one standard uncertainty)", 1_000),
    mass("base_axles_u_kg", "± of the mass on the axles (one standard uncertainty)", 5_000),
  ],
};
