/** What the domain refuses, and how it says so: the field, the value, what is allowed, and the way out. */

/** A value that cannot be computed with. `code` is for programs, the message for people. */
export class DomainError extends Error {
  readonly code: string;
  readonly field: string;
  readonly value: unknown;
  readonly allowed: string;

  constructor(field: string, value: unknown, allowed: string, remedy = "Correct it", code = "refused") {
    super(`${field} is ${shown(value)}, but allowed is ${allowed}. ${remedy}.`);
    this.name = "DomainError";
    this.code = code;
    this.field = field;
    this.value = value;
    this.allowed = allowed;
  }
}

export interface Range {
  readonly low?: number | null;
  readonly high?: number | null;
  readonly above?: number | null;
  readonly below?: number | null;
  readonly unit?: string;
}

/** A number outside a formula's range; `low` and `high` belong to the range, `above` and `below` do not. */
export class OutOfRange extends DomainError {
  readonly low: number | null;
  readonly high: number | null;
  readonly above: number | null;
  readonly below: number | null;
  readonly unit: string;

  constructor(field: string, value: number, range: Range) {
    super(field, value, rangeInWords(range), "Correct the value or its unit", "out_of_range");
    this.name = "OutOfRange";
    this.low = range.low ?? null;
    this.high = range.high ?? null;
    this.above = range.above ?? null;
    this.below = range.below ?? null;
    this.unit = range.unit ?? "";
  }
}

/** Something that the formula needs is blank; it is never guessed. */
export class NotKnown extends DomainError {
  constructor(field: string, neededFor: string) {
    super(field, null, `a value, needed for ${neededFor}`, "Fill it in", "not_known");
    this.name = "NotKnown";
  }
}

/** A name that is not among those there are. */
export class Unknown extends DomainError {
  constructor(field: string, value: unknown, known: readonly unknown[]) {
    const allowed = `one of: ${known.join(", ") || "none"}`;
    super(field, value, allowed, "Choose one of these or add it first", "unknown");
    this.name = "Unknown";
  }
}

/** The same name twice where each must stand once. */
export class Duplicate extends DomainError {
  constructor(field: string, value: unknown, remedy = "Remove or rename one of them") {
    super(field, value, "each name once", remedy, "duplicate");
    this.name = "Duplicate";
  }
}

/** Readings that leave a load open. */
export class NotFixed extends DomainError {
  constructor(field: string, value: unknown) {
    super(field, value, "loads that the readings fix", "Add a reading of what is missing", "not_fixed");
    this.name = "NotFixed";
  }
}

/** A system that is singular to rounding: two of its equations say the same. */
export class Redundant extends DomainError {
  constructor(field = "readings", value: unknown = "redundant to rounding") {
    super(field, value, "equations that differ by more than rounding", "Leave one of them out", "redundant");
    this.name = "Redundant";
  }
}

const FITS = { dry: "what is left", overfull: "what fits", grey_full: "what the grey tank takes" };

/** Where on the way litres cannot be given or taken: `event` is its number, `tank_id` the tank or what it holds. */
export interface Place {
  readonly litres_l: number;
  readonly tank_id: string;
  readonly at_km: number;
  readonly event: number;
}

/** Litres that a tank cannot give or take at a place of the way. */
export class OnTheWay extends DomainError {
  readonly what: keyof typeof FITS;
  readonly place: Place;

  constructor(what: keyof typeof FITS, place: Place) {
    const allowed = `${FITS[what]} (${place.tank_id}, at ${place.at_km} km)`;
    super("litres_l", place.litres_l, allowed, "Change what is taken on or used before", "on_the_way");
    this.name = "OnTheWay";
    this.what = what;
    this.place = place;
  }
}

/** A figure beyond it is a slip of the finger, and its square could no longer be computed (our choice). */
const LARGEST = 1e30;

/** Return the value; refuse text, truth values, lists, null, infinities, NaN and sizes beyond 1e30. */
export function checkFinite(field: string, value: unknown): number {
  if (typeof value !== "number" || !(Math.abs(value) <= LARGEST)) {
    const allowed = `a finite number${typeof value === "number" ? ` from ${-LARGEST} to ${LARGEST}` : ""}`;
    throw new DomainError(field, value, allowed, "Type a number", "not_finite");
  }
  return value;
}

/** Return the value if low <= value <= high and above < value < below; refuse it otherwise. */
export function checkRange(field: string, value: unknown, range: Range): number {
  const number = checkFinite(field, value);
  const { low = null, high = null, above = null, below = null } = range;
  const outside =
    (low !== null && number < low) ||
    (high !== null && number > high) ||
    (above !== null && number <= above) ||
    (below !== null && number >= below);
  if (outside) throw new OutOfRange(field, number, range);
  return number;
}

function shown(value: unknown): string {
  if (typeof value === "number") return digits(value);
  return value === null || value === undefined ? "blank" : String(value);
}

/** Fifteen digits: what lies a little above a bound must not look like it, and rounding must not be shown. */
function digits(value: number): string {
  return String(Number(value.toPrecision(15)));
}

function rangeInWords({ low = null, high = null, above = null, below = null, unit = "" }: Range): string {
  const lower = above !== null ? `above ${digits(above)}` : low === null ? null : `at least ${digits(low)}`;
  const upper = below !== null ? `below ${digits(below)}` : high === null ? null : `at most ${digits(high)}`;
  return [lower, upper].filter(Boolean).join(" and ") + (unit ? ` ${unit}` : "");
}
