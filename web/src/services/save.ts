/** Saving: the entry and its place in the outbox in one transaction, reported once it is on the disk. */

import type { UserStore } from "../store";
import { takeSeqs } from "../store/rows";
import type { UserTables } from "../store/tables";
import { type Body, type Mutation, SCHEMA } from "../sync/mutation";
import { refoldAll } from "./answer";
import { type Environment, instant } from "./environment";

/** Something to be kept: a new record, or the changed fields of one. */
export interface Saving {
  readonly book: string;
  readonly kind: string;
  readonly id: string;
  readonly body: Body;
  /** The revision that an edit started from, as the form was opened on it; null for a new record. */
  readonly base_rev: string | null;
}

export interface SavingParts {
  readonly store: UserStore;
  readonly user: string;
  readonly device: () => Promise<string>;
  readonly nextId: () => string;
  readonly environment: Pick<Environment, "nowMs" | "utcOffsetMin">;
}

/**
 * Keep all of it or nothing. A new record whose id is there already was saved by the first of two taps: it is left
 * alone. An edit from a revision that is not at hand starts from the one shown. Nothing resolves before the commit.
 */
export async function saveAll(parts: SavingParts, list: readonly Saving[], draft?: string): Promise<void> {
  const { store, user, nextId, environment } = parts;
  const now_ms = environment.nowMs();
  const device = await parts.device();
  const said = { made_at: instant(now_ms), utc_offset_min: environment.utcOffsetMin(), schema: SCHEMA };
  const muts = list.map(nextId);
  await store.change(async (tables) => {
    const first = await takeSeqs(tables, list.length);
    const mutations: Mutation[] = [];
    for (const [index, { book, kind, id, body, base_rev }] of list.entries()) {
      const base = await baseOf(tables, { book, id, base_rev });
      if (base === "saved before") continue;
      const mutation = { mut: muts[index] as string, book, kind, id, base_rev: base, body };
      mutations.push({ ...mutation, ...said, device_seq: first + index });
    }
    await tables.outbox.bulkPut(mutations.map((one) => ({ ...one, state: "waiting" as const })));
    await refoldAll(tables, mutations, { user, device, now_ms });
    if (draft !== undefined) await tables.drafts.delete(draft);
  });
}

async function baseOf(
  tables: UserTables,
  { book, id, base_rev }: Pick<Saving, "book" | "id" | "base_rev">,
): Promise<string | null | "saved before"> {
  const shown = await tables.records.get([book, id]);
  if (base_rev === null) return shown === undefined ? null : "saved before";
  const known = shown?.rev === base_rev || (await tables.versions.get(base_rev)) !== undefined;
  return known ? base_rev : (shown?.rev ?? base_rev);
}
