/** Records that are held between readings are those of the database, whatever was written, by whom and how much of it. */

import { IDBFactory, IDBKeyRange, IDBObjectStore } from "fake-indexeddb";
import fc from "fast-check";
import { afterEach, describe, expect, it, vi } from "vitest";
import { openUserStore, type UserStore } from "@/store";
import { heldRecordsOf } from "@/store/held";
import { dropBook, putRows, recordsOf } from "@/store/rows";
import { version } from "../sync/make";

const engine = () => ({ indexedDB: new IDBFactory() as unknown as globalThis.IDBFactory, IDBKeyRange });

afterEach(() => vi.restoreAllMocks());

const put = (store: UserStore, book: string, ids: readonly string[], rev: string, removed: string[] = []) =>
  store.change((tables) => {
    const shown = ids.map((id) => ({ version: version({ id, book, rev }), pending: false, order: 1 }));
    return putRows(tables, book, { shown, removed, versions: [], dropped: [] });
  });

interface Act {
  readonly what: "put" | "put" | "many" | "remove" | "drop" | "read" | "twice" | "other";
  readonly n: number;
  readonly there: boolean;
}

const acts = fc.array(
  fc.record<Act>({
    what: fc.constantFrom("put", "put", "put", "many", "remove", "drop", "read", "twice", "other"),
    n: fc.integer({ min: 0, max: 12 }),
    there: fc.boolean(),
  }),
  { minLength: 3, maxLength: 12 },
);

describe("held records", () => {
  it("are those of the database", async () => {
    await fc.assert(
      fc.asyncProperty(acts, async (list) => {
        const shared = engine();
        const [here, there] = [openUserStore(shared, "u"), openUserStore(shared, "u")];
        const held = (book: string) => here.read((tables) => heldRecordsOf(tables, book));
        for (const [k, { what, n, there: elsewhere }] of list.entries()) {
          const store = elsewhere ? there : here;
          const [id, rev] = [`r${n}`, `v${k}`];
          if (what === "put") await put(store, n % 5 ? "b" : "c", [id], rev);
          if (what === "many")
            await put(
              store,
              "b",
              Array.from({ length: 60 }, (_, i) => `m${i}`),
              rev,
            );
          if (what === "remove") await put(store, "b", [], rev, [id]);
          if (what === "drop") await store.change((tables) => dropBook(tables, "b"));
          if (what === "twice")
            await Promise.all([put(store, "b", [id], rev), held("b"), held("b"), held("c")]);
          if (what === "other") await held("c");
          const truth = await here.read((tables) => recordsOf(tables, "b"));
          expect(await held("b")).toEqual(truth);
        }
        here.close();
        there.close();
      }),
      { numRuns: 60 },
    );
  });

  it("are read once, and afterwards only what has changed", async () => {
    const store = openUserStore(engine(), "u");
    await put(
      store,
      "b",
      Array.from({ length: 300 }, (_, n) => `r${n}`),
      "v",
    );
    const held = () => store.read((tables) => heldRecordsOf(tables, "b"));
    expect(await held()).toHaveLength(300);
    const whole = vi.spyOn(IDBObjectStore.prototype, "getAll");
    await put(store, "b", ["r7", "new"], "w");
    const rows = await held();
    expect(rows).toHaveLength(301);
    expect(rows.find((one) => one.id === "r7")?.rev).toBe("w");
    expect(whole).not.toHaveBeenCalled();
  });

  it("reach whoever watches them", async () => {
    const store = openUserStore(engine(), "u");
    const seen: number[] = [];
    const stop = store.watch(
      async (tables) => (await heldRecordsOf(tables, "b")).length,
      (count) => seen.push(count),
    );
    await vi.waitFor(() => expect(seen).toEqual([0]));
    for (const [n, id] of ["x", "y", "z"].entries()) {
      await put(store, "b", [id], "v");
      await vi.waitFor(() => expect(seen.at(-1)).toBe(n + 1));
    }
    await put(store, "b", [], "v", ["y"]);
    await vi.waitFor(() => expect(seen.at(-1)).toBe(2));
    stop();
  });
});
