import { beforeEach, describe, expect, it } from "vitest";
import { openedBook } from "@/services/books";
import type { Heard } from "@/services/heard";
import type { UserServices } from "@/services/user";
import { Browser, quiet, until } from "./browser";
import { FakeServer } from "./fake_server";

let server: FakeServer;
let phone: Browser;
let me: UserServices;
let book: string;

const fill = { lines: [{ tank_id: "t", litres_l: 40, full: true }] };
const AT = "2026-03-04T05:00:00.000Z";

beforeEach(async () => {
  server = new FakeServer();
  phone = new Browser(server);
  me = await phone.signedIn("Ada");
  book = await me.records.newVehicle({ name: "Wren" }, []);
  await quiet(me);
  server.books.get(book)?.roles.set("user-Ben", "co_driver");
  server.enter("Ben");
});

/** Something of the book changes at the server, so that its members come along. */
async function news(): Promise<void> {
  await me.records.log(book, "fill", fill);
  await quiet(me);
}

function tell(device: string, other: Partial<{ user: string; at: string; unsent: number | null }> = {}) {
  server.heard.push({ book, user: "user-Ben", device, at: AT, unsent: 0, ...other });
}

function checkShown(who: UserServices, lines: Partial<Heard>[]): Promise<void> {
  const seen = who.watch((tables) => openedBook(tables, book));
  return until(() => expect(seen.value.value?.heard).toMatchObject(lines));
}

const marksOf = () => server.requests.at(-1)?.books;

describe("what a phone says of itself", () => {
  it("is that it holds nothing more when all is in the request", async () => {
    await news();
    const sent = server.requests.filter((one) => one.mutations.some(({ kind }) => kind === "fill"));
    expect(sent.map((one) => one.books)).toEqual([[{ book, checkpoint: 1, unsent: 0 }]]);
  });

  it("counts what one request does not take", async () => {
    phone.network.fate = () => "request lost";
    for (let n = 0; n < 103; n += 1) await me.records.log(book, "fill", fill);
    await quiet(me);
    phone.network.fate = () => "arrives";
    server.requests.length = 0;
    await quiet(me);
    expect(server.requests.slice(0, 2).map((one) => one.books[0]?.unsent)).toEqual([3, 0]);
  });

  it("counts what was refused until it is given up", async () => {
    server.refuses = () => ({ code: "invalid", message: "No.", fields: {} });
    await news();
    server.refuses = () => null;
    await quiet(me);
    expect(marksOf()?.[0]?.unsent).toBe(1);
    const refused = await me.unsent();
    await me.records.giveUp(refused.refused[0]?.mut as string);
    await quiet(me);
    expect(marksOf()?.[0]?.unsent).toBe(0);
  });

  it("names a book that the server does not know yet", async () => {
    const second = await me.records.newVehicle({ name: "Robin" }, []);
    await quiet(me);
    const named = server.requests.flatMap((one) => one.books);
    expect(named).toContainEqual({ book: second, checkpoint: 0, unsent: 0 });
  });
});

describe("what is told of other phones", () => {
  it("is kept and shown without a network", async () => {
    tell("b1", { unsent: 2 });
    await news();
    phone.network.fate = () => "request lost";
    await checkShown(me, [{ name: "user-Ben", nth: null, at: AT, unsent: 2 }]);
  });

  it("is asked for from where the last answer ended", async () => {
    await news();
    expect(server.requests.at(-1)?.heard_since).toBe(server.now);
  });

  it("is asked for from the beginning while a book comes in pages", async () => {
    const his = await new Browser(server).signedIn("Ben");
    for (let n = 0; n < 3; n += 1) await his.records.log(book, "fill", fill);
    await quiet(his);
    await quiet(me);
    server.page = 1;
    for (let n = 0; n < 3; n += 1) await his.records.log(book, "fill", fill);
    await quiet(his);
    server.requests.length = 0;
    await quiet(me);
    const asked = server.requests.filter((one) => one.mutations.length === 0);
    expect(asked.map((one) => one.heard_since ?? null).slice(0, 3)).toEqual([server.now, null, null]);
    await news();
    expect(server.requests.at(-1)?.heard_since).toBe(server.now);
  });

  it("counts two phones of one account apart, in the order in which they came to be", async () => {
    tell("b2", { at: "2026-03-04T04:00:00.000Z" });
    tell("b1");
    await news();
    await checkShown(me, [
      { nth: 1, at: AT },
      { nth: 2, at: "2026-03-04T04:00:00.000Z" },
    ]);
  });

  it("leaves out a phone that was replaced long ago, unless it held something", async () => {
    tell("b0", { at: "2025-11-01T00:00:00.000Z" });
    tell("b1");
    await news();
    await checkShown(me, [{ nth: null, at: AT }]);
    tell("b0", { at: "2025-11-01T00:00:00.000Z", unsent: 1 });
    await news();
    await checkShown(me, [{ unsent: 1 }, { at: AT }]);
  });

  it("is not older than what came from there", async () => {
    const his = await new Browser(server).signedIn("Ben");
    await quiet(his);
    await his.records.log(book, "fill", fill);
    await quiet(his);
    const { device } = server.entries("fill")[0] as { device: string };
    tell(device, { at: "2026-03-01T00:00:00.000Z" });
    await quiet(me);
    await checkShown(me, [{ name: "user-Ben", nth: null, at: server.now, unsent: 0 }]);
  });

  it("says nothing of who shares the book no longer", async () => {
    tell("b1");
    await news();
    server.books.get(book)?.roles.delete("user-Ben");
    await news();
    await checkShown(me, []);
  });

  it("begins anew after the server came back from a backup", async () => {
    tell("b1");
    await news();
    server.heard.length = 0;
    server.generation = "g2";
    server.requests.length = 0;
    await quiet(me);
    const asked = server.requests.map((one) => one.heard_since);
    expect(asked.slice(0, 2)).toEqual([server.now, undefined]);
    await checkShown(me, []);
  });
});
