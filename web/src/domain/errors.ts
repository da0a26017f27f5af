/** What is refused, and how it is said: the field, the value, the allowed range, the way out. */

export class DomainError extends Error {
  override readonly name: string = "DomainError";
  readonly code: string = "not_possible";

  constructor(
    readonly field: string,
    readonly value: unknown,
    readonly allowed: string,
    wayOut = "",
  ) {
    super(`${field} is ${JSON.stringify(value) ?? String(value)}: it must be ${allowed}. ${wayOut}`.trim());
  }
}

/** A number outside its range, or no number at all. */
export class OutOfRange extends DomainError {
  override readonly name = "OutOfRange";
  override readonly code = "out_of_range";
}

/** Something needed is blank. */
export class NotKnown extends DomainError {
  override readonly name = "NotKnown";
  override readonly code = "not_known";
}

/** A name, id or class that is not there. */
export class Unknown extends DomainError {
  override readonly name = "Unknown";
  override readonly code = "unknown";
}

/** One id twice. */
export class Duplicate extends DomainError {
  override readonly name = "Duplicate";
  override readonly code = "duplicate";
}

/** The readings do not fix every axle that they name. */
export class NotFixed extends DomainError {
  override readonly name = "NotFixed";
  override readonly code = "not_fixed";
}

/** The readings say the same thing to rounding, so that the equations cannot be solved. */
export class Redundant extends DomainError {
  override readonly name = "Redundant";
  override readonly code = "redundant";
}

export interface Range {
  readonly low?: number;
  readonly high?: number;
  readonly above?: number;
  readonly unit?: string;
}

/** The value, if it is a finite number with low <= value <= high and value > above; else OutOfRange. */
export function checkRange(field: string, value: number, range: Range = {}): number {
  const { low = -Infinity, high = Infinity, above = -Infinity } = range;
  if (Number.isFinite(value) && value >= low && value <= high && value > above) return value;
  throw new OutOfRange(field, value, span(range));
}

/** The value, if it is a finite number; else OutOfRange. */
export function checkFinite(field: string, value: number): number {
  return checkRange(field, value);
}

function span({ low, high, above, unit = "" }: Range): string {
  let words = high === undefined ? "a finite number" : `at most ${high}`;
  if (above !== undefined) words = `above ${above}${high === undefined ? "" : ` and at most ${high}`}`;
  else if (low !== undefined) words = high === undefined ? `at least ${low}` : `from ${low} to ${high}`;
  return `${words} ${unit}`.trimEnd();
}
