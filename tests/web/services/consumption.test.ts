/** What is kept of a fuel log for the next opening, and reading one piece by piece. */
import { describe, expect, it, vi } from "vitest";
import { type Body, type Book, openBook } from "@/domain/book";
import { fuel, placeToKeep, reach, readSlowly, recall, toKeep } from "@/services/answers";
import type { FuelAnswer } from "@/services/consumption";
import { pastOf } from "@/services/past";

const row = (kind: string, id: string, order: number, body: Body) => ({
  id,
  kind,
  rev: `${id}-1`,
  body,
  order,
});

function bookOf(
  fills: number,
  change: (rows: ReturnType<typeof row>[]) => ReturnType<typeof row>[] = (r) => r,
): Book {
  const rows = [
    row("vehicle", "v", 0, { name: "Wren" }),
    row("tank", "t", 1, { name: "Main", holds: "fuel", capacity_l: 80 }),
    ...Array.from({ length: fills }, (_, n) =>
      row("fill", `f${n}`, n + 2, {
        at: new Date(Date.UTC(2020, 0, 1 + n)).toISOString().replace(".000", ""),
        zone: "UTC",
        odometer_km: 1_000 + 400 * n,
        lines: [{ tank_id: "t", litres_l: 40 + (n % 5), full: true }],
      }),
    ),
  ];
  return openBook({ rows: change(rows) });
}

const on = async () => true;
const none = { answer: null, place: null };
const invented = { surface: "sealed", towing: false, count_on_km: 123 } as FuelAnswer;

describe("an answer kept for the next opening", () => {
  it("stands until the log has been read, and only for the same entries, tanks and code", async () => {
    const first = bookOf(30);
    expect(toKeep(first, none, "1")).toBeNull(); // nobody has read it yet
    await readSlowly(first, on);
    const kept = toKeep(first, none, "1")!;
    expect(kept.answer).toEqual(fuel(first));
    expect(toKeep(first, { ...none, answer: kept }, "1")).toBeNull();
    const asked = (book: Book, build = "1") => {
      recall(book, { answer: { ...kept, answer: invented }, place: null }, build);
      return fuel(book)?.count_on_km;
    };
    expect(asked(bookOf(30))).toBe(123);
    const others: [Book, string][] = [
      [bookOf(30), "2"],
      [bookOf(31), "1"],
      [bookOf(30, (rows) => rows.map((one) => (one.id === "f3" ? { ...one, rev: "f3-2" } : one))), "1"],
      [bookOf(30, (rows) => rows.map((one) => (one.id === "f3" ? { ...one, order: 99 } : one))), "1"],
      [bookOf(30, ([v, t, ...rest]) => [v!, { ...t!, body: { ...t!.body, capacity_l: 90 } }, ...rest]), "1"],
    ];
    for (const [book, build] of others) expect(asked(book, build)).not.toBe(123);
    expect(fuel(others[0]![0])).toEqual(kept.answer);
  });

  it("gives way to the log once another question has read it", () => {
    const book = bookOf(30);
    recall(book, { answer: { of: "something else", answer: invented }, place: null }, "1");
    expect(fuel(book)?.count_on_km).not.toBe(123);
    const again = bookOf(30);
    recall(again, { answer: { of: toKeep(book, none, "1")!.of, answer: invented }, place: null }, "1");
    expect(fuel(again)?.count_on_km).toBe(123);
    expect(fuel(again, { surface: "gravel" })?.surface).toBe("gravel");
    expect(reach(again, 100, { surface: "sealed" })).toBeGreaterThan(0.9);
    expect(fuel(again)).toEqual(fuel(book));
  });
});

describe("a log read piece by piece", () => {
  it("answers as one read at once", async () => {
    const [slow, once] = [bookOf(700), bookOf(701, (rows) => rows.slice(0, -1))];
    let pauses = 0;
    await readSlowly(slow, async () => {
      pauses += 1;
      return true;
    });
    expect(pauses).toBe(4);
    expect(fuel(slow)).toEqual(fuel(once));
  });

  it("is left where it is when the page is gone", async () => {
    const book = bookOf(700);
    expect(await readSlowly(book, async () => false)).toBe(false);
    expect(toKeep(book, none, "1")).toBeNull();
  });
});

describe("a place kept for the next opening", () => {
  it("is gone on from in a new page, for the same vehicle and code", async () => {
    const first = bookOf(300);
    await readSlowly(first, on);
    const place = placeToKeep(first, null, "1")!;
    expect(place.rest.count).toBeGreaterThan(270);
    expect(placeToKeep(first, place, "1")).toBeNull();
    expect(placeToKeep(first, place, "2")).not.toBeNull();
    for (const [build, gone] of [
      ["2", false],
      ["1", true],
    ] as const) {
      vi.resetModules(); // a new page knows nothing of the log
      const page = await import("@/services/consumption");
      const book = bookOf(303);
      page.recall(book, { answer: null, place: structuredClone(place) }, build);
      const answer = page.fuel(book);
      expect(Boolean(page.readLog(book)!.rest)).toBe(gone);
      expect(answer).toEqual(fuel(bookOf(303)));
      const { pastOf: pastThere } = await import("@/services/past");
      expect(pastThere(book)).toEqual(pastOf(bookOf(303)));
      expect(page.readLog(book)!.rest).toBeUndefined();
    }
  });
});
