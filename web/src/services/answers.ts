/** What the device answers by itself: the domain's computations over an opened book. */
import { ROWS } from "@/domain/axles";
import type { Book, Row } from "@/domain/book";
import { type Comparison, compare } from "@/domain/comparison";
import { type Explanation, explain } from "@/domain/explain";
import { type Guidance, guidance } from "@/domain/guidance";
import type { Judged } from "@/domain/judge";
import { type Learning, learn, type WeighedDay, weighedDays } from "@/domain/learning";
import { CONFIDENCE, verdict } from "@/domain/limits";
import { fuelOf, TOLD_U_C } from "@/domain/parts";
import { planned } from "@/domain/plan";
import { roomLeft } from "@/domain/room_left";
import { fullState, loggedState, type State } from "@/domain/state";
import { levelsAt } from "./consumption";

/** A book's weighings read by themselves, once for as long as the book is the same. */
const READ = new WeakMap<Book, readonly WeighedDay[]>();

/** All weighings of a book read by themselves. */
export function daysOf(book: Book): readonly WeighedDay[] {
  const days = READ.get(book) ?? weighedDays({ book });
  READ.set(book, days);
  return days;
}

/** What all weighings teach, once for as long as the book is the same. */
const LEARNT = new WeakMap<Book, Learning>();

export function learntOf(book: Book): Learning {
  const found = LEARNT.get(book) ?? learn({ book, days: daysOf(book) });
  LEARNT.set(book, found);
  return found;
}

/** The comparison of one recorded weighing. */
export function comparisonOf(book: Book, weighing_id: string): Comparison {
  return compare({ book, weighing_id, known: daysOf(book) });
}

/** What could explain the gap of one recorded weighing. */
export function explained(book: Book, weighing_id: string): Explanation {
  return explain({ book, weighing_id, known: daysOf(book) });
}

/** A weighing that is not saved yet: what it says, and what to read next, which takes longer. */
export interface OnDeck {
  readonly comparison: Comparison;
  readonly guide: () => Guidance;
}

/** A weighing that is not saved yet, as if it were the book's latest. */
export function provisional(saved: Book, weighing: Row): OnDeck {
  const book = { ...saved, weighings: [...saved.weighings, weighing] };
  const days = weighedDays({ book, known: daysOf(saved) });
  const learning = planned({ book }) ? learn({ book, days }) : null;
  const found = compare({ book, weighing_id: weighing.id, known: days, learning });
  const confidence: number = book.vehicle?.body.confidence ?? CONFIDENCE;
  return { comparison: found, guide: () => guidance({ book, found, days, learning, confidence }) };
}

/** The latest weighing's comparison, or null where nothing was weighed. */
export function latestComparison(book: Book): Comparison | null {
  const latest = book.weighings.at(-1);
  return latest ? comparisonOf(book, latest.id) : null;
}

/** The rating with the least to spare when all is full and aboard, over all trailers. */
export function tightest({ forecasts }: Comparison): { judged: Judged; trailer_id: string | null } | null {
  const rated = forecasts.flatMap(({ full, trailer_id }) =>
    full.filter((one) => one.verdict.margin_kg !== null).map((judged) => ({ judged, trailer_id })),
  );
  return rated.sort((a, b) => spareKg(a.judged) - spareKg(b.judged))[0] ?? null;
}

/** What is left to a rating with the reach of its verdict counted in; below zero it is not under. */
export function spareKg({ verdict: { margin_kg, reach_kg } }: Judged): number {
  return (margin_kg ?? 0) - reach_kg;
}

/** The known ratings in a state, by the reconciled plan, the one with the least to spare first; none without a plan. */
export function judgedIn(book: Book, state: State, day: string): Judged[] {
  if (book.vehicle?.body.wheelbase_m == null) return [];
  const confidence: number = book.vehicle.body.confidence ?? CONFIDENCE;
  const limits = roomLeft({ book, state, day, confidence, learning: learntOf(book) })?.limits ?? [];
  return limits
    .filter(({ side, limit_kg }) => side === "upper" && limit_kg !== null)
    .map(({ rating, limit_kg, mean_kg, u_kg }) => {
      const found = verdict({ rating, value_kg: mean_kg, u_kg, limit_kg, confidence });
      return { verdict: found, source: "plan", why: null };
    })
    .sort((a, b) => spareKg(a) - spareKg(b));
}

/** The state at an instant as the log has it. */
export function stateAt(book: Book, at: string): State {
  return loggedState({ book, at, levels: levelsAt(book, at) });
}

/** Who sits where and what is coupled, without reading the tanks: quick enough for each touch. */
export function presentAt(book: Book, at: string): State {
  return loggedState({ book, at });
}

export {
  bookSince,
  fuel,
  fuelCorrected,
  fuelWith,
  isRead,
  placeToKeep,
  reach,
  readSlowly,
  recall,
  toKeep,
} from "./consumption";
export { drinkersAt, drinkRates, survivalAt, water } from "./water";
export type { Book, Comparison, Explanation, Guidance, Judged, Row, State };
export { fuelOf, fullState, ROWS, TOLD_U_C };
