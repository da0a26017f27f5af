/** What is left after a way, how far it can be counted on, and with what probability a distance is reached. */
import { type Bank, bankWeights } from "./bank";
import { checkRange, OutOfRange } from "./errors";
import { classIndex, type Estimate, legNoise, type Model, totalLeft } from "./filter";
import { dot, finite, matvec } from "./linalg";
import { cdf } from "./normal";

/** A range that ends nowhere below this is cut here. */
export const LIMIT = 1e6;
/** Width at which the bisection of a range stops. */
export const TOLERANCE = 1e-9;

/** Shares of a way by class; they add up to 1. */
export type Mix = Readonly<Record<string, number>>;

/** How true and indicated km go together (k = true / indicated), and what must not be used. */
export interface Counting {
  readonly factor?: number;
  readonly factor_u?: number;
  readonly reserve_l?: number;
}

/** Refuse shares outside 0 to 1 or with a sum that differs from 1 by more than 1e-9. */
export function checkMix({ mix }: { readonly mix: Mix }): void {
  const shares = Object.values(mix);
  for (const share of shares) checkRange("mix", share, { low: 0, high: 1 });
  const total = shares.reduce((sum, share) => sum + share, 0);
  if (Math.abs(total - 1) > 1e-9) throw new OutOfRange("mix", total, { low: 1, high: 1 });
}

/** Refuse a factor not above 0, a negative u and a negative reserve. */
export function checkCounting({ counting }: { readonly counting: Counting }): void {
  const { factor, factor_u, reserve_l } = filled(counting);
  checkRange("factor", factor, { above: 0 });
  checkRange("factor_u", factor_u, { low: 0 });
  checkRange("reserve_l", reserve_l, { low: 0, unit: "L" });
}

export interface LeftAfter {
  readonly model: Model;
  readonly kappa: number;
  readonly estimate: Estimate;
  readonly mix: Mix;
  readonly amount: number;
  readonly counting?: Counting | null;
}

/** Litres left and their variance after a true amount of an evenly mixed way; the reserve is not taken off. */
export function leftAfter({ model, kappa, estimate, mix, amount, counting }: LeftAfter): [number, number] {
  checkRange("kappa", kappa, { low: 0 });
  checkRange("amount", amount, { low: 0 });
  checkMix({ mix });
  checkCounting({ counting: counting ?? {} });
  const { factor, factor_u } = filled(counting);
  const { per, walk, walk_class, walk_ref } = model.settings;
  const total = amount / factor;
  const g: number[] = estimate.mean.map((_, k) => (k < model.tank_ids.length ? 1 : 0));
  let [own, priorUse, used] = [0, 0, 0];
  for (const [class_id, share] of Object.entries(mix)) {
    const i = classIndex(model, class_id);
    const part = share * total;
    const rate0 = estimate.scale * model.rate0[i - model.tank_ids.length]!;
    g[i] = -part / per;
    used += (estimate.mean[i]! * part) / per;
    priorUse += rate0 * part;
    own += ((walk_class * rate0) ** 2 * part ** 3) / (3 * per ** 2 * walk_ref);
    own += legNoise({ model, kappa, class_id, scale: estimate.scale }) * part;
  }
  const common = ((walk * priorUse) ** 2 * total) / (3 * per ** 2 * walk_ref);
  const odometer = ((used * factor_u) / factor) ** 2;
  const variance = dot(g, matvec(estimate.cov, g)) + own + common + odometer;
  return [totalLeft({ model, estimate })[0] - used, variance];
}

export interface Reach {
  readonly bank: Bank;
  readonly mix: Mix;
  readonly amount: number;
  readonly counting?: Counting | null;
}

/** Probability that an amount is done without touching the reserve: the weighted sum over the bank. */
export function reach({ bank, mix, amount, counting }: Reach): number {
  const { model, kappas } = bank;
  const parts = bank.estimates.map((estimate, j) =>
    leftAfter({ model, kappa: kappas[j]!, estimate, mix, amount, counting: counting ?? null }),
  );
  return untouched({ parts, weights: bankWeights({ bank }), reserve_l: filled(counting).reserve_l });
}

export interface RangeAt {
  readonly bank: Bank;
  readonly mix: Mix;
  readonly p: number;
  readonly counting?: Counting | null;
}

/** Largest true amount reached with probability p: 0.95 is the count-on range, 0.5 the likely one; 0 if not even now. */
export function rangeAt({ bank, mix, p, counting }: RangeAt): number {
  checkRange("p", p, { above: 0, below: 1 });
  const fallsShort = (amount: number) => reach({ bank, mix, amount, counting: counting ?? null }) < p;
  if (fallsShort(0)) return 0;
  let [low, high] = [0, 1];
  while (!fallsShort(high)) {
    if (high >= LIMIT) return LIMIT;
    [low, high] = [high, 2 * high];
  }
  while (high - low > TOLERANCE) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (fallsShort(middle)) high = middle;
    else low = middle;
  }
  return low;
}

function filled(counting: Counting | null | undefined): Required<Counting> {
  return {
    factor: counting?.factor ?? 1,
    factor_u: counting?.factor_u ?? 0,
    reserve_l: counting?.reserve_l ?? 0,
  };
}

/** Levels by kappa, each a mean with its variance, and the weights of the kappas. */
export interface Levels {
  readonly parts: readonly (readonly [mean: number, variance: number])[];
  readonly weights: readonly number[];
}

/** Probability that a mixture of levels is not below the reserve; sd = 0 decides by the sign. */
export function untouched({ parts, weights, reserve_l }: Levels & { readonly reserve_l: number }): number {
  const sum = parts.reduce((total, [mean, variance], j) => {
    const margin = mean - reserve_l;
    const probability = variance > 0 ? cdf(margin / Math.sqrt(variance)) : margin >= 0 ? 1 : 0;
    return total + weights[j]! * probability;
  }, 0);
  return Math.min(sum, 1); // the weights add up to 1 but for rounding
}

/** Litres that a mixture of levels holds at least with probability p: 0.5 the likely figure, 0.95 the count-on one. */
export function litresAt({ parts, weights, p }: Levels & { readonly p: number }): number {
  checkRange("p", p, { above: 0, below: 1 });
  finite("parts", parts);
  finite("weights", weights);
  const reach_l = 40 * Math.sqrt(Math.max(...parts.map(([, variance]) => variance))) + TOLERANCE;
  const means = parts.map(([mean]) => mean);
  let [low, high] = [Math.min(...means) - reach_l, Math.max(...means) + reach_l];
  while (high - low > TOLERANCE) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (untouched({ parts, weights, reserve_l: middle }) >= p) low = middle;
    else high = middle;
  }
  return low;
}
