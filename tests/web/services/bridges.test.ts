import { describe, expect, it } from "vitest";
import { bridgeCalled, bridgesSeen } from "@/services/bridges";
import type { UserTables } from "@/store/tables";

type Fields = Record<string, unknown>;

const record = (kind: string, book: string, id: string, body: Fields) => ({ kind, book, id, rev: id, body });
const weighing = (book: string, id: string, day: number, bridge: Fields, more: Fields = {}) =>
  record("weighing", book, id, { at: `2026-11-${day}T08:00:00Z`, bridge, readings: [], ...more });

/** Only what the query asks of the table of records. */
function tables(rows: readonly { kind: string }[]): UserTables {
  const equals = (kind: string) => ({ toArray: async () => rows.filter((one) => one.kind === kind) });
  return { records: { where: () => ({ equals }) } } as unknown as UserTables;
}

describe("the bridges that a device has seen", () => {
  it("are one each over all vehicles, the latest weighing first, without those that have no name", async () => {
    const seen = await bridgesSeen(
      tables([
        weighing("b1", "w1", 10, { name: "Hill bridge", interval_kg: 20 }),
        weighing("b2", "w2", 12, { name: "hill  BRIDGE", interval_kg: 10 }),
        weighing("b1", "w3", 14, { site_number: "D-4" }),
        weighing("b1", "w4", 16, { interval_kg: 20 }),
      ]),
    );
    expect(seen.map(({ key, book, at }) => [key, book, at.slice(8, 10)])).toEqual([
      ["d-4", "b1", "14"],
      ["hillbridge", "b2", "12"],
    ]);
    expect(seen[1]!.body.interval_kg).toBe(10);
  });

  it("do not come from weighings that were struck out or entered anew", async () => {
    const seen = await bridgesSeen(
      tables([
        weighing("b1", "w1", 10, { name: "Mistyped" }),
        record("correction", "b1", "c1", { at: "2026-11-11T08:00:00Z", of_id: "w1" }),
        weighing("b1", "w2", 12, { name: "Hil" }),
        weighing("b1", "w3", 12, { name: "Hill" }, { corrects: "w2" }),
      ]),
    );
    expect(seen.map((one) => one.key)).toEqual(["hill"]);
  });

  it("are called by name, by number or by key", async () => {
    const bridge = { key: "hb-7", name: "Hill bridge", site_number: "HB-7" };
    const seen = await bridgesSeen(tables([weighing("b1", "w1", 10, bridge)]));
    for (const text of ["hillbridge", "HB - 7", "Hill Bridge "])
      expect(bridgeCalled(seen, text)).toBe(seen[0]);
    expect(bridgeCalled(seen, "Hill")).toBeNull();
    expect(bridgeCalled(seen, " ")).toBeNull();
  });
});
