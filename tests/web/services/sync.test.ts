import { beforeEach, describe, expect, it } from "vitest";
import { openedBook, vehicleLines } from "@/services/books";
import type { UserServices } from "@/services/user";
import { Browser, failNth, quiet, until, user } from "./browser";
import { FakeServer, type Fate } from "./fake_server";

let server: FakeServer;
let phone: Browser;

beforeEach(() => {
  server = new FakeServer();
  phone = new Browser(server);
});

const wren = { name: "Wren" };
const fill = (litres: number) => ({ lines: [{ tank_id: "t", litres_l: litres, full: true }] });

async function withBook(): Promise<{ me: UserServices; book: string }> {
  const me = await phone.signedIn("Ada");
  const book = await me.records.newVehicle(wren, [
    { kind: "plate", body: { of: "vehicle", gross_kg: 3_500 } },
  ]);
  await quiet(me);
  return { me, book };
}

function says(who: UserServices, line: object): Promise<void> {
  return until(() => expect(who.status.line.value).toMatchObject(line));
}

function fates(...list: Fate[]): void {
  phone.network.fate = (path) => (path === "/api/sync" ? (list.shift() ?? "arrives") : "arrives");
}

describe("an entry on its way", () => {
  it("is kept without a network and arrives once when there is one", async () => {
    const { me, book } = await withBook();
    fates("request lost", "request lost");
    await me.records.log(book, "fill", fill(40));
    await quiet(me);
    await says(me, { kind: "waiting", count: 1 });
    phone.elapse(300_000);
    await until(() => expect(me.sync.phase.value).toBe("retry"));
    phone.elapse(300_000);
    await until(() => expect(server.entries("fill")).toHaveLength(1));
    await says(me, { kind: "synced" });
  });

  it("arrives once when the answer was lost twice", async () => {
    const { me, book } = await withBook();
    fates("answer lost", "answer lost");
    await me.records.log(book, "fill", fill(40));
    for (let n = 0; n < 3; n += 1) await quiet(me);
    expect(server.entries("fill")).toHaveLength(1);
    await says(me, { kind: "synced" });
  });

  it.each<Fate>(["html", 500, 503, 429])("stays in the outbox when %s comes back", async (fate) => {
    const { me, book } = await withBook();
    phone.network.fate = () => fate;
    await me.records.log(book, "fill", fill(40));
    await quiet(me);
    await says(me, { kind: "waiting", count: 1 });
    expect(me.sync.phase.value).toBe("retry");
  });

  it("reaches another device of the same person", async () => {
    const { book } = await withBook();
    const tablet = await new Browser(server).signedIn("Ada");
    await quiet(tablet);
    const lines = tablet.watch(vehicleLines);
    await until(() => expect(lines.value.value?.map((one) => one.name)).toEqual(["Wren"]));
    const seen = tablet.watch((tables) => openedBook(tables, book));
    await until(() => expect(seen.value.value?.book.plates[0]?.body.gross_kg).toBe(3_500));
  });

  it("is not sent again in pages of news that take several requests", async () => {
    const { me, book } = await withBook();
    server.page = 2;
    for (let n = 1; n <= 7; n += 1) await me.records.log(book, "fill", fill(n));
    await quiet(me);
    expect(server.entries("fill")).toHaveLength(7);
    const sent = server.requests.flatMap((one) => one.mutations.map((mutation) => mutation.mut));
    expect(new Set(sent).size).toBe(sent.length);
  });
});

describe("an answer that the disk did not take", () => {
  /** Let the nth write fail, for n = 1, 2, 3 … until a round passes untouched. */
  it("is asked for again, and nothing is lost or sent as another", async () => {
    const { me, book } = await withBook();
    for (let nth = 1; ; nth += 1) {
      fates("request lost");
      await me.records.log(book, "fill", fill(nth));
      await quiet(me);
      const put = failNth(nth);
      await quiet(me);
      const fired = put.mock.results.some((one) => one.type === "throw");
      put.mockRestore();
      await quiet(me);
      await says(me, { kind: "synced" });
      expect(server.entries("fill")).toHaveLength(nth);
      if (!fired) break;
    }
    const seen = me.watch((tables) => openedBook(tables, book));
    await until(() => expect(seen.value.value?.book.fills).toHaveLength(server.entries("fill").length));
    expect(phone.reported).toEqual([]);
  });
});

describe("a refused entry", () => {
  it("stops only itself, says why, and can be mended", async () => {
    const { me, book } = await withBook();
    const error = { code: "validation", message: "No.", fields: { "lines.0.litres_l": ["Too much."] } };
    server.refuses = ({ body }) => (JSON.stringify(body).includes("9999") ? error : null);
    await me.records.log(book, "fill", fill(9999), { id: "bad" });
    await me.records.log(book, "fill", fill(40));
    await quiet(me);
    expect(server.entries("fill")).toHaveLength(1);
    await says(me, { kind: "attention", count: 1 });
    const refused = me.watch((tables) => tables.attention.toArray());
    await until(() => expect(refused.value.value?.[0]?.error).toEqual(error));
    const { mut, mutation } = (refused.value.value ?? [])[0]!;
    await me.records.mend(mut, { ...mutation.body, ...fill(99) });
    await quiet(me);
    expect(server.entries("fill").map((one) => one.id)).toContain("bad");
    await says(me, { kind: "synced" });
  });

  it("given up is gone, and nothing else", async () => {
    const { me, book } = await withBook();
    server.refuses = ({ kind }) => (kind === "dip" ? { code: "no", message: "No.", fields: {} } : null);
    await me.records.log(book, "dip", { tank_id: "t", level: 0.5 });
    await quiet(me);
    const refused = me.watch((tables) => tables.attention.toArray());
    await until(() => expect(refused.value.value).toHaveLength(1));
    await me.records.giveUp(refused.value.value![0]!.mut);
    await until(() => expect(me.status.attention.value).toBe(0));
  });

  it("that no request survives is found by halves, and left for another time", async () => {
    const { me, book } = await withBook();
    server.stumbles = (request) => JSON.stringify(request).includes(`"litres_l":666`);
    fates(...Array<Fate>(8).fill("request lost"));
    for (let n = 1; n <= 5; n += 1) await me.records.log(book, "fill", fill(n === 3 ? 666 : n));
    fates();
    await quiet(me);
    expect(server.entries("fill")).toHaveLength(4);
    await says(me, { kind: "waiting", count: 1 });
    expect(me.sync.phase.value).toBe("retry");
  });
});

describe("who may send", () => {
  it("a session that is over keeps the outbox and says who must sign in", async () => {
    const { me, book } = await withBook();
    phone.network.cookie = null;
    await me.records.log(book, "fill", fill(40));
    await quiet(me);
    await says(me, { kind: "sign_in", name: "Ada", waiting: 1 });
    expect(server.entries("fill")).toHaveLength(0);
  });

  it("and is sent when the same person has signed in again", async () => {
    const app = await phone.tab();
    await app.signIn("Ada", "long enough");
    const me = user(app);
    phone.network.cookie = null;
    await me.records.newVehicle(wren);
    await quiet(me);
    await app.signIn("Ada", "long enough");
    await until(() => expect(server.entries("vehicle")).toHaveLength(1));
    expect(user(app)).toBe(me);
  });

  it("another person's sign-in on this phone never sends it", async () => {
    const app = await phone.tab();
    await app.signIn("Ada", "long enough");
    const ada = user(app);
    phone.network.fate = (path) => (path === "/api/sync" ? "request lost" : "arrives");
    await ada.records.newVehicle(wren);
    await quiet(ada);
    phone.network.fate = () => "arrives";
    await app.signIn("Ben", "long enough");
    const ben = user(app);
    await quiet(ben);
    expect(server.entries()).toHaveLength(0);
    expect(ben.account.name).toBe("Ben");
    await app.signIn("Ada", "long enough");
    await until(() => expect(server.entries("vehicle").map((one) => one.author)).toEqual(["user-Ada"]));
  });

  it("nor does a tab that still shows the first person's book", async () => {
    const first = await phone.tab();
    await first.signIn("Ada", "long enough");
    const ada = user(first);
    const second = await phone.tab();
    phone.network.fate = (path) => (path === "/api/accounts" ? "answer lost" : "arrives");
    expect((await second.signUp("Ben", "long enough")).kind).toBe("unreachable");
    expect(phone.network.cookie).toBe("user-Ben");
    await ada.records.newVehicle(wren);
    await quiet(ada);
    expect(server.entries()).toHaveLength(0);
    await says(ada, { kind: "sign_in", name: "Ada", waiting: 1 });
  });
});

describe("a book that is no longer shared", () => {
  it("goes, and what was not sent stays before its author", async () => {
    const { me, book } = await withBook();
    phone.network.fate = () => "request lost";
    await me.records.log(book, "fill", fill(40));
    await quiet(me);
    phone.network.fate = () => "arrives";
    server.books.get(book)?.roles.delete("user-Ada");
    await quiet(me);
    const lines = me.watch(vehicleLines);
    await until(() => expect(lines.value.value).toEqual([]));
    await says(me, { kind: "attention", count: 1 });
  });
});

describe("a server restored from a backup", () => {
  it("gets again what it lost, once, and this device ends as before", async () => {
    const { me, book } = await withBook();
    for (let n = 1; n <= 5; n += 1) await me.records.log(book, "fill", fill(n));
    await me.records.edit(book, "vehicle", book, { wheelbase_m: 3.2 });
    await quiet(me);
    const before = server.entries().map((one) => one.rev);
    server.books.get(book)?.versions.splice(3);
    server.generation = "g2";
    await quiet(me);
    const after = server.entries().map((one) => one.rev);
    expect(after.sort()).toEqual(before.sort());
    const seen = me.watch((tables) => openedBook(tables, book));
    await until(() => expect(seen.value.value?.book.fills).toHaveLength(5));
    expect(seen.value.value?.book.vehicle?.body.wheelbase_m).toBe(3.2);
    await says(me, { kind: "synced" });
  });
});

describe("two people on one record", () => {
  it("keep both edits, and both are shown the one kept beside", async () => {
    const { me, book } = await withBook();
    server.books.get(book)?.roles.set("user-Ben", "owner");
    const ben = await new Browser(server).signedIn("Ben");
    await quiet(ben);
    await me.records.edit(book, "vehicle", book, { name: "Kestrel" });
    await quiet(me);
    await ben.records.edit(book, "vehicle", book, { name: "Robin" });
    await quiet(ben);
    await quiet(me);
    for (const one of [me, ben]) {
      const seen = one.watch((tables) => openedBook(tables, book));
      await until(() => expect(seen.value.value?.name).toBe("Kestrel"));
      expect(seen.value.value?.conflicts.map((version) => version.body.name)).toEqual(["Robin"]);
    }
  });
});
