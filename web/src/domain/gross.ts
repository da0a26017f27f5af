/** Which single entry could explain a gap between plan and readings: a shortlist, never a culprit (maths C.4). */
import { checkRange } from "./errors";
import { cholesky, dot, finite, type Matrix, matmul, solveLower, transpose, type Vector } from "./linalg";
import { chi2Upper } from "./normal";
import type { Reconciled } from "./posterior";

export const ALIKE = 1e-9; // signatures whose |cosine| is within this of 1 are one class
export const NEAR = 3.841458820694124; // 95 % point of chi-square with one degree of freedom
export const LEVEL = 0.05;
export const EASILY_SEEN = 4; // an error of 4 / sqrt(q) shows in a 5 % test, power 80 to 90 % (rule of thumb)
const BUCKET = 1e-3;
const TIE = 1e-6; // statistics nearer than this are equals, and the first entered stands first

/** What one kg too much in a candidate does to every reading; `mass_kg` bounds what can be missing of it. */
export interface Signature {
  readonly id: string;
  readonly kind: string;
  readonly column: Vector;
  readonly mass_kg?: number | null;
}

/** One candidate tested: the error that fits best, what is possible of it (b >= -mass), and the class. */
export interface Suspect {
  readonly id: string;
  readonly kind: string;
  readonly statistic: number;
  readonly bias_kg: number;
  readonly possible_statistic: number;
  readonly possible_kg: number;
  readonly shows_kg: number;
  readonly group: number;
}

/** All candidates within 3.84 of the best, best first; `found` tells whether any stands out at all. */
export interface Shortlist {
  readonly suspects: readonly Suspect[];
  readonly groups: number;
  readonly level: number;
  readonly p: number | null;
  readonly found: boolean;
}

/** What could explain a gap, best first: entries and, apart from them, readings. */
export interface Causes {
  readonly entries: readonly Suspect[];
  readonly readings: readonly Suspect[];
  readonly found: boolean;
}

export interface SuspectsOf {
  readonly innovation: Vector;
  readonly spread: Matrix;
  readonly signatures: readonly Signature[];
}

/** Test every candidate for one gross error, in the order given; what touches no reading is left out. */
export function suspects({ innovation, spread, signatures }: SuspectsOf): Suspect[] {
  for (const { mass_kg } of signatures) checkRange("mass_kg", mass_kg ?? 0, { low: 0, unit: "kg" });
  const lower = cholesky(finite("spread", spread));
  const white = solveLower(lower, finite("innovation", innovation));
  for (const { column } of signatures) finite("column", column);
  const groupOf = grouping();
  return signatures
    .filter((one) => one.column.some((value) => value !== 0))
    .map((one) => suspect(one, solveLower(lower, one.column), white, groupOf));
}

/** All candidates whose possible T is within 3.84 of the best; Sidak level over the classes. */
export function shortlist({ suspects }: { readonly suspects: readonly Suspect[] }): Shortlist {
  if (suspects.length === 0) return { suspects: [], groups: 0, level: LEVEL, p: null, found: false };
  const groups = Math.max(...suspects.map((one) => one.group)) + 1;
  const level = 1 - (1 - LEVEL) ** (1 / groups);
  const best = Math.max(...suspects.map((one) => one.possible_statistic));
  const near = suspects.filter((one) => one.possible_statistic >= best - NEAR);
  const p = chi2Upper(Math.max(best, 0), 1);
  const ordered = near.sort((a, b) => tied(b) - tied(a));
  return { suspects: ordered, groups, level, p, found: p < level };
}

function tied({ possible_statistic }: Suspect): number {
  return Math.round(possible_statistic / TIE);
}

/** The shortlist as people are shown it: entries beside the best entry, readings beside the best of all. */
export function likelyCauses({ suspects }: { readonly suspects: readonly Suspect[] }): Causes {
  const whole = shortlist({ suspects });
  const entries = shortlist({ suspects: suspects.filter((one) => one.kind !== "reading") });
  const readings = whole.suspects.filter((one) => one.kind === "reading");
  return { entries: entries.suspects, readings, found: whole.found };
}

/** Test every mass, content, person and reading of a reconciled book. */
export function suspectsOf({ posterior }: { readonly posterior: Reconciled }): Suspect[] {
  const { lower, innovation, design, reading_ids } = posterior;
  const signatures: Signature[] = [];
  for (const [id, one] of posterior.prior) {
    const place = posterior.order.get(id)!;
    const column = design.map((row) => row[place]!);
    if (one.kind === "mass") signatures.push({ id, kind: "mass", column, mass_kg: one.mean });
  }
  for (const [i, id] of reading_ids.entries())
    signatures.push({ id, kind: "reading", column: reading_ids.map((_, j) => (i === j ? 1 : 0)) });
  return suspects({ innovation, spread: matmul(lower, transpose(lower)), signatures });
}

function suspect(
  { id, kind, mass_kg = null }: Signature,
  column: Vector,
  white: Vector,
  groupOf: Grouping,
): Suspect {
  const [s, q] = [dot(column, white), dot(column, column)];
  const bias_kg = s / q;
  const possible_kg = mass_kg === null ? bias_kg : Math.max(bias_kg, -mass_kg);
  const size = Math.sqrt(q);
  return {
    id,
    kind,
    statistic: (s * s) / q,
    bias_kg,
    possible_statistic: 2 * possible_kg * s - possible_kg * possible_kg * q,
    possible_kg,
    shows_kg: EASILY_SEEN / size,
    group: groupOf(column.map((value) => value / size)),
  };
}

type Grouping = (direction: Vector) => number;

/** Numbers parallel directions alike; directions are looked up by their projection on one fixed line. */
function grouping(): Grouping {
  const known = new Map<number, (readonly [number, Vector])[]>();
  let count = 0;
  return (direction) => {
    const projection = direction.reduce((sum, value, i) => sum + value / (i + 1), 0);
    const place = Math.floor(Math.abs(projection) / BUCKET);
    for (const near of [place - 1, place, place + 1])
      for (const [group, other] of known.get(near) ?? [])
        if (Math.abs(dot(direction, other)) > 1 - ALIKE) return group;
    known.set(place, [...(known.get(place) ?? []), [count, direction]]);
    return count++;
  };
}
