/**
 * What is known of every mass once the weighings have spoken, asked for row by row: in the Joseph form, from the
 * prior's variances and the stacked readings, linear in the number of masses.
 */
import { type Geometry, hitchOffsetKg } from "./axles";
import { Unknown } from "./errors";
import { cholesky, choSolve, dot, type Matrix, matvec, symmetrise, transpose, type Vector } from "./linalg";
import { chi2Upper } from "./normal";
import { articleGroups, type Design, design, type Loads, type Part } from "./statics";

/** One component of the state before any weighing. `kind`: mass (kg), moment (kg m), gain or own error. */
export interface Component {
  readonly mean: number;
  readonly u: number;
  readonly kind: "mass" | "moment" | "gain" | "own";
  readonly article?: string | null;
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
  readonly design: Matrix;
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

/** The posterior of a book after its weighings; made by `reconcile`. */
export class Reconciled {
  chi2 = 0;
  dof = 0;
  p: number | null = null;
  reading_ids: readonly string[] = [];
  design: Matrix = [];
  noise: Matrix = [];
  lower: Matrix = [];
  innovation: Vector = [];
  readonly order: ReadonlyMap<string, number>;
  private readonly variances: Vector;
  private readonly us: Vector;
  private readonly groups: readonly (readonly number[])[];
  /** Per reading, the components that it touches. */
  private touched: readonly (readonly number[])[] = [];
  /** K, one row per component. */
  private gain: Matrix = [];
  mean: readonly number[];

  constructor(
    readonly prior: ReadonlyMap<string, Component>,
    private readonly geometry: Geometry,
  ) {
    const components = [...prior.values()];
    this.order = new Map([...prior.keys()].map((name, i) => [name, i]));
    this.us = components.map((one) => one.u);
    this.variances = components.map((one) => one.u ** 2);
    this.groups = articleGroups(components.map((one) => one.article));
    this.mean = components.map((one) => one.mean);
  }

  /** The one stacked update: K = P H' S^-1, mean += K (y - H mean); the global test of C.4. */
  learn({ ids, design, readings, noise }: Stack): void {
    const spread = design.map((row) => this.times(row));
    this.touched = design.map((row) => row.flatMap((value, i) => (value === 0 ? [] : [i])));
    const innovated = design.map((row, k) =>
      spread.map((other, l) => this.along(k, other, row) + noise[k]![l]!),
    );
    this.lower = cholesky(innovated);
    const expected = matvec(design, this.mean);
    const innovation = readings.map((value, i) => value - expected[i]!);
    this.reading_ids = ids;
    this.design = design;
    this.noise = noise;
    this.innovation = innovation;
    this.gain = transpose(choSolve(this.lower, spread));
    this.mean = this.mean.map((value, i) => value + dot(this.gain[i]!, innovation));
    this.chi2 = dot(innovation, choSolve(this.lower, innovation));
    this.dof = readings.length;
    this.p = chi2Upper(this.chi2, this.dof);
  }

  /** A row over the state's components; names that it does not have are the caller's. */
  row(coefficients: Iterable<readonly [string, number]>): number[] {
    const out = new Array<number>(this.order.size).fill(0);
    for (const [name, value] of coefficients) {
      const i = this.order.get(name);
      if (i !== undefined) out[i] = out[i]! + value;
    }
    return out;
  }

  /** Mean and covariance of rows: a P+ a' = (a - a K H) P (a - a K H)' + a K V (a K)'. */
  rows(a: Matrix): { mean: number[]; cov: number[][] } {
    const through = a.map((row) => this.throughOf(row));
    const rest = a.map((row, k) => this.restOf(row, through[k]!));
    const spread = rest.map((row) => this.times(row));
    const noisy = through.map((row) => matvec(this.noise, row));
    const cov = rest.map((row, k) => spread.map((other, l) => dot(row, other) + dot(through[k]!, noisy[l]!)));
    return { mean: matvec(a, this.mean), cov: symmetrise(cov) };
  }

  /** Covariance of one component with all of them, in the Joseph form. */
  column(name: string): number[] {
    const unit = this.row([[name, 1]]);
    const through = this.throughOf(unit);
    const spread = this.times(this.restOf(unit, through));
    const noisy = matvec(this.noise, through);
    const back = this.design.map((row, k) => noisy[k]! - this.along(k, spread, row));
    return spread.map((value, i) => value + dot(this.gain[i] ?? [], back));
  }

  /** Loads in any state: A mu+ + contents, covariance A P+ A' + the contents' own; never reading plus difference. */
  loads({ lasting, passing, rows, geometry = null, session = null }: LoadsIn): Loads {
    const day = geometry ?? this.geometry;
    const parts = [...lasting, ...passing];
    const d = design({ parts, geometry: day, rows });
    const a = rows.map(() => new Array<number>(this.order.size).fill(0));
    const mean = rows.map((row) => hitchOffsetKg({ row, geometry: day }));
    const cov = rows.map(() => rows.map(() => 0));
    for (const [j, part] of parts.entries()) {
      const prefix = j < lasting.length ? "" : session === null ? null : `${session}:`;
      for (const [name, prior, columns] of terms(part)) {
        const place = prefix === null ? undefined : this.order.get(prefix + name);
        for (let k = 0; k < rows.length; k++) {
          const value = d[columns][k]![j]!;
          if (place !== undefined) a[k]![place] = a[k]![place]! + value;
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

  /** What the weighings say of one lasting mass; a mass that is not among them is refused. */
  learnt(part_id: string): Learnt {
    const prior = this.prior.get(part_id);
    if (!prior) throw new Unknown("part_id", part_id, [...this.prior.keys()]);
    const { mean, cov } = this.rows([this.row([[part_id, 1]])]);
    const variance = Math.max(cov[0]![0]!, 0);
    const told = prior.u === 0 ? 0 : Math.max(0, 1 - variance / prior.u ** 2);
    const now = { now_kg: mean[0]!, now_u_kg: Math.sqrt(variance) };
    return { id: part_id, plan_kg: prior.mean, plan_u_kg: prior.u, ...now, told };
  }

  /** The prior covariance times a column, without forming it. */
  times(column: Vector): number[] {
    const out = column.map((value, i) => this.variances[i]! * value);
    for (const members of this.groups) {
      const total = members.reduce((sum, i) => sum + this.us[i]! * column[i]!, 0);
      for (const i of members) out[i] = this.us[i]! * total;
    }
    return out;
  }

  private throughOf(row: Vector): number[] {
    const out = new Array<number>(this.reading_ids.length).fill(0);
    for (let i = 0; i < row.length; i++)
      if (row[i] !== 0) for (let k = 0; k < out.length; k++) out[k] = out[k]! + row[i]! * this.gain[i]![k]!;
    return out;
  }

  private restOf(row: Vector, through: Vector): number[] {
    const out = [...row];
    for (let k = 0; k < through.length; k++) {
      const [factor, line] = [through[k]!, this.design[k]!];
      for (const i of this.touched[k]!) out[i] = out[i]! - factor * line[i]!;
    }
    return out;
  }

  private along(k: number, other: Vector, row: Vector): number {
    let sum = 0;
    for (const i of this.touched[k]!) sum += row[i]! * other[i]!;
    return sum;
  }
}

type Term = readonly [name: string, prior: Component, columns: keyof Design];

/** A part's components of the state: its mass, and a moment m dx per direction in which its place is uncertain. */
export function terms(part: Part): Term[] {
  const { id, mass_kg, mass_u_kg, x_m, x_u_m = 0, y_m = 0, y_u_m = 0, on = "vehicle", article = null } = part;
  const size = Math.sqrt(mass_kg ** 2 + mass_u_kg ** 2);
  const out: Term[] = [[id, { mean: mass_kg, u: mass_u_kg, kind: "mass", article }, "shares"]];
  const moment = (u: number): Component => ({ mean: 0, u: size * u, kind: "moment" });
  if (x_u_m > 0) out.push([`${id}@${on}:${x_m.toFixed(4)}`, moment(x_u_m), "per_m"]);
  if (y_u_m > 0) out.push([`${id}@${on}~${y_m.toFixed(4)}`, moment(y_u_m), "per_m_right"]);
  return out;
}
