/** The past as it looks with everything that is known now: for display only (Rauch, Tung and Striebel 1965). */
import { bankAdvance, bankPrior, bankWeights, mixture, type Value } from "./bank";
import { type DomainEvent, isObservation } from "./events";
import { advance, classIndex, type Estimate, type Model, prior, tankIndex } from "./filter";
import { add, identity, type Matrix, matmul, matvec, subtract, symmetrise, transpose } from "./linalg";

const NO_PIVOT = 1e-12; // below this share of its diagonal element a pivot counts as zero

export interface Smooth {
  readonly model: Model;
  readonly kappa: number;
  readonly events: readonly DomainEvent[];
}

/** The estimate after each event, given all events, from the prior on. */
export function smooth({ model, kappa, events }: Smooth): Estimate[] {
  const filtered = [prior({ model })];
  for (const event of events)
    filtered.push(advance({ model, kappa, estimate: filtered[filtered.length - 1]!, event }));
  let later = filtered[filtered.length - 1]!;
  const smoothed = [later];
  for (let n = events.length - 1; n > 0; n--) {
    if (!isObservation(events[n]!))
      later = back(filtered[n]!, filtered[n + 1]!, later, transition(model, events[n]!));
    smoothed.push(later);
  }
  return smoothed.slice(0, events.length).reverse();
}

export interface SmoothBank {
  readonly model: Model;
  readonly kappas: readonly number[];
  readonly events: readonly DomainEvent[];
}

/** Levels and rates after each event given all events, mixed over the bank with its final weights. */
export function smoothBank({ model, kappas, events }: SmoothBank): Value[][] {
  let bank = bankPrior({ model, kappas });
  for (const event of events) bank = bankAdvance({ bank, event });
  const weights = bankWeights({ bank });
  const runs = kappas.map((kappa) => smooth({ model, kappa, events }));
  return events.map((_, n) =>
    [...model.tank_ids, ...model.class_ids].map((_name, k) =>
      mixture({
        means: runs.map((run) => run[n]!.mean[k]!),
        variances: runs.map((run) => run[n]!.cov[k]![k]!),
        weights,
      }),
    ),
  );
}

function back(now: Estimate, after: Estimate, later: Estimate, f: Matrix): Estimate {
  const gain = transpose(solveSingular(after.cov, matmul(f, now.cov)));
  const step = matvec(
    gain,
    later.mean.map((value, i) => value - after.mean[i]!),
  );
  const spread = matmul(matmul(gain, subtract(later.cov, after.cov)), transpose(gain));
  return {
    ...now,
    mean: now.mean.map((value, i) => value + step[i]!),
    cov: symmetrise(add(now.cov, spread)),
  };
}

/** F of a step: what the state before contributes to the state after it. */
function transition(model: Model, event: DomainEvent): number[][] {
  const tanks = model.tank_ids.length;
  const f = identity(tanks + model.class_ids.length);
  if (event.kind === "use") {
    const shares = event.shares?.length ? event.shares : [1];
    const i = classIndex(model, event.class_id);
    for (let t = 0; t < tanks; t++) f[t]![i] = (-shares[t]! * event.amount) / model.settings.per;
  } else if (event.kind === "start" || event.kind === "missed" || event.kind === "pour") {
    const t = tankIndex(model, event.tank_id);
    if (event.kind === "pour" && event.into_id !== null) f[tankIndex(model, event.into_id)]![t] = 1;
    f[t]![t] = 0;
  } else if (event.kind === "rescale") {
    for (let a = tanks; a < f.length; a++) f[a]![a] = event.ratio;
  }
  return f;
}

/** x with a x = b for a symmetric a >= 0 by L D L'; rows whose pivot is zero to rounding give zero. */
function solveSingular(a: Matrix, b: Matrix): number[][] {
  const { lower, pivots } = factorise(a);
  const x = b.map((row) => [...row]);
  for (const [i, row] of x.entries())
    for (let k = 0; k < i; k++)
      for (let c = 0; c < row.length; c++) row[c] = row[c]! - lower[i]![k]! * x[k]![c]!;
  for (const [i, row] of x.entries())
    for (let c = 0; c < row.length; c++) row[c] = pivots[i]! > 0 ? row[c]! / pivots[i]! : 0;
  for (let i = x.length - 1; i >= 0; i--) {
    const row = x[i]!;
    for (let k = i + 1; k < x.length; k++)
      for (let c = 0; c < row.length; c++) row[c] = row[c]! - lower[k]![i]! * x[k]![c]!;
    if (pivots[i] === 0) row.fill(0);
  }
  return x;
}

function factorise(a: Matrix): { lower: number[][]; pivots: number[] } {
  const lower = identity(a.length);
  const pivots: number[] = new Array(a.length).fill(0);
  for (let j = 0; j < a.length; j++) {
    let pivot = a[j]![j]!;
    for (let k = 0; k < j; k++) pivot -= lower[j]![k]! ** 2 * pivots[k]!;
    if (pivot <= NO_PIVOT * a[j]![j]!) continue;
    pivots[j] = pivot;
    for (let i = j + 1; i < a.length; i++) {
      let rest = a[i]![j]!;
      for (let k = 0; k < j; k++) rest -= lower[i]![k]! * pivots[k]! * lower[j]![k]!;
      lower[i]![j] = rest / pivot;
    }
  }
  return { lower, pivots };
}
