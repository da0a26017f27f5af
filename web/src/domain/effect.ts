/** What one entry of the fuel log changes of the answer: for an entry that came late. */
import type { Book, Row } from "./book";
import { Unknown } from "./errors";
import { fuelAnswer, type Ranges } from "./fuel_answer";
import type { FuelLog } from "./fuel_log";
import type { Mix } from "./remain";
import { fuelLogOf } from "./supplies";

/** What stood without the entry, and what stands with it. */
export interface Effect {
  readonly before: Ranges;
  readonly after: Ranges;
}

export interface EntryEffect {
  readonly book: Book;
  readonly entry_id: string;
  readonly mix: Mix;
  readonly p?: number;
  /** As in `fuelLogOf`. */
  readonly previous?: FuelLog | null;
}

/** The answer of a book's fuel log without one of its entries and with it; null where there is no log. */
export function entryEffect({ book, entry_id, mix, p = 0.95, previous = null }: EntryEffect): Effect | null {
  const { fills, dips, transfers, events } = book;
  const ids = [fills, dips, transfers, events].flatMap((rows) => rows.map((row) => row.id));
  if (!ids.includes(entry_id)) throw new Unknown("entry_id", entry_id, ids);
  const but = (rows: readonly Row[]) => rows.filter((row) => row.id !== entry_id);
  const lists = { fills: but(fills), dips: but(dips), transfers: but(transfers), events: but(events) };
  const [before, after] = [{ ...book, ...lists }, book].map((one) => {
    const log = fuelLogOf({ book: one, previous });
    return log && fuelAnswer({ log, mix, p }).stands;
  });
  return before && after ? { before, after } : null;
}
