/** What can truly be said of this device's entries. */
import { computed, type ReadonlySignal } from "@preact/signals";
import type { UserStore } from "../store";
import { metaOf } from "../store/rows";
import type { StorageTrouble } from "../store/trouble";
import { live } from "./live";
import type { Account } from "./session";
import type { Sync } from "./sync";

export type StatusLine =
  | { readonly kind: "reading" }
  /** The device's storage cannot be read. */
  | { readonly kind: "storage"; readonly trouble: StorageTrouble }
  | { readonly kind: "sign_in"; readonly name: string; readonly waiting: number }
  | { readonly kind: "too_old"; readonly waiting: number }
  | { readonly kind: "attention"; readonly count: number; readonly waiting: number }
  | { readonly kind: "waiting"; readonly count: number }
  /** Everything here was at the server at that time. */
  | { readonly kind: "synced"; readonly at: string }
  /** Nothing is waiting, and the server has never been reached. */
  | { readonly kind: "new" };

export interface Status {
  readonly line: ReadonlySignal<StatusLine>;
  /** Entries that the server does not have. */
  readonly waiting: ReadonlySignal<number>;
  readonly attention: ReadonlySignal<number>;
  /** When the server was last reached; null when never. */
  readonly synced_at: ReadonlySignal<string | null>;
  /** How far this device's clock is ahead of the server's, when it is far; else 0. */
  readonly clock_off_ms: ReadonlySignal<number>;
  readonly stop: () => void;
}

interface Counts {
  readonly waiting: number;
  readonly attention: number;
  readonly synced_at: string | null;
  readonly clock_off_ms: number;
}

export function createStatus(store: UserStore, account: Account, { phase }: Pick<Sync, "phase">): Status {
  const counts = live<Counts>(store, async (tables) => ({
    waiting: await tables.outbox.where("state").equals("waiting").count(),
    attention: await tables.attention.count(),
    synced_at: await metaOf<string | null>(tables, "synced_at", null),
    clock_off_ms: await metaOf(tables, "clock_off_ms", 0),
  }));
  const line = computed((): StatusLine => {
    if (counts.trouble.value !== null) return { kind: "storage", trouble: counts.trouble.value };
    if (counts.value.value === undefined) return { kind: "reading" };
    const { waiting, attention, synced_at } = counts.value.value;
    if (phase.value === "sign_in") return { kind: "sign_in", name: account.name, waiting };
    if (phase.value === "too_old") return { kind: "too_old", waiting };
    if (attention > 0) return { kind: "attention", count: attention, waiting };
    if (waiting > 0) return { kind: "waiting", count: waiting };
    return synced_at === null ? { kind: "new" } : { kind: "synced", at: synced_at };
  });
  return {
    line,
    waiting: computed(() => counts.value.value?.waiting ?? 0),
    attention: computed(() => counts.value.value?.attention ?? 0),
    synced_at: computed(() => counts.value.value?.synced_at ?? null),
    clock_off_ms: computed(() => counts.value.value?.clock_off_ms ?? 0),
    stop: counts.stop,
  };
}
