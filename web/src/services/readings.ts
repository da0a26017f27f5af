/** What is said of single readings, and of a weighing that cannot be read. */
import { checkWeighing, type Row } from "@/domain/book";
import type { Comparison } from "@/domain/comparison";
import { DomainError, OutOfRange } from "@/domain/errors";
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
