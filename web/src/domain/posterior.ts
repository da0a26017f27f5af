/**
 * What is known of every mass once the weighings have spoken, asked for row by row: in the Joseph form, from the
 * prior's variances and the stacked readings, linear in the number of masses.
 */
import { type Geometry, hitchOffsetKg } from "./axles";
import { checkRange, Unknown } from "./errors";
import {
  cholesky,
  dot,
  type Matrix,
  matvec,
  solveLower,
  solveUpper,
  symmetrise,
  type Vector,
} from "./linalg";
import { chi2Upper } from "./normal";
import { articleGroups, checkParts, type Design, design, type Loads, type Part } from "./statics";

/** One component of the state before any weighing. `kind`: mass (kg), moment (kg m), gain or own error. */
export interface Component {
  readonly mean: number;
  readonly u: number;
  readonly kind: "mass" | "moment" | "gain" | "own";
  readonly article?: string | null;
  /** Of how many copies of a thing; on a day with more or fewer of them it counts in proportion. */
  readonly copies?: number;
}

/** One lasting mass before and after; `told` = 1 - (u+/u)^2 is the share of variance removed. */
export interface Learnt {
  readonly id: string;
  readonly plan_kg: number;
  readonly plan_u_kg: number;
  readonly now_kg: number;
  readonly now_u_kg: number;
  readonly told: number;
}

export interface Stack {
  readonly ids: readonly string[];
  readonly design: readonly Float64Array[];
  readonly readings: Vector;
  readonly noise: Matrix;
}

export interface LoadsIn {
  readonly lasting: readonly Part[];
  readonly passing: readonly Part[];
  readonly rows: readonly string[];
  readonly geometry?: Geometry | null;
  /** The weighing whose very state this is: its readings then speak of its contents and people too. */
  readonly session?: string | null;
}

/** Of the prior's variance, what must be left for a difference to be taken: it costs three digits at most. */
const KEPT = 1e-3;

/** The posterior of a book after its weighings; made by `reconcile`. */
export class Reconciled {
  chi2 = 0;
  dof = 0;
  p: number | null = null;
  reading_ids: readonly string[] = [];
  design: readonly Float64Array[] = [];
  noise: Matrix = [];
  lower: Matrix = [];
  innovation: Vector = [];
  mean: Float64Array;
  readonly order: ReadonlyMap<string, number>;
  private readonly variances: Float64Array;
  private readonly us: Float64Array;
  private readonly groups: readonly (readonly number[])[];
  private readonly base: readonly (number | undefined)[];
  /** Per reading, the components that it touches. */
  private touched: readonly Int32Array[] = [];
  /** C^-1 H P, one row per reading. */
  private white: readonly Float64Array[] = [];

  constructor(
    readonly prior: ReadonlyMap<string, Component>,
    private readonly geometry: Geometry,
    private readonly baseCorrelation = 0,
  ) {
    const components = [...prior.values()];
    this.order = new Map([...prior.keys()].map((name, i) => [name, i]));
    this.us = Float64Array.from(components, (one) => one.u);
    this.variances = this.us.map((u) => u ** 2);
    this.groups = articleGroups(components.map((one) => one.article));
    this.base = ["base_front", "base_rear"].map((name) => this.order.get(name));
    this.mean = Float64Array.from(components, (one) => one.mean);
  }

  /** The one stacked update, S = H P H' + V = C C', mean += P H' S^-1 (y - H mean); the global test of C.4. */
  learn({ ids, design, readings, noise }: Stack): void {
    const spread = design.map((row) => this.times(row));
    this.touched = design.map(nonzero);
    const innovated = noise.map((row) => [...row]);
    for (let k = 0; k < design.length; k++)
      for (let l = 0; l <= k; l++)
        innovated[k]![l] = innovated[k]![l]! + this.along(l, spread[k]!, design[l]!);
    this.lower = cholesky(innovated);
    const expected = design.map((row) => inner(row, this.mean));
    this.reading_ids = ids;
    this.design = design;
    this.noise = noise;
    this.innovation = readings.map((value, i) => value - expected[i]!);
    this.white = forward(this.lower, spread);
    const news = solveLower(this.lower, this.innovation);
    this.mean = combine(this.white, news, this.mean);
    this.chi2 = dot(news, news);
    this.dof = readings.length;
    this.p = chi2Upper(this.chi2, this.dof);
  }

  /** The posterior after the first `count` readings alone: the leading part of the factor is theirs. */
  upto({ count }: { readonly count: number }): Reconciled {
    checkRange("count", count, { low: 0, high: this.reading_ids.length });
    const out = new Reconciled(this.prior, this.geometry, this.baseCorrelation);
    if (count === 0) return out;
    out.reading_ids = this.reading_ids.slice(0, count);
    out.design = this.design.slice(0, count);
    out.touched = this.touched.slice(0, count);
    out.noise = this.noise.slice(0, count).map((row) => row.slice(0, count));
    out.lower = this.lower.slice(0, count).map((row) => row.slice(0, count));
    out.innovation = this.innovation.slice(0, count);
    out.white = this.white.slice(0, count);
    const news = solveLower(out.lower, out.innovation);
    out.mean = combine(out.white, news, out.mean);
    out.chi2 = dot(news, news);
    out.dof = count;
    out.p = chi2Upper(out.chi2, count);
    return out;
  }

  /** The row that picks one component. */
  unit(name: string): Float64Array {
    const out = new Float64Array(this.order.size);
    out[this.order.get(name)!] = 1;
    return out;
  }

  /** Mean and covariance of rows: a P+ a' = (a - a K H) P (a - a K H)' + a K V (a K)'. */
  rows(a: readonly Float64Array[]): { mean: number[]; cov: number[][] } {
    const through = a.map((row) => this.throughOf(row));
    const rest = a.map((row, k) => this.restOf(row, through[k]!));
    const spread = rest.map((row) => this.times(row));
    const noisy = through.map((row) => matvec(this.noise, row));
    const cov = rest.map((row, k) =>
      spread.map((other, l) => inner(row, other) + dot(through[k]!, noisy[l]!)),
    );
    return { mean: a.map((row) => inner(row, this.mean)), cov: symmetrise(cov) };
  }

  /** Variance of one component: prior less what the readings took where that leaves enough, else in the Joseph form. */
  variance(name: string): number {
    const i = this.order.get(name)!;
    const prior = this.variances[i]!;
    const after = this.white.reduce((left, row) => left - row[i]! ** 2, prior);
    return after > KEPT * prior ? after : Math.max(this.rows([this.unit(name)]).cov[0]![0]!, 0);
  }

  /** Covariance of one component with all of them, in the Joseph form. */
  column(name: string): Float64Array {
    const unit = this.unit(name);
    const through = this.throughOf(unit);
    const spread = this.times(this.restOf(unit, through));
    const noisy = matvec(this.noise, through);
    const back = this.design.map((row, k) => noisy[k]! - this.along(k, spread, row));
    return combine(this.white, solveLower(this.lower, back), spread);
  }

  /** Loads in any state: A mu+ + contents, covariance A P+ A' + the contents' own; never reading plus difference. */
  loads({ lasting, passing, rows, geometry = null, session = null }: LoadsIn): Loads {
    const day = geometry ?? this.geometry;
    const parts = [...lasting, ...passing];
    checkParts(parts);
    const d = design({ parts, geometry: day, rows });
    const a = rows.map(() => new Float64Array(this.order.size));
    const mean = rows.map((row) => hitchOffsetKg({ row, geometry: day }));
    const cov = rows.map(() => rows.map(() => 0));
    for (const [j, part] of parts.entries()) {
      const prefix = j < lasting.length ? "" : session === null ? null : `${session}:`;
      for (const [name, prior, columns] of terms(part)) {
        const place = prefix === null ? undefined : this.order.get(prefix + name);
        const share = place === undefined ? 1 : this.shareOf(prefix + name, prior);
        for (let k = 0; k < rows.length; k++) {
          const value = d[columns][k]![j]!;
          if (place !== undefined) a[k]![place] = a[k]![place]! + value * share;
          else {
            mean[k] = mean[k]! + value * prior.mean;
            for (let l = 0; l < rows.length; l++)
              cov[k]![l] = cov[k]![l]! + value * d[columns][l]![j]! * prior.u ** 2;
          }
        }
      }
    }
    const known = this.rows(a);
    return {
      rows: [...rows],
      mean_kg: mean.map((value, k) => value + known.mean[k]!),
      cov_kg2: cov.map((line, k) => line.map((value, l) => value + known.cov[k]![l]!)),
    };
  }

  /** Of a component of the state, the share that a part with these copies of it has. */
  shareOf(name: string, { copies = 1 }: Component): number {
    return copies / (this.prior.get(name)!.copies ?? 1);
  }

  /** What the weighings say of one lasting mass; a mass that is not among them is refused. */
  learnt(part_id: string): Learnt {
    const prior = this.prior.get(part_id);
    if (!prior) throw new Unknown("part_id", part_id, [...this.prior.keys()]);
    const variance = this.variance(part_id);
    const told = prior.u === 0 ? 0 : Math.max(0, 1 - variance / prior.u ** 2);
    const now = { now_kg: this.mean[this.order.get(part_id)!]!, now_u_kg: Math.sqrt(variance) };
    return { id: part_id, plan_kg: prior.mean, plan_u_kg: prior.u, ...now, told };
  }

  /** The prior covariance times a column, without forming it. */
  times(column: Float64Array): Float64Array {
    const out = column.map((value, i) => this.variances[i]! * value);
    for (const members of this.groups) {
      const total = members.reduce((sum, i) => sum + this.us[i]! * column[i]!, 0);
      for (const i of members) out[i] = this.us[i]! * total;
    }
    const [i, j] = this.base;
    if (this.baseCorrelation !== 0 && i !== undefined && j !== undefined) {
      const linked = this.baseCorrelation * this.us[i]! * this.us[j]!;
      out[i] = out[i]! + linked * column[j]!;
      out[j] = out[j]! + linked * column[i]!;
    }
    return out;
  }

  /** a K = a P H' S^-1. */
  private throughOf(row: Float64Array): number[] {
    return solveUpper(
      this.lower,
      this.white.map((one) => inner(one, row)),
    );
  }

  private restOf(row: Float64Array, through: Vector): Float64Array {
    const out = row.slice();
    for (let k = 0; k < through.length; k++) {
      const [factor, line] = [through[k]!, this.design[k]!];
      for (const i of this.touched[k]!) out[i] = out[i]! - factor * line[i]!;
    }
    return out;
  }

  private along(k: number, other: Float64Array, row: Float64Array): number {
    const touched = this.touched[k]!;
    let sum = 0;
    for (let t = 0; t < touched.length; t++) sum += row[touched[t]!]! * other[touched[t]!]!;
    return sum;
  }
}

/** A dot of long rows, kept apart from the short ones' so that it stays quick. */
function inner(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

/** Solve C X = B for a wide B, row by row. */
function forward(lower: Matrix, b: readonly Float64Array[]): Float64Array[] {
  const out: Float64Array[] = [];
  for (const [i, start] of b.entries()) {
    const row = start.slice();
    for (let k = 0; k < i; k++) {
      const [factor, other] = [lower[i]![k]!, out[k]!];
      if (factor !== 0) for (let j = 0; j < row.length; j++) row[j] = row[j]! - factor * other[j]!;
    }
    const pivot = lower[i]![i]!;
    for (let j = 0; j < row.length; j++) row[j] = row[j]! / pivot;
    out.push(row);
  }
  return out;
}

/** start + sum of factor_k row_k. */
function combine(rows: readonly Float64Array[], factors: Vector, start: Float64Array): Float64Array {
  const out = start.slice();
  for (const [k, row] of rows.entries()) {
    const factor = factors[k]!;
    for (let j = 0; j < out.length; j++) out[j] = out[j]! + factor * row[j]!;
  }
  return out;
}

function nonzero(row: Float64Array): Int32Array {
  const out: number[] = [];
  for (let i = 0; i < row.length; i++) if (row[i] !== 0) out.push(i);
  return Int32Array.from(out);
}

type Term = readonly [name: string, prior: Component, columns: keyof Design];

/** A part's components of the state: its mass, and a moment m dx per direction in which its place is uncertain. */
export function terms(part: Part): Term[] {
  const { id, mass_kg, mass_u_kg, x_m, x_u_m = 0, y_m = 0, y_u_m = 0, on = "vehicle" } = part;
  const { article = null, copies = 1 } = part;
  const size = Math.sqrt(mass_kg ** 2 + mass_u_kg ** 2);
  const out: Term[] = [[id, { mean: mass_kg, u: mass_u_kg, kind: "mass", article, copies }, "shares"]];
  const moment = (u: number): Component => ({ mean: 0, u: size * u, kind: "moment", copies });
  if (x_u_m > 0) out.push([`${id}@${on}:${x_m}`, moment(x_u_m), "per_m"]);
  if (y_u_m > 0) out.push([`${id}@${on}~${y_m}`, moment(y_u_m), "per_m_right"]);
  return out;
}
