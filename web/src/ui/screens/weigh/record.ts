/** From a visit and the state of the day to the weighing that is saved. Pure. */
import type { Book, Row, State } from "@/services/answers";
import { repeatOf, type Visit } from "./visit";

export interface BridgeFacts {
  readonly name: string;
  readonly interval_kg: number | null;
}

export interface WeighingParts {
  readonly visit: Visit;
  readonly at: string;
  readonly zone: string;
  readonly bridge: BridgeFacts;
  readonly ticket: string;
  readonly state: State | null;
  readonly confirmed: boolean;
  readonly book: Book;
}

/** The body of a weighing record (the contract's `weighing`). */
export function weighingBody(parts: WeighingParts): Row["body"] {
  const { visit, bridge, state, book } = parts;
  return {
    at: parts.at,
    zone: parts.zone,
    bridge: {
      form: "single_deck",
      accuracy_class: "III",
      interval_kg: bridge.interval_kg ?? guessedInterval(visit),
      settled_by: bridge.interval_kg === null ? "guessed_from_readings" : "confirmed",
      ...(bridge.name ? { name: bridge.name } : {}),
    },
    readings: visit.readings.map((one) => ({
      id: one.id,
      on_deck: one.on_deck,
      value_kg: one.value_kg,
      as_typed: { value_kg: one.typed },
      split: one.on_deck.length === 1,
      repeat_of: repeatOf(visit.readings, one),
      struck_out: one.struck_out,
    })),
    state: state ? stateCopy(book, state, parts.confirmed) : null,
    ...(parts.ticket ? { ticket_number: parts.ticket } : {}),
  };
}

/** The bridge's interval as the figures suggest it: the largest usual step that divides them all. */
export function guessedInterval(visit: Visit): number {
  const values = visit.readings.filter((one) => !one.struck_out).map((one) => one.value_kg);
  const fits = (step: number) =>
    values.every((value) => Math.abs(value / step - Math.round(value / step)) < 1e-6);
  return [20, 10, 5, 2, 1].find(fits) ?? 1;
}

function stateCopy(book: Book, state: State, confirmed: boolean): Row["body"] {
  const away = new Set(state.items_away);
  const plan = [book.vehicle, ...book.items, ...book.tanks, ...book.seats, ...book.plates];
  return {
    settled_by: confirmed ? "confirmed" : "as_logged",
    tanks: state.tanks,
    seats: state.seats,
    items: book.items.map((item) => ({ item_id: item.id, aboard: !away.has(item.id) })),
    trailers: [],
    plan: plan.flatMap((row) => (row ? [{ id: row.id, rev: row.rev }] : [])),
  };
}
