/** Loads that the readings fix without any plan, and whether the readings agree with each other. */
import { DomainError, NotFixed } from "./errors";
import {
  cholesky,
  dot,
  gramInverse,
  identity,
  leastSquares,
  type Matrix,
  matmul,
  matvec,
  solveLower,
  solveUpper,
  transpose,
  type Vector,
} from "./linalg";
import { chi2Upper } from "./normal";
import { checkReadings, type Reading, stateKey } from "./weighing";

export const DISAGREE_P = 0.01; // below this the readings do not agree with each other
export const OPEN = 1e-9; // a remainder below this share is rounding: fixed, or tested by nothing

/** The redundancy test; p is null without redundancy, and z where no other reading tests a reading. */
export interface Agreement {
  readonly chi2: number;
  readonly dof: number;
  readonly p: number | null;
  readonly agree: boolean;
  readonly z: readonly (number | null)[];
}

/** Axle loads that fit the readings best, with their covariance and the test of agreement. */
export interface AxleLoads {
  readonly axles: readonly string[];
  readonly mean_kg: readonly number[];
  readonly cov_kg2: Matrix;
  readonly chi2: number;
  readonly dof: number;
  readonly p: number | null;
  readonly agree: boolean;
  readonly z: readonly (number | null)[];
}

/** One load that the readings fix. */
export interface Fixed {
  readonly value_kg: number;
  readonly u_kg: number;
}

export interface ReadingsIn {
  readonly readings: readonly Reading[];
  readonly covariance: Matrix;
}

/** Whether readings of one state agree, also those that leave axles open. */
export function agreement({ readings, covariance }: ReadingsIn): Agreement {
  return testOf(solve(readings, covariance));
}

/** Axle loads by generalised least squares with a flat prior, and the redundancy test; NotFixed where open. */
export function axleLoads({ readings, covariance }: ReadingsIn): AxleLoads {
  const found = solve(readings, covariance);
  if (found.basis.length < found.axles.length) throw new NotFixed("axles", found.axles.join(" and "));
  const turn = found.axles.map((axle) => combination(found, [axle]));
  return {
    axles: found.axles,
    mean_kg: matvec(turn, found.mean),
    cov_kg2: matmul(matmul(turn, found.cov), transpose(turn)),
    ...testOf(found),
  };
}

/** The load of a set of axles where the readings fix it, with its u; refused with NotFixed where not. */
export function fixedLoad({
  readings,
  covariance,
  axles,
}: ReadingsIn & { readonly axles: readonly string[] }): Fixed {
  const found = solve(readings, covariance);
  const turn = combination(found, axles);
  return { value_kg: dot(turn, found.mean), u_kg: Math.sqrt(dot(turn, matvec(found.cov, turn))) };
}

/** Least squares over the independent sets of axles that were read. */
interface Fit {
  readonly axles: readonly string[];
  readonly basis: Matrix;
  readonly lower: Matrix;
  readonly white: Matrix;
  readonly mean: Vector;
  readonly chi2: number;
  readonly cov: Matrix;
  readonly residual: Vector;
}

function solve(readings: readonly Reading[], covariance: Matrix): Fit {
  checkReadings(readings);
  if (new Set(readings.map(stateKey)).size > 1)
    throw new DomainError(
      "readings",
      "in several states",
      "readings of one state",
      "Take those of each alone",
    );
  const axles = [...new Set(readings.flatMap((reading) => reading.axles))];
  const b = readings.map((reading) => ones(axles, reading.axles));
  const basis = independent(b);
  const sets = b.map((row) => leastSquares(transpose(basis), row)[0]);
  const lower = cholesky(covariance);
  const white = solveLower(lower, sets);
  const right = solveLower(
    lower,
    readings.map((reading) => reading.value_kg),
  );
  const [mean, chi2] = leastSquares(white, right);
  const fitted = matvec(white, mean);
  const residual = right.map((value, i) => value - fitted[i]!);
  return { axles, basis, lower, white, mean, chi2, cov: gramInverse(white), residual };
}

/** A set of axles as a combination of the independent sets. */
function combination({ axles, basis }: Fit, wanted: readonly string[]): number[] {
  if (wanted.some((axle) => !axles.includes(axle))) throw new NotFixed("axles", wanted.join(" and "));
  const [turn, rest] = leastSquares(transpose(basis), ones(axles, wanted));
  if (rest > OPEN) throw new NotFixed("axles", wanted.join(" and "));
  return turn;
}

function testOf({ basis, chi2, lower, white, residual }: Fit): Agreement {
  const dof = residual.length - basis.length;
  if (dof === 0) return { chi2: 0, dof, p: null, agree: true, z: residual.map(() => null) };
  const p = chi2Upper(chi2, dof);
  return { chi2, dof, p, agree: p >= DISAGREE_P, z: tests(lower, white, residual) };
}

/** The measurement test (Mah & Tamhane 1982, from memory): |(C'^-1 r)_i| over what the fit leaves of C^-1's column. */
function tests(lower: Matrix, white: Matrix, residual: Vector): (number | null)[] {
  const units = transpose(solveLower(lower, identity(residual.length)));
  const weighted = solveUpper(lower, residual);
  return units.map((unit, i) => {
    const [, left] = leastSquares(white, unit);
    return left > OPEN * dot(unit, unit) ? Math.abs(weighted[i]!) / Math.sqrt(left) : null;
  });
}

function ones(axles: readonly string[], wanted: readonly string[]): number[] {
  return axles.map((axle) => (wanted.includes(axle) ? 1 : 0));
}

/** The first rows that are independent of those before them. */
function independent(rows: Matrix): number[][] {
  const kept: number[][] = [];
  for (const row of rows)
    if (kept.length === 0 || leastSquares(transpose(kept), row)[1] > OPEN) kept.push([...row]);
  return kept;
}
