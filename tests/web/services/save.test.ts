import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { openedBook } from "@/services/books";
import type { UserServices } from "@/services/user";
import { StorageTrouble } from "@/store/trouble";
import { Browser, failNth, quiet, until } from "./browser";
import { FakeServer } from "./fake_server";

let server: FakeServer;
let phone: Browser;
let me: UserServices;

beforeEach(async () => {
  server = new FakeServer();
  phone = new Browser(server);
  me = await phone.signedIn("Ada");
  await quiet(me);
});
afterEach(() => vi.restoreAllMocks());

async function opened(book: string) {
  const seen = me.watch((tables) => openedBook(tables, book));
  await until(() => expect(seen.value.value).toBeTruthy());
  seen.stop();
  return seen.value.value!;
}

const queue = () => me.watch((tables) => tables.outbox.orderBy("device_seq").toArray());

describe("saving", () => {
  beforeEach(() => {
    phone.network.fate = () => "request lost";
  });

  it("keeps a vehicle and its plate in one step, shown at once", async () => {
    const book = await me.records.newVehicle({ name: "Wren" }, [{ kind: "plate", body: { of: "vehicle" } }]);
    const seen = await opened(book);
    expect(seen.name).toBe("Wren");
    expect(seen.book.plates).toHaveLength(1);
    expect(seen.pending.size).toBe(2);
    expect(seen.role).toBe("owner");
  });

  it("keeps who made each edit of the plan, and on which day", async () => {
    const book = await me.records.newVehicle({ name: "Wren" });
    await me.records.edit(book, "vehicle", book, { name: "Kestrel" });
    await me.records.log(book, "fill", { at: "2026-03-04T05:06:07Z", zone: "Australia/Darwin", lines: [] });
    const { edits, vehicle } = (await opened(book)).book;
    expect(edits.map((one) => one.body.name)).toEqual(["Wren", "Kestrel"]);
    expect(edits.at(-1)).toMatchObject({
      record_id: book,
      kind: "vehicle",
      rev: vehicle?.rev,
      author: me.account.id,
    });
    const there = Date.parse(edits[0]!.at) + 570 * 60_000; // the phone's clock is 9.5 h ahead of UTC
    expect(edits[0]?.day).toBe(new Date(there).toISOString().slice(0, 10));
  });

  it("says what, when, where and after what", async () => {
    const book = await me.records.newVehicle({ name: "Wren" });
    await me.records.edit(book, "vehicle", book, { name: "Kestrel" });
    const sent = queue();
    await until(() => expect(sent.value.value).toHaveLength(2));
    const [made, edited] = sent.value.value!;
    expect(made).toMatchObject({ id: book, book, base_rev: null, device_seq: 1, utc_offset_min: 570 });
    expect(edited).toMatchObject({ base_rev: made!.mut, body: { name: "Kestrel" }, device_seq: 2 });
    expect(edited!.made_at).toBe("2026-03-04T05:06:07.000Z");
  });

  it("gives an entry of the log its moment and zone, unless it says them", async () => {
    const book = await me.records.newVehicle({ name: "Wren" });
    await me.records.log(book, "dip", { tank_id: "t" });
    await me.records.log(book, "dip", { tank_id: "t", at: "2026-01-01T00:00:00Z" });
    const { dips } = (await opened(book)).book;
    expect(dips.map((one) => one.body.at)).toEqual(["2026-01-01T00:00:00Z", "2026-03-04T05:06:07.000Z"]);
    expect(dips[0]?.body.zone).toBe("Australia/Darwin");
  });

  it("the same entry twice keeps it once", async () => {
    const book = await me.records.newVehicle({ name: "Wren" });
    const id = me.newId();
    await Promise.all([1, 2].map(() => me.records.log(book, "dip", { tank_id: "t" }, { id })));
    expect((await opened(book)).book.dips).toHaveLength(1);
    const sent = queue();
    await until(() => expect(sent.value.value).toHaveLength(2)); // the vehicle and one entry
  });

  it("two edits from one revision keep both, the second beside", async () => {
    const book = await me.records.newVehicle({ name: "Wren" });
    const base_rev = (await opened(book)).book.vehicle!.rev;
    await me.records.edit(book, "vehicle", book, { name: "Kestrel" }, { base_rev });
    await me.records.edit(book, "vehicle", book, { name: "Robin" }, { base_rev });
    const seen = await opened(book);
    expect(seen.name).toBe("Kestrel");
    expect(seen.conflicts.map((one) => one.body.name)).toEqual(["Robin"]);
  });

  it("removes the draft in the same step as it keeps the entry", async () => {
    const book = await me.records.newVehicle({ name: "Wren" });
    const draft = me.draft<string>("fuel");
    draft.keep("4");
    await draft.settled();
    await me.records.log(book, "dip", { tank_id: "t" }, { draft: "fuel" });
    expect(await me.draft("fuel").found).toBeNull();
  });

  it("an edit of what is not there is refused by name", async () => {
    await expect(me.records.edit("no", "item", "such", {})).rejects.toThrow("such");
  });
});

describe("saving on a bad disk", () => {
  /** Let the nth write fail, for n = 1, 2, 3 … until a run passes untouched. */
  it("keeps all or nothing, whichever write fails, and never says saved when it is not", async () => {
    phone.network.fate = () => "request lost";
    const book = await me.records.newVehicle({ name: "Wren" });
    await quiet(me);
    let fails = 0;
    for (let nth = 1; ; nth += 1) {
      const before = (await opened(book)).book.items.length;
      const put = failNth(nth);
      const body = { name: `Box ${nth}` };
      const saved = await me.records.add(book, "item", body).then(
        () => true,
        (error) => !(error instanceof StorageTrouble) || false,
      );
      const fired = put.mock.results.some((one) => one.type === "throw");
      put.mockRestore();
      const after = (await opened(book)).book.items;
      expect(after).toHaveLength(saved ? before + 1 : before);
      if (!fired) break;
      fails += 1;
    }
    expect(fails).toBeGreaterThanOrEqual(4); // counter, outbox, version and record at the least
    phone.network.fate = () => "arrives";
    await quiet(me);
    expect(server.entries("item")).toHaveLength(1);
  });

  it("a full disk is named, so that a screen can say what to do", async () => {
    phone.network.fate = () => "request lost";
    const put = failNth(1);
    await expect(me.records.newVehicle({ name: "Wren" })).rejects.toMatchObject({ fault: "full" });
    put.mockRestore();
    await me.records.newVehicle({ name: "Wren" });
  });
});
