/**
 * Several estimates of one model in one block of numbers, changed in place: what the filter's and the bank's functions
 * are made of, and what a long log is run through without a new object for each event.
 */
import type { Bank } from "./bank";
import { Duplicate, Redundant, Unknown } from "./errors";
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
import type { Estimate, Model } from "./filter";

/** One after the other: mean, covariance row by row, log-likelihood, scale of the prior rates. */
export interface Stack {
  readonly model: Model;
  readonly kappas: readonly number[];
  readonly size: number;
  readonly values: number[];
}

export interface StackOf {
  readonly model: Model;
  readonly kappas: readonly number[];
  readonly estimates: readonly Estimate[];
}

/** Estimates as one block. */
export function stackOf({ model, kappas, estimates }: StackOf): Stack {
  const values: number[] = [];
  for (const { mean, cov, log_likelihood, scale } of estimates) {
    for (const value of mean) values.push(value);
    for (const row of cov) for (const value of row) values.push(value);
    values.push(log_likelihood, scale);
  }
  return { model, kappas, size: model.tank_ids.length + model.class_ids.length, values };
}

/** The estimates of a block, on their own. */
export function estimatesOf(stack: Stack): Estimate[] {
  const { size: n, values } = stack;
  const estimates: Estimate[] = [];
  for (let j = 0; j < countOf(stack); j++) {
    const at = startOf(stack, j);
    const cov: number[][] = [];
    for (let p = at + n; p < at + n + n * n; p += n) cov.push(values.slice(p, p + n));
    const end = at + n + n * n;
    estimates.push({
      mean: values.slice(at, at + n),
      cov,
      log_likelihood: values[end]!,
      scale: values[end + 1]!,
    });
  }
  return estimates;
}

/** The bank of a stack, which may then be changed further. */
export function bankOf(stack: Stack): Bank {
  return { model: stack.model, kappas: stack.kappas, estimates: estimatesOf(stack) };
}

/** The same, to be changed on its own. */
export function copyOf(stack: Stack): Stack {
  const { model, kappas, size, values } = stack;
  return { model, kappas, size, values: values.slice() };
}

/** How many estimates there are. */
export function countOf({ size, values }: Stack): number {
  return values.length / (size + size * size + 2);
}

/** Where the estimate j begins. */
export function startOf({ size }: Stack, j: number): number {
  return j * (size + size * size + 2);
}

/** Of the estimate j. */
export function logLikelihood(stack: Stack, j: number): number {
  return stack.values[startOf(stack, j) + stack.size * (stack.size + 1)]!;
}

/** All estimates of the stack after one event. */
export function stackAdvance(stack: Stack, event: DomainEvent): void {
  const { model } = stack;
  const capacity_l = event.kind === "fill" ? model.capacity_l[tankPlace(model, event.tank_id)]! : null;
  checkEvent({ event, tanks: model.tank_ids.length, capacity_l });
  if (isObservation(event)) observe(stack, observed(model, event));
  else if (event.kind === "use") use(stack, event);
  else if (event.kind === "change" || event.kind === "rescale") rates(stack, event);
  else levels(stack, event);
}

/** For each estimate what an observation says against it, and the variance of that; 0 is refused. */
export function stackInnovations(
  stack: Stack,
  event: Observation,
): readonly [nu_l: number[], s_l2: number[]] {
  checkEvent({ event, tanks: stack.model.tank_ids.length });
  const seen = observed(stack.model, event);
  const [nu, s]: [number[], number[]] = [[], []];
  for (let j = 0; j < countOf(stack); j++) {
    nu.push(seen.y - meanOf(stack, seen.places, j));
    s.push(spreadOf(stack, seen, j));
  }
  return [nu, s];
}

/** Place of a tank in the state; refuses a tank that is not there. */
export function tankPlace(model: Model, tank_id: string): number {
  const place = model.tank_ids.indexOf(tank_id);
  if (place < 0) throw new Unknown("tank_id", tank_id, model.tank_ids);
  return place;
}

/** Place of a class in the state; refuses a class that is not there. */
export function classPlace(model: Model, class_id: string): number {
  const place = model.class_ids.indexOf(class_id);
  if (place < 0) throw new Unknown("class_id", class_id, model.class_ids);
  return model.tank_ids.length + place;
}

/** u of one tank's shut-off, L: its own, or that of the settings. */
export function shutOffAt({ full_u_l, settings }: Model, t: number): number {
  return full_u_l?.[t] ?? settings.full_u_l;
}

/** An observation as row, value and variance: the row is 1 at the places and 0 elsewhere. */
interface Observed {
  readonly places: readonly number[];
  readonly y: number;
  readonly r: number;
}

function observed(model: Model, event: Observation): Observed {
  if (event.kind === "full") {
    const places = event.tank_ids.map((tank_id) => tankPlace(model, tank_id));
    const y = places.reduce((sum, t) => sum + model.capacity_l[t]!, 0);
    const usual = places.reduce((sum, t) => sum + shutOffAt(model, t) ** 2, 0);
    return { places, y, r: event.litres_u_l == null ? usual : event.litres_u_l ** 2 };
  }
  const t = tankPlace(model, event.tank_id);
  if (event.kind === "level") return { places: [t], y: event.litres_l, r: event.litres_u_l ** 2 };
  const capacity = model.capacity_l[t]!;
  const share = event.fraction_u ?? model.settings.gauge_u;
  return { places: [t], y: event.fraction * capacity, r: (share * capacity) ** 2 };
}

function meanOf(stack: Stack, places: readonly number[], j: number): number {
  const at = startOf(stack, j);
  let sum = 0;
  for (const t of places) sum += stack.values[at + t]!;
  return sum;
}

function spreadOf(stack: Stack, { places, r }: Observed, j: number): number {
  const { size, values } = stack;
  const at = startOf(stack, j) + size;
  let sum = r;
  for (const t of places) for (const u of places) sum += values[at + t * size + u]!;
  if (sum <= 0) throw new Redundant();
  return sum;
}

/** Joseph form (I - kh')P(I - kh')' + r kk', by its rank-one products. */
function observe(stack: Stack, seen: Observed): void {
  const { size: n, values } = stack;
  const { places, r } = seen;
  const [across, gain, down]: [number[], number[], number[]] = [[], [], []];
  for (let j = 0; j < countOf(stack); j++) {
    const [at, nu, s] = [startOf(stack, j), seen.y - meanOf(stack, places, j), spreadOf(stack, seen, j)];
    const p = at + n;
    for (let a = 0; a < n; a++) {
      let sum = 0;
      for (const t of places) sum += values[p + a * n + t]!;
      across[a] = sum;
      gain[a] = sum / s;
      values[at + a] = values[at + a]! + gain[a]! * nu;
    }
    let onto = 0;
    for (const t of places) onto += across[t]!;
    for (let a = 0; a < n; a++) down[a] = across[a]! - gain[a]! * onto;
    for (let a = 0; a < n; a++)
      for (let b = 0; b <= a; b++) {
        const half = gain[a]! * across[b]! + gain[b]! * across[a]!;
        const rest = down[a]! * gain[b]! + down[b]! * gain[a]!;
        const left = values[p + a * n + b]! - (half + rest) / 2 + r * gain[a]! * gain[b]!;
        values[p + a * n + b] = left;
        values[p + b * n + a] = left;
      }
    values[p + n * n] = values[p + n * n]! - (Math.log(2 * Math.PI * s) + nu ** 2 / s) / 2;
  }
}

/** F P F' + Q, element by element; of each pair across the diagonal one is computed. */
function use(stack: Stack, event: Use): void {
  const { model, kappas, size: n, values } = stack;
  const { per, walk, walk_class, walk_ref, ell } = model.settings;
  const { amount, class_id } = event;
  const i = classPlace(model, class_id);
  const tanks = model.tank_ids.length;
  const shares = event.shares?.length ? event.shares : [1];
  for (let j = 0; j < countOf(stack); j++) {
    const at = startOf(stack, j);
    const p = at + n;
    const scale = values[p + n * n + 1]!;
    const drift = (walk * scale) ** 2 / walk_ref;
    const own = model.rate0[i - tanks]!;
    const alone = (walk_class * scale * own) ** 2 / walk_ref;
    const q = ((kappas[j]! * scale * own) / per) ** 2 * ell;
    const within = ((drift * own * own + alone) * amount ** 3) / (3 * per ** 2) + q * amount;
    const [rate, ii] = [values[at + i]!, values[p + i * n + i]!];
    for (let t = 0; t < tanks; t++) {
      const draw = (shares[t]! * amount) / per;
      values[at + t] = values[at + t]! - draw * rate;
      for (let u = 0; u <= t; u++) {
        const other = (shares[u]! * amount) / per;
        const [ti, ui] = [values[p + t * n + i]!, values[p + u * n + i]!];
        const carried = draw * ui + other * ti - draw * other * ii;
        const left = values[p + t * n + u]! - carried + shares[t]! * shares[u]! * within;
        values[p + t * n + u] = left;
        values[p + u * n + t] = left;
      }
    }
    for (let a = tanks; a < n; a++) {
      const common = drift * model.rate0[a - tanks]! * own + (a === i ? alone : 0);
      const ai = values[p + a * n + i]!;
      for (let t = 0; t < tanks; t++) {
        const cross = (shares[t]! * common * amount ** 2) / (2 * per);
        const left = values[p + t * n + a]! - ((shares[t]! * amount) / per) * ai - cross;
        values[p + t * n + a] = left;
        values[p + a * n + t] = left;
      }
    }
    for (let a = tanks; a < n; a++)
      for (let b = tanks; b <= a; b++) {
        const common = drift * model.rate0[a - tanks]! * model.rate0[b - tanks]!;
        const more = values[p + a * n + b]! + (common + (a === i && b === i ? alone : 0)) * amount;
        values[p + a * n + b] = more;
        values[p + b * n + a] = more;
      }
  }
}

function levels(stack: Stack, event: Start | Fill | Missed | Transfer | Pour): void {
  const { model, size: n, values } = stack;
  const t = tankPlace(model, event.tank_id);
  const capacity = model.capacity_l[t]!;
  const into = "into_id" in event && event.into_id !== null ? tankPlace(model, event.into_id) : null;
  if (into === t) throw new Duplicate("into_id", model.tank_ids[t], "Choose another tank or none");
  for (let j = 0; j < countOf(stack); j++) {
    const at = startOf(stack, j);
    if (event.kind === "fill") {
      const u = event.litres_u_l ?? model.settings.fill_u * event.litres_l;
      values[at + t] = values[at + t]! + event.litres_l;
      values[at + n + t * n + t] = values[at + n + t * n + t]! + u ** 2;
    } else if (event.kind === "start") setLevel(stack, at, t, event.litres_l, event.litres_u_l ** 2);
    else if (event.kind === "missed") setLevel(stack, at, t, capacity / 2, capacity ** 2 / 12);
    else if (event.kind === "pour") pour(stack, at, t, into);
    else transfer(stack, at, t, into, event);
  }
}

function pour(stack: Stack, at: number, t: number, into: number | null): void {
  const { size: n, values } = stack;
  if (into !== null) {
    const p = at + n;
    values[at + into] = values[at + into]! + values[at + t]!;
    for (let b = 0; b < n; b++) values[p + into * n + b] = values[p + into * n + b]! + values[p + t * n + b]!;
    for (let b = 0; b < n; b++) values[p + b * n + into] = values[p + b * n + into]! + values[p + b * n + t]!;
  }
  setLevel(stack, at, t, 0, 0);
}

function transfer(stack: Stack, at: number, t: number, into: number | null, event: Transfer): void {
  const { size: n, values } = stack;
  const variance = (event.litres_u_l ?? 0) ** 2;
  const add = (place: number, what: number) => {
    values[at + place] = values[at + place]! + what;
  };
  add(t, -event.litres_l);
  add(n + t * n + t, variance);
  if (into === null) return;
  add(into, event.litres_l);
  add(n + into * n + into, variance);
  add(n + t * n + into, -variance);
  add(n + into * n + t, -variance);
}

function setLevel({ size: n, values }: Stack, at: number, t: number, litres: number, variance: number): void {
  values[at + t] = litres;
  for (let b = 0; b < n; b++) {
    values[at + n + t * n + b] = 0;
    values[at + n + b * n + t] = 0;
  }
  values[at + n + t * n + t] = variance;
}

function rates(stack: Stack, event: Change | Rescale): void {
  const { model, size: n, values } = stack;
  const tanks = model.tank_ids.length;
  for (let j = 0; j < countOf(stack); j++) {
    const at = startOf(stack, j);
    const [p, end] = [at + n, at + n + n * n + 1];
    if (event.kind === "change") {
      const variance = ((event.rate_u ?? CHANGE_U) * values[end]!) ** 2;
      for (const [a, own] of model.rate0.entries())
        for (const [b, other] of model.rate0.entries()) {
          const place = p + (tanks + a) * n + tanks + b;
          values[place] = values[place]! + variance * own * other;
        }
      continue;
    }
    values[end] = values[end]! * event.ratio;
    for (let a = tanks; a < n; a++) {
      values[at + a] = values[at + a]! * event.ratio;
      for (let b = 0; b < n; b++) values[p + a * n + b] = values[p + a * n + b]! * event.ratio;
      for (let b = 0; b < n; b++) values[p + b * n + a] = values[p + b * n + a]! * event.ratio;
    }
  }
}
