/** What a bridge's figures say: their errors, the axle loads that fit them, and whether they agree. */
import { checkRange, Duplicate, NotFixed, NotKnown, OutOfRange, Unknown } from "./errors";
import {
  cholesky,
  choSolve,
  dot,
  identity,
  leastSquares,
  type Matrix,
  matmul,
  matvec,
  solveLower,
  transpose,
} from "./linalg";
import { chi2Upper } from "./normal";

type Steps = readonly (readonly [intervals: number, share: number])[];

// Maximum permissible errors at initial verification: OIML R 76-1:2006 table 6 (from memory); Directive 2014/31/EU
// annex I table 3 and UK S.I. 1995/1907 schedule 2 (read).
export const STEPS: Readonly<Record<string, Steps>> = {
  III: [
    [500, 0.5],
    [2_000, 1],
    [10_000, 1.5],
  ],
  IIII: [
    [50, 0.5],
    [200, 1],
    [1_000, 1.5],
  ],
};
export const IN_SERVICE = 2; // in service twice as much: 2014/31/EU annex I 4.2
export const ZERO_SHARE = 0.25; // accuracy of zero setting in e: OIML R 76-1 4.5.2 (from memory)
export const OWN_REPEATS = 0.5; // share of the own variance met again on the same bridge (assumed)
export const FRICTION_SHARE = 0.003; // brake and suspension friction of a split reading (assumed)
export const DECK_U_M = 0.02; // height of the deck against where the other axle stands (assumed)
export const DISAGREE_P = 0.01; // below this the readings do not agree with each other

/** A scale: intervals e and d, class III or IIII with its Max, or `percent` of the reading. */
export interface Bridge {
  readonly key: string;
  readonly interval_kg: number;
  readonly displayed_kg: number;
  readonly accuracy_class: string;
  readonly max_kg: number;
  readonly percent?: number | null;
}

/** What moves load between axles while only a part of the vehicle stands on the deck. */
export interface SplitSetup {
  readonly total_kg: number;
  readonly wheelbase_m: number;
  readonly cg_height_m: number;
  readonly deck_u_m?: number;
  readonly friction_share?: number;
  readonly level_correlation?: number;
}

/** One figure of the deck and the axles that stood on it; `repeats` figures were averaged. */
export interface Reading {
  readonly id: string;
  readonly axles: readonly string[];
  readonly value_kg: number;
  readonly split?: boolean;
  readonly repeats?: number;
}

/** Standard uncertainties of one reading, kg: the parts, and all of them together. */
export interface ReadingError {
  readonly rounding_kg: number;
  readonly gain_kg: number;
  readonly zero_kg: number;
  readonly own_kg: number;
  readonly tilt_kg: number;
  readonly friction_kg: number;
  readonly total_kg: number;
}

/** Axle loads that fit the readings best, with their covariance and the test of agreement. */
export interface AxleLoads {
  readonly axles: readonly string[];
  readonly mean_kg: readonly number[];
  readonly cov_kg2: readonly (readonly number[])[];
  readonly chi2: number;
  readonly dof: number;
  readonly p: number | null;
  readonly agree: boolean;
  readonly z: readonly number[];
}

export interface PermissibleErrorInput {
  readonly load_kg: number;
  readonly interval_kg: number;
  readonly accuracy_class: string;
  readonly in_service?: boolean;
}

/** Largest permissible error at a load, kg; the upper end of a step belongs to it, beyond the table is refused. */
export function permissibleError(input: PermissibleErrorInput): number {
  const { load_kg, interval_kg, accuracy_class, in_service = true } = input;
  checkRange("interval_kg", interval_kg, { above: 0, unit: "kg" });
  const steps = stepsOf(accuracy_class);
  checkRange("load_kg", load_kg, { low: 0, high: steps.at(-1)![0] * interval_kg, unit: "kg" });
  const [, share] = steps.find(([end]) => load_kg <= end * interval_kg)!;
  return share * interval_kg * (in_service ? IN_SERVICE : 1);
}

/** Relative standard uncertainty of the gain, common to all readings on one bridge. */
export function gainU({ bridge }: { readonly bridge: Bridge }): number {
  if (bridge.percent != null)
    return checkRange("percent", bridge.percent, { above: 0, high: 100 }) / 100 / Math.sqrt(3);
  checkRange("max_kg", bridge.max_kg, { above: 0, unit: "kg" });
  const ends = stepsOf(bridge.accuracy_class).map(([end]) =>
    Math.min(end * bridge.interval_kg, bridge.max_kg),
  );
  return Math.min(...ends.map((load) => mpe(bridge, load) / load)) / Math.sqrt(3);
}

/** Standard uncertainty of the zero of one session, kg. */
export function zeroU({ bridge }: { readonly bridge: Bridge }): number {
  return bridge.percent != null ? 0 : (ZERO_SHARE * bridge.interval_kg) / Math.sqrt(3);
}

export interface OwnInput {
  readonly bridge: Bridge;
  readonly value_kg: number;
}

/** What is left of the class error for one axle set, kg^2; never below 0. */
export function ownVariance({ bridge, value_kg }: OwnInput): number {
  if (bridge.percent != null) return 0;
  const classVariance = mpe(bridge, value_kg) ** 2 / 3;
  return Math.max(classVariance - (gainU({ bridge }) * value_kg) ** 2 - zeroU({ bridge }) ** 2, 0);
}

export interface ReadingErrorInput {
  readonly reading: Reading;
  readonly bridge: Bridge;
  readonly setup?: SplitSetup | null;
}

/** All parts of one reading's error. A split reading needs `setup`; repeats divide only friction. */
export function readingError({ reading, bridge, setup = null }: ReadingErrorInput): ReadingError {
  const rounding_kg = bridge.displayed_kg / Math.sqrt(12); // GUM F.2.2.1 (from memory)
  const gain_kg = gainU({ bridge }) * reading.value_kg;
  const zero_kg = zeroU({ bridge });
  const own_kg = Math.sqrt(ownVariance({ bridge, value_kg: reading.value_kg }));
  const tilt_kg = reading.split ? tiltU(setup) : 0;
  const friction = need(reading.split ? setup : NO_SETUP).friction_share ?? FRICTION_SHARE;
  const friction_kg = reading.split ? (friction * reading.value_kg) / Math.sqrt(reading.repeats ?? 1) : 0;
  const total_kg = Math.sqrt(
    rounding_kg ** 2 + gain_kg ** 2 + zero_kg ** 2 + own_kg ** 2 + tilt_kg ** 2 + friction_kg ** 2,
  );
  return { rounding_kg, gain_kg, zero_kg, own_kg, tilt_kg, friction_kg, total_kg };
}

/** Load that a deck too high by u_dh moves between axles, kg: M h u_dh / L^2 (moment balance). */
export function tiltU(given: SplitSetup | null): number {
  const setup = need(given);
  const deck_u_m = setup.deck_u_m ?? DECK_U_M;
  checkRange("wheelbase_m", setup.wheelbase_m, { above: 0, unit: "m" });
  checkRange("cg_height_m", setup.cg_height_m, { above: 0, unit: "m" });
  checkRange("deck_u_m", deck_u_m, { low: 0, unit: "m" });
  return (setup.total_kg * setup.cg_height_m * deck_u_m) / setup.wheelbase_m ** 2;
}

export interface ReadingCovarianceInput {
  readonly readings: readonly Reading[];
  readonly bridge: Bridge;
  readonly setup?: SplitSetup | null;
  readonly with_gain?: boolean;
  readonly own_share?: number;
}

/** Covariance of the readings of one session, kg^2; repeats must have been merged. */
export function readingCovariance(input: ReadingCovarianceInput): number[][] {
  const { readings, bridge, setup = null, with_gain = true, own_share = 1 } = input;
  checkReadings(readings);
  const nSplit = readings.filter((reading) => reading.split).length;
  const rho = setup?.level_correlation ?? 0;
  checkRange("level_correlation", rho, { low: -1 / Math.max(nSplit - 1, 1), high: 1 });
  const parts = readings.map((reading) => readingError({ reading, bridge, setup }));
  const zero = zeroU({ bridge }) ** 2;
  return parts.map((one, i) =>
    parts.map((other, j) => {
      const gain = with_gain ? one.gain_kg * other.gain_kg : 0;
      const shared = gain + zero + rho * one.tilt_kg * other.tilt_kg;
      if (i !== j) return shared;
      const alone = one.rounding_kg ** 2 + own_share * one.own_kg ** 2 + one.friction_kg ** 2;
      return shared + alone + (1 - rho) * one.tilt_kg ** 2;
    }),
  );
}

/** Readings of the same axles become one: the mean of the figures, counted as repeats. */
export function mergeRepeats({ readings }: { readonly readings: readonly Reading[] }): Reading[] {
  const groups = new Map<string, Reading[]>();
  for (const reading of readings) {
    const key = axleKey(reading);
    groups.set(key, [...(groups.get(key) ?? []), reading]);
  }
  return [...groups.values()].map(merged);
}

export interface AxleLoadsInput {
  readonly readings: readonly Reading[];
  readonly covariance: Matrix;
}

/** Axle loads by generalised least squares with a flat prior, and the redundancy test; NotFixed where open. */
export function axleLoads({ readings, covariance }: AxleLoadsInput): AxleLoads {
  checkReadings(readings);
  const axles = [...new Set(readings.flatMap((reading) => reading.axles))];
  const b = readings.map((reading) => axles.map((axle) => Number(reading.axles.includes(axle))));
  if (rank(b) < axles.length) throw new NotFixed("axles", axles.join(" and "));
  const y = readings.map((reading) => reading.value_kg);
  const lower = cholesky(covariance);
  const white = solveLower(lower, b);
  const [mean, residual] = leastSquares(white, solveLower(lower, y));
  const cov = choSolve(cholesky(matmul(transpose(white), white)), identity(axles.length));
  const dof = readings.length - axles.length;
  const p = dof ? chi2Upper(residual, dof) : null;
  const left = matvec(b, mean);
  const off = y.map((value, i) => value - left[i]!);
  return {
    axles,
    mean_kg: mean,
    cov_kg2: cov,
    chi2: dof ? residual : 0,
    dof,
    p,
    agree: p === null || p >= DISAGREE_P,
    z: dof ? measurementTests(lower, b, cov, off) : [],
  };
}

/** z_i of the measurement test (Mah & Tamhane 1982, from memory). */
function measurementTests(lower: Matrix, b: Matrix, cov: Matrix, off: readonly number[]): number[] {
  const weighted = choSolve(lower, off);
  const left = choSolve(lower, b);
  const inverse = choSolve(lower, identity(off.length));
  return weighted.map((value, i) => {
    const explained = dot(matvec(cov, left[i]!), left[i]!);
    return Math.abs(value) / Math.sqrt(inverse[i]![i]! - explained);
  });
}

function merged(group: readonly Reading[]): Reading {
  const first = group[0]!;
  const repeats = group.reduce((total, one) => total + (one.repeats ?? 1), 0);
  const value_kg = group.reduce((total, one) => total + one.value_kg * (one.repeats ?? 1), 0) / repeats;
  return { id: first.id, axles: first.axles, value_kg, split: group.some((one) => one.split), repeats };
}

function checkReadings(readings: readonly Reading[]): void {
  const seen = new Set<string>();
  for (const reading of readings) {
    checkRange("value_kg", reading.value_kg, { low: 0, unit: "kg" });
    checkRange("repeats", reading.repeats ?? 1, { low: 1 });
    if (reading.axles.length === 0) throw new OutOfRange("axles", 0, { low: 1 });
    const key = axleKey(reading);
    if (seen.has(key))
      throw new Duplicate("axles", key, "Merge it with the earlier reading of the same axles");
    seen.add(key);
  }
}

/** Rank of a small matrix of ones and zeros, by elimination. */
function rank(matrix: Matrix): number {
  const rows = matrix.map((row) => [...row]);
  let found = 0;
  for (let column = 0; column < (rows[0]?.length ?? 0); column++) {
    const pivot = rows.findIndex((row, i) => i >= found && Math.abs(row[column]!) > 1e-9);
    if (pivot < 0) continue;
    [rows[found], rows[pivot]] = [rows[pivot]!, rows[found]!];
    for (let i = found + 1; i < rows.length; i++) {
      const factor = rows[i]![column]! / rows[found]![column]!;
      rows[i] = rows[i]!.map((value, j) => value - factor * rows[found]![j]!);
    }
    found += 1;
  }
  return found;
}

function axleKey(reading: Reading): string {
  return [...new Set(reading.axles)].sort().join("+");
}

function mpe(bridge: Bridge, load_kg: number): number {
  const { interval_kg, accuracy_class } = bridge;
  return permissibleError({ load_kg, interval_kg, accuracy_class });
}

function stepsOf(accuracy_class: string): Steps {
  const steps = STEPS[accuracy_class];
  if (!steps) throw new Unknown("accuracy_class", accuracy_class, Object.keys(STEPS));
  return steps;
}

const NO_SETUP: SplitSetup = { total_kg: 0, wheelbase_m: 1, cg_height_m: 1 };

function need(setup: SplitSetup | null): SplitSetup {
  if (setup === null) throw new NotKnown("cg_height_m", "a reading of a part of the vehicle");
  return setup;
}
