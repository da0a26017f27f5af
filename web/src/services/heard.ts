/** When the other phones of a book were last heard, and what they then still held: figures here cannot hold more. */
import { heardKey, metaOf, setMeta } from "../store/rows";
import type { RecordRow, UserTables } from "../store/tables";
import type { BookMark, HeardOf, Member, Mutation, Role, SyncAnswer } from "../sync/mutation";

/** A member's other phone; `nth` counts those of one member, null where there is one. */
export interface Heard {
  readonly user: string;
  readonly name: string;
  readonly role: Role;
  readonly nth: number | null;
  readonly at: string;
  /** Entries that it held and the server did not have; null where it did not tell. */
  readonly unsent: number | null;
}

type Told = Pick<HeardOf, "user" | "at" | "unsent">;
type Notes = Readonly<Record<string, Told>>;

const SINCE = "heard_since";
const REPLACED_DAYS = 90; // silent for so long while another of its owner's was heard: taken for replaced (assumed)

/** The books with their checkpoints, and of each how many entries stay here when these mutations are sent. */
export async function marks(tables: UserTables, sent: readonly Mutation[]): Promise<BookMark[]> {
  const waiting = tables.outbox.where("state").equals("waiting");
  const left = new Map<string, number>();
  const more = (book: string) => left.set(book, (left.get(book) ?? 0) + 1);
  if ((await waiting.count()) > sent.length) {
    const now = new Set(sent.map((one) => one.mut));
    await waiting.each((one) => (now.has(one.mut) ? undefined : void more(one.book)));
  }
  for (const book of await tables.attention.orderBy("book").keys()) more(book as string);
  const known = await tables.books.toArray();
  const named = new Map(sent.map((one) => [one.book, 0]));
  for (const { book, checkpoint } of known) named.set(book, checkpoint);
  return [...named].map(([book, checkpoint]) => ({ book, checkpoint, unsent: left.get(book) ?? 0 }));
}

/** Up to when this device knows who was heard, as a request says it. */
export async function heardSince(tables: UserTables): Promise<{ heard_since?: string }> {
  const since = await metaOf<string | null>(tables, SINCE, null);
  return since === null ? {} : { heard_since: since };
}

/** Keep what the server told; `whole` says that no page is still to come. */
export async function takeHeard(
  tables: UserTables,
  { heard, now }: Pick<SyncAnswer, "heard" | "now">,
  whole: boolean,
): Promise<void> {
  for (const book of new Set(heard.map((one) => one.book))) {
    const known = await metaOf<Notes>(tables, heardKey(book), {});
    const fresh = heard
      .filter((one) => one.book === book)
      .map(({ device, user, at, unsent }) => [device, { user, at, unsent }] as const);
    const next = { ...known, ...Object.fromEntries(fresh) };
    if (JSON.stringify(next) !== JSON.stringify(known)) await setMeta(tables, heardKey(book), next);
  }
  // of a book that comes in pages nothing is told before its last one: then all of it is asked for
  await (whole ? setMeta(tables, SINCE, now) : tables.meta.delete(SINCE));
}

/** Nothing of it is known any more: the server came back from a backup. */
export async function forgetHeard({ meta }: UserTables): Promise<void> {
  await meta.where("key").startsWith(heardKey("")).delete();
  await meta.delete(SINCE);
}

/** By member and phone: what the server told, or what came from there later. */
export async function heardOf(
  tables: UserTables,
  { book, records, members }: { book: string; records: readonly RecordRow[]; members: readonly Member[] },
): Promise<Heard[]> {
  const own = await metaOf<string | null>(tables, "device", null);
  const notes = new Map(Object.entries(await metaOf<Notes>(tables, heardKey(book), {})));
  for (const { device, author: user, received_at: at } of records) {
    if (device === own || at === null) continue;
    const known = notes.get(device);
    if (!known || known.at < at) notes.set(device, { user, at, unsent: known?.unsent ?? null });
  }
  return members.flatMap(({ user, name, role }) => {
    const phones = inUse([...notes].filter(([, one]) => one.user === user));
    return phones.map(({ at, unsent }, index) => {
      const nth = phones.length > 1 ? index + 1 : null;
      return { user, name, role, nth, at, unsent };
    });
  });
}

/** The oldest first, for a device's id rises with time. */
function inUse(phones: [string, Told][]): Told[] {
  const last = Math.max(...phones.map(([, { at }]) => Date.parse(at)));
  return phones
    .filter(([, { at, unsent }]) => unsent || last - Date.parse(at) < REPLACED_DAYS * 86_400_000)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([, one]) => one);
}
