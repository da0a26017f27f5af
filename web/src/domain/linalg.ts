/** Solve, never invert: triangular factors and least squares, with a refusal instead of a silent jitter. */
import { checkFinite, DomainError, Redundant } from "./errors";

export type Vector = readonly number[];
export type Matrix = readonly (readonly number[])[];

/** A pivot at or below this share of the largest diagonal counts as zero (our choice, maths 0.1). */
export const PIVOT_SHARE = 1e-12;

/** Lower factor L of a symmetric positive definite matrix, a = L L'; a pivot that is zero to rounding is refused. */
export function cholesky(a: Matrix): number[][] {
  checkSquare(a);
  const size = a.length;
  const smallest = PIVOT_SHARE * Math.max(0, ...a.map((row, i) => row[i]!));
  const factor: number[][] = [];
  for (let i = 0; i < size; i++) {
    const own: number[] = new Array(size).fill(0);
    for (let j = 0; j < i; j++) own[j] = (a[i]![j]! - dotTo(own, factor[j]!, j)) / factor[j]![j]!;
    const pivot = a[i]![i]! - dotTo(own, own, i);
    if (!(pivot > smallest)) throw new Redundant();
    own[i] = Math.sqrt(pivot);
    factor.push(own);
  }
  return factor;
}

/** Solve L x = b by forward substitution; L has no zero on its diagonal. */
export function solveLower(l: Matrix, b: Vector): number[];
export function solveLower(l: Matrix, b: Matrix): number[][];
export function solveLower(l: Matrix, b: Vector | Matrix): number[] | number[][] {
  return byColumn(b, (x) => {
    for (let i = 0; i < l.length; i++) x[i] = (x[i]! - dotTo(l[i]!, x, i)) / l[i]![i]!;
  });
}

/** Solve L' x = b by back substitution, given the *lower* factor L. */
export function solveUpper(l: Matrix, b: Vector): number[];
export function solveUpper(l: Matrix, b: Matrix): number[][];
export function solveUpper(l: Matrix, b: Vector | Matrix): number[] | number[][] {
  return byColumn(b, (x) => {
    for (let i = l.length - 1; i >= 0; i--) {
      const found = x[i]! / l[i]![i]!;
      x[i] = found;
      for (let j = 0; j < i; j++) x[j] = x[j]! - l[i]![j]! * found;
    }
  });
}

/** Solve L L' x = b, given the lower factor L. */
export function choSolve(l: Matrix, b: Vector): number[];
export function choSolve(l: Matrix, b: Matrix): number[][];
export function choSolve(l: Matrix, b: Vector | Matrix): number[] | number[][] {
  return isMatrix(b) ? solveUpper(l, solveLower(l, b)) : solveUpper(l, solveLower(l, b));
}

/** (a + a')/2: takes rounding's asymmetry out of a covariance. */
export function symmetrise(a: Matrix): number[][] {
  checkSquare(a);
  return a.map((row, i) => row.map((value, j) => (value + a[j]![i]!) / 2));
}

/** Minimise |a x - b|^2 by Householder QR: x and the sum of squared residuals. */
export function leastSquares(a: Matrix, b: Vector): [number[], number] {
  const { r, right } = householder(a, b);
  const x = backSubstitute(r, right);
  const residuals = a.map((row, i) => b[i]! - dot(row, x));
  return [x, dot(residuals, residuals)];
}

/** (a' a)^-1 from the R of QR, which squares no condition number; refuses as `leastSquares` does. */
export function gramInverse(a: Matrix): number[][] {
  const { r } = householder(a, new Array(a.length).fill(0));
  const root = transpose(identity(r.length).map((unit) => backSubstitute(r, unit)));
  return root.map((row) => root.map((other) => dot(row, other)));
}

export function dot(a: Vector, b: Vector): number {
  return dotTo(a, b, a.length);
}

export function matmul(a: Matrix, b: Matrix): number[][] {
  const columns = transpose(b);
  return a.map((row) => columns.map((column) => dot(row, column)));
}

export function matvec(a: Matrix, x: Vector): number[] {
  return a.map((row) => dot(row, x));
}

export function transpose(a: Matrix): number[][] {
  return (a[0] ?? []).map((_, j) => a.map((row) => row[j]!));
}

export function add(a: Matrix, b: Matrix): number[][] {
  return a.map((row, i) => row.map((value, j) => value + b[i]![j]!));
}

export function subtract(a: Matrix, b: Matrix): number[][] {
  return a.map((row, i) => row.map((value, j) => value - b[i]![j]!));
}

export function scale(a: Matrix, factor: number): number[][] {
  return a.map((row) => row.map((value) => value * factor));
}

export function outer(a: Vector, b: Vector): number[][] {
  return a.map((x) => b.map((y) => x * y));
}

export function identity(size: number): number[][] {
  return diag(new Array(size).fill(1));
}

export function diag(values: Vector): number[][] {
  return values.map((value, i) => values.map((_, j) => (i === j ? value : 0)));
}

function dotTo(a: Vector, b: Vector, end: number): number {
  let sum = 0;
  for (let i = 0; i < end; i++) sum += a[i]! * b[i]!;
  return sum;
}

function isMatrix(b: Vector | Matrix): b is Matrix {
  return Array.isArray(b[0]);
}

function byColumn(b: Vector | Matrix, solve: (x: number[]) => void): number[] | number[][] {
  const columns = isMatrix(b) ? transpose(b) : [[...b]];
  for (const column of columns) solve(column);
  return isMatrix(b) ? transpose(columns) : columns[0]!;
}

/** R and Q'b by reflections, one column after the other (Golub and Van Loan, section 5.3, from memory). */
function householder(a: Matrix, b: Vector): { r: number[][]; right: number[] } {
  const columns = transpose(a);
  if (a.length < columns.length)
    throw new DomainError("matrix", `${a.length} rows`, "at least as many rows as columns");
  const right = [...b];
  for (const [k, pivot] of columns.entries()) {
    const mirror = pivot.map((value, i) => (i < k ? 0 : value));
    mirror[k] = mirror[k]! + (pivot[k]! < 0 ? -1 : 1) * Math.sqrt(dot(mirror, mirror));
    const size = dot(mirror, mirror);
    if (size === 0) throw new Redundant();
    for (const column of [...columns.slice(k), right]) {
      const factor = (2 * dot(mirror, column)) / size;
      for (let i = k; i < column.length; i++) column[i] = column[i]! - factor * mirror[i]!;
    }
  }
  const r = columns.map((_, i) => columns.map((column, j) => (j < i ? 0 : column[i]!)));
  const sizes = r.map((row, i) => Math.abs(row[i]!));
  if (sizes.length > 0 && !(Math.min(...sizes) > PIVOT_SHARE * Math.max(...sizes))) throw new Redundant();
  return { r, right };
}

function backSubstitute(r: Matrix, b: Vector): number[] {
  const x: number[] = new Array(r.length).fill(0);
  for (let i = r.length - 1; i >= 0; i--) {
    let rest = b[i]!;
    for (let j = i + 1; j < r.length; j++) rest -= r[i]![j]! * x[j]!;
    x[i] = rest / r[i]![i]!;
  }
  return x;
}

function checkSquare(a: Matrix): void {
  if (a.some((row) => row.length !== a.length))
    throw new DomainError("matrix", `${a.length} rows`, "as many rows as columns");
}

/** The numbers of a vector or matrix as they are; refuses one that is not finite, by the name of the whole. */
export function finite<T extends Vector | Matrix>(field: string, values: T): T {
  for (const value of values)
    if (typeof value === "object" && value !== null) finite(field, value);
    else checkFinite(field, value);
  return values;
}
