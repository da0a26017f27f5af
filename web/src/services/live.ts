/** What a screen reads stays current: each change in the database, also from another tab, reads it again. */
import { type ReadonlySignal, signal } from "@preact/signals";
import type { UserStore } from "../store";
import type { UserTables } from "../store/tables";
import type { StorageTrouble } from "../store/trouble";

export interface Live<T> {
  /** Undefined until it has been read for the first time. */
  readonly value: ReadonlySignal<T | undefined>;
  readonly trouble: ReadonlySignal<StorageTrouble | null>;
  readonly stop: () => void;
}

export function live<T>(store: UserStore, look: (tables: UserTables) => Promise<T>): Live<T> {
  const value = signal<T | undefined>(undefined);
  const trouble = signal<StorageTrouble | null>(null);
  const stop = store.watch(
    look,
    (next) => {
      value.value = next;
      trouble.value = null;
    },
    (error) => {
      trouble.value = error;
    },
  );
  return { value, trouble, stop };
}
