/** A reading's stop in words, with the names of who was out. */
import type { Book, State } from "@/services/answers";
import { stopText, words } from "@/ui/text/weigh";

/** The axles of a reading as the deck names them: a trailer's are one, coupled or not. */
export function deckAxles(axles: readonly string[]): string[] {
  return axles.map((axle) => (axle === "trailer_axles" ? "trailer" : axle));
}

export interface StopRead {
  readonly on_deck: readonly string[];
  readonly differs?: { readonly uncoupled?: boolean; readonly seats_empty?: readonly string[] } | null;
}

export function stopTold(book: Book, seats: State["seats"], { on_deck, differs }: StopRead): string {
  const out = (differs?.seats_empty ?? []).map((id) => occupant(book, seats, id));
  return stopText(on_deck, differs?.uncoupled ?? false, out);
}

/** Who sits there, or else the seat's own name: not everyone who reads a book sees its people. */
export function occupant(book: Book, seats: State["seats"], seat_id: string): string {
  const person_id = seats.find((load) => load.seat_id === seat_id)?.person_id ?? null;
  const person = book.people.find((one) => one.id === person_id);
  const seat = book.seats.find((one) => one.id === seat_id);
  return person?.body.name ?? seat?.body.name ?? words.state.someone;
}
