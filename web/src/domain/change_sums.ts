/**
 * Limits as sums over parts: what is fixed, and what each option of a thing that may move would bring. Masses and
 * places that weighings have taught are tied together; those of things that may move become shared errors of `advice`.
 */
import type { Limit, Option, Share } from "./advice";
import { type Geometry, hitchOffsetKg } from "./axles";
import type { Row } from "./book";
import { dot } from "./linalg";
import { densityOf, type Fuel, positionUM } from "./parts";
import { type Reconciled, terms } from "./posterior";
import { type Design, design, type Part, productMoments } from "./statics";

/** A limit as a sum of loads: its name, how much of each row, the bound. */
export interface Sum {
  readonly id: string;
  readonly of: Readonly<Record<string, number>>;
  readonly limit_kg: number;
  readonly least?: boolean;
}

/** A tank's content for pouring: mass of a full tank, its load per kg on each limit, and two errors that it has. */
export interface Liquid {
  readonly full_kg: number;
  readonly shares: readonly number[];
  readonly per_m: readonly number[];
  readonly mass_error: number;
  readonly place_error: number;
}

type Columns = Readonly<Record<keyof Design, number[]>>;

/** A shared error: one of the posterior's components, or one that a tank has by itself. */
type Source = string | { readonly variance: number; readonly linked: readonly number[] };

export interface SumsOf {
  readonly posterior: Reconciled;
  readonly geometry: Geometry;
  readonly sums: readonly Sum[];
}

/** The limits of one state, filled part by part. */
export class Sums {
  private readonly posterior: Reconciled;
  private readonly geometry: Geometry;
  private readonly sums: readonly Sum[];
  private readonly rows: readonly string[];
  private readonly weights: readonly (readonly number[])[];
  private readonly a: readonly Float64Array[];
  private readonly mean: number[];
  private readonly own: number[];
  private readonly sources: Source[] = [];

  constructor({ posterior, geometry, sums }: SumsOf) {
    this.posterior = posterior;
    this.geometry = geometry;
    this.sums = sums;
    this.rows = [...new Set(sums.flatMap((one) => Object.keys(one.of)))];
    this.weights = sums.map((one) => this.rows.map((row) => one.of[row] ?? 0));
    this.a = sums.map(() => new Float64Array(posterior.order.size));
    const offsets = this.rows.map((row) => hitchOffsetKg({ row, geometry }));
    this.mean = this.weights.map((weights) => dot(weights, offsets));
    this.own = sums.map(() => 0);
  }

  /** A part that stays; `session` names the weighing whose contents and people it is one of. */
  fix(part: Part, session: string | null = null): void {
    const columns = this.columns(part);
    for (const [name, prior, column] of terms(part)) {
      const known = session === null ? name : `${session}:${name}`;
      const place = this.posterior.order.get(known);
      const share = place === undefined ? 1 : this.posterior.shareOf(known, prior);
      for (const [k, value] of columns[column].entries())
        if (place !== undefined) this.a[k]![place] = this.a[k]![place]! + value * share;
        else {
          this.mean[k] = this.mean[k]! + value * prior.mean;
          this.own[k] = this.own[k]! + value ** 2 * prior.u ** 2;
        }
    }
  }

  /** A content at the end, full or empty, where each limit's load is worst; never less than either end. */
  fixWorst(content: Part, z: number): void {
    const columns = this.columns(content);
    for (const [k, { least }] of this.sums.entries()) {
      let [load, variance] = [0, 0];
      for (const [, prior, column] of terms(content)) {
        load += columns[column][k]! * prior.mean;
        variance += columns[column][k]! ** 2 * prior.u ** 2;
      }
      const pushes = (least ? -load : load) >= 0;
      if (pushes) this.mean[k] = this.mean[k]! + load;
      if (pushes || z * Math.sqrt(variance) > Math.abs(load)) this.own[k] = this.own[k]! + variance;
    }
  }

  /** A thing at a place. */
  option(id: string, part: Part): Option {
    return this.optionOf(id, part, this.columns(part));
  }

  /**
   * So many copies of a thing put elsewhere or left, the others where they are; each copy is a move. With the share s of
   * M that goes, the load is (1 - s) a M + s b M with the loads per kg a here and b there. Copies that were weighed
   * singly have `apart_kg2`, the variance of s M while M is known, and (b - a)^2 times it beside. What goes has an error
   * of its place of its own; what stays keeps its share of the one that it had.
   */
  divided(id: string, here: Part, there: Part | null, moves: number, apart_kg2: number): Option {
    const share = moves / (here.copies ?? 1);
    const near = this.columns(here);
    const none = this.sums.map(() => 0);
    const far = there ? this.columns(there) : { shares: none, per_m: none, per_m_right: none };
    const kept = (column: readonly number[]) => column.map((value) => (1 - share) * value);
    const blend = {
      shares: kept(near.shares).map((value, k) => value + share * far.shares[k]!),
      per_m: kept(near.per_m),
      per_m_right: kept(near.per_m_right),
    };
    const [x_u_m, y_u_m] = [here.x_u_m ?? 0, here.y_u_m ?? 0];
    const own = this.sums.map((_, k) => {
      const slopes = near.per_m[k]! ** 2 * x_u_m ** 2 + near.per_m_right[k]! ** 2 * y_u_m ** 2;
      return apart_kg2 * ((far.shares[k]! - near.shares[k]!) ** 2 + slopes);
    });
    for (const [, prior, column] of there ? terms(there) : [])
      if (prior.kind !== "mass")
        for (const [k, value] of far[column].entries()) own[k] = own[k]! + value ** 2 * prior.u ** 2;
    const off_kg = there ? 0 : share * this.massKg(here);
    return { ...this.optionOf(id, here, blend, own), off_kg, moves };
  }

  private optionOf(id: string, part: Part, columns: Columns, own: readonly number[] = []): Option {
    const loads_kg = this.sums.map(() => 0);
    const variances_kg2 = this.sums.map((_, k) => own[k] ?? 0);
    const shares: Share[] = [];
    for (const [name, prior, column] of terms(part)) {
      const place = this.posterior.order.get(name);
      const mean = place === undefined ? prior.mean : this.posterior.mean[place]!;
      const share = place === undefined ? 1 : this.posterior.shareOf(name, prior);
      const counted = columns[column].map((value) => value * share);
      for (const [k, value] of counted.entries()) {
        loads_kg[k] = loads_kg[k]! + value * mean;
        if (place === undefined) variances_kg2[k] = variances_kg2[k]! + value ** 2 * prior.u ** 2;
      }
      if (place !== undefined && counted.some((value) => value !== 0))
        shares.push({ error: this.error(name), per_unit: counted });
    }
    return { id, loads_kg, variances_kg2, shares };
  }

  /** A thing that is not there. */
  nothing(id: string, off_kg = 0): Option {
    const none = this.sums.map(() => 0);
    return { id, loads_kg: none, variances_kg2: none, off_kg };
  }

  /** A tank whose content may be poured: its load is rho C l, with the error of rho C, and of its place. */
  liquid(tank: Row, fuel: Fuel, content: Part, level: number, known: boolean): Liquid {
    const { capacity_l, capacity_u_l } = tank.body;
    const [full_kg, u] = productMoments(densityOf(tank.body, fuel), [capacity_l, capacity_u_l ?? 0]);
    const { shares, per_m } = this.columns(content);
    const square = (full_kg ** 2 + u ** 2) * positionUM(tank.body) ** 2;
    const tied = known ? 0 : level;
    const mass_error = this.sources.length;
    this.sources.push(
      { variance: u ** 2, linked: shares.map((share) => share * tied * u ** 2) },
      { variance: square, linked: per_m.map((slope) => slope * tied * square) },
    );
    return { full_kg, shares, per_m, mass_error, place_error: mass_error + 1 };
  }

  /** A share of a full tank let out, or poured `into` another one, of which it is another share. */
  poured(id: string, share: number, of: Liquid, into: readonly [Liquid, number] | null): Option {
    const loads_kg = this.sums.map(() => 0);
    const shares: Share[] = [];
    for (const [liquid, amount] of [[of, -share] as const, ...(into ? [into] : [])]) {
      for (const [k, one] of liquid.shares.entries())
        loads_kg[k] = loads_kg[k]! + one * liquid.full_kg * amount;
      shares.push(
        { error: liquid.mass_error, per_unit: liquid.shares.map((one) => one * amount) },
        { error: liquid.place_error, per_unit: liquid.per_m.map((one) => one * amount) },
      );
    }
    const off_kg = into ? 0 : share * of.full_kg;
    return { ...this.nothing(id, off_kg), loads_kg, shares };
  }

  /** A part's mass as plan and weighings have it, or by the plan alone where they do not know it; >= 0. */
  massKg(part: Part): number {
    const [name, prior] = terms(part)[0]!;
    const place = this.posterior.order.get(name);
    if (place === undefined) return prior.mean;
    return Math.max(this.posterior.mean[place]!, 0) * this.posterior.shareOf(name, prior);
  }

  /** Whether plan and weighings speak of a mass. */
  knows(name: string): boolean {
    return this.posterior.order.has(name);
  }

  /** The limits, with how their fixed loads go with the shared errors, and the covariance of these. */
  finish(): [Limit[], number[][]] {
    const count = this.sums.length;
    const at = this.sources.flatMap((one, i) => (typeof one === "string" ? [i] : []));
    const units = at.map((i) => this.posterior.unit(this.sources[i] as string));
    const { mean, cov } = this.posterior.rows([...this.a, ...units]);
    const errors = this.sources.map((one, i) =>
      this.sources.map((_, j) => (typeof one !== "string" && i === j ? one.variance : 0)),
    );
    for (const [p, i] of at.entries())
      for (const [q, j] of at.entries()) errors[i]![j] = cov[count + p]![count + q]!;
    const limits = this.sums.map(({ id, limit_kg, least = false }, k): Limit => {
      const linked = this.sources.map((one) => (typeof one === "string" ? 0 : one.linked[k]!));
      for (const [p, i] of at.entries()) linked[i] = cov[k]![count + p]!;
      const fixed_kg = this.mean[k]! + mean[k]!;
      return { id, limit_kg, fixed_kg, variance_kg2: Math.max(this.own[k]! + cov[k]![k]!, 0), least, linked };
    });
    return [limits, errors];
  }

  private columns(part: Part): Columns {
    const d = design({ parts: [part], geometry: this.geometry, rows: this.rows });
    const through = (column: number[][]) =>
      this.weights.map((weights) => weights.reduce((sum, weight, i) => sum + weight * column[i]![0]!, 0));
    return {
      shares: through(d.shares),
      per_m: through(d.per_m),
      per_m_right: through(d.per_m_right),
    };
  }

  private error(name: string): number {
    const at = this.sources.indexOf(name);
    return at >= 0 ? at : this.sources.push(name) - 1;
  }
}
