/** Limits and verdicts: a rating compared with a load that is known only so well. */
import { checkFinite, checkRange } from "./errors";
import { cdf, FAR, zAt } from "./normal";
import { type Loads, valueKg } from "./statics";

/** One-sided; the user may choose another. */
export const CONFIDENCE = 0.95;

/** A rating judged. `word` is under, over, cannot_tell or not_known; `reach_kg` is z u, the whisker's half. */
export interface Verdict {
  readonly rating: string;
  readonly limit_kg: number | null;
  readonly value_kg: number;
  readonly u_kg: number;
  readonly reach_kg: number;
  readonly margin_kg: number | null;
  readonly over_probability: number | null;
  readonly word: "under" | "over" | "cannot_tell" | "not_known";
}

/** Least and greatest load of a row over all levels of the tanks, kg. */
export interface Extremes {
  readonly least_kg: number;
  readonly greatest_kg: number;
}

/** A content that may be anything between two masses, with its share on the row. */
export interface TankRange {
  readonly share: number;
  readonly least_kg: number;
  readonly greatest_kg: number;
}

export interface Judge {
  readonly rating: string;
  readonly value_kg: number;
  readonly u_kg: number;
  readonly limit_kg: number | null;
  readonly confidence?: number;
}

/** Under if margin >= z u, over if margin < -z u, else cannot tell; z one-sided at the confidence. */
export function verdict({ rating, value_kg, u_kg, limit_kg, confidence = CONFIDENCE }: Judge): Verdict {
  checkFinite("value_kg", value_kg);
  checkRange("u_kg", u_kg, { low: 0, unit: "kg" });
  const reach_kg = zAt(confidence) * u_kg;
  const common = { rating, limit_kg, value_kg, u_kg, reach_kg };
  if (limit_kg === null) return { ...common, margin_kg: null, over_probability: null, word: "not_known" };
  checkRange("limit_kg", limit_kg, { above: 0, unit: "kg" });
  const margin_kg = limit_kg - value_kg;
  const word = margin_kg >= reach_kg ? "under" : margin_kg < -reach_kg ? "over" : "cannot_tell";
  const over_probability = chanceOver({ limit_kg, value_kg, u_kg });
  return { ...common, margin_kg, over_probability, word };
}

export interface ChanceOver {
  readonly limit_kg: number;
  readonly value_kg: number;
  readonly u_kg: number;
}

/** Probability that a load known as value +- u exceeds a limit; exact loads are over only above it. */
export function chanceOver({ limit_kg, value_kg, u_kg }: ChanceOver): number {
  checkFinite("limit_kg", limit_kg);
  checkFinite("value_kg", value_kg);
  checkRange("u_kg", u_kg, { low: 0, unit: "kg" });
  if (u_kg === 0) return value_kg > limit_kg ? 1 : 0;
  return cdf(Math.max(-FAR, Math.min((value_kg - limit_kg) / u_kg, FAR)));
}

/** Rows whose mean load is below zero: the front axle, or the coupling, which the trailer then lifts. */
export function lifts({ loads }: { readonly loads: Loads }): string[] {
  return ["front", "coupling"].filter((row) => loads.rows.includes(row) && valueKg(loads, row) < 0);
}

/** Bounds on the probability that any limit is exceeded: [max p, min(1, sum p)] (Frechet, Bonferroni). */
export function anyOver({ probabilities }: { readonly probabilities: readonly number[] }): [number, number] {
  for (const p of probabilities) checkRange("probability", p, { low: 0, high: 1 });
  const sum = probabilities.reduce((total, p) => total + p, 0);
  return [Math.max(0, ...probabilities), Math.min(1, sum)];
}

export interface ExtremesOf {
  readonly fixed_kg: number;
  readonly tanks: readonly TankRange[];
}

/** Least and greatest load over independent levels: linear in each content, hence exact and separable. */
export function extremes({ fixed_kg, tanks }: ExtremesOf): Extremes {
  checkFinite("fixed_kg", fixed_kg);
  let [least_kg, greatest_kg] = [fixed_kg, fixed_kg];
  for (const tank of tanks) {
    checkFinite("share", tank.share);
    const high = checkRange("greatest_kg", tank.greatest_kg, { low: 0, unit: "kg" });
    checkRange("least_kg", tank.least_kg, { low: 0, high, unit: "kg" });
    const ends = [tank.share * tank.least_kg, tank.share * tank.greatest_kg];
    least_kg += Math.min(...ends);
    greatest_kg += Math.max(...ends);
  }
  return { least_kg, greatest_kg };
}
