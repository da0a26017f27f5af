/** Two plans in whole kilograms: first plus lines are second, and a trailer comes with what is on it. */
import { describe, expect, it } from "vitest";
import { openBook, type Row } from "@/domain/book";
import type { State } from "@/domain/state";
import { comparedPlans, daysToCompare } from "@/services/compare";

const row = (id: string, kind: string, body: Record<string, unknown>, order = 0): Row => ({
  ...{ id, kind, rev: `${id}-1`, order },
  body: { name: id, ...body },
});
const VEHICLE = row("v", "vehicle", {
  ...{ wheelbase_m: 3.2, base_front_kg: 1190, base_rear_kg: 860, coupling_x_m: 4.4 },
});
const TRAILER = row("t", "trailer", { coupling_to_axle_m: 4, base_coupling_kg: 64.3, base_axles_kg: 536.4 });
const LOADS = [1, 2, 3, 4, 5].map((n) =>
  row(`i${n}`, "item", { mass_kg: 10.3 * n, x_m: 0.7 * n, stage: n > 3 ? "on_order" : "fitted" }, n),
);
const SHELF = row("shelf", "item", { mass_kg: 30.4, x_m: 2.2, trailer_id: "t" });
const edits = [VEHICLE, ...LOADS].map(({ id, kind, rev, body }, n) => ({
  ...{ record_id: id, kind, rev, author: "a", body },
  at: `2026-03-0${n + 1}T08:00:00Z`,
}));
const book = openBook({ rows: [VEHICLE, TRAILER, SHELF, ...LOADS], edits });

describe("whole kilograms", () => {
  it("add up in every column", () => {
    const { kg, rows, lines } = comparedPlans(
      book,
      [{ day: "2026-03-02" }, { ordered: true, trailer_id: "t" }],
      "2026-04-01",
      null,
    );
    expect(rows).toEqual(["front", "rear", "gross", "coupling", "trailer_axles"]);
    expect(lines.length).toBeGreaterThan(4);
    for (const k of rows.keys()) {
      const sum = kg.lines.reduce((total, line) => total + line[k]!, kg.first[k]!);
      expect(sum).toBe(kg.second[k]);
    }
  });

  it("fold what is on a trailer into its line", () => {
    const { lines, kg } = comparedPlans(book, [{}, { trailer_id: "t" }], "2026-04-01", null);
    expect(lines.map(({ record_id, how, things }) => [record_id, how, things])).toEqual([
      ["t", ["coupled"], 1],
    ]);
    expect(kg.lines[0]!.at(-1)).toBe(Math.round(536.4 + (30.4 * 2.2) / 4));
  });

  it("come with what the tanks hold: full, or as the log has it", () => {
    const tank = row("w", "tank", { holds: "water", capacity_l: 60, x_m: 2 });
    const tanks = openBook({ rows: [VEHICLE, tank], edits: [] });
    const levels = (state: State | null) =>
      comparedPlans(tanks, [{}, { ordered: true }], "2026-04-01", state).sides.map((side) => side.levels);
    expect(levels(null).map((one) => one.map(({ level }) => level))).toEqual([[1], [1]]);
    const half = { tank_id: "w", level: 0.5, level_u: 0.02, known_from: "dip" } as const;
    const now = { tanks: [half], seats: [], items_away: [], trailers_on: [] };
    expect(levels(now)).toEqual([[half], [half]]);
  });

  it("begin on the first day with an item", () => {
    const { days, first } = daysToCompare(book, "2026-04-01T00:00:00Z");
    expect([days.length, first]).toEqual([6, "2026-03-02"]);
  });
});
