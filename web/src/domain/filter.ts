/**
 * How much is in the tanks and how fast it goes: one linear Kalman filter, for fuel and for water.
 * State [V_1..V_T, b_1..b_K]: litres in each tank, and a rate for each class. Kalman 1960 (from memory).
 */
import { checkRange, DomainError, Duplicate } from "./errors";
import type { DomainEvent, Observation } from "./events";
import type { Matrix, Vector } from "./linalg";
import {
  classPlace,
  estimatesOf,
  shutOffAt,
  stackAdvance,
  stackInnovations,
  stackOf,
  tankPlace,
} from "./stack";

/** Tanks and classes together; beyond it nothing was tested. */
export const MOST_STATES = 12;

const DIVISORS = ["per", "walk_ref"]; // settings that something is divided by

/** What the filter assumes; each figure may be replaced by the user's own. The Python twin explains each. */
export interface Settings {
  readonly per: number;
  readonly u_common: number;
  readonly u_class: number;
  readonly walk: number;
  readonly walk_class: number;
  readonly walk_ref: number;
  readonly ell: number;
  readonly fill_u: number;
  readonly full_u_l: number;
  readonly gauge_u: number;
}

/** Tanks with their capacity to the shut-off, classes with their prior rates, and the settings. */
export interface Model {
  readonly tank_ids: readonly string[];
  readonly capacity_l: readonly number[];
  readonly class_ids: readonly string[];
  readonly rate0: readonly number[];
  readonly settings: Settings;
  /** u of each tank's shut-off; null where each has that of the settings. */
  readonly full_u_l?: readonly number[] | null;
}

/** Mean and covariance of the state. `scale` multiplies the prior rates after a `Rescale`. */
export interface Estimate {
  readonly mean: Vector;
  readonly cov: Matrix;
  readonly log_likelihood: number;
  readonly scale: number;
}

/** An observation minus what was expected of it, litres; its variance; and the ratio z = nu / sqrt(s). */
export interface Innovation {
  readonly nu_l: number;
  readonly s_l2: number;
  readonly z: number;
}

/** Refuse capacities, rates, `per`, `walk_ref` not above 0, other settings below 0, names twice, over 12 states. */
export function checkModel({ model }: { readonly model: Model }): void {
  const { tank_ids, class_ids, capacity_l, rate0 } = model;
  if (new Set(tank_ids).size !== tank_ids.length) throw new Duplicate("tank_ids", tank_ids);
  if (new Set(class_ids).size !== class_ids.length) throw new Duplicate("class_ids", class_ids);
  const counts = [
    ["capacity_l", capacity_l, tank_ids],
    ["rate0", rate0, class_ids],
    ["full_u_l", model.full_u_l ?? null, tank_ids],
  ] as const;
  for (const [field, figures, { length }] of counts)
    if (figures !== null && figures.length !== length)
      throw new DomainError(field, figures, `${length} numbers, one for each name`);
  for (const value of capacity_l) checkRange("capacity_l", value, { above: 0, unit: "L" });
  for (const value of rate0) checkRange("rate0", value, { above: 0 });
  for (const value of model.full_u_l ?? []) checkRange("full_u_l", value, { low: 0, unit: "L" });
  for (const [field, value] of Object.entries(model.settings))
    checkRange(field, value, DIVISORS.includes(field) ? { above: 0 } : { low: 0 });
  const lowest = Math.min(tank_ids.length, class_ids.length);
  checkRange("states", tank_ids.length + class_ids.length, { high: MOST_STATES });
  checkRange("tanks and classes", lowest, { low: 1 });
}

/** What is known before the first entry: levels anything between empty and full, rates near their guess. */
export function prior({ model }: { readonly model: Model }): Estimate {
  checkModel({ model });
  const { capacity_l, rate0, settings } = model;
  const tanks = capacity_l.length;
  const cov = zeros(tanks + rate0.length);
  for (const [t, capacity] of capacity_l.entries()) cov[t]![t] = capacity ** 2 / 12;
  for (const [i, own] of rate0.entries()) {
    for (const [j, other] of rate0.entries())
      cov[tanks + i]![tanks + j] = settings.u_common ** 2 * own * other;
    cov[tanks + i]![tanks + i] = cov[tanks + i]![tanks + i]! + (settings.u_class * own) ** 2;
  }
  const mean = [...capacity_l.map((capacity) => capacity / 2), ...rate0];
  return { mean, cov, log_likelihood: 0, scale: 1 };
}

export interface Advance {
  readonly model: Model;
  readonly kappa: number;
  readonly estimate: Estimate;
  readonly event: DomainEvent;
}

/** The estimate after one event; the one before stays as it is. A leg cut in two is the same leg (Van Loan 1978). */
export function advance({ model, kappa, estimate, event }: Advance): Estimate {
  return advanceAll({ model, kappas: [kappa], estimates: [estimate], event })[0]!;
}

export interface AdvanceAll {
  readonly model: Model;
  readonly kappas: readonly number[];
  readonly estimates: readonly Estimate[];
  readonly event: DomainEvent;
}

/** `advance` for several kappas at once, each with its own estimate. */
export function advanceAll({ event, ...given }: AdvanceAll): Estimate[] {
  for (const kappa of given.kappas) checkRange("kappa", kappa, { low: 0 });
  const stack = stackOf(given);
  stackAdvance(stack, event);
  return estimatesOf(stack);
}

export interface Innovate {
  readonly model: Model;
  readonly estimate: Estimate;
  readonly event: Observation;
}

/** What an observation says against what was expected: nu = y - h'x, s = h'P h + r; s = 0 is refused. */
export function innovation({ model, estimate, event }: Innovate): Innovation {
  return innovations({ model, estimates: [estimate], event })[0]!;
}

export interface Innovations {
  readonly model: Model;
  readonly estimates: readonly Estimate[];
  readonly event: Observation;
}

/** `innovation` against several estimates at once. */
export function innovations({ model, estimates, event }: Innovations): Innovation[] {
  const [nu, s] = stackInnovations(stackOf({ model, kappas: [], estimates }), event);
  return nu.map((nu_l, j) => ({ nu_l, s_l2: s[j]!, z: nu_l / Math.sqrt(s[j]!) }));
}

export interface TotalLeft {
  readonly model: Model;
  readonly estimate: Estimate;
}

/** Litres in all tanks together and their variance. */
export function totalLeft({ model, estimate }: TotalLeft): [number, number] {
  const tanks = model.tank_ids.length;
  let [mean, variance] = [0, 0];
  for (let t = 0; t < tanks; t++) {
    mean += estimate.mean[t]!;
    for (let u = 0; u < tanks; u++) variance += estimate.cov[t]![u]!;
  }
  return [mean, variance];
}

/** Place of a tank in the state; refuses a tank that is not there. */
export function tankIndex(model: Model, tank_id: string): number {
  return tankPlace(model, tank_id);
}

/** Place of a class in the state; refuses a class that is not there. */
export function classIndex(model: Model, class_id: string): number {
  return classPlace(model, class_id);
}

/** u of each tank's shut-off, L: the tank's own, or that of the settings. */
export function shutOffU({ model }: { readonly model: Model }): number[] {
  return model.tank_ids.map((_, t) => shutOffAt(model, t));
}

export interface RateDrift {
  readonly model: Model;
  readonly class_id: string;
  readonly scale?: number;
}

/** G, the growth of the rates' covariance per amount while a class is used: all drift together, this one alone. */
export function rateDrift({ model, class_id, scale = 1 }: RateDrift): number[][] {
  const at = classIndex(model, class_id) - model.tank_ids.length;
  const { walk, walk_class, walk_ref } = model.settings;
  const rate0 = model.rate0.map((rate) => scale * rate);
  return rate0.map((own, i) =>
    rate0.map((other, j) => {
      const alone = i === at && j === at ? (walk_class * own) ** 2 : 0;
      return (walk ** 2 * own * other + alone) / walk_ref;
    }),
  );
}

export interface LegNoise extends RateDrift {
  readonly kappa: number;
}

/** q, variance of the draw per amount from the unsteadiness kappa, L^2: (kappa b0_i / per)^2 ell. */
export function legNoise({ model, kappa, class_id, scale = 1 }: LegNoise): number {
  const at = classIndex(model, class_id) - model.tank_ids.length;
  return ((kappa * scale * model.rate0[at]!) / model.settings.per) ** 2 * model.settings.ell;
}

function zeros(size: number): number[][] {
  return Array.from({ length: size }, () => new Array(size).fill(0));
}
