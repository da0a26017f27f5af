/** Consumption as it was, over a book's whole fuel log. */
import type { Book } from "@/domain/book";
import { type Cost, costPerDistance } from "@/domain/cost";
import { accuracyOf, type FuelLog } from "@/domain/fuel_log";
import { pooled } from "@/domain/fullfull";
import { type RateThen, ratesOverTime } from "@/domain/past";
import { classOfName, type SurfaceAhead, wholeLog } from "./consumption";

/** One class of ways over the log's own true km. */
export interface ClassThen {
  readonly surface: SurfaceAhead;
  readonly towing: boolean;
  readonly points: readonly RateThen[];
}

/** Consumption as it was: smoothed rates by class, from full tank to full tank, and what a distance cost. */
export interface Past {
  readonly classes: readonly ClassThen[];
  readonly segments: FuelLog["segments"];
  readonly pooled: { readonly mean: number; readonly u: number } | null;
  readonly costs: readonly Cost[];
}

/** Null before the first entry. */
export function pastOf(book: Book): Past | null {
  const log = wholeLog(book);
  if (!log || log.journal.steps.length === 0) return null;
  const rates = ratesOverTime({ log });
  const names = [...new Set(rates.map((one) => one.class_id))];
  const priced = book.fills.filter(({ body }) => body.price);
  const paid = priced.map(({ id, body: { price } }) => [
    id,
    { amount: Number(price.amount), currency: price.currency },
  ]);
  return {
    classes: names.map((class_id) => ({
      ...classOfName(class_id),
      points: rates.filter((one) => one.class_id === class_id),
    })),
    segments: log.segments,
    pooled: pooled({ segments: log.segments, accuracy: accuracyOf({ setup: log.setup }) }),
    costs: costPerDistance({
      ...{ log, fill_ids: book.fills.map(({ id }) => id) },
      paid: Object.fromEntries(paid),
    }),
  };
}
