/** Statics: every axle load is a sum over parts. x rearwards from the front axle, y right, z up; loads in kg. */
import { checkFinite, checkRange, Duplicate, Unknown } from "./errors";
import { dot, type Matrix } from "./linalg";

export const ROWS: readonly string[] = ["front", "rear", "gross"];

/** A mass at a place, each with one standard uncertainty; `taken_off` counts it negative. */
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
}

/** Where the supports of the beam are. */
export interface Geometry {
  readonly wheelbase_m: number;
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

/** Refuse a wheelbase that is not above zero. */
export function checkGeometry(geometry: Geometry): void {
  checkRange("wheelbase_m", geometry.wheelbase_m, { above: 0, unit: "m" });
}

/** Refuse figures that are not finite, a negative mass or u, and one id twice. */
export function checkParts(parts: readonly Part[]): void {
  const seen = new Set<string>();
  for (const part of parts) {
    checkRange("mass_kg", part.mass_kg, { low: 0, unit: "kg" });
    checkRange("mass_u_kg", part.mass_u_kg, { low: 0, unit: "kg" });
    checkFinite("x_m", part.x_m);
    checkRange("x_u_m", part.x_u_m ?? 0, { low: 0, unit: "m" });
    if (seen.has(part.id)) throw new Duplicate("id", part.id);
    seen.add(part.id);
  }
}

export interface Share {
  readonly row: string;
  readonly geometry: Geometry;
  readonly x_m: number;
  readonly roof?: boolean;
}

/** Load on a row per kg at x: front 1 - x/L, rear x/L, gross 1, roof 1 for what is on it. Nothing is clipped. */
export function share({ row, geometry, x_m, roof = false }: Share): number {
  if (row === "gross") return 1;
  if (row === "rear") return x_m / geometry.wheelbase_m;
  if (row === "front") return 1 - x_m / geometry.wheelbase_m;
  if (row === "roof") return roof ? 1 : 0;
  throw new Unknown("row", row, [...ROWS, "roof"]);
}

/** Change of the share per metre rearwards, 1/m. */
export function slope({ row, geometry }: { readonly row: string; readonly geometry: Geometry }): number {
  if (row === "rear") return 1 / geometry.wheelbase_m;
  return row === "front" ? -1 / geometry.wheelbase_m : 0;
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
  const shares = rows.map((row) =>
    parts.map((part) => sign(part) * share({ row, geometry, x_m: part.x_m, roof: part.roof ?? false })),
  );
  const slopes = rows.map((row) => slope({ row, geometry }));
  const mass = parts.map((part) => part.mass_kg);
  const spread = parts.reduce(
    (sum, part) => sum + (part.mass_kg ** 2 + part.mass_u_kg ** 2) * (part.x_u_m ?? 0) ** 2,
    0,
  );
  const times = shares.map((row) => massTimes(parts, row, base_correlation));
  return {
    rows: [...rows],
    mean_kg: shares.map((row) => dot(row, mass)),
    cov_kg2: shares.map((row, k) =>
      times.map((column, l) => dot(row, column) + spread * slopes[k]! * slopes[l]!),
    ),
  };
}

/** The mass covariance of parts times a column, without forming the n x n matrix. */
export function massTimes(parts: readonly Part[], column: readonly number[], baseCorrelation = 0): number[] {
  const u = parts.map((part) => part.mass_u_kg);
  const out = column.map((value, i) => u[i]! ** 2 * value);
  for (const members of articleGroups(parts)) {
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

/** Positions of parts that are copies of one article, for articles with more than one. */
export function articleGroups(parts: readonly { readonly article?: string | null }[]): number[][] {
  const groups = new Map<string, number[]>();
  for (const [i, { article }] of parts.entries())
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
}

/** The content of a tank as a part: m = density x capacity x level, with the exact variance of the product. */
export function tankContent(tank: TankContent): Part {
  const { density_u_kg_per_l = 0, capacity_u_l = 0, level_u = 0 } = tank;
  checkRange("density_kg_per_l", tank.density_kg_per_l, { above: 0, unit: "kg/L" });
  checkRange("capacity_l", tank.capacity_l, { above: 0, unit: "L" });
  checkRange("level", tank.level, { low: 0, high: 1 });
  for (const [name, u] of Object.entries({ density_u_kg_per_l, capacity_u_l, level_u }))
    checkRange(name, u, { low: 0 });
  const [mass_kg, mass_u_kg] = productMoments(
    [tank.density_kg_per_l, density_u_kg_per_l],
    [tank.capacity_l, capacity_u_l],
    [tank.level, level_u],
  );
  const { id, x_m, x_u_m = 0, y_m = 0, z_m = null } = tank;
  return { id, mass_kg, mass_u_kg, x_m, x_u_m, y_m, z_m };
}

/** x of the centre of gravity and its u, m, over the parts on the vehicle; null without mass. */
export function centreOfGravity({ parts }: { readonly parts: readonly Part[] }): [number, number] | null {
  checkParts(parts);
  const total = parts.reduce((sum, part) => sum + sign(part) * part.mass_kg, 0);
  if (!(total > 0)) return null;
  const x_c = parts.reduce((sum, part) => sum + sign(part) * part.mass_kg * part.x_m, 0) / total;
  const d = parts.map((part) => (sign(part) * (part.x_m - x_c)) / total);
  const places = parts.reduce((sum, part) => sum + ((part.mass_kg / total) * (part.x_u_m ?? 0)) ** 2, 0);
  return [x_c, Math.sqrt(dot(d, massTimes(parts, d)) + places)];
}

/** The same part at another place. */
export function moved(part: Part, x_m: number): Part {
  return { ...part, x_m };
}
