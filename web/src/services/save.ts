/** Saving: the entry and its place in the outbox in one transaction, reported once it is on the disk. */

import type { UserStore } from "../store";
import { takeSeqs } from "../store/rows";
import type { RecordRow, UserTables } from "../store/tables";
import { type Body, type Mutation, SCHEMA } from "../sync/mutation";
import { refoldAll, showNew } from "./answer";
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

/** How many of all are written; they count once all are. */
export type Progress = (done: number, all: number) => void;

/** A list is written in stretches, each told of, inside its one transaction. */
const STRETCH = 250;

/**
 * Keep all of it or nothing. A new record whose id is there already was saved by the first of two taps: it is left
 * alone. An edit from a revision that is not at hand starts from the one shown. Nothing resolves before the commit.
 */
export async function saveAll(
  parts: SavingParts,
  list: readonly Saving[],
  draft?: string,
  onProgress?: Progress,
): Promise<void> {
  const { store, user, nextId, environment } = parts;
  const now_ms = environment.nowMs();
  const device = await parts.device();
  const said = { made_at: instant(now_ms), utc_offset_min: environment.utcOffsetMin(), schema: SCHEMA };
  const muts = list.map(nextId);
  await store.change(async (tables) => {
    const first = await takeSeqs(tables, list.length);
    for (let start = 0; start < list.length; start += STRETCH) {
      const stretch = list.slice(start, start + STRETCH);
      const shown = await tables.records.bulkGet(stretch.map(({ book, id }) => [book, id]));
      const bases = await Promise.all(stretch.map((one, i) => baseOf(tables, one, shown[i])));
      const mutations = stretch.flatMap(({ book, kind, id, body }, i): Mutation[] => {
        const base_rev = bases[i]!;
        if (base_rev === "saved before") return [];
        const mut = muts[start + i] as string;
        return [{ mut, book, kind, id, base_rev, body, ...said, device_seq: first + start + i }];
      });
      await tables.outbox.bulkPut(mutations.map((one) => ({ ...one, state: "waiting" as const })));
      const here = { user, device, now_ms };
      await showNew(
        tables,
        mutations.filter((one) => one.base_rev === null),
        here,
      );
      await refoldAll(
        tables,
        mutations.filter((one) => one.base_rev !== null),
        here,
      );
      onProgress?.(start + stretch.length, list.length);
    }
    if (draft !== undefined) await tables.drafts.delete(draft);
  });
}

async function baseOf(
  tables: UserTables,
  { base_rev }: Pick<Saving, "base_rev">,
  shown: RecordRow | undefined,
): Promise<string | null | "saved before"> {
  if (base_rev === null) return shown === undefined ? null : "saved before";
  const known = shown?.rev === base_rev || (await tables.versions.get(base_rev)) !== undefined;
  return known ? base_rev : (shown?.rev ?? base_rev);
}
