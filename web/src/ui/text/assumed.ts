/** Words for what a plan takes for granted. */
import { usual } from "@/services/usual";
import { twoSided, withReach } from "./figures";

type Say = (value: number, u: number) => string;

const percent = (value: number): string => `${Number((100 * value).toPrecision(6))} %`;

const share =
  (what: string): Say =>
  (value) =>
    `u of a mass that is ${what}: ${percent(value)}`;
const density =
  (what: string, source: string): Say =>
  (value, u) =>
    `${what}: ${withReach(value, twoSided(u), 3)} kg/L (${source})`;
const celsius = (value: number, u: number) => `${withReach(value, twoSided(u), 0)} °C`;
const springs = (which: string) => () => `Springs of the ${which} as stiff as the others`;

const SAY: Readonly<Record<string, Say>> = {
  missing: () => "Not counted: no mass or no place yet",
  known_by: () => "A mass is an estimate where nobody says how it is known",
  mass_weighed: share("weighed"),
  mass_data_sheet: share("from a data sheet"),
  mass_similar: share("that of a similar one"),
  mass_estimate: share("an estimate"),
  confidence: (value) => `Verdicts are ${percent(value)} sure, one-sided`,
  rear_axles: () => "One rear axle",
  rear_share: (value) => `The second rear axle carries ${percent(value)} of what the pair carries`,
  stiffness_front: springs("front axle"),
  stiffness_rear_1: springs("first rear axle"),
  stiffness_rear_2: springs("second rear axle"),
  base_correlation: () => "The errors of the two empty masses are not linked",
  cg_height_u_m: (value) => `u of the empty vehicle's height: ${value} m`,
  frame: () => "Wheels reckoned with a flexible frame",
  front_roll_share: (value) => `${percent(value)} of the roll stiffness is at the front`,
  fuel_kind: () => "Fuel is diesel",
  fuel_temperature_c: (value, u) => `Fuel is as warm as ${celsius(value, u)} where no weighing says so`,
  fuel_temperature_u_c: (value) => `u of the fuel's temperature: ${value} °C`,
  forgotten_share: () => "Nothing is forgotten",
  forgotten_kinds: (value) =>
    `Forgotten mass: ${value} kinds of things, each with any of the items; u by ${100 * usual.least_forgotten} to ${percent(usual.most_forgotten)} (common practice, no source)`,
  weighed_singly: () => "Copies have one and the same unknown mass",
  position_by: () => "A place is described where nobody says how it is known",
  place_measured: (value) => `u of a measured place: ${value} m`,
  place_described: (value) => `u of a described place: ${value} m`,
  y_m: () => "It stands in the middle across, exactly",
  density_diesel: density("Diesel at 15 °C", "EN 590"),
  density_petrol: density("Petrol at 15 °C", "EN 228, from memory"),
  density_water: density("Water", "assumed ±"),
  density_gas: density("Liquefied gas", "from memory"),
  density_stores: () => "Stores: 1 L counts as 1 kg",
  density_u_kg_per_l: () => "A stated density is exact",
  capacity_u_l: () => "The capacity of a tank is exact",
  unusable_l: () => "The outlet reaches all that is in a tank",
  occupant: (value) => `u of a person's mass: ${value} kg`,
};

export const words = {
  title: "What is assumed",
  hint: "Assumed, unless a source stands beside it. Touch one for the records that it stands for, and say it yourself there.",
  say: (code: string, value: number | null, u: number | null) => SAY[code]?.(value ?? 0, u ?? 0) ?? code,
};
