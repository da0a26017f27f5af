/** Takes the server's answer into the database, inside one transaction. */

import {
  dropBook,
  metaOf,
  putRows,
  queueOfBook,
  queueOfRecords,
  setAside,
  setMeta,
  takeSeqs,
  versionsOf,
} from "../store/rows";
import type { UserTables } from "../store/tables";
import {
  type Answer,
  type BookNews,
  type Mutation,
  SCHEMA,
  type SyncAnswer,
  type Version,
} from "../sync/mutation";
import { type Attention, inOrder, type Queued, settle, withdrawn } from "../sync/outbox";
import { byRecord, grouped, pull, refold, touched } from "../sync/pull";
import { offerAgain } from "../sync/restore";
import { instant } from "./environment";
import { forgetHeard, takeHeard } from "./heard";

/** Whose database it is, which device's, and when. */
export interface Here {
  readonly user: string;
  readonly device: string;
  readonly now_ms: number;
}

export interface Taken {
  /** Not to be sent again in this round. */
  readonly held: readonly string[];
  /** Some book has more news. */
  readonly more: boolean;
  /** The server came back from a backup: everything is read anew. */
  readonly restored: boolean;
}

/** A clock that is off by more than this is said. */
const CLOCK_OFF_MS = 5 * 60_000;

export async function takeAnswer(tables: UserTables, answer: SyncAnswer, here: Here): Promise<Taken> {
  const waiting = await takeOutcomes(tables, answer.answers, here);
  if (await isRestored(tables, answer.generation)) {
    await startAgain(tables, here);
    return { held: waiting, more: true, restored: true };
  }
  for (const book of answer.gone) await loseBook(tables, book, here);
  for (const news of answer.books) await takeNews(tables, news, here);
  const more = answer.books.some((one) => one.more);
  await takeHeard(tables, answer, !more);
  await setMeta(tables, "synced_at", instant(here.now_ms));
  const off = here.now_ms - Date.parse(answer.now);
  await setMeta(tables, "clock_off_ms", Math.abs(off) > CLOCK_OFF_MS ? off : 0);
  return { held: waiting, more, restored: false };
}

async function takeOutcomes(
  tables: UserTables,
  answers: readonly Answer[],
  here: Here,
): Promise<readonly string[]> {
  if (answers.length === 0) return [];
  const refused = answers.some((one) => one.outcome === "rejected");
  const muts = answers.flatMap((one) => one.mut ?? []);
  const queue = refused ? await tables.outbox.toArray() : (await tables.outbox.bulkGet(muts)).filter(isThere);
  const { kept, waiting, attention } = settle({ queue, answers, at: instant(here.now_ms) });
  const byMut = new Map(queue.map((one) => [one.mut, one]));
  await tables.outbox.bulkPut(kept.map((mut) => ({ ...(byMut.get(mut) as Queued), state: "kept" as const })));
  await putAside(tables, attention, here);
  return waiting;
}

async function putAside(tables: UserTables, attention: readonly Attention[], here: Here): Promise<void> {
  if (attention.length === 0) return;
  await setAside(tables, attention);
  await refoldAll(
    tables,
    attention.map((one) => one.mutation),
    here,
  );
}

async function takeNews(tables: UserTables, news: BookNews, { user, device }: Here): Promise<void> {
  const { book, role, checkpoint, members } = news;
  const came = await tables.outbox.bulkGet(news.versions.map((one) => one.rev));
  const kept = await tables.outbox.where("state").equals("kept").toArray();
  const own = [...came.filter(isThere), ...kept.filter((one) => one.book === book)];
  const ids = touched(news, own);
  const pending = await queueOfRecords(tables, book, ids);
  const queue = [...new Map([...own, ...pending].map((one) => [one.mut, one])).values()];
  const known = await versionsOf(tables, book, ids);
  const rows = pull({ news, queue, known, author: user, device });
  await putRows(tables, book, rows);
  await tables.outbox.bulkDelete([...rows.returned]);
  await tables.books.put({ book, role, checkpoint, members });
}

/** A book that is no longer shared: what came from the server goes, what was not sent is put before its author. */
async function loseBook(tables: UserTables, book: string, here: Here): Promise<void> {
  const error = { code: "gone", message: "", fields: {} };
  await setAside(tables, withdrawn(await queueOfBook(tables, book), error, instant(here.now_ms)));
  await tables.outbox.bulkDelete((await queueOfBook(tables, book)).map((one) => one.mut));
  await dropBook(tables, book);
}

async function isRestored(tables: UserTables, generation: string): Promise<boolean> {
  const known = await metaOf<string | null>(tables, "generation", null);
  if (known !== generation) await setMeta(tables, "generation", generation);
  return known !== null && known !== generation;
}

/** The server came back from a backup: read everything anew, and offer it what it may have lost. */
async function startAgain(tables: UserTables, here: Here): Promise<void> {
  const log = (await tables.records.toArray()).filter((one) => one.seq > 0);
  const plan = await tables.versions.toArray();
  const versions = [...new Map([...log, ...plan].map((one) => [one.rev, one])).values()];
  const first_seq = await takeSeqs(tables, versions.length);
  const offered = offerAgain({ versions, author: here.user, first_seq, schema: SCHEMA });
  const there = new Set(await tables.outbox.toCollection().primaryKeys());
  const fresh = offered.filter((one) => !there.has(one.mut));
  await tables.outbox.bulkPut(fresh.map((one) => ({ ...one, state: "waiting" as const })));
  for (const table of [tables.records, tables.versions, tables.books]) await table.clear();
  await forgetHeard(tables);
  await refoldAll(tables, await tables.outbox.toArray(), here);
}

/** The rows of records anew from what is known of them and what is on its way. */
export async function refoldAll(tables: UserTables, of: readonly Mutation[], here: Here): Promise<void> {
  for (const [book, touched] of grouped(of, (one) => one.book))
    await refoldBook(tables, book, [...byRecord(touched).keys()], here);
}

/** The rows of records of which nothing was known before: there is nothing to look up. */
export async function showNew(tables: UserTables, made: readonly Mutation[], here: Here): Promise<void> {
  for (const [book, mutations] of grouped(made, ({ book }) => book))
    await putFolded(tables, book, byRecord(mutations), new Map(), here);
}

/** All records of one book at once: a list that comes in has thousands. */
async function refoldBook(
  tables: UserTables,
  book: string,
  ids: readonly string[],
  here: Here,
): Promise<void> {
  const queue = byRecord(inOrder(await queueOfRecords(tables, book, ids)));
  const known = byRecord(await versionsOf(tables, book, ids));
  await putFolded(tables, book, new Map(ids.map((id) => [id, queue.get(id) ?? []])), known, here);
}

/** Record -> what is on its way of it, folded onto its known versions. */
async function putFolded(
  tables: UserTables,
  book: string,
  pending: ReadonlyMap<string, readonly Mutation[]>,
  known: ReadonlyMap<string, readonly Version[]>,
  { user, device }: Here,
): Promise<void> {
  const rows = [...pending].map(([id, own]) =>
    refold({ id, versions: known.get(id) ?? [], pending: own, author: user, device }),
  );
  await putRows(tables, book, {
    shown: rows.flatMap((one) => one.shown),
    removed: rows.flatMap((one) => one.removed),
    versions: rows.flatMap((one) => one.versions),
    dropped: rows.flatMap((one) => one.dropped),
  });
}

function isThere<T>(one: T | undefined): one is T {
  return one !== undefined;
}
