/** Reading and writing rows inside a transaction; nothing here opens one. */
import Dexie from "dexie";
import type { Version } from "../sync/mutation";
import type { Attention, Queued } from "../sync/outbox";
import type { Rows } from "../sync/pull";
import type { AttentionRow, RecordRow, UserTables } from "./tables";

type Tables = UserTables;

/** The range of the keys of a book's rows. */
export function wholeBook(book: string): [unknown, unknown] {
  return [
    [book, Dexie.minKey],
    [book, Dexie.maxKey],
  ];
}

export function recordsOf({ records }: Pick<Tables, "records">, book: string): Promise<RecordRow[]> {
  const [from, to] = wholeBook(book);
  return records.where("[book+id]").between(from, to).toArray();
}

export function recordsOfKind({ records }: Pick<Tables, "records">, kind: string): Promise<RecordRow[]> {
  return records.where("kind").equals(kind).toArray();
}

export function versionsOfBook({ versions }: Pick<Tables, "versions">, book: string): Promise<Version[]> {
  const [from, to] = wholeBook(book);
  return versions.where("[book+id]").between(from, to).toArray();
}

/** The versions of some records of a book. */
export function versionsOf(tables: Pick<Tables, "versions">, book: string, ids: readonly string[]) {
  const keys = ids.map((id) => [book, id]);
  return tables.versions.where("[book+id]").anyOf(keys).toArray();
}

export function queueOfBook({ outbox }: Pick<Tables, "outbox">, book: string): Promise<Queued[]> {
  const [from, to] = wholeBook(book);
  return outbox.where("[book+id]").between(from, to).toArray();
}

/** What is on its way of some records of a book. */
export function queueOfRecords(
  { outbox }: Pick<Tables, "outbox">,
  book: string,
  ids: readonly string[],
): Promise<Queued[]> {
  return outbox
    .where("[book+id]")
    .anyOf(ids.map((id) => [book, id]))
    .toArray();
}

/** The front of the outbox, in the order of recording. */
export function queueFront({ outbox }: Pick<Tables, "outbox">, length: number): Promise<Queued[]> {
  return outbox
    .orderBy("device_seq")
    .filter((one) => one.state === "waiting")
    .limit(length)
    .toArray();
}

export async function putRows(
  tables: Pick<Tables, "records" | "versions">,
  book: string,
  rows: Rows,
): Promise<void> {
  const shown = rows.shown.map(({ version, pending, order }) => ({ ...version, pending, order }));
  await tables.records.bulkPut(shown);
  await tables.records.bulkDelete(rows.removed.map((id) => [book, id]));
  await tables.versions.bulkPut([...rows.versions]);
  await tables.versions.bulkDelete([...rows.dropped]);
}

export async function setAside(
  tables: Pick<Tables, "outbox" | "attention">,
  list: readonly Attention[],
): Promise<void> {
  const rows: AttentionRow[] = list.map((one) => ({ ...one, book: one.mutation.book }));
  await tables.attention.bulkPut(rows);
  await tables.outbox.bulkDelete(list.map((one) => one.mut));
}

/** Everything of a book that came from the server; what a person typed and was not sent is elsewhere. */
export async function dropBook(tables: Tables, book: string): Promise<void> {
  const [from, to] = wholeBook(book);
  await tables.records.where("[book+id]").between(from, to).delete();
  await tables.versions.where("[book+id]").between(from, to).delete();
  await tables.books.delete(book);
  await tables.meta.bulkDelete([keptOf(book, "answer"), keptOf(book, "place"), heardKey(book)]);
}

/** What is reckoned of a book and kept for its next opening. */
export type KeptThing = "answer" | "place";

/** Where it is kept. */
export function keptOf(book: string, what: KeptThing): string {
  return what === "answer" ? `kept:${book}` : `place:${book}`;
}

/** Where it is kept when the other devices of a book were last heard. */
export function heardKey(book: string): string {
  return `heard:${book}`;
}

export async function metaOf<T>({ meta }: Pick<Tables, "meta">, key: string, otherwise: T): Promise<T> {
  return ((await meta.get(key))?.value as T | undefined) ?? otherwise;
}

export async function setMeta({ meta }: Pick<Tables, "meta">, key: string, value: unknown): Promise<void> {
  await meta.put({ key, value });
}

/** The next numbers in this device's order of recording; returns the first of them. */
export async function takeSeqs(tables: Pick<Tables, "meta">, count: number): Promise<number> {
  const first = (await metaOf(tables, "device_seq", 0)) + 1;
  await setMeta(tables, "device_seq", first + count - 1);
  return first;
}
