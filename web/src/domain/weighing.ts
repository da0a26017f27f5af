/** Readings of one session and their errors: the scale's, the levelness of the deck, friction. */
import { type Bridge, gainU, ownVariance, zeroU } from "./bridge";
import { checkRange, Duplicate, NotKnown, OutOfRange } from "./errors";

export const FRICTION_SHARE = 0.003; // brake and suspension friction of a split reading (assumed)
export const DECK_U_M = 0.02; // height of the deck against where the other axle stands (assumed)

/** What moves load between axles while only a part of the vehicle stands on the deck. */
export interface SplitSetup {
  readonly total_kg: number;
  readonly wheelbase_m: number;
  readonly cg_height_m: number;
  readonly deck_u_m?: number;
  readonly friction_share?: number;
  readonly level_correlation?: number;
}

/** One figure and the axles or wheels on the deck; `without` and `uncoupled` say how the load differed. */
export interface Reading {
  readonly id: string;
  readonly axles: readonly string[];
  readonly value_kg: number;
  readonly split?: boolean;
  readonly repeats?: number;
  readonly deck?: string;
  readonly approach?: string;
  readonly without?: readonly string[];
  readonly uncoupled?: boolean;
}

/** Standard uncertainties of one reading, kg: the parts, and all of them together. */
export interface ReadingError {
  readonly rounding_kg: number;
  readonly gain_kg: number;
  readonly zero_kg: number;
  readonly own_kg: number;
  readonly tilt_kg: number;
  readonly friction_kg: number;
  readonly total_kg: number;
}

export interface ReadingErrorInput {
  readonly reading: Reading;
  readonly bridge: Bridge;
  readonly setup?: SplitSetup | null;
}

/** All parts of one reading's error. A split reading needs `setup`; repeats divide only friction. */
export function readingError({ reading, bridge, setup = null }: ReadingErrorInput): ReadingError {
  checkFigure(reading);
  const displayed = checkRange("displayed_kg", bridge.displayed_kg, { above: 0, unit: "kg" });
  const rounding_kg = displayed / Math.sqrt(12); // GUM F.2.2.1 (from memory)
  const gain_kg = gainU({ bridge }) * reading.value_kg;
  const zero_kg = zeroU({ bridge });
  const own_kg = Math.sqrt(ownVariance({ bridge, value_kg: reading.value_kg }));
  const tilt_kg = reading.split ? tiltU(setup) : 0;
  const friction = reading.split ? (setup?.friction_share ?? FRICTION_SHARE) : 0;
  checkRange("friction_share", friction, { low: 0 });
  const friction_kg = (friction * reading.value_kg) / Math.sqrt(reading.repeats ?? 1);
  const total_kg = Math.sqrt(
    rounding_kg ** 2 + gain_kg ** 2 + zero_kg ** 2 + own_kg ** 2 + tilt_kg ** 2 + friction_kg ** 2,
  );
  return { rounding_kg, gain_kg, zero_kg, own_kg, tilt_kg, friction_kg, total_kg };
}

/** Load that a deck too high by u_dh moves between axles, kg: M h u_dh / L^2 (moment balance). */
export function tiltU(given: SplitSetup | null): number {
  const setup = need(given);
  const deck_u_m = setup.deck_u_m ?? DECK_U_M;
  checkRange("wheelbase_m", setup.wheelbase_m, { above: 0, unit: "m" });
  checkRange("total_kg", setup.total_kg, { low: 0, unit: "kg" });
  checkRange("cg_height_m", setup.cg_height_m, { above: 0, unit: "m" });
  checkRange("deck_u_m", deck_u_m, { low: 0, unit: "m" });
  return (setup.total_kg * setup.cg_height_m * deck_u_m) / setup.wheelbase_m ** 2;
}

export interface ReadingCovarianceInput {
  readonly readings: readonly Reading[];
  readonly bridge: Bridge;
  readonly setup?: SplitSetup | null;
  readonly with_gain?: boolean;
  readonly own_share?: number;
}

/** Covariance of the readings of one session, kg^2; repeats must have been merged. */
export function readingCovariance(input: ReadingCovarianceInput): number[][] {
  const { readings, bridge, setup = null, with_gain = true, own_share = 1 } = input;
  checkReadings(readings);
  checkRange("own_share", own_share, { low: 0, high: 1 });
  const nSplit = readings.filter((reading) => reading.split).length;
  const rho = setup?.level_correlation ?? 0;
  checkRange("level_correlation", rho, { low: -1 / Math.max(nSplit - 1, 1), high: 1 });
  const parts = readings.map((reading) => readingError({ reading, bridge, setup }));
  const zero = zeroU({ bridge }) ** 2;
  return parts.map((one, i) =>
    parts.map((other, j) => {
      const sameDeck = (readings[i]!.deck ?? "") === (readings[j]!.deck ?? "");
      const gain = with_gain ? one.gain_kg * other.gain_kg : 0;
      const shared = (sameDeck ? gain + zero : 0) + rho * one.tilt_kg * other.tilt_kg;
      if (i !== j) return shared;
      const alone = one.rounding_kg ** 2 + own_share * one.own_kg ** 2 + one.friction_kg ** 2;
      return shared + alone + (1 - rho) * one.tilt_kg ** 2;
    }),
  );
}

/** Readings of the same axles in one state on one deck become one: the mean of the figures, counted as repeats. */
export function mergeRepeats({ readings }: { readonly readings: readonly Reading[] }): Reading[] {
  const groups = new Map<string, Reading[]>();
  for (const reading of readings) {
    checkFigure(reading);
    const key = keyOf(reading);
    groups.set(key, [...(groups.get(key) ?? []), reading]);
  }
  return [...groups.values()].map(merged);
}

/** The set of axles, whatever their order. */
export function axleKey(reading: Reading): string {
  return [...reading.axles].sort().join("+");
}

/** What the load differed in from the visit's state. */
export function stateKey(reading: Reading): string {
  return JSON.stringify([[...(reading.without ?? [])].sort(), reading.uncoupled ?? false]);
}

/** Refuse a load below zero, a reading of nothing, and repeats that have not been merged. */
export function checkReadings(readings: readonly Reading[]): void {
  const seen = new Set<string>();
  for (const reading of readings) {
    checkFigure(reading);
    if (reading.axles.length === 0) throw new OutOfRange("axles", 0, { low: 1 });
    const key = keyOf(reading);
    if (seen.has(key))
      throw new Duplicate("axles", axleKey(reading), "Merge it with the earlier reading of the same axles");
    seen.add(key);
  }
}

function checkFigure({ value_kg, repeats = 1 }: Reading): void {
  checkRange("value_kg", value_kg, { low: 0, unit: "kg" });
  checkRange("repeats", repeats, { low: 1 });
}

function merged(group: readonly Reading[]): Reading {
  const repeats = group.reduce((total, one) => total + (one.repeats ?? 1), 0);
  const value_kg = group.reduce((total, one) => total + one.value_kg * (one.repeats ?? 1), 0) / repeats;
  return { ...group[0]!, value_kg, split: group.some((one) => one.split), repeats };
}

function keyOf(reading: Reading): string {
  const { deck = "", approach = "" } = reading;
  return JSON.stringify([axleKey(reading), deck, approach, stateKey(reading)]);
}

function need(setup: SplitSetup | null): SplitSetup {
  if (setup === null) throw new NotKnown("cg_height_m", "a reading of a part of the vehicle");
  return setup;
}
