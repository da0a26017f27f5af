/** What the server refused: shown with its reason, mended and sent again, or given up by its author. */

import type { UserStore } from "../store";
import { takeSeqs } from "../store/rows";
import type { AttentionRow, UserTables } from "../store/tables";
import type { Body } from "../sync/mutation";
import { mend } from "../sync/outbox";
import { refoldAll } from "./answer";
import type { SavingParts } from "./save";

export type Refused = AttentionRow;

/** All that was refused, in the order in which it was recorded. */
export async function refusedEntries(tables: UserTables): Promise<Refused[]> {
  const all = await tables.attention.toArray();
  return all.sort((a, b) => a.mutation.device_seq - b.mutation.device_seq);
}

/** Send it again with another body, and behind it what was waiting for it. */
export async function mendAndSend(parts: SavingParts, mut: string, body: Body): Promise<void> {
  const { store, user, environment } = parts;
  const here = { user, device: await parts.device(), now_ms: environment.nowMs() };
  const new_mut = parts.nextId();
  await store.change(async (tables) => {
    const refused = await tables.attention.get(mut);
    if (refused === undefined) return;
    const dependants = await tables.attention.filter((one) => one.because_of === mut).toArray();
    const shown = await tables.records.get([refused.book, refused.mutation.id]);
    const base_rev = refused.mutation.base_rev === null ? null : (shown?.rev ?? refused.mutation.base_rev);
    const first_seq = await takeSeqs(tables, 1 + dependants.length);
    const mutations = mend({ refused, dependants, body, base_rev, new_mut, first_seq });
    await tables.attention.bulkDelete([mut, ...dependants.map((one) => one.mut)]);
    await tables.outbox.bulkPut(mutations.map((one) => ({ ...one, state: "waiting" as const })));
    await refoldAll(tables, mutations, here);
  });
}

/** Give it up, and what builds on it: the only way in which something typed leaves the device unsent. */
export async function giveUp(store: UserStore, mut: string): Promise<void> {
  await store.change(async (tables) => {
    const dependants = await tables.attention.filter((one) => one.because_of === mut).primaryKeys();
    await tables.attention.bulkDelete([mut, ...dependants]);
  });
}
