import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { openedBook } from "@/services/books";
import type { Listed } from "@/services/records";
import type { UserServices } from "@/services/user";
import { Browser, failNth, quiet, until } from "./browser";
import { FakeServer } from "./fake_server";

let phone: Browser;
let me: UserServices;
let book: string;

beforeEach(async () => {
  phone = new Browser(new FakeServer());
  me = await phone.signedIn("Ada");
  phone.network.fate = () => "request lost";
  book = await me.records.newVehicle({ name: "Wren" });
  await quiet(me);
});
afterEach(() => vi.restoreAllMocks());

async function opened() {
  const seen = me.watch((tables) => openedBook(tables, book));
  await until(() => expect(seen.value.value).toBeTruthy());
  seen.stop();
  return seen.value.value!.book;
}

const items = (count: number): Listed[] =>
  Array.from({ length: count }, (_, i) => ({ kind: "item", body: { name: `Crate ${i}`, nature: "load" } }));

describe("a list that comes in", () => {
  it("is kept in its order, new records and edits together, and told of as it goes", async () => {
    const id = await me.records.add(book, "item", { name: "Bar", nature: "part", mass_kg: 60 });
    const { rev } = (await opened()).items[0]!;
    const told: [number, number][] = [];
    const list = [...items(600), { kind: "item", body: { mass_kg: 58 }, edits: { id, rev } }];
    await me.records.takeIn(book, list, { onProgress: (...one) => told.push(one) });
    const found = (await opened()).items;
    expect(told).toEqual([
      [250, 601],
      [500, 601],
      [601, 601],
    ]);
    expect(found.map(({ body }) => body.name)).toEqual(["Bar", ...items(600).map(({ body }) => body.name)]);
    expect(found[0]?.body).toEqual({ name: "Bar", nature: "part", mass_kg: 58 });
  });

  it("is kept whole or not at all, and the draft with it", async () => {
    const draft = me.draft<string>("import");
    draft.keep("typed");
    await draft.settled();
    failNth(400);
    await expect(me.records.takeIn(book, items(600), { draft: "import" })).rejects.toMatchObject({
      fault: "full",
    });
    vi.restoreAllMocks();
    expect((await opened()).items).toEqual([]);
    expect(await me.draft("import").found).toBe("typed");
    await me.records.takeIn(book, items(600), { draft: "import" });
    expect((await opened()).items).toHaveLength(600);
    expect(await me.draft("import").found).toBeNull();
  });
});

describe("entries that speak of each other", () => {
  const surface = { sealed: 0, gravel: 1, sand: 0 };
  const both = (id: string) => [
    { book, kind: "event", id, body: { what: "surface", odometer_km: 1_000, surface } },
    { book, kind: "correction", body: { of_id: id, what: "kept", other_id: null } },
  ];

  it("are kept together, or neither is, wherever the disk gives out", async () => {
    for (let nth = 1; ; nth += 1) {
      const id = `e${nth}`;
      const spy = failNth(nth);
      const refused = await me.records.logAll(both(id)).then(
        () => false,
        () => true,
      );
      spy.mockRestore();
      const { events, kept } = await opened();
      const there = [events.some((one) => one.id === id), kept.some(({ body }) => body.of_id === id)];
      expect(there).toEqual([!refused, !refused]);
      if (!refused) return expect(nth).toBeGreaterThan(2);
    }
  });
});
