/** Statics: every load is a sum over parts. x rearwards from the front axle, y right, z up; loads in kg. */
import {
  checkGeometry,
  coefficient,
  type Geometry,
  hitchOffsetKg,
  line,
  ROWS,
  rearXM,
  VEHICLE_ROWS,
} from "./axles";
import { checkFinite, checkRange, Duplicate } from "./errors";
import { dot, type Matrix } from "./linalg";

/** A mass at a place, each with one standard uncertainty; `axle` for one that stands on that axle alone. */
export interface Part {
  readonly id: string;
  readonly mass_kg: number;
  readonly mass_u_kg: number;
  readonly x_m: number;
  readonly x_u_m?: number;
  readonly y_m?: number;
  readonly y_u_m?: number;
  readonly z_m?: number | null;
  readonly z_u_m?: number;
  readonly roof?: boolean;
  readonly article?: string | null;
  readonly taken_off?: boolean;
  readonly on?: string;
  readonly axle?: string | null;
  /** Of how many copies it is; 1 unless said. */
  readonly copies?: number;
}

/** Means and covariance of named rows, kg and kg^2. */
export interface Loads {
  readonly rows: readonly string[];
  readonly mean_kg: readonly number[];
  readonly cov_kg2: Matrix;
}

/** Mean of one row. */
export function valueKg(loads: Loads, row: string): number {
  return loads.mean_kg[loads.rows.indexOf(row)]!;
}

/** Standard uncertainty of one row. */
export function uKg(loads: Loads, row: string): number {
  const k = loads.rows.indexOf(row);
  return Math.sqrt(Math.max(loads.cov_kg2[k]![k]!, 0));
}

/** -1 for what was taken off the delivered vehicle. */
export function sign(part: Part): number {
  return part.taken_off ? -1 : 1;
}

/** Refuse figures that are not finite, a negative mass or u, and one id twice. */
export function checkParts(parts: readonly Part[]): void {
  const seen = new Set<string>();
  for (const part of parts) {
    checkRange("mass_kg", part.mass_kg, { low: 0, unit: "kg" });
    checkRange("mass_u_kg", part.mass_u_kg, { low: 0, unit: "kg" });
    checkRange("copies", part.copies ?? 1, { low: 1 });
    checkFinite("x_m", part.x_m);
    checkFinite("y_m", part.y_m ?? 0);
    checkFinite("z_m", part.z_m ?? 0);
    for (const name of ["x_u_m", "y_u_m", "z_u_m"] as const)
      checkRange(name, part[name] ?? 0, { low: 0, unit: "m" });
    if (seen.has(part.id)) throw new Duplicate("id", part.id);
    seen.add(part.id);
  }
}

/** Rows over parts: load per kg, and its change per metre rearwards and per metre to the right. */
export interface Design {
  readonly shares: number[][];
  readonly per_m: number[][];
  readonly per_m_right: number[][];
}

export interface DesignOf {
  readonly parts: readonly Part[];
  readonly geometry: Geometry;
  readonly rows: readonly string[];
}

/** The coefficients of every row for every part, with the sign of what was taken off. */
export function design({ parts, geometry, rows }: DesignOf): Design {
  const zeros = () => rows.map(() => new Array<number>(parts.length).fill(0));
  const out = { shares: zeros(), per_m: zeros(), per_m_right: zeros() };
  for (const [k, row] of rows.entries()) {
    const straight = VEHICLE_ROWS.includes(row) ? line({ row, geometry }) : null;
    for (let j = 0; j < parts.length; j++) {
      const part = parts[j]!;
      const { x_m, y_m = 0, on = "vehicle", axle = null, roof = false } = part;
      const factor = sign(part);
      if (straight !== null && axle === null && on === "vehicle") {
        out.shares[k]![j] = factor * (straight[0] + straight[1] * x_m);
        out.per_m[k]![j] = factor * straight[1];
        continue;
      }
      const one = coefficient({ row, geometry, x_m, y_m, on, axle, roof });
      out.shares[k]![j] = factor * one.share;
      out.per_m[k]![j] = factor * one.per_m;
      out.per_m_right[k]![j] = factor * one.per_m_right;
    }
  }
  return out;
}

export interface LoadsOf {
  readonly parts: readonly Part[];
  readonly geometry: Geometry;
  readonly rows?: readonly string[];
  readonly base_correlation?: number;
}

/** Mean and exact covariance of the loads of independent parts (maths A.1-A.3). */
export function loads({ parts, geometry, rows = ROWS, base_correlation = 0 }: LoadsOf): Loads {
  checkGeometry(geometry);
  checkParts(parts);
  checkRange("base_correlation", base_correlation, { low: -1, high: 1 });
  const { shares, per_m, per_m_right } = design({ parts, geometry, rows });
  const mass = parts.map((part) => part.mass_kg);
  const placed = parts.flatMap((part, i) => ((part.x_u_m ?? 0) > 0 || (part.y_u_m ?? 0) > 0 ? [i] : []));
  const square = placed.map((i) => parts[i]!.mass_kg ** 2 + parts[i]!.mass_u_kg ** 2);
  const cov = rows.map(() => new Array<number>(rows.length).fill(0));
  for (let k = 0; k < rows.length; k++) {
    const times = massTimes(parts, shares[k]!, base_correlation);
    for (let l = 0; l <= k; l++) {
      let sum = dot(shares[l]!, times);
      for (const [n, i] of placed.entries()) {
        const along = per_m[k]![i]! * per_m[l]![i]! * (parts[i]!.x_u_m ?? 0) ** 2;
        const across = per_m_right[k]![i]! * per_m_right[l]![i]! * (parts[i]!.y_u_m ?? 0) ** 2;
        sum += square[n]! * (along + across);
      }
      cov[k]![l] = sum;
      cov[l]![k] = sum;
    }
  }
  return {
    rows: [...rows],
    mean_kg: rows.map((row, k) => dot(shares[k]!, mass) + hitchOffsetKg({ row, geometry })),
    cov_kg2: cov,
  };
}

/** The mass covariance of parts times a column, without forming the n x n matrix. */
export function massTimes(parts: readonly Part[], column: readonly number[], baseCorrelation = 0): number[] {
  const u = parts.map((part) => part.mass_u_kg);
  const out = column.map((value, i) => u[i]! ** 2 * value);
  for (const members of articleGroups(parts.map((part) => part.article))) {
    const total = members.reduce((sum, i) => sum + u[i]! * column[i]!, 0);
    for (const i of members) out[i] = u[i]! * total;
  }
  const [i, j] = parts.flatMap((part, k) => (part.id === "base_front" || part.id === "base_rear" ? [k] : []));
  if (baseCorrelation !== 0 && i !== undefined && j !== undefined) {
    const linked = baseCorrelation * u[i]! * u[j]!;
    out[i] = out[i]! + linked * column[j]!;
    out[j] = out[j]! + linked * column[i]!;
  }
  return out;
}

/** Positions of the copies of one article, for articles with more than one. */
export function articleGroups(articles: readonly (string | null | undefined)[]): number[][] {
  const groups = new Map<string, number[]>();
  for (const [i, article] of articles.entries())
    if (article != null) groups.set(article, [...(groups.get(article) ?? []), i]);
  return [...groups.values()].filter((members) => members.length > 1);
}

export interface Copies {
  readonly count: number;
  readonly unit_u_kg: number;
  readonly weighed_singly?: boolean;
}

/** Uncertainty of `count` copies, kg: n u for one unknown unit mass, sqrt(n) u when weighed one by one. */
export function copiesU({ count, unit_u_kg, weighed_singly = false }: Copies): number {
  checkRange("count", count, { low: 1 });
  checkRange("unit_u_kg", unit_u_kg, { low: 0, unit: "kg" });
  return (weighed_singly ? Math.sqrt(count) : count) * unit_u_kg;
}

/** Mean and u of a product of independent factors (mean, u), summed without a difference of squares. */
export function productMoments(...factors: readonly (readonly [number, number])[]): [number, number] {
  let [mean, square, variance] = [1, 1, 0];
  for (const [value, u] of factors) {
    variance = variance * (value ** 2 + u ** 2) + square * u ** 2;
    square *= value ** 2;
    mean *= value;
  }
  return [mean, Math.sqrt(variance)];
}

export interface TankContent {
  readonly id: string;
  readonly density_kg_per_l: number;
  readonly density_u_kg_per_l?: number;
  readonly capacity_l: number;
  readonly capacity_u_l?: number;
  readonly level: number;
  readonly level_u?: number;
  readonly x_m: number;
  readonly x_u_m?: number;
  readonly y_m?: number;
  readonly z_m?: number | null;
  readonly on?: string;
}

/** The content of a tank as a part: m = density x capacity x level, with the exact variance of the product. */
export function tankContent(tank: TankContent): Part {
  const { density_u_kg_per_l = 0, capacity_u_l = 0, level_u = 0 } = tank;
  checkRange("density_kg_per_l", tank.density_kg_per_l, { above: 0, unit: "kg/L" });
  checkRange("capacity_l", tank.capacity_l, { above: 0, unit: "L" });
  checkRange("level", tank.level, { low: 0, high: 1 });
  for (const name of ["x_m", "y_m", "z_m"] as const) checkFinite(name, tank[name] ?? 0);
  checkRange("x_u_m", tank.x_u_m ?? 0, { low: 0, unit: "m" });
  for (const [name, u] of Object.entries({ density_u_kg_per_l, capacity_u_l, level_u }))
    checkRange(name, u, { low: 0 });
  const [mass_kg, mass_u_kg] = productMoments(
    [tank.density_kg_per_l, density_u_kg_per_l],
    [tank.capacity_l, capacity_u_l],
    [tank.level, level_u],
  );
  const { id, x_m, x_u_m = 0, y_m = 0, z_m = null, on = "vehicle" } = tank;
  return { id, mass_kg, mass_u_kg, x_m, x_u_m, y_m, z_m, on };
}

export interface Base {
  readonly geometry: Geometry;
  readonly front_kg: number;
  readonly front_u_kg?: number;
  readonly rear_kg: number;
  readonly rear_u_kg?: number;
  readonly z_m?: number | null;
  readonly z_u_m?: number;
}

/** The delivered vehicle as two parts that stand on its axles; their height is one and the same. */
export function baseParts(base: Base): [Part, Part] {
  const { front_kg, front_u_kg = 0, rear_kg, rear_u_kg = 0, z_m = null, z_u_m = 0 } = base;
  const height = { z_m, z_u_m };
  const rearX = rearXM(base.geometry);
  return [
    { id: "base_front", mass_kg: front_kg, mass_u_kg: front_u_kg, x_m: 0, ...height, axle: "front" },
    { id: "base_rear", mass_kg: rear_kg, mass_u_kg: rear_u_kg, x_m: rearX, ...height, axle: "rear" },
  ];
}
