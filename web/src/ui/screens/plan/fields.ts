/** What each plan record asks for, in words: one list per kind. The ranges are those of the schemas. */
import type { Dimension } from "@/units/units";

export interface NumberSpec {
  readonly type: "number";
  readonly name: string;
  readonly label: string;
  readonly dimension: Dimension;
  readonly low: number;
  readonly high: number;
  readonly hint?: string;
}

export interface ChoiceSpec {
  readonly type: "choice";
  readonly name: string;
  readonly label: string;
  readonly options: readonly (readonly [value: string, label: string])[];
}

export interface OtherSpec {
  readonly type: "text" | "yes_no" | "day" | "count" | "seat" | "person";
  readonly name: string;
  readonly label: string;
  readonly hint?: string;
  /** Of a count: its range, 1 to 1000 unless said, and whether the record may hold a blank. */
  readonly low?: number;
  readonly high?: number;
  readonly nullable?: true;
}

export type FieldSpec = NumberSpec | ChoiceSpec | OtherSpec;

export interface KindSpec {
  readonly title: string;
  readonly add: string;
  readonly first: readonly FieldSpec[];
  readonly more: readonly FieldSpec[];
}

const text = (name: string, label: string, hint?: string): OtherSpec => ({
  type: "text",
  name,
  label,
  ...(hint ? { hint } : {}),
});
const mass = (name: string, label: string, high = 10_000, hint?: string): NumberSpec => ({
  ...{ type: "number", name, label, dimension: "mass", low: 0, high },
  ...(hint ? { hint } : {}),
});
const rating = (name: string, label: string): NumberSpec => ({
  ...{ type: "number", name, label, dimension: "mass", low: 1, high: 60_000 },
});
const length = (name: string, label: string, low: number, high: number, hint?: string): NumberSpec => ({
  ...{ type: "number", name, label, dimension: "length", low, high },
  ...(hint ? { hint } : {}),
});
const volume = (name: string, label: string, low: number, high: number): NumberSpec => ({
  ...{ type: "number", name, label, dimension: "volume", low, high },
});
const choice = (name: string, label: string, options: ChoiceSpec["options"]): ChoiceSpec => ({
  type: "choice",
  name,
  label,
  options,
});

const BEHIND = "Metres behind the front axle; ahead of it is negative";
const KNOWN_BY = choice("known_by", "How is the mass known?", [
  ["weighed", "Weighed"],
  ["data_sheet", "Data sheet"],
  ["similar", "Similar one"],
  ["estimate", "Estimate"],
]);
const POSITION_BY = choice("position_by", "How is the place known?", [
  ["measured", "Measured"],
  ["described", "Described"],
]);

export const KINDS: Readonly<Record<string, KindSpec>> = {
  vehicle: {
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
      length("wheelbase_m", "Wheelbase", 1, 10, "Front axle to rear axle"),
      mass(
        "base_front_kg",
        "Empty mass on the front axle",
        20_000,
        "As delivered, before anything was fitted",
      ),
      mass("base_rear_kg", "Empty mass on the rear axle", 20_000),
      choice("base_known_by", "How is the empty mass known?", KNOWN_BY.options),
      volume("base_fuel_l", "Fuel that the empty mass includes", 0, 1_000),
      mass("base_driver_kg", "Driver that the empty mass includes", 200),
      choice("fuel_kind", "Fuel", [
        ["diesel", "Diesel"],
        ["petrol", "Petrol"],
      ]),
    ],
    more: [
      length("front_overhang_m", "Front overhang", 0, 3),
      length("rear_overhang_m", "Rear overhang", 0, 6),
      length("cg_height_m", "Height of the centre of gravity", 0.2, 3),
      mass("base_front_u_kg", "± of the front mass (one standard uncertainty)", 5_000),
      mass("base_rear_u_kg", "± of the rear mass (one standard uncertainty)", 5_000),
      {
        ...{ type: "number", name: "odometer_factor", label: "True km per km on the odometer" },
        ...{ dimension: "fraction", low: 0.5, high: 2, hint: "1 if it reads true; more with bigger tyres" },
      },
      choice("terms", "Words for the ratings", [
        ["au", "Australia"],
        ["eu", "EU"],
        ["uk", "UK"],
        ["us", "US, Canada"],
        ["za", "South Africa"],
        ["nz", "New Zealand"],
      ]),
    ],
  },
  plate: {
    title: "Plate",
    add: "Add a plate",
    first: [
      choice("of", "Plate of what?", [
        ["vehicle", "Vehicle"],
        ["towbar", "Towbar"],
        ["coupling", "Coupling"],
        ["trailer", "Trailer"],
        ["rack", "Rack"],
        ["tyres", "Tyres"],
      ]),
      rating("gross_kg", "Gross"),
      rating("front_axle_kg", "Front axle"),
      rating("rear_axle_kg", "Rear axle"),
      rating("roof_kg", "Roof, rack included"),
      rating("combination_kg", "Combination"),
      rating("coupling_kg", "Coupling"),
    ],
    more: [
      rating("trailer_kg", "Trailer"),
      rating("trailer_axles_kg", "Trailer axles"),
      { type: "day", name: "date_from", label: "In force from" },
      choice("standing", "Standing", [
        ["in_force", "In force"],
        ["planned", "Only planned"],
      ]),
      text("issuer", "Issued by"),
      text("conditions", "Conditions", "Tyre size, towing, speed"),
      text("tyre_size", "Tyres: size", "As on the sidewall: 265/70R17 121/118S"),
      {
        ...{ type: "count", name: "tyre_load_index", label: "Tyres: load index", low: 60, high: 130 },
        ...{ nullable: true, hint: "Blank: the one in the size. With twin tyres the second of the two" },
      },
      choice("tyre_axle", "Tyres: on which axle?", [
        ["front", "Front"],
        ["rear", "Rear"],
        ["both", "Both"],
        ["trailer", "Trailer"],
      ]),
      {
        ...{ type: "count", name: "tyres_per_axle", label: "Tyres: how many on one axle?" },
        ...{ low: 2, high: 4, hint: "Blank: 2" },
      },
    ],
  },
  item: {
    title: "Item",
    add: "Add an item",
    first: [
      text("name", "Name"),
      choice("nature", "What is it?", [
        ["part", "Part, bolted on"],
        ["load", "Load, may be left"],
      ]),
      mass("mass_kg", "Mass of one"),
      KNOWN_BY,
      { type: "count", name: "count", label: "How many" },
      length("x_m", "Place", -3, 20, BEHIND),
      POSITION_BY,
      { type: "yes_no", name: "roof", label: "Carried on the roof?" },
    ],
    more: [
      mass("mass_u_kg", "± of the mass (one standard uncertainty)", 5_000, "Blank: by how it is known"),
      length("x_u_m", "± of the place (one standard uncertainty)", 0, 5),
      length("y_m", "To the right of the middle", -2, 2),
      length("z_m", "Height above the ground", 0, 5),
      choice("stage", "Stage", [
        ["fitted", "Fitted"],
        ["on_order", "On order"],
        ["removed", "Removed"],
      ]),
      { type: "yes_no", name: "taken_off", label: "Was it taken off the vehicle as delivered?" },
      { type: "yes_no", name: "keep_aboard", label: "Must it always stay aboard?" },
    ],
  },
  tank: {
    title: "Tank",
    add: "Add a tank",
    first: [
      text("name", "Name"),
      choice("holds", "What does it hold?", [
        ["fuel", "Fuel"],
        ["water", "Water"],
        ["grey", "Grey water"],
        ["gas", "Gas"],
        ["stores", "Stores, 1 L = 1 kg"],
      ]),
      volume("capacity_l", "Capacity to the shut-off", 0.1, 5_000),
      length("x_m", "Place of its middle", -3, 20, BEHIND),
      POSITION_BY,
      { type: "yes_no", name: "can", label: "Is it a can?" },
    ],
    more: [
      volume("unusable_l", "What the outlet cannot reach", 0, 500),
      mass("empty_mass_kg", "Empty mass of a can", 500),
      length("z_bottom_m", "Height of its bottom", 0, 5),
      length("height_m", "Its height", 0.01, 3),
      { type: "count", name: "drain_order", label: "Drawn from as number" },
      {
        ...{ type: "number", name: "density_kg_per_l", label: "Density of the content" },
        ...{ dimension: "density", low: 0.1, high: 3, hint: "Blank: by what it holds" },
      },
    ],
  },
  seat: {
    title: "Seat",
    add: "Add a seat",
    first: [
      text("name", "Name"),
      length("x_m", "Place", -3, 20, BEHIND),
      { type: "person", name: "usual_person_id", label: "Who usually sits here?" },
    ],
    more: [
      length("y_m", "To the right of the middle", -2, 2),
      length("z_m", "Height above the ground", 0, 5),
    ],
  },
  person: {
    title: "Person or animal",
    add: "Add a person or an animal",
    first: [
      text("name", "Name or initials"),
      choice("nature", "Who travels?", [
        ["person", "Person"],
        ["animal", "Animal"],
      ]),
      mass("mass_kg", "Mass, dressed", 500),
      { type: "seat", name: "usual_seat_id", label: "Usual seat" },
      {
        ...{ type: "number", name: "water_share", label: "Share of water" },
        ...{ dimension: "fraction", low: 0, high: 5, hint: "An adult is 1" },
      },
    ],
    more: [mass("mass_u_kg", "± of the mass (one standard uncertainty)", 100, "Blank: 3 kg")],
  },
};
