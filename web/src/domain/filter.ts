/**
 * How much is in the tanks and how fast it goes: one linear Kalman filter, for fuel and for water.
 * State [V_1..V_T, b_1..b_K]: litres in each tank, and a rate for each class. Kalman 1960 (from memory).
 */
import { checkRange, Duplicate, Redundant, Unknown } from "./errors";
import {
  CHANGE_U,
  type Change,
  checkEvent,
  type DomainEvent,
  type Fill,
  isObservation,
  type Missed,
  type Observation,
  type Pour,
  type Rescale,
  type Start,
  type Transfer,
  type Use,
} from "./events";
import { dot, type Matrix, matvec, type Vector } from "./linalg";

/** Tanks and classes together; beyond it nothing was tested. */
export const MOST_STATES = 8;

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

/** Refuse capacities and rates that are not above 0, names twice, and more than 8 states. */
export function checkModel({ model }: { readonly model: Model }): void {
  const { tank_ids, class_ids, capacity_l, rate0 } = model;
  if (new Set(tank_ids).size !== tank_ids.length) throw new Duplicate("tank_ids", tank_ids);
  if (new Set(class_ids).size !== class_ids.length) throw new Duplicate("class_ids", class_ids);
  for (const value of capacity_l) checkRange("capacity_l", value, { above: 0, unit: "L" });
  for (const value of rate0) checkRange("rate0", value, { above: 0 });
  const lowest = Math.min(tank_ids.length, class_ids.length, capacity_l.length, rate0.length);
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
  checkRange("kappa", kappa, { low: 0 });
  checkEvent({ event, tanks: model.tank_ids.length, capacity_l: capacityOf(model, event) });
  if (isObservation(event)) return observe(model, estimate, event);
  const mean = [...estimate.mean];
  const cov = estimate.cov.map((row) => [...row]);
  let { scale } = estimate;
  if (event.kind === "use") use(model, kappa, scale, event, mean, cov);
  else if (event.kind === "change" || event.kind === "rescale") scale = rates(model, scale, event, mean, cov);
  else levels(model, event, mean, cov);
  return { mean, cov, log_likelihood: estimate.log_likelihood, scale };
}

export interface AdvanceAll {
  readonly model: Model;
  readonly kappas: readonly number[];
  readonly estimates: readonly Estimate[];
  readonly event: DomainEvent;
}

/** `advance` for several kappas at once, each with its own estimate. */
export function advanceAll({ model, kappas, estimates, event }: AdvanceAll): Estimate[] {
  return estimates.map((estimate, j) => advance({ model, kappa: kappas[j]!, estimate, event }));
}

export interface Innovate {
  readonly model: Model;
  readonly estimate: Estimate;
  readonly event: Observation;
}

/** What an observation says against what was expected: nu = y - h'x, s = h'P h + r; s = 0 is refused. */
export function innovation({ model, estimate, event }: Innovate): Innovation {
  checkEvent({ event, tanks: model.tank_ids.length });
  const { h, y, r } = observed(model, event);
  const s_l2 = dot(h, matvec(estimate.cov, h)) + r;
  if (s_l2 <= 0) throw new Redundant();
  const nu_l = y - dot(h, estimate.mean);
  return { nu_l, s_l2, z: nu_l / Math.sqrt(s_l2) };
}

export interface Innovations {
  readonly model: Model;
  readonly estimates: readonly Estimate[];
  readonly event: Observation;
}

/** `innovation` against several estimates at once. */
export function innovations({ model, estimates, event }: Innovations): Innovation[] {
  return estimates.map((estimate) => innovation({ model, estimate, event }));
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
  const place = model.tank_ids.indexOf(tank_id);
  if (place < 0) throw new Unknown("tank_id", tank_id, model.tank_ids);
  return place;
}

/** Place of a class in the state; refuses a class that is not there. */
export function classIndex(model: Model, class_id: string): number {
  const place = model.class_ids.indexOf(class_id);
  if (place < 0) throw new Unknown("class_id", class_id, model.class_ids);
  return model.tank_ids.length + place;
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

function use(model: Model, kappa: number, scale: number, event: Use, mean: number[], cov: number[][]): void {
  const { class_id, amount } = event;
  const [i, tanks, per] = [classIndex(model, class_id), model.tank_ids.length, model.settings.per];
  const f = event.shares?.length ? event.shares : [1];
  const drift = rateDrift({ model, class_id, scale });
  const own = drift[i - tanks]!;
  const q = legNoise({ model, kappa, class_id, scale });
  const within = (own[i - tanks]! * amount ** 3) / (3 * per ** 2) + q * amount;
  const size = mean.length;
  for (let t = 0; t < tanks; t++) {
    const draw = (f[t]! * amount) / per;
    mean[t] = mean[t]! - draw * mean[i]!;
    for (let j = 0; j < size; j++) cov[t]![j] = cov[t]![j]! - draw * cov[i]![j]!;
  }
  for (let t = 0; t < tanks; t++) {
    const draw = (f[t]! * amount) / per;
    for (let j = 0; j < size; j++) cov[j]![t] = cov[j]![t]! - draw * cov[j]![i]!;
  }
  for (let a = tanks; a < size; a++) {
    for (let b = tanks; b < size; b++) cov[a]![b] = cov[a]![b]! + drift[a - tanks]![b - tanks]! * amount;
    for (let t = 0; t < tanks; t++) {
      const cross = (-f[t]! * own[a - tanks]! * amount ** 2) / (2 * per);
      cov[t]![a] = cov[t]![a]! + cross;
      cov[a]![t] = cov[a]![t]! + cross;
    }
  }
  for (let t = 0; t < tanks; t++)
    for (let u = 0; u < tanks; u++) cov[t]![u] = cov[t]![u]! + f[t]! * f[u]! * within;
  symmetriseInPlace(cov);
}

type LevelEvent = Start | Fill | Missed | Transfer | Pour;

function levels(model: Model, event: LevelEvent, mean: number[], cov: number[][]): void {
  const t = tankIndex(model, event.tank_id);
  const capacity = model.capacity_l[t]!;
  if (event.kind === "fill") {
    const u = event.litres_u_l ?? model.settings.fill_u * event.litres_l;
    mean[t] = mean[t]! + event.litres_l;
    cov[t]![t] = cov[t]![t]! + u ** 2;
  } else if (event.kind === "start") setLevel(t, event.litres_l, event.litres_u_l ** 2, mean, cov);
  else if (event.kind === "missed") setLevel(t, capacity / 2, capacity ** 2 / 12, mean, cov);
  else move(model, t, event, mean, cov);
}

function move(model: Model, t: number, event: Transfer | Pour, mean: number[], cov: number[][]): void {
  const into = event.into_id === null ? null : tankIndex(model, event.into_id);
  if (into === t) throw new Duplicate("into_id", event.into_id, "Choose another tank or none");
  if (event.kind === "pour") {
    if (into !== null) {
      mean[into] = mean[into]! + mean[t]!;
      for (let j = 0; j < mean.length; j++) cov[into]![j] = cov[into]![j]! + cov[t]![j]!;
      for (let j = 0; j < mean.length; j++) cov[j]![into] = cov[j]![into]! + cov[j]![t]!;
    }
    setLevel(t, 0, 0, mean, cov);
    return;
  }
  const variance = (event.litres_u_l ?? 0) ** 2;
  mean[t] = mean[t]! - event.litres_l;
  cov[t]![t] = cov[t]![t]! + variance;
  if (into === null) return;
  mean[into] = mean[into]! + event.litres_l;
  cov[into]![into] = cov[into]![into]! + variance;
  cov[t]![into] = cov[t]![into]! - variance;
  cov[into]![t] = cov[into]![t]! - variance;
}

function setLevel(t: number, litres: number, variance: number, mean: number[], cov: number[][]): void {
  mean[t] = litres;
  for (let j = 0; j < mean.length; j++) {
    cov[t]![j] = 0;
    cov[j]![t] = 0;
  }
  cov[t]![t] = variance;
}

/** Returns the scale of the prior rates after the event. */
function rates(
  model: Model,
  scale: number,
  event: Change | Rescale,
  mean: number[],
  cov: number[][],
): number {
  const [tanks, size] = [model.tank_ids.length, mean.length];
  if (event.kind === "change") {
    const rate0 = model.rate0.map((rate) => scale * rate);
    const variance = (event.rate_u ?? CHANGE_U) ** 2;
    for (const [i, own] of rate0.entries())
      for (const [j, other] of rate0.entries())
        cov[tanks + i]![tanks + j] = cov[tanks + i]![tanks + j]! + variance * own * other;
    return scale;
  }
  for (let a = tanks; a < size; a++) {
    mean[a] = mean[a]! * event.ratio;
    for (let j = 0; j < size; j++) cov[a]![j] = cov[a]![j]! * event.ratio;
    for (let j = 0; j < size; j++) cov[j]![a] = cov[j]![a]! * event.ratio;
  }
  return scale * event.ratio;
}

function observe(model: Model, estimate: Estimate, event: Observation): Estimate {
  const { nu_l, s_l2, z } = innovation({ model, estimate, event });
  const { h, r } = observed(model, event);
  // Joseph form (I - kh')P(I - kh')' + r kk', by its rank-one products
  const across = matvec(estimate.cov, h);
  const gain = across.map((value) => value / s_l2);
  const mean = estimate.mean.map((value, i) => value + gain[i]! * nu_l);
  const half = estimate.cov.map((row, i) => row.map((value, j) => value - gain[i]! * across[j]!));
  const down = matvec(half, h);
  const cov = half.map((row, i) =>
    row.map((value, j) => value - down[i]! * gain[j]! + r * gain[i]! * gain[j]!),
  );
  symmetriseInPlace(cov);
  const gained = -(Math.log(2 * Math.PI * s_l2) + z ** 2) / 2;
  return { mean, cov, log_likelihood: estimate.log_likelihood + gained, scale: estimate.scale };
}

function observed(model: Model, event: Observation): { h: number[]; y: number; r: number } {
  const h = new Array(model.tank_ids.length + model.class_ids.length).fill(0);
  if (event.kind === "full") {
    const places = event.tank_ids.map((tank_id) => tankIndex(model, tank_id));
    for (const t of places) h[t] = 1;
    const y = places.reduce((sum, t) => sum + model.capacity_l[t]!, 0);
    return { h, y, r: places.length * model.settings.full_u_l ** 2 };
  }
  const t = tankIndex(model, event.tank_id);
  h[t] = 1;
  if (event.kind === "level") return { h, y: event.litres_l, r: event.litres_u_l ** 2 };
  const capacity = model.capacity_l[t]!;
  const share = event.fraction_u ?? model.settings.gauge_u;
  return { h, y: event.fraction * capacity, r: (share * capacity) ** 2 };
}

function capacityOf(model: Model, event: DomainEvent): number | null {
  return event.kind === "fill" ? model.capacity_l[tankIndex(model, event.tank_id)]! : null;
}

function zeros(size: number): number[][] {
  return Array.from({ length: size }, () => new Array(size).fill(0));
}

function symmetriseInPlace(a: number[][]): void {
  for (let i = 0; i < a.length; i++) {
    for (let j = 0; j < i; j++) {
      const middle = (a[i]![j]! + a[j]![i]!) / 2;
      a[i]![j] = middle;
      a[j]![i] = middle;
    }
  }
}
