/** What the device answers by itself: the domain's computations over an opened book. */
import { ROWS } from "@/domain/axles";
import type { Book, Row } from "@/domain/book";
import { type Comparison, compare, judgeState, reconciled } from "@/domain/comparison";
import { CONFIDENCE } from "@/domain/limits";
import { planIn, planned } from "@/domain/plan";
import { ratingsOn } from "@/domain/plates";
import { centreOfGravity } from "@/domain/stability";
import { fullState, type State } from "@/domain/state";
import { type Loads, loads } from "@/domain/statics";

/** The comparison of one recorded weighing. */
export function comparisonOf(book: Book, weighing_id: string): Comparison {
  return compare({ book, weighing_id });
}

/** The comparison of a weighing that is not saved yet, as if it were the book's latest. */
export function provisional(book: Book, weighing: Row): Comparison {
  return compare({ book: { ...book, weighings: [...book.weighings, weighing] }, weighing_id: weighing.id });
}

/** The latest weighing's comparison, or null where nothing was weighed. */
export function latestComparison(book: Book): Comparison | null {
  const latest = book.weighings.at(-1);
  return latest ? compare({ book, weighing_id: latest.id }) : null;
}

/** What the plan alone says of a state: loads, centre of gravity, what could not be counted. */
export interface Planned {
  readonly loads: Loads;
  readonly cg_x_m: number | null;
  readonly missing: ReturnType<typeof planIn>["missing"];
}

export function plannedIn(book: Book, state: State, ordered = false): Planned | null {
  if (!planned({ book })) return null;
  const plan = planIn({ book, state, ordered });
  const parts = [...plan.lasting, ...plan.passing];
  const geometry = { wheelbase_m: book.vehicle?.body.wheelbase_m as number };
  return {
    loads: loads({ parts, geometry }),
    cg_x_m: centreOfGravity({ parts })?.x_m ?? null,
    missing: plan.missing,
  };
}

/** Every rating with all tanks full and everyone aboard, from the plan and all weighings. */
export function fullVerdicts(book: Book, today: string): Comparison["full"] {
  if (!planned({ book })) return [];
  const geometry = { wheelbase_m: book.vehicle?.body.wheelbase_m as number };
  return judgeState({
    book,
    learning: reconciled({ book, geometry }),
    state: fullState({ book }),
    ratings: ratingsOn({ plates: book.plates, day: today }),
    confidence: book.vehicle?.body.confidence ?? CONFIDENCE,
  });
}

export type { Book, Comparison, Row, State };
export { fullState, ROWS, ratingsOn };
