/** What stands in a field, read: the base value with the digits and unit behind it, or what is wrong, in words. */
import { type Parsed, parseNumber } from "./parse";
import { BASE_UNIT, type Dimension, toBase, UNITS, unitLabel, unitsOf } from "./units";

/** The text of a number field and the unit beside it, kept as typed. */
export interface TypedNumber {
  readonly text: string;
  readonly unit: string;
}

export interface Wanted {
  readonly dimension: Dimension;
  readonly low: number;
  readonly high: number;
  /** The field's name in words, for the error. */
  readonly name: string;
  readonly whole?: boolean;
}

export interface Choice {
  readonly text: string;
  readonly label: string;
}

export type Read =
  | { readonly kind: "ok"; readonly base: number; readonly as_typed: readonly [digits: string, unit: string] }
  | { readonly kind: "blank" }
  | { readonly kind: "wrong"; readonly message: string }
  | { readonly kind: "ask"; readonly choices: readonly Choice[] };

const WHY = {
  letters: "is not a number: type digits, such as 1340 or 1,5",
  separators: "has separators that could mean several things: type it without them",
  too_long: "has more than 15 digits",
};

/** Words that people type for a unit; "gal" alone could be two and is asked about. */
const SAID: Readonly<Record<string, string>> = {
  kilo: "kg",
  kilos: "kg",
  kgs: "kg",
  tonne: "t",
  tonnes: "t",
  lbs: "lb",
  pounds: "lb",
  l: "L",
  litre: "L",
  litres: "L",
  liter: "L",
  liters: "L",
  metre: "m",
  metres: "m",
  miles: "mi",
  mile: "mi",
  "°": "deg",
  degree: "deg",
  degrees: "deg",
  "°c": "C",
};

/** Reads a typed number: in range and clear, blank, to be asked about, or wrong with the allowed range. */
export function readTyped(value: TypedNumber, wanted: Wanted): Read {
  return readParsed(parseNumber(value.text), value, wanted);
}

export type Mark = "." | ",";

/** What a list's cell holds: a figure that a machine wrote out in full has no digits to keep as typed. */
export type Listed =
  | Exclude<Read, { kind: "ok" }>
  | { readonly kind: "ok"; readonly base: number; readonly as_typed: readonly [string, string] | null };

/** Reads a figure of a list: a sole group of three by the column's decimal mark, a bare gallon by the column's unit. */
export function readListed(value: TypedNumber, wanted: Wanted, mark: Mark | null): Listed {
  let parsed = parseNumber(value.text);
  if (parsed.kind === "ask" && mark) {
    const decimal = wanted.dimension === "angle" || /\d([.,])/.exec(value.text)?.[1] === mark;
    const digits = parsed.choices[decimal ? 0 : 1];
    parsed = { kind: "number", digits, rest: parsed.rest };
  }
  if (parsed.kind === "wrong" && parsed.why === "too_long") parsed = { ...parsed, kind: "number" };
  const read = readParsed(parsed, value, wanted);
  return read.kind === "ok" && !EVIDENCE.test(read.as_typed[0]) ? { ...read, as_typed: null } : read;
}

/** Digits that the server keeps as typed. */
const EVIDENCE = /^-?\d{1,15}(\.\d{1,12})?$/;

/** What a figure says of the decimal mark: that one, "ask" where both can be, null where it has none. */
export function markOf(text: string): Mark | "ask" | null {
  const parsed = parseNumber(text);
  if (parsed.kind === "ask") return "ask";
  const marks = text.replace(/[^.,]/g, "");
  if (marks === "" || !("digits" in parsed) || /[.,]\D*$/.test(text)) return null;
  const last = marks.at(-1) as Mark;
  return parsed.digits.includes(".") ? last : last === "," ? "." : ",";
}

function readParsed(parsed: Parsed, value: TypedNumber, wanted: Wanted): Read {
  // of degrees there are no thousands: 131.036 can only be one
  if (parsed.kind === "ask" && wanted.dimension === "angle")
    return readParsed({ kind: "number", digits: parsed.choices[0], rest: parsed.rest }, value, wanted);
  if (parsed.kind === "blank") return parsed;
  if (parsed.kind === "wrong")
    return { kind: "wrong", message: `${wanted.name}: ${quoted(value)} ${WHY[parsed.why]}.` };
  const said = parsed.rest === "" ? value.unit : unitSaid(parsed.rest, wanted.dimension);
  const unit = said === GALLON && value.unit.startsWith("gal_") ? value.unit : said;
  if (unit === null)
    return {
      kind: "wrong",
      message: `${wanted.name}: ${quoted(value)} ends in a unit that is not one of ${listed(wanted)}.`,
    };
  if (parsed.kind === "ask")
    return { kind: "ask", choices: parsed.choices.map((digits) => choice(digits, unit, parsed.rest)) };
  if (unit === GALLON) return { kind: "ask", choices: gallons(parsed.digits) };
  return inRange(parsed.digits, unit, wanted);
}

function inRange(digits: string, unit: string, wanted: Wanted): Read {
  const base = toBase(digits, unit) + 0;
  if (wanted.whole && !Number.isInteger(base))
    return { kind: "wrong", message: `${wanted.name}: ${digits} must be a whole number.` };
  if (base >= wanted.low && base <= wanted.high) return { kind: "ok", base, as_typed: [digits, unit] };
  const said = `${digits} ${unitLabel(unit)}`.trim();
  const base_unit = unitLabel(BASE_UNIT[wanted.dimension]);
  const range = `${wanted.low} to ${wanted.high} ${base_unit}`.trim();
  return { kind: "wrong", message: `${wanted.name}: ${said} is not possible, it must be ${range}.` };
}

/** A gallon of nobody knows which country. */
const GALLON = "gal";
const GALLONS = /^(us|imp|imperial|uk)?(?:gal|gals|gallon|gallons)$/;

/** The unit that a word names; "gal" where the country is missing. */
export function unitSaid(rest: string, dimension: Dimension): string | null {
  const word = rest.toLowerCase().replace(/[.\s]/g, "");
  const gallon = dimension === "volume" ? GALLONS.exec(word) : null;
  if (gallon) return gallon[1] === undefined ? GALLON : gallon[1] === "us" ? "gal_us" : "gal_imp";
  const found = SAID[word] ?? Object.keys(UNITS).find((unit) => unit.toLowerCase() === word) ?? null;
  return found && UNITS[found]?.dimension === dimension ? found : null;
}

function gallons(digits: string): Choice[] {
  return [
    { text: `${digits} ${unitLabel("gal_us")}`, label: `${digits} US gallons` },
    { text: `${digits} ${unitLabel("gal_imp")}`, label: `${digits} imperial gallons` },
  ];
}

/** The two readings of a sole group of three, typed so that each can only mean itself. */
function choice(digits: string, unit: string, rest: string): Choice {
  const text = digits.includes(".") ? `${digits}0` : digits;
  return { text: `${text} ${rest}`.trim(), label: `${digits} ${unitLabel(unit)}`.trim() };
}

function quoted({ text }: TypedNumber): string {
  return `"${text.trim()}"`;
}

function listed({ dimension }: Wanted): string {
  return unitsOf(dimension).map(unitLabel).join(", ");
}
