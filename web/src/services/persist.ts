/** Asks the browser not to clear this device's entries away. Nothing depends on the answer, but it is shown. */
import { type ReadonlySignal, signal } from "@preact/signals";

export type Keeping = "not asked" | "kept" | "may be cleared";

export interface Persist {
  readonly keeping: ReadonlySignal<Keeping>;
  /** To be called after something was saved: a browser grants it more easily to an app in use. */
  readonly afterSave: () => Promise<void>;
}

export function createPersist(storage: Pick<StorageManager, "persist" | "persisted"> | null): Persist {
  const keeping = signal<Keeping>("not asked");
  let asked = false;
  void storage?.persisted().then(
    (kept) => {
      if (kept) keeping.value = "kept";
    },
    () => {},
  );
  return {
    keeping,
    async afterSave() {
      if (asked || storage === null) return;
      asked = true;
      const kept =
        (await storage.persisted().catch(() => false)) || (await storage.persist().catch(() => false));
      keeping.value = kept ? "kept" : "may be cleared";
    },
  };
}
