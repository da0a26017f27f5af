/** The records of the book that was read last, so that after a change only what has changed is read again. */
import Dexie, { type IntervalTree } from "dexie";
import { recordsOf, wholeBook } from "./rows";
import type { RecordRow, UserTables } from "./tables";

type Tables = Pick<UserTables, "records">;

interface Held {
  readonly tables: Tables;
  readonly book: string;
  /** In the order of their ids; null until they have been read. */
  rows: readonly RecordRow[] | null;
  /** Ids of records that have changed since, with a number that grows with each change. */
  readonly changed: Map<string, number>;
}

let held: Held | null = null;
let changes = 0;
/** With more changes than these all are read. */
const MANY = 200;

// the library says after each commit, of this tab or another, which keys it touched: live queries rest on the same
Dexie.on("storagemutated", (parts) => {
  if (!held) return;
  const place = `idb://${held.tables.records.db.name}/records/`;
  for (const part of ["all", place, `${place}:dels`]) if (parts[part]) note(parts[part]);
});

/** Notes each key of a set; a set that is not made of single keys may be anything. */
function note(tree: IntervalTree): void {
  if (!("from" in tree) || !held) return;
  const { from, to, l, r } = tree;
  const [first, last] = [from, to].map((key): unknown[] => (Array.isArray(key) ? [...key] : []));
  const [book, id] = first!;
  if (typeof id !== "string" || book !== last![0] || id !== last![1]) {
    held = null;
    return;
  }
  if (book === held.book) {
    changes += 1;
    held.changed.set(id, changes);
  }
  if (l) note(l);
  if (r) note(r);
}

/** As `recordsOf`, inside a transaction that only reads. */
export async function heldRecordsOf(tables: Tables, book: string): Promise<readonly RecordRow[]> {
  if (held?.tables !== tables || held.book !== book || held.changed.size > MANY)
    held = { tables, book, rows: null, changed: new Map() };
  const entry = held;
  const noted = new Map(entry.changed);
  if (!entry.rows) {
    const rows = await recordsOf(tables, book);
    if (!entry.rows) {
      entry.rows = rows;
      settle(entry, noted);
    }
    return rows;
  }
  const ids = [...noted.keys()];
  const [found, count] = await Promise.all([
    ids.length > 0 ? tables.records.bulkGet(ids.map((id) => [book, id])) : [],
    tables.records
      .where("[book+id]")
      .between(...wholeBook(book))
      .count(),
  ]);
  const now = settle(entry, noted);
  for (const [k, id] of ids.entries()) if (now.has(id)) entry.rows = replaced(entry.rows, id, found[k]);
  if (entry.rows.length === count) return entry.rows;
  held = null;
  return recordsOf(tables, book);
}

/** Those of the changes noted at the beginning that nobody has noted again or read meanwhile; they are noted no longer. */
function settle({ changed }: Held, noted: ReadonlyMap<string, number>): ReadonlySet<string> {
  const done = new Set<string>();
  for (const [id, number] of noted)
    if (changed.get(id) === number) {
      changed.delete(id);
      done.add(id);
    }
  return done;
}

/** The list with one record in its place, or without it. */
function replaced(rows: readonly RecordRow[], id: string, row: RecordRow | undefined): readonly RecordRow[] {
  let [low, high] = [0, rows.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (rows[middle]!.id < id) low = middle + 1;
    else high = middle;
  }
  const next = rows.slice();
  next.splice(low, rows[low]?.id === id ? 1 : 0, ...(row ? [row] : []));
  return next;
}
