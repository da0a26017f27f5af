/** The water log of a book as it was last read: with one more entry only that one is run again. */
import type { Book } from "@/domain/book";
import { waterLogOf } from "@/domain/supplies";
import type { WaterLog } from "@/domain/water_log";

let latest: { readonly book: Book; readonly until: string; readonly log: WaterLog | null } | null = null;

/** The log up to an instant; null without a tank that water is drawn from. */
export function readWater(book: Book, until: string): WaterLog | null {
  if (latest?.book === book && latest.until === until) return latest.log;
  const log = waterLogOf({ book, until, previous: waterBefore(book) });
  latest = { book, until, log };
  return log;
}

/** What a water log of this vehicle may be continued from. */
export function waterBefore(book: Book): WaterLog | null {
  return latest?.book.vehicle?.id === book.vehicle?.id ? (latest?.log ?? null) : null;
}
