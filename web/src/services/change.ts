/** The least change of a book in a state: the question for the solver, and its answer read. */
import type { Advice } from "../domain/advice";
import type { Book } from "../domain/book";
import { keptAboard, type Refused, usualWaterReserve, WATER_DAYS, WATER_L } from "../domain/change_options";
import { stateOf } from "../domain/day";
import {
  type LeastChange,
  type Move,
  type Posed,
  poseChange,
  readChange,
  type Wishes,
} from "../domain/least_change";
import { reckoned } from "../domain/plan";
import { ratingsOf } from "../domain/plates";
import type { State } from "../domain/state";
import { learntOf } from "./answers";

/** A question of a state, with what it leaves out: ratings that nobody has entered. */
export interface Question extends Posed {
  readonly state: State;
  readonly unknown: readonly string[];
}

const ROWS = ["front", "rear", "gross"];
const TOWED = ["coupling", "trailer_axles", "trailer", "combination"];

/** The question of a state; null where the plan does not reach it. `session` is the weighing whose state it is. */
export function questionOf(
  book: Book,
  state: State,
  day: string,
  session: string | null,
  wishes: Wishes,
): Question | null {
  if (!reckoned({ book, state })) return null;
  const posed = poseChange({ book, state, learning: learntOf(book), day, session, wishes });
  const trailer_id = state.trailers_on[0] ?? null;
  const rows = trailer_id === null ? ROWS : [...ROWS, ...TOWED];
  const unknown = ratingsOf({ book, day, trailer_id })
    .filter((one) => one.limit_kg === null && rows.includes(one.rating))
    .map((one) => one.rating);
  return { ...posed, state, unknown };
}

/** The moves, and every rating before and after them. */
export function answerOf(posed: Posed, advice: Advice): LeastChange {
  return readChange({ posed, advice });
}

/** The state that a weighing was made in; null where there is no such weighing. */
export function weighedState(book: Book, weighing_id: string): State | null {
  const weighing = book.weighings.find((one) => one.id === weighing_id);
  return weighing ? stateOf({ book, weighing }) : null;
}

/** Litres of drinking water that stay unless somebody says otherwise. */
export function usualReserve(book: Book, state: State): number {
  return usualWaterReserve({ book, state });
}

/** The names of what is aboard in a state and kept there. */
export function keptNames({ items }: Book, { items_away, trailers_on }: State): string[] {
  const aboard = items.filter(({ id, body: { stage, taken_off, trailer_id } }) => {
    const fitted = (stage || "fitted") === "fitted" && !taken_off;
    return fitted && !items_away.includes(id) && (!trailer_id || trailers_on.includes(trailer_id));
  });
  return aboard.filter(({ body }) => keptAboard({ item: body }).kept).map(({ body }) => body.name);
}

export type { LeastChange, Move, Refused, Wishes };
export { keptAboard, WATER_DAYS, WATER_L };
