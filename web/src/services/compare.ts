/** Two plans of a book side by side, in whole kilograms that add up. */
import { wholeKg } from "../domain/account";
import { type Book, dayOf } from "../domain/book";
import { firstDay } from "../domain/history";
import type { Judged } from "../domain/judge";
import { CONFIDENCE } from "../domain/limits";
import { fullState, type State, type TankLevel } from "../domain/state";
import {
  bookOn,
  type Difference,
  type Side,
  type TwoPlans,
  twoPlans,
  type Version,
} from "../domain/two_plans";

/** One plan as it is drawn and judged. */
export interface Shown extends Side {
  /** The book as it stood, with what is on order where that counts. */
  readonly book: Book;
  readonly judged: readonly Judged[];
  /** What is in its tanks in the state that it is compared in. */
  readonly levels: readonly TankLevel[];
}

/** A record that differs; what comes and goes with its trailer is one line with it. */
export interface Line extends Difference {
  readonly things: number;
}

/** Both plans; `kg` are whole kilograms row by row, so that first plus lines are second. */
export interface Compared {
  readonly rows: readonly string[];
  readonly lines: readonly Line[];
  readonly sides: readonly [Shown, Shown];
  readonly kg: {
    readonly first: readonly number[];
    readonly lines: readonly (readonly number[])[];
    readonly second: readonly number[];
  };
}

/** The days on which the plan was edited, the first first, and the one that a comparison begins with. */
export function daysToCompare(
  book: Book,
  now: string,
): { readonly days: readonly string[]; readonly first: string } {
  const days = [...new Set(book.edits.map((edit) => dayOf({ edit })))].sort();
  const first = firstDay({ book, until: now });
  return { days, first: days.includes(first) ? first : (days[0] ?? "") };
}

/** Two versions compared; without a state each is full, with everyone and everything of its day aboard. */
export function comparedPlans(
  book: Book,
  versions: readonly [Version, Version],
  today: string,
  state: State | null,
): Compared {
  const confidence: number = book.vehicle?.body.confidence ?? CONFIDENCE;
  const [first, second] = versions;
  const found = twoPlans({ book, first, second, today, state, confidence });
  const shown = (side: Side, version: Version): Shown => {
    const stood = drawn(book, version);
    return {
      ...{ ...side, book: stood, levels: (state ?? fullState({ book: stood })).tanks },
      judged: side.verdicts.map((verdict) => ({ verdict, source: "plan", why: null })),
    };
  };
  const lines = linesOf(found.differences);
  return {
    rows: found.rows,
    lines,
    sides: [shown(found.first, first), shown(found.second, second)],
    kg: wholeColumns(found, lines),
  };
}

function drawn(book: Book, { day = null, ordered = false }: Version): Book {
  const stood = day === null ? book : bookOn({ book, day });
  if (!ordered) return stood;
  const counted = { stage: "fitted" };
  return {
    ...stood,
    items: stood.items.map((one) =>
      one.body.stage === "on_order" ? { ...one, body: { ...one.body, ...counted } } : one,
    ),
  };
}

/** In their order, the trailer first of what comes or goes with it. */
function linesOf(differences: readonly Difference[]): Line[] {
  const out: Line[] = [];
  for (const one of differences) {
    const how = one.how[0];
    const towed = how === "coupled" || how === "uncoupled";
    const at = towed ? out.findIndex((line) => line.how[0] === how) : -1;
    const known = out[at];
    if (!known) {
      out.push({ ...one, things: 0 });
      continue;
    }
    const head = one.kind === "trailer" ? one : known;
    out[at] = { ...head, kg: known.kg.map((kg, k) => kg + one.kg[k]!), things: known.things + 1 };
  }
  return out;
}

function wholeColumns({ rows, first }: TwoPlans, differences: readonly Line[]): Compared["kg"] {
  const columns = rows.map((row, k) => {
    const at = first.loads?.rows.indexOf(row) ?? -1;
    const start = at < 0 ? 0 : first.loads!.mean_kg[at]!;
    return wholeKg({ masses_kg: [start, ...differences.map((one) => one.kg[k]!)] });
  });
  return {
    first: columns.map((column) => column[0]!),
    lines: differences.map((_, i) => columns.map((column) => column[i + 1]!)),
    second: columns.map((column) => column.reduce((sum, kg) => sum + kg, 0)),
  };
}

export type { Judged, Version };
