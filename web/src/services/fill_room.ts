/** What a fill that is being typed does to the ratings. */
import type { Book } from "../domain/book";
import { type FillRoom, fillRoom } from "../domain/fill_room";
import { CONFIDENCE } from "../domain/limits";
import type { State } from "../domain/state";
import { learntOf } from "./answers";

/** A fill that is asked about: into which tank, and what goes into the others at the same stop. */
export interface Filling {
  readonly tank_id: string;
  readonly litres_l: Readonly<Record<string, number>>;
}

/** Litres that may go into a tank until the first rating goes over; null where the plan does not reach the state. */
export function fillIn(
  book: Book,
  state: State,
  day: string,
  { tank_id, litres_l }: Filling,
): FillRoom | null {
  if (book.vehicle?.body.wheelbase_m == null) return null;
  const confidence: number = book.vehicle.body.confidence ?? CONFIDENCE;
  const tanks = state.tanks.map((one) => {
    const litres = one.tank_id === tank_id ? 0 : (litres_l[one.tank_id] ?? 0);
    const capacity: number = book.tanks.find(({ id }) => id === one.tank_id)?.body.capacity_l ?? Infinity;
    return { ...one, level: Math.min(one.level + litres / capacity, 1) };
  });
  const asked = { tank_id, litres_l: litres_l[tank_id] ?? 0, confidence, learning: learntOf(book) };
  return fillRoom({ book, state: { ...state, tanks }, day, ...asked });
}

export type { FillRoom };
