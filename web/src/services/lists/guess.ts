/** Which field a column is, by the words of its heading; and whether the first row is headings at all. */
import { parseNumber } from "@/units/parse";
import { unitSaid } from "@/units/typed";
import type { ListField } from "./spec";

// Words that people write over a column; the first field that fits has it.
const WORDS: Readonly<Record<string, RegExp>> = {
  name: /^(name|item|part|article|description|what|thing|tank|seat)\b/,
  mass_unit: /^(mass |weight )?units?$/,
  mass_u_kg: /^(u|±|\+\/-|uncertainty)( of the mass)?$/,
  mass_kg: /\b(mass|weight|kgs?|lbs?|pounds|kilos?)\b/,
  count: /^(count|qty|quantity|how many|number|pcs|pieces|no)\b/,
  x_m: /^x\b|\b(place|position|distance|station|behind)\b/,
  y_m: /^y\b|\b(right|sideways|across)\b/,
  z_m: /^z\b|\bheight\b/,
  roof: /\broof\b/,
  known_by: /\b(known|source|basis)\b/,
  position_by: /\bplace known\b/,
  may_move_to: /\bother places\b/,
  usual_person_id: /\b(occupant|who)\b/,
  nature: /^(nature|type|kind|part or load)\b/,
  stage: /^(stage|status|state)\b/,
  trailer_id: /^(trailer|on|vehicle or trailer)\b/,
  holds: /^(holds|content|contents|what)\b/,
  capacity_l: /\b(capacity|volume|litres?|liters?|gallons?)\b/,
  instant: /^(moment|instant)\b/,
  zone: /^(time )?zone\b/,
  day: /\b(date|day|when)\b/,
  time: /^time\b/,
  odometer_km: /\b(odo|odometer|mileage|kms?|kilometres|kilometers|miles|mi)\b/,
  litres_l: /\b(litres?|liters?|gals?|gallons?|volume|quantity|fuel|amount|l)\b/,
  full: /\bfull\b/,
  tank_id: /\btank\b/,
  missed_before: /\bmissed\b/,
  sealed: /\b(sealed|bitumen|asphalt|paved)\b/,
  gravel: /\b(gravel|dirt|unsealed)\b/,
  sand: /\bsand\b/,
  towing: /\btow(ing|ed)?\b/,
  measured: /\bmeter\b/,
  price: /\b(price|cost|total|paid)\b/,
  currency: /\bcurrency\b/,
  action: /^(action|done|what)\b/,
  drinkable: /\b(drink\w*|potable)\b/,
  source: /\b(source|from)\b/,
  everything: /\b(last drop|emptied)\b/,
  latitude_deg: /^lat(itude)?\b/,
  longitude_deg: /^(lon|lng|longitude)\b/,
  place: /\b(place|station|where|location|town)\b/,
  note: /\b(notes?|comments?|remarks?)\b/,
};

export interface Heading {
  /** The words in lower case, without the unit. */
  readonly words: string;
  /** What stood in brackets, and the last words. */
  readonly units: readonly string[];
}

/** A heading's words, and what could be its unit: "Mass of one (kg)", "odometer km". */
export function headingOf(title: string): Heading {
  const plain = title.trim().toLowerCase();
  const bracket = /[([]([^)\]]+)[)\]]\s*$/.exec(plain);
  const words = (bracket ? plain.slice(0, bracket.index) : plain).replaceAll("_", " ").trim();
  const said = words.split(/[\s,/]+/);
  return { words, units: [bracket?.[1] ?? "", said.slice(-2).join(" "), said.at(-1) ?? ""].filter(Boolean) };
}

/** The unit that a heading names for a field, "gal" where the country is missing, null without one. */
export function unitIn(title: string, field: ListField): string | null {
  if (field.type !== "number") return null;
  const { units } = headingOf(title);
  return units.map((one) => unitSaid(one, field.dimension)).find((one) => one !== null) ?? null;
}

/** For each heading the field that it is, each field at most once: by its own label first, then by its words. */
export function guessFields(titles: readonly string[], fields: readonly ListField[]): (ListField | null)[] {
  const headings = titles.map(headingOf);
  const found: (ListField | null)[] = titles.map(() => null);
  const tests: ((field: ListField, words: string) => boolean)[] = [
    ({ label, name }, words) => words === headingOf(label).words || words === name.replaceAll("_", " "),
    ({ name }, words) => WORDS[name]?.test(words) ?? false,
  ];
  for (const test of tests) {
    for (const field of fields) {
      if (found.includes(field)) continue;
      const index = headings.findIndex(
        ({ words }, i) => found[i] === null && words !== "" && test(field, words),
      );
      if (index >= 0) found[index] = field;
    }
  }
  return found;
}

/** Whether the first row is headings: some of its words are known, or it has no figure where the second has. */
export function hasHeader(rows: readonly (readonly string[])[], fields: readonly ListField[]): boolean {
  const [first = [], second = []] = rows;
  const isFigure = (cell = "") => parseNumber(cell).kind === "number";
  if (first.some(isFigure)) return false;
  return guessFields(first, fields).some(Boolean) || second.some(isFigure);
}
