import { IDBDatabase, IDBFactory, IDBKeyRange, IDBObjectStore } from "fake-indexeddb";
import { afterEach, describe, expect, it, vi } from "vitest";
import { openUserStore } from "@/store";
import { metaOf, putRows, queueFront, recordsOf, setAside, setMeta, takeSeqs } from "@/store/rows";
import { StorageTrouble } from "@/store/trouble";
import { queued, version } from "../sync/make";

const engine = () => ({ indexedDB: new IDBFactory() as unknown as globalThis.IDBFactory, IDBKeyRange });
const error = { code: "validation", message: "No.", fields: {} };

afterEach(() => vi.restoreAllMocks());

describe("a user's database", () => {
  it("keeps rows over closing and opening", async () => {
    const shared = engine();
    const first = openUserStore(shared, "u");
    await first.change((tables) => setMeta(tables, "generation", "g"));
    first.close();
    const second = openUserStore(shared, "u");
    expect(await second.read((tables) => metaOf(tables, "generation", "none"))).toBe("g");
  });

  it("is one a user", async () => {
    const shared = engine();
    await openUserStore(shared, "u").change((tables) => setMeta(tables, "generation", "g"));
    const other = openUserStore(shared, "v");
    expect(await other.read((tables) => metaOf(tables, "generation", "none"))).toBe("none");
  });

  it("asks the browser to flush before a commit is reported", async () => {
    const spy = vi.spyOn(IDBDatabase.prototype, "transaction");
    const store = openUserStore(engine(), "u");
    await store.change((tables) => setMeta(tables, "x", 1));
    const writes = spy.mock.calls.filter(([, mode]) => mode === "readwrite");
    expect(writes.map(([, , options]) => options)).toEqual([{ durability: "strict" }]);
  });

  it("writes all of a change or nothing", async () => {
    const store = openUserStore(engine(), "u");
    const broken = store.change(async (tables) => {
      await setMeta(tables, "x", 1);
      throw new RangeError("our own mistake");
    });
    await expect(broken).rejects.toThrow(RangeError);
    expect(await store.read((tables) => metaOf(tables, "x", 0))).toBe(0);
  });

  it("numbers what is recorded without a gap or a repeat", async () => {
    const store = openUserStore(engine(), "u");
    const taken = await Promise.all([1, 3, 2].map((n) => store.change((tables) => takeSeqs(tables, n))));
    expect(taken).toEqual([1, 2, 5]);
  });

  it("watches what was read", async () => {
    const store = openUserStore(engine(), "u");
    const seen: number[] = [];
    const stop = store.watch(
      (tables) => metaOf(tables, "x", 0),
      (value) => seen.push(value),
    );
    await vi.waitFor(() => expect(seen).toEqual([0]));
    await store.change((tables) => setMeta(tables, "x", 7));
    await vi.waitFor(() => expect(seen.at(-1)).toBe(7));
    stop();
  });
});

describe("rows", () => {
  it("of a book are found and removed by book and id", async () => {
    const store = openUserStore(engine(), "u");
    const shown = ["r", "s"].map((id) => ({ version: version({ id }), pending: false, order: 1 }));
    const other = { version: version({ id: "r", book: "c" }), pending: false, order: 1 };
    await store.change((t) => putRows(t, "b", { shown, removed: [], versions: [], dropped: [] }));
    await store.change((t) => putRows(t, "c", { shown: [other], removed: [], versions: [], dropped: [] }));
    await store.change((t) => putRows(t, "b", { shown: [], removed: ["r"], versions: [], dropped: [] }));
    expect((await store.read((t) => recordsOf(t, "b"))).map((one) => one.id)).toEqual(["s"]);
    expect((await store.read((t) => recordsOf(t, "c"))).map((one) => one.id)).toEqual(["r"]);
  });

  it("of the outbox come in the order of recording, those kept left out", async () => {
    const store = openUserStore(engine(), "u");
    const rows = [
      queued({ mut: "m3", device_seq: 3 }),
      queued({ mut: "m1", device_seq: 1, state: "kept" }),
      queued({ mut: "m2", device_seq: 2 }),
    ];
    await store.change((tables) => tables.outbox.bulkPut(rows));
    expect((await store.read((tables) => queueFront(tables, 9))).map((one) => one.mut)).toEqual(["m2", "m3"]);
  });

  it("set aside leave the outbox and stay", async () => {
    const store = openUserStore(engine(), "u");
    const { state: _, ...mutation } = queued();
    await store.change((tables) => tables.outbox.put(queued()));
    const aside = { mut: "m1", mutation, error, because_of: null, since: "now" };
    await store.change((tables) => setAside(tables, [aside]));
    expect(await store.read((tables) => tables.outbox.count())).toBe(0);
    expect(await store.read((tables) => tables.attention.get("m1"))).toEqual({ ...aside, book: "b" });
  });
});

describe("trouble with the storage", () => {
  const failing = async (name: string, times: number) => {
    const store = openUserStore(engine(), "u");
    await store.change((tables) => setMeta(tables, "before", 1));
    const put = vi.spyOn(IDBObjectStore.prototype, "put");
    for (let n = 0; n < times; n += 1) {
      put.mockImplementationOnce(() => {
        throw new DOMException("injected", name);
      });
    }
    return store;
  };

  it("a full disk is said, and what was there stays", async () => {
    const store = await failing("QuotaExceededError", 1);
    const saving = store.change((tables) => setMeta(tables, "x", 1));
    await expect(saving).rejects.toMatchObject({ name: "StorageTrouble", fault: "full" });
    expect(await store.read((tables) => metaOf(tables, "before", 0))).toBe(1);
  });

  it("a connection that the browser closed is opened once more", async () => {
    const store = await failing("InvalidStateError", 1);
    await store.change((tables) => setMeta(tables, "x", 1));
    expect(await store.read((tables) => metaOf(tables, "x", 0))).toBe(1);
  });

  it("and if that fails too, it is said", async () => {
    const store = await failing("UnknownError", 2);
    const saving = store.change((tables) => setMeta(tables, "x", 1));
    await expect(saving).rejects.toBeInstanceOf(StorageTrouble);
    expect(await store.read((tables) => metaOf(tables, "x", 0))).toBe(0);
  });
});
