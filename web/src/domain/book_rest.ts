/** A book's fuel log gone on from a place near its end, after it has been made sure that the book is the same up to there. */
import { alike, FILL_S, ODOMETER_KM } from "./alike";
import type { Book, Row } from "./book";
import type { FuelEntry } from "./entries";
import type { FuelLog, FuelSetup } from "./fuel_log";
import { goOn, type Rest, restOf } from "./fuel_rest";
import { fuelEntries, seconds } from "./log_rows";

/** A rest, and which rows of which lists lie before it. */
export interface BookRest {
  readonly rest: Rest;
  /** How many of the fills, levels, transfers and events, and their names. */
  readonly counts: readonly number[];
  readonly text: string;
  /** What somebody has answered, each by id and revision. */
  readonly kept: readonly string[];
}

/** Where the log of a book may be gone on from once it has been read whole; null where there is no such place. */
export function bookRestOf({ book, log }: { readonly book: Book; readonly log: FuelLog }): BookRest | null {
  const known = RESTS.get(log);
  if (known) return known;
  const rest = restOf(log);
  if (!rest) return null;
  const { at_s } = rest.end;
  const counts: number[] = [];
  for (const rows of listsOf(book)) {
    let count = rows.length;
    while (count > 0 && seconds(rows[count - 1]!.body.at) > at_s) count--;
    if (rows.slice(0, count).some((row) => seconds(row.body.at) > at_s)) return null;
    counts.push(count);
  }
  return { rest, counts, text: textOf(listsOf(book), counts), kept: book.kept.map(nameOf) };
}

/** The place that a log was gone on from, to go on from it again. */
const RESTS = new WeakMap<FuelLog, BookRest>();

/** Where a log was gone on from; null for one that was read from its beginning. */
export function restBehind(log: FuelLog): BookRest | null {
  return RESTS.get(log) ?? null;
}

/** What a book says of its fuel beside the rows before a place; null where those are others now. */
export function beyondPlace({ book, rest }: { readonly book: Book; readonly rest: BookRest }): string | null {
  const lists = listsOf(book);
  if (lists.some((rows, k) => rows.length < rest.counts[k]!) || !isSame(lists, rest)) return null;
  const later = lists.map((rows, k) => rows.slice(rest.counts[k]!)) as Four<Row[]>;
  const all = later.map((rows) => rows.length);
  return `${rest.counts.join()} ${textOf(later, all)} ${textOf([book.kept, [], [], []], [book.kept.length, 0, 0, 0])}`;
}

export interface GoOnBook {
  readonly book: Book;
  readonly until?: string | null;
  /** Without what it says of single entries. */
  readonly setup: FuelSetup;
  readonly rest: BookRest;
}

/** The fuel log of a book of which a part is known; null where anything of that part may be another now. */
export function goOnBook({ book, until = null, setup, rest }: GoOnBook): FuelLog | null {
  const { counts, kept } = rest;
  const lists = listsOf(book);
  if (lists.some((rows, k) => rows.length < counts[k]!)) return null;
  const last = lists.map((rows, k) => rows[counts[k]! - 1]?.body.at ?? "");
  if (until !== null && last.some((at) => at > until)) return null;
  if (!isSame(lists, rest)) return null;
  const [fills, dips, transfers, events] = lists.map((rows, k) => rows.slice(counts[k]!)) as Four<Row[]>;
  const fresh = new Set([fills, dips, transfers, events].flatMap((rows) => rows.map((row) => row.id)));
  if (!isAnsweredAlike(book, lists, fresh, kept)) return null;
  const entries = fuelEntries({ book: { ...book, fills, dips, transfers, events }, until });
  const pairs = alikeOf(book, rest, fills, transfers).filter((one) => fresh.has(one.second_id));
  const answers = {
    confirmed: book.kept.map(({ body }) => body.of_id),
    alike: Object.fromEntries(pairs.map((one) => [one.second_id, one.first_id])),
  };
  const log = goOn({ setup: { ...setup, ...answers }, entries: entries as FuelEntry[], rest: rest.rest });
  if (log) RESTS.set(log, rest);
  return log;
}

type Four<T> = [T, T, T, T];

function listsOf({ fills, dips, transfers, events }: Book): Four<readonly Row[]> {
  return [fills, dips, transfers, events];
}

/** Whether nobody has answered, or taken back an answer, about an entry before the place. */
function isAnsweredAlike(
  { kept: now }: Book,
  lists: Four<readonly Row[]>,
  fresh: ReadonlySet<string>,
  kept: readonly string[],
): boolean {
  const names = new Set(now.map(nameOf));
  if (!kept.every((name) => names.has(name))) return false;
  const before = new Set(kept);
  const more = now.filter((row) => !before.has(nameOf(row)) && !fresh.has(row.body.of_id));
  return more.every(({ body }) => !lists.some((rows) => rows.some((row) => row.id === body.of_id)));
}

/** Pairs among the new rows and all that may be like one of them. */
function alikeOf(book: Book, { counts }: BookRest, fills: readonly Row[], transfers: readonly Row[]) {
  const first_s = Math.min(...[...fills, ...transfers].map((row) => seconds(row.body.at)));
  const since_s = first_s - 2 * FILL_S;
  const shown = fills.map((row) => row.body.odometer_km ?? Number.NaN).filter((km) => !Number.isNaN(km));
  const [low, high] = [Math.min(...shown) - 2 * ODOMETER_KM, Math.max(...shown) + 2 * ODOMETER_KM];
  const near = book.fills.slice(0, counts[0]!).filter(({ body }) => {
    const km: number | null = body.odometer_km ?? null;
    return km !== null && km >= low && km <= high;
  });
  const lately = (rows: readonly Row[], count: number) => {
    let from = count;
    while (from > 0 && seconds(rows[from - 1]!.body.at) >= since_s) from--;
    return rows.slice(from, count);
  };
  const others = lately(book.fills, counts[0]!).filter((row) => !near.includes(row));
  const moved = [...lately(book.transfers, counts[2]!), ...transfers];
  return alike({ book: { ...book, fills: [...near, ...others, ...fills], transfers: moved, waters: [] } });
}

function nameOf({ id, rev }: Row): string {
  return `${id} ${rev}`;
}

/** Ids, revisions and order of recording of the first rows of each list. */
function textOf(lists: Four<readonly Row[]>, counts: readonly number[]): string {
  return lists
    .map((rows, k) => rows.slice(0, counts[k]!).map(({ id, rev, order = 0 }) => `${id} ${rev} ${order}`))
    .map((names) => names.join("\n"))
    .join("\n\n");
}

/** Whether the rows before the place are those of then; once that is known, it is enough that they are the same objects. */
function isSame(lists: Four<readonly Row[]>, rest: BookRest): boolean {
  const { counts, text } = rest;
  const known = CHECKED.get(rest);
  const same = (rows: readonly Row[], k: number) => {
    const before = known![k]!;
    for (let n = 0; n < counts[k]!; n++) if (rows[n] !== before[n]) return false;
    return true;
  };
  if (known && lists.every(same)) return true;
  if (textOf(lists, counts) !== text) return false;
  CHECKED.set(rest, lists);
  return true;
}

const CHECKED = new WeakMap<BookRest, Four<readonly Row[]>>();
