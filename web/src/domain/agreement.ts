/** Loads that the readings fix without any plan, and whether the readings agree with each other. */
import { DomainError, NotFixed } from "./errors";
import {
  cholesky,
  dot,
  finite,
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
interface Redundancy {
  readonly chi2: number;
  readonly dof: number;
  readonly p: number | null;
  readonly agree: boolean;
  readonly z: readonly (number | null)[];
}

/** Those of the wanted sums that the readings fix, with their covariance and the redundancy test. */
export interface FixedSums extends Redundancy {
  readonly rows: readonly string[];
  readonly mean_kg: readonly number[];
  readonly cov_kg2: Matrix;
}

export interface ReadingsIn {
  readonly readings: readonly Reading[];
  readonly covariance: Matrix;
}

/** Axle loads of readings of one state by generalised least squares, and the redundancy test; NotFixed where open. */
export function axleLoads({ readings, covariance }: ReadingsIn): FixedSums {
  checkReadings(readings);
  if (new Set(readings.map(stateKey)).size > 1)
    throw new DomainError(
      "readings",
      "in several states",
      "readings of one state",
      "Take those of each alone",
    );
  const axles = [...new Set(readings.flatMap((reading) => reading.axles))];
  const found = fixedSums({
    sums: readings.map((reading) => ones(axles, reading.axles)),
    values_kg: readings.map((reading) => reading.value_kg),
    covariance,
    wanted: Object.fromEntries(axles.map((axle) => [axle, ones(axles, [axle])])),
  });
  if (found.rows.length < axles.length) throw new NotFixed("axles", axles.join(" and "));
  return found;
}

export interface SumsIn {
  readonly sums: Matrix;
  readonly values_kg: Vector;
  readonly covariance: Matrix;
  readonly wanted: Readonly<Record<string, Vector>>;
}

/** Which sums of unknown loads are fixed by readings that are each a sum of them, and at what; the open are left out. */
export function fixedSums({ sums, values_kg, covariance, wanted }: SumsIn): FixedSums {
  for (const [field, values] of Object.entries({ sums, values_kg, covariance })) finite(field, values);
  for (const one of Object.values(wanted)) finite("wanted", one);
  const found = solve(sums, values_kg, covariance);
  const fixed = Object.entries(wanted).flatMap(([row, one]) => {
    const turn = combination(found, one);
    return turn ? [{ row, turn }] : [];
  });
  const turns = fixed.map((one) => one.turn);
  return { rows: fixed.map((one) => one.row), ...turned(found, turns), ...testOf(found) };
}

/** Least squares over the independent sums that were read. */
interface Fit {
  readonly basis: Matrix;
  readonly lower: Matrix;
  readonly white: Matrix;
  readonly mean: Vector;
  readonly chi2: number;
  readonly cov: Matrix;
  readonly residual: Vector;
}

function solve(rows: Matrix, values_kg: Vector, covariance: Matrix): Fit {
  const basis = independent(rows);
  const sets = rows.map((row) => leastSquares(transpose(basis), row)[0]);
  const lower = cholesky(covariance);
  const white = solveLower(lower, sets);
  const right = solveLower(lower, values_kg);
  const [mean, chi2] = leastSquares(white, right);
  const fitted = matvec(white, mean);
  const residual = right.map((value, i) => value - fitted[i]!);
  return { basis, lower, white, mean, chi2, cov: gramInverse(white), residual };
}

/** A sum of the unknown loads as a combination of the independent ones, null where it is open. */
function combination({ basis }: Fit, wanted: Vector): number[] | null {
  const [turn, rest] = leastSquares(transpose(basis), wanted);
  return rest > OPEN ? null : turn;
}

function turned({ mean, cov }: Fit, turn: Matrix): Pick<FixedSums, "mean_kg" | "cov_kg2"> {
  if (turn.length === 0) return { mean_kg: [], cov_kg2: [] };
  return { mean_kg: matvec(turn, mean), cov_kg2: matmul(matmul(turn, cov), transpose(turn)) };
}

function testOf({ basis, chi2, lower, white, residual }: Fit): Redundancy {
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
