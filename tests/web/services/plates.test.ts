import { describe, expect, it } from "vitest";
import { type Body, openBook } from "@/domain/book";
import { plateLines, ratingsOf, whatIf } from "@/services/plates";

function bookOf(...plates: Body[]) {
  const rows = plates.map((body, order) => ({ id: `p${order}`, kind: "plate", rev: "r", body, order }));
  const vehicle = { id: "v", kind: "vehicle", rev: "r", body: { name: "Wren" }, order: 0 };
  return openBook({ rows: [vehicle, ...rows] });
}

const DAY = "2026-06-01";
const MAKER = { of: "vehicle", gross_kg: 3000, combination_kg: 6000 };
const UPGRADE = { of: "vehicle", gross_kg: 3400, date_from: "2026-03-01" };
const SMALL = { of: "tyres", tyre_size: "265/65R17", date_from: "2025-01-01" };
const LARGE = { of: "tyres", tyre_size: "265/70R17", date_from: "2026-01-01" };

describe("the lines of the plates", () => {
  it("stand newest first, with those that are only planned above", () => {
    const planned = { of: "vehicle", gross_kg: 3900, standing: "planned" };
    const lines = plateLines(bookOf(MAKER, planned, UPGRADE), DAY);
    expect(lines.map((one) => one.plate.id)).toEqual(["p1", "p2", "p0"]);
    expect(lines.map((one) => one.planned)).toEqual([true, false, false]);
  });

  it("say what a higher gross rating leaves behind the vehicle", () => {
    const [upgrade, maker] = plateLines(bookOf(MAKER, UPGRADE), DAY);
    expect(upgrade?.left_kg).toEqual([3000, 2600]);
    expect(maker?.left_kg).toEqual([null, 3000]);
  });

  it("compare a size with the last other one that can be read", () => {
    const unread = { of: "tyres", tyre_size: "round and black", date_from: "2025-06-01" };
    const [large] = plateLines(bookOf(SMALL, unread, LARGE), DAY);
    expect(large?.tyres?.resized?.before.id).toBe("p0");
    expect(large?.tyres?.resized?.factor).toBeCloseTo(802.8 / 776.3, 9);
    expect(large?.tyres?.resized?.shown_kmh).toBeCloseTo((100 * 776.3) / 802.8, 9);
  });

  it("say nothing of the odometer where there is nothing to say", () => {
    const trailer = { ...LARGE, trailer_id: "t" };
    const planned = { ...SMALL, standing: "planned" };
    for (const others of [[LARGE], [SMALL, trailer], [planned, LARGE], [LARGE, { ...LARGE, of: "rack" }]])
      for (const line of plateLines(bookOf(...others), DAY).filter((one) => !one.planned))
        expect(line.tyres?.resized ?? null).toBeNull();
  });
});

describe("the what-if", () => {
  const reading = (id: string, on_deck: string[], value_kg: number) => ({ id, on_deck, value_kg });
  const weighing = {
    ...{ at: "2026-05-01T08:00:00Z", zone: "Etc/UTC", bridge: { interval_kg: 10, max_kg: 40_000 } },
    readings: [
      reading("a", ["front"], 1340),
      reading("b", ["rear"], 1780),
      reading("c", ["front", "rear"], 3120),
    ],
  };

  it("judges the latest weighing anew with the same value and the same whisker", () => {
    const plain = bookOf(MAKER, { ...UPGRADE, standing: "planned" });
    const row = { id: "w", kind: "weighing", rev: "r", body: weighing, order: 1 };
    const book = { ...plain, weighings: [row] };
    expect(whatIf(plain, [], [])).toBeNull();
    const [now, then] = [ratingsOf({ book, day: DAY }), ratingsOf({ book, day: DAY, planned: ["p1"] })];
    const gross = whatIf(book, then, now)?.day.find((one) => one.then.verdict.rating === "gross");
    expect(gross?.now.verdict).toMatchObject({ word: "over", margin_kg: -120, limit_kg: 3000 });
    expect(gross?.then.verdict).toMatchObject({ word: "under", margin_kg: 280, limit_kg: 3400 });
    expect(gross?.then.verdict.reach_kg).toBe(gross?.now.verdict.reach_kg);
  });
});
