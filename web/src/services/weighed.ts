/** What is said of one weighing beside the others: the account, the change since the last, what they taught. */
import { type Account, account, wholeKg } from "@/domain/account";
import type { Book } from "@/domain/book";
import { firstDay, planDays } from "@/domain/history";
import { type Since, since } from "@/domain/since";
import { type Taught, taught } from "@/domain/taught";

/** The column of one weighing with the plan as of a day, without one from its first; null where nothing adds up. */
export function accountOf(book: Book, weighing_id: string, day: string | null): Account | null {
  return account({ book, weighing_id, day });
}

/** The lines in whole kilograms, which add up to the total beside them. */
export function wholeLines({ lines }: Account): {
  readonly kg: readonly number[];
  readonly total_kg: number;
} {
  const kg = wholeKg({ masses_kg: lines.map((one) => one.mass_kg) });
  return { kg, total_kg: kg.reduce((sum, one) => sum + one, 0) };
}

/** The change in whole kilograms, column by column: the lines add up to their sum, and that and the rest to the bridge's. */
export interface WholeSince {
  readonly lines: readonly (readonly number[])[];
  readonly listed: readonly number[];
  readonly weighed: readonly number[];
  readonly unexplained: readonly number[];
}

export function wholeSince({ rows, lines, weighed_kg }: Since): WholeSince {
  const columns = rows.map((_, k) => wholeKg({ masses_kg: lines.map((one) => one.kg[k] ?? 0) }));
  const listed = columns.map((column) => column.reduce((sum, one) => sum + one, 0));
  const weighed = weighed_kg.map(Math.round);
  return {
    lines: lines.map((_, i) => columns.map((column) => column[i] ?? 0)),
    listed,
    weighed,
    unexplained: weighed.map((kg, k) => kg - (listed[k] ?? 0)),
  };
}

/** The days that the plan of a weighing may be taken from: those on which it was changed, up to the weighing. */
export function daysOf(book: Book, at: string): { readonly days: readonly string[]; readonly first: string } {
  return { days: planDays({ book, until: at }), first: firstDay({ book, until: at }) };
}

/** What came and went since the weighing before; null where there is none to compare. */
export function sinceOf(book: Book, weighing_id: string): Since | null {
  return since({ book, weighing_id });
}

/** What each weighing taught, in order of time. */
export function taughtOf(book: Book): readonly Taught[] {
  return taught({ book });
}

export type { Account, Since, Taught };
