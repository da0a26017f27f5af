/** All services of one signed-in user: his database, his records, his outbox. */

import { openUserStore, type StoreEvents, type UserStore } from "../store";
import { type KeptThing, keptOf, metaOf, setMeta } from "../store/rows";
import type { UserTables } from "../store/tables";
import { idSource } from "../sync/ids";
import type { Mutation } from "../sync/mutation";
import type { Refused } from "./attention";
import { type Draft, openDraft } from "./drafts";
import type { Environment } from "./environment";
import { type Live, live } from "./live";
import { createMembers, type Members } from "./members";
import type { Persist } from "./persist";
import { createRecords, type Records } from "./records";
import type { Account, Session } from "./session";
import { createStatus, type Status } from "./status";
import { createSync, type Sync } from "./sync";
import type { Transport } from "./transport";

export interface UserServices {
  readonly account: Account;
  readonly records: Records;
  readonly members: Members;
  readonly status: Status;
  readonly sync: Sync;
  readonly newId: () => string;
  readonly watch: <T>(look: (tables: UserTables) => Promise<T>) => Live<T>;
  /** Remembers which vehicle was open last, for the shortcuts. */
  readonly noteOpened: (book: string) => Promise<void>;
  readonly lastOpened: () => Promise<string | null>;
  /** What was reckoned of a book and kept for its next opening. */
  readonly kept: <T>(book: string, what: KeptThing) => Promise<T | null>;
  readonly keep: (book: string, what: KeptThing, value: unknown) => Promise<void>;
  /** Everything of this user that the server does not have, in the form in which it travels. */
  readonly unsent: () => Promise<Unsent>;
  readonly draft: <T>(key: string) => Draft<T>;
  /** Stops everything and closes the database. */
  readonly close: () => void;
  /** The same, and nothing of this user stays on the device. */
  readonly forget: () => Promise<void>;
}

export interface Unsent {
  readonly mutations: readonly Mutation[];
  readonly refused: readonly Refused[];
}

export interface UserParts {
  readonly account: Account;
  readonly environment: Environment;
  readonly transport: Transport;
  readonly session: Session;
  readonly persist: Persist;
  readonly events: StoreEvents;
}

export function openUser({
  account,
  environment,
  transport,
  session,
  persist,
  events,
}: UserParts): UserServices {
  const store = openUserStore(environment.engine, account.id, events);
  const nextId = idSource(environment.nowMs, environment.bytes);
  const device = once(() => deviceOf(store, nextId));
  const sync = createSync({ store, account, device, session, transport, environment });
  const status = createStatus(store, account, sync);
  const onSaved = () => {
    void persist.afterSave();
    void sync.wake();
  };
  const close = () => {
    sync.stop();
    status.stop();
    store.close();
  };
  return {
    account,
    records: createRecords({ store, user: account.id, device, nextId, environment, onSaved }),
    members: createMembers(transport),
    status,
    sync,
    newId: nextId,
    watch: (look) => live(store, look),
    noteOpened: (book) => store.change((tables) => setMeta(tables, "last_opened", book)),
    lastOpened: () => store.read((tables) => metaOf<string | null>(tables, "last_opened", null)),
    kept: <T>(book: string, what: KeptThing) =>
      store.read((tables) => metaOf<T | null>(tables, keptOf(book, what), null)),
    keep: (book, what, value) => store.change((tables) => setMeta(tables, keptOf(book, what), value)),
    unsent: () =>
      store.read(async (tables) => ({
        mutations: (await tables.outbox.orderBy("device_seq").toArray()).filter(
          (one) => one.state === "waiting",
        ),
        refused: await tables.attention.toArray(),
      })),
    draft: (key) => openDraft(store, environment, key),
    close,
    forget: async () => {
      close();
      await store.delete();
    },
  };
}

/** This database's name at the server. A cleared browser makes a new one, so that no number is used twice. */
async function deviceOf(store: UserStore, nextId: () => string): Promise<string> {
  const fresh = nextId();
  return store.change(async (tables) => {
    const known = await metaOf<string | null>(tables, "device", null);
    if (known === null) await setMeta(tables, "device", fresh);
    return known ?? fresh;
  });
}

/** Asked once; asked again only if it failed. */
function once<T>(ask: () => Promise<T>): () => Promise<T> {
  let answer: Promise<T> | null = null;
  return () => {
    answer ??= ask().catch((error) => {
      answer = null;
      throw error;
    });
    return answer;
  };
}
