/** What each plan record asks for, in words: one list per kind. The ranges are those of the schemas. */
import {
  choice,
  count,
  type FieldSpec,
  fraction,
  type KindSpec,
  length,
  mass,
  place,
  rating,
  text,
  volume,
  yesNo,
} from "./spec";
import { KNOWN_BY, TRAILER, VEHICLE } from "./vehicle_fields";

export type { FieldSpec, KindSpec };

const POSITION_BY = choice("position_by", "How is the place known?", [
  ["measured", "Measured"],
  ["described", "Described"],
]);
const PLACE_U = length(
  "x_u_m",
  "± of the place (one standard uncertainty)",
  0,
  5,
  "Blank: by how it is known",
);
const ON: FieldSpec = {
  type: "trailer",
  name: "trailer_id",
  label: "Where is it?",
  none: "On the vehicle",
};
const PLATE_TRAILER: FieldSpec = {
  ...{ type: "trailer", name: "trailer_id", label: "Which trailer?", none: "Whichever is coupled" },
  only_if: ["of", ["trailer", "tyres"]],
};

const tyres: readonly FieldSpec[] = [
  text("tyre_size", "Size", "As on the sidewall: 265/70R17 121/118S"),
  {
    ...{ type: "count", name: "tyre_load_index", label: "Load index", low: 60, high: 130, nullable: true },
    hint: "Blank: the one in the size. With twin tyres the second of the two",
  },
  choice("tyre_axle", "On which axle?", [
    ["front", "Front"],
    ["rear", "Rear"],
    ["both", "Both"],
    ["trailer", "Trailer"],
  ]),
  {
    ...{ type: "count", name: "tyres_per_axle", label: "How many on one axle?", low: 2, high: 4 },
    hint: "Blank: 2",
  },
];
const LIQUID = { only_if: ["holds", ["fuel", "water"]] } as const;
const WATER = { only_if: ["holds", ["water"]] } as const;
/** What the drawing takes of a tank where its record is blank: `sizeOf` of the drawing. */
const DRAWN = {
  bottom: "0.38 m where it is drawn, a can 0.75 m (assumed)",
  height: "0.25 m where it is drawn, a can 0.45 m (assumed)",
  breadth: "0.5 m where it is drawn, a can 0.17 m (assumed)",
  length: "Blank: its capacity over height and breadth, where it is drawn",
};
const TYRES = tyres.map((field): FieldSpec => ({ ...field, only_if: ["of", ["tyres"]] }));

export const KINDS: Readonly<Record<string, KindSpec>> = {
  vehicle: VEHICLE,
  trailer: TRAILER,
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
      PLATE_TRAILER,
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
      ...TYRES,
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
      count("count", "How many"),
      ON,
      place("Place"),
      POSITION_BY,
      yesNo("roof", "Carried on the roof?"),
      choice("stage", "Stage", [
        ["fitted", "Fitted"],
        ["on_order", "On order"],
        ["removed", "Removed"],
      ]),
    ],
    more: [
      mass("mass_u_kg", "± of the mass (one standard uncertainty)", 5_000, "Blank: by how it is known"),
      PLACE_U,
      length("y_m", "To the right of the middle", -2, 2),
      length("y_u_m", "± of that (one standard uncertainty)", 0, 2),
      length("z_m", "Height above the ground", 0, 5),
      length("z_u_m", "± of the height (one standard uncertainty)", 0, 2),
      { type: "day", name: "fitted_on", label: "Fitted on" },
      { type: "day", name: "removed_on", label: "Removed on" },
      yesNo("weighed_singly", "Was each copy weighed by itself?"),
      yesNo("taken_off", "Was it taken off the vehicle as delivered?"),
      { ...yesNo("keep_aboard", "Must it always stay aboard?"), blank: "By its name" },
      yesNo("may_stay_behind", "May it be left behind?"),
      { type: "slots", name: "may_move_to", label: "Where else may it go?" },
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
        ["waste", "Waste"],
        ["gas", "Gas"],
        ["stores", "Stores, 1 L = 1 kg"],
      ]),
      volume("capacity_l", "Capacity to the shut-off", 0.1, 5_000, "Above what the outlet cannot reach"),
      ON,
      place("Place of its middle"),
      POSITION_BY,
      yesNo("can", "Is it a can?"),
    ],
    more: [
      volume("unusable_l", "What the outlet cannot reach", 0, 500, "Not in the capacity. Blank: none"),
      {
        ...{ type: "count", name: "drain_order", label: "Drawn from as number", high: 99, nullable: true },
        hint: "Each until it is empty, 1 first. Blank: last",
        ...LIQUID,
      },
      { ...{ type: "grey", name: "grey_tank_id", label: "Which grey tank does it run into?" }, ...WATER },
      {
        ...fraction("grey_fraction", "Share of its water that runs into it", 0, 1, "Blank: 0.8 (assumed)"),
        ...WATER,
      },
      {
        ...volume("full_u_l", "± of a full tank (one standard uncertainty)", 0, 50),
        hint: "How far the click scatters. Blank: 1 L",
        ...LIQUID,
      },
      {
        ...fraction("gauge_u", "± of its gauge, as a share of the tank", 0, 0.5, "Blank: 0.05 (assumed)"),
        ...LIQUID,
      },
      { ...yesNo("emergency_reserve", "Kept for an emergency, never planned to be used?"), ...LIQUID },
      volume("capacity_u_l", "± of the capacity (one standard uncertainty)", 0, 500, "Blank: as exact"),
      mass("empty_mass_kg", "Empty mass of a can", 500),
      mass("empty_mass_u_kg", "± of the empty mass (one standard uncertainty)", 100),
      PLACE_U,
      length("y_m", "To the right of the middle", -2, 2, "Blank: in the middle"),
      length("z_bottom_m", "Height of its bottom above the ground", 0, 5, `Blank: ${DRAWN.bottom}`),
      length("height_m", "Its height", 0.01, 3, `Blank: ${DRAWN.height}`),
      length("breadth_m", "Its breadth, across", 0.01, 3, `Blank: ${DRAWN.breadth}`),
      length("length_m", "Its length, along", 0.01, 5, DRAWN.length),
      {
        ...{ type: "number", name: "density_kg_per_l", label: "Density of the content" },
        ...{ dimension: "density", low: 0.1, high: 3, hint: "Of fuel at 15 °C. Blank: by what it holds" },
      },
      {
        ...{ type: "number", name: "density_u_kg_per_l", dimension: "density", low: 0, high: 0.5 },
        ...{
          label: "± of the density (one standard uncertainty)",
          hint: "Blank: 0 where the density is said, else by what it holds",
        },
      },
    ],
  },
  seat: {
    title: "Seat",
    add: "Add a seat",
    first: [
      text("name", "Name"),
      place("Place"),
      { type: "person", name: "usual_person_id", label: "Who usually sits here?" },
    ],
    more: [
      POSITION_BY,
      PLACE_U,
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
      fraction("water_share", "Share of water", 0, 5, "An adult is 1"),
    ],
    more: [mass("mass_u_kg", "± of the mass (one standard uncertainty)", 100, "Blank: 3 kg")],
  },
};
