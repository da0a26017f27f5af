/** What is said of single readings and single wheels of one weighing. */
import { type Book, checkWeighing, type Row } from "@/domain/book";
import type { Comparison } from "@/domain/comparison";
import { DomainError, OutOfRange } from "@/domain/errors";
import { weighedDay } from "@/domain/learning";
import type { Loads } from "@/domain/statics";
import { mergeRepeats } from "@/domain/weighing";

/** Why a weighing cannot be read: its figure beyond the scale's reach, or null where the scale's percentage is blank. */
export interface Unread {
  readonly beyond: { readonly value_kg: number; readonly reach_kg: number } | null;
}

/** Why a weighing cannot be read, or null where it can. */
export function whyUnread(weighing: Row): Unread | null {
  try {
    checkWeighing({ weighing });
    return null;
  } catch (error) {
    if (!(error instanceof DomainError)) throw error;
    const beyond = error instanceof OutOfRange && error.high !== null;
    return { beyond: beyond ? { value_kg: Number(error.value), reach_kg: error.high } : null };
  }
}

/** One wheel, or one side of the vehicle; the plan's figure is null where it has none. u are standard uncertainties. */
export interface WheelLoad {
  readonly row: string;
  readonly weighed_kg: number;
  readonly weighed_u_kg: number;
  readonly planned: { readonly kg: number; readonly u_kg: number } | null;
}

/** Left and right as the wheels were read; `frame` is the model that shares the plan's loads out to the wheels. */
export interface Sides {
  readonly wheels: readonly WheelLoad[];
  readonly sides: readonly WheelLoad[];
  readonly frame: string | null;
}

const WHEELS = ["front_left", "front_right", "rear_left", "rear_right"] as const;
const SIDES = { left: ["front_left", "rear_left"], right: ["front_right", "rear_right"] } as const;

/** Every wheel that the readings fix, and both sides where all four are; null without any. */
export function sidesOf(book: Book, weighing_id: string): Sides | null {
  const weighing = book.weighings.find((one) => one.id === weighing_id);
  if (!weighing) return null;
  const { visit, expected, geometry } = weighedDay({ book, weighing });
  const load = (row: string, parts: readonly string[]): WheelLoad[] => {
    const weighed = sumOf(visit.loads, parts);
    if (!weighed) return [];
    const planned = expected && sumOf(expected, parts);
    return [{ row, weighed_kg: weighed.kg, weighed_u_kg: weighed.u_kg, planned }];
  };
  const wheels = WHEELS.flatMap((row) => load(row, [row]));
  if (wheels.length === 0) return null;
  const sides = Object.entries(SIDES).flatMap(([row, parts]) => load(row, parts));
  const planned = wheels.some((one) => one.planned !== null);
  return { wheels, sides, frame: planned ? (geometry?.frame ?? null) : null };
}

/** A sum of rows with its exact u: errors that they share count fully. Null where a row is missing. */
function sumOf({ rows, mean_kg, cov_kg2 }: Loads, parts: readonly string[]) {
  const at = parts.map((row) => rows.indexOf(row));
  if (at.includes(-1)) return null;
  const kg = at.reduce((sum, i) => sum + mean_kg[i]!, 0);
  const variance = at.reduce((sum, i) => sum + at.reduce((inner, j) => inner + cov_kg2[i]![j]!, 0), 0);
  return { kg, u_kg: Math.sqrt(Math.max(variance, 0)) };
}

/** What a reading's row says beside the figure. */
export interface ReadingNote {
  /** Below the scale's least load, where no limit of error holds. */
  readonly light: boolean;
  /** The mean of this figure and its repeats, which counts instead; null for a single one. */
  readonly averaged: { readonly count: number; readonly value_kg: number } | null;
}

/** The note of each reading that counts, by its id. */
export function readingNotes({ visit }: Pick<Comparison, "visit">): ReadonlyMap<string, ReadingNote> {
  const groups = visit.readings.map((merged) => ({
    merged,
    members: visit.taken.filter((one) => mergeRepeats({ readings: [merged, one] }).length === 1),
  }));
  return new Map(
    groups.flatMap(({ merged, members }) => {
      const averaged = members.length > 1 ? { count: members.length, value_kg: merged.value_kg } : null;
      const note: ReadingNote = { light: visit.light.includes(merged.id), averaged };
      return members.map(({ id }): [string, ReadingNote] => [id, note]);
    }),
  );
}
