/** Small dense linear algebra: solve, never invert. A matrix that is singular to rounding is refused. */
import { OutOfRange, Redundant } from "./errors";

export type Vector = readonly number[];
export type Matrix = readonly (readonly number[])[];

const PIVOT = 1e-12; // smallest pivot, as a share of the largest diagonal

/** Lower C with a = C C'; Redundant where a pivot is <= 1e-12 of the largest diagonal. */
export function cholesky(a: Matrix): number[][] {
  const n = a.length;
  const largest = Math.max(0, ...a.map((row, i) => row[i]!));
  const lower = a.map(() => new Array<number>(n).fill(0));
  for (let j = 0; j < n; j++) {
    const row = lower[j]!;
    const pivot = a[j]![j]! - dotTo(row, row, j);
    if (!(pivot > PIVOT * largest))
      throw new Redundant("readings", n, "independent", "Two of them are the same to rounding.");
    row[j] = Math.sqrt(pivot);
    for (let i = j + 1; i < n; i++) lower[i]![j] = (a[i]![j]! - dotTo(lower[i]!, row, j)) / row[j]!;
  }
  return lower;
}

/** x of C x = b by forward substitution. */
export function solveLower(lower: Matrix, b: Vector): number[] {
  const x = [...b];
  for (let i = 0; i < lower.length; i++) x[i] = (x[i]! - dotTo(lower[i]!, x, i)) / lower[i]![i]!;
  return x;
}

/** x of C' x = b by back substitution, C given lower. */
export function solveUpper(lower: Matrix, b: Vector): number[] {
  const x = [...b];
  for (let i = lower.length - 1; i >= 0; i--) {
    let sum = x[i]!;
    for (let k = i + 1; k < lower.length; k++) sum -= lower[k]![i]! * x[k]!;
    x[i] = sum / lower[i]![i]!;
  }
  return x;
}

/** x of C C' x = b. */
export function choSolve(lower: Matrix, b: Vector): number[] {
  return solveUpper(lower, solveLower(lower, b));
}

/** X of C C' X = B, column by column. */
export function choSolveMatrix(lower: Matrix, b: Matrix): number[][] {
  return transpose(transpose(b).map((column) => choSolve(lower, column)));
}

/** (a + a') / 2. */
export function symmetrise(a: Matrix): number[][] {
  return a.map((row, i) => row.map((value, j) => (value + a[j]![i]!) / 2));
}

/** x that makes |a x - b| least, and the residual sum of squares, by Householder QR. */
export function leastSquares(a: Matrix, b: Vector): { x: number[]; residual: number } {
  const r = a.map((row) => [...row]);
  const y = [...b];
  const n = r.length;
  const k = r[0]?.length ?? 0;
  if (n < k) throw new OutOfRange("rows", n, `at least ${k}`);
  const scale = Math.max(0, ...r.flat().map(Math.abs));
  for (let j = 0; j < k; j++) reflect(r, y, j, scale);
  const x = new Array<number>(k).fill(0);
  for (let i = k - 1; i >= 0; i--) {
    let sum = y[i]!;
    for (let j = i + 1; j < k; j++) sum -= r[i]![j]! * x[j]!;
    x[i] = sum / r[i]![i]!;
  }
  return { x, residual: y.slice(k).reduce((sum, value) => sum + value * value, 0) };
}

/** One Householder reflection that clears column j below the diagonal, on r and y in place. */
function reflect(r: number[][], y: number[], j: number, scale: number): void {
  const v = r.slice(j).map((row) => row[j]!);
  const norm = Math.sqrt(dot(v, v));
  if (!(norm > PIVOT * scale)) throw new Redundant("columns", r[0]!.length, "independent");
  v[0] = v[0]! + (v[0]! < 0 || Object.is(v[0], -0) ? -norm : norm);
  const share = 2 / dot(v, v);
  for (let c = j; c < r[0]!.length; c++) {
    let sum = 0;
    for (let i = 0; i < v.length; i++) sum += v[i]! * r[j + i]![c]!;
    for (let i = 0; i < v.length; i++) r[j + i]![c] = r[j + i]![c]! - share * sum * v[i]!;
  }
  const along = share * dot(v, y.slice(j));
  for (let i = 0; i < v.length; i++) y[j + i] = y[j + i]! - along * v[i]!;
}

export function dot(a: Vector, b: Vector): number {
  return dotTo(a, b, a.length);
}

export function transpose(a: Matrix): number[][] {
  return (a[0] ?? []).map((_, j) => a.map((row) => row[j]!));
}

export function matmul(a: Matrix, b: Matrix): number[][] {
  const columns = transpose(b);
  return a.map((row) => columns.map((column) => dot(row, column)));
}

export function matvec(a: Matrix, x: Vector): number[] {
  return a.map((row) => dot(row, x));
}

export function add(a: Matrix, b: Matrix): number[][] {
  return a.map((row, i) => row.map((value, j) => value + b[i]![j]!));
}

export function subtract(a: Matrix, b: Matrix): number[][] {
  return a.map((row, i) => row.map((value, j) => value - b[i]![j]!));
}

export function zeros(rows: number, columns: number): number[][] {
  return Array.from({ length: rows }, () => new Array<number>(columns).fill(0));
}

export function diag(values: Vector): number[][] {
  return values.map((value, i) => values.map((_, j) => (i === j ? value : 0)));
}

export function outer(a: Vector, b: Vector): number[][] {
  return a.map((one) => b.map((other) => one * other));
}

function dotTo(a: Vector, b: Vector, end: number): number {
  let sum = 0;
  for (let i = 0; i < end; i++) sum += a[i]! * b[i]!;
  return sum;
}
