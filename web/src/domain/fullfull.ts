/** Consumption from full tank to full tank: litres over distance, with what they share of their errors. */
import type { Value } from "./bank";
import { checkFinite, checkRange, OutOfRange } from "./errors";
import { outer, scale, type Vector } from "./linalg";

/** Class 0.5 dispenser: +-0.5 %, uniform. Directive 2014/32/EU annex VII table 2; class from memory. */
export const PUMP_U = 0.005 / Math.sqrt(3);
/** Scatter of the automatic shut-off (common practice, no source). */
export const FULL_U_L = 1;
/** What the odometer counts in. */
export const STEP_KM = 1;
/** True km per km of an odometer that nobody has measured, and its u (assumed). */
export const FACTOR = 1;
export const FACTOR_U = 0;

/** One stop at the odometer's value: litres of all tanks and pumps; `full`: every tank is full after it. */
export interface Stop {
  readonly id: string;
  readonly odometer_km: number;
  readonly litres_l: number;
  readonly full: boolean;
  readonly missed_before?: boolean;
  readonly litres_u_l?: number | null;
  /** What left the tanks without being burnt. */
  readonly taken_l?: number;
}

/** u of litres (relative), of a full tank, the odometer's step, and k = true / indicated km with its u. */
export interface Accuracy {
  readonly pump_u?: number;
  readonly full_u_l?: number;
  readonly step_km?: number;
  readonly factor?: number;
  readonly factor_u?: number;
}

/** From one full tank to the next: litres, true km, litres per 100 true km with its u. */
export interface Segment {
  readonly from_id: string;
  readonly to_id: string;
  readonly litres_l: number;
  readonly litres_u_l: number;
  readonly distance_km: number;
  readonly l_per_100km: number;
  readonly u: number;
}

export interface Segments {
  readonly stops: readonly Stop[];
  readonly accuracy?: Accuracy | null;
}

/** All segments of a log in order of the odometer; a missed fill voids the open one. */
export function segments({ stops, accuracy }: Segments): Segment[] {
  const given = filled(accuracy);
  const found: Segment[] = [];
  let opened: Merged | null = null;
  let [litres, variance] = [0, 0];
  for (const stop of mergedStops(stops, given)) {
    if (stop.missed_before) opened = null;
    litres += stop.litres_l - stop.taken_l;
    variance += stop.litres_u_l ** 2;
    if (!stop.full) continue;
    if (opened) found.push(segment(opened, stop, litres, variance, given));
    opened = stop;
    litres = 0;
    variance = 0;
  }
  return found;
}

export interface Pooled {
  readonly segments: readonly Segment[];
  readonly accuracy?: Accuracy | null;
}

/** Consumption of several segments together: the ratio of sums, L per 100 true km; null without a segment. */
export function pooled({ segments, accuracy }: Pooled): Value | null {
  if (segments.length === 0) return null;
  const given = filled(accuracy);
  const adjacent = segments.filter((one, j) => one.to_id === segments[j + 1]?.from_id).length;
  const litres = sum(segments.map((one) => one.litres_l));
  const distance = sum(segments.map((one) => one.distance_km));
  const litresVariance = sum(segments.map((one) => one.litres_u_l ** 2)) - 2 * adjacent * given.full_u_l ** 2;
  const distanceVariance = ((2 * segments.length - 2 * adjacent) * (given.factor * given.step_km) ** 2) / 12;
  return rate(litres, litresVariance, distance, distanceVariance, given);
}

/** Covariance of the segments' rates; adjacent ones share a fill and an odometer reading, all of them k. */
export function segmentCovariance({ segments, accuracy }: Pooled): number[][] {
  const given = filled(accuracy);
  const rates = segments.map((one) => one.l_per_100km);
  const cov = scale(outer(rates, rates), (given.factor_u / given.factor) ** 2);
  const stepVariance = (given.factor * given.step_km) ** 2 / 12;
  for (const [j, one] of segments.entries()) {
    cov[j]![j] = one.u ** 2;
    const following = segments[j + 1];
    if (following === undefined || one.to_id !== following.from_id) continue;
    const shared = 1e4 * given.full_u_l ** 2 + one.l_per_100km * following.l_per_100km * stepVariance;
    const joint = cov[j]![j + 1]! - shared / (one.distance_km * following.distance_km);
    cov[j]![j + 1] = joint;
    cov[j + 1]![j] = joint;
  }
  return cov;
}

type Merged = Required<Omit<Stop, "litres_u_l">> & { readonly litres_u_l: number };

function mergedStops(stops: readonly Stop[], given: Required<Accuracy>): Merged[] {
  const merged: Merged[] = [];
  for (const stop of stops) {
    checkFinite("odometer_km", stop.odometer_km);
    checkRange("litres_l", stop.litres_l, { low: 0, unit: "L" });
    checkRange("litres_u_l", stop.litres_u_l ?? 0, { low: 0, unit: "L" });
    const { missed_before = false, taken_l = 0 } = stop;
    checkRange("taken_l", taken_l, { low: 0, unit: "L" });
    const litres_u_l = stop.litres_u_l ?? given.pump_u * stop.litres_l;
    const before = merged[merged.length - 1];
    if (before && stop.odometer_km < before.odometer_km)
      throw new OutOfRange("odometer_km", stop.odometer_km, { low: before.odometer_km, unit: "km" });
    if (!before || stop.odometer_km > before.odometer_km) {
      merged.push({ ...stop, missed_before, litres_u_l, taken_l });
      continue;
    }
    merged[merged.length - 1] = {
      id: stop.id,
      odometer_km: stop.odometer_km,
      litres_l: before.litres_l + stop.litres_l,
      full: before.full || stop.full,
      missed_before: before.missed_before || missed_before,
      litres_u_l: Math.sqrt(before.litres_u_l ** 2 + litres_u_l ** 2),
      taken_l: before.taken_l + taken_l,
    };
  }
  return merged;
}

function segment(
  first: Merged,
  last: Merged,
  litres: number,
  variance: number,
  given: Required<Accuracy>,
): Segment {
  const distance = given.factor * (last.odometer_km - first.odometer_km);
  const litresVariance = variance + 2 * given.full_u_l ** 2;
  const distanceVariance = (2 * (given.factor * given.step_km) ** 2) / 12;
  const { mean, u } = rate(litres, litresVariance, distance, distanceVariance, given);
  return {
    from_id: first.id,
    to_id: last.id,
    litres_l: litres,
    litres_u_l: Math.sqrt(litresVariance),
    distance_km: distance,
    l_per_100km: mean,
    u,
  };
}

/** 100 V/D and its u, written without a division by V. */
function rate(
  litres: number,
  litresVariance: number,
  distance: number,
  distanceVariance: number,
  { factor, factor_u }: Required<Accuracy>,
): Value {
  const mean = (100 * litres) / distance;
  const relative = distanceVariance / distance ** 2 + (factor_u / factor) ** 2;
  return { mean, u: Math.sqrt(litresVariance * (100 / distance) ** 2 + mean ** 2 * relative) };
}

function filled(accuracy: Accuracy | null | undefined): Required<Accuracy> {
  const given = {
    pump_u: accuracy?.pump_u ?? PUMP_U,
    full_u_l: accuracy?.full_u_l ?? FULL_U_L,
    step_km: accuracy?.step_km ?? STEP_KM,
    factor: accuracy?.factor ?? 1,
    factor_u: accuracy?.factor_u ?? 0,
  };
  for (const [name, value] of Object.entries(given))
    checkRange(name, value, name === "factor" ? { above: 0 } : { low: 0 });
  return given;
}

function sum(values: Vector): number {
  return values.reduce((total, value) => total + value, 0);
}
