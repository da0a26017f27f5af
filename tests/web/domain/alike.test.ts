/** Pairs that may be one: as many comparisons for twice as many entries at one place. */
import { describe, expect, it } from "vitest";
import { alike } from "@/domain/alike";
import { type Body, openBook, type Row } from "@/domain/book";

/** Fills at one odometer reading with litres all over the tank; `looked` counts how often one is looked at. */
function crowded(count: number): { readonly rows: Row[]; readonly looked: () => number } {
  let looked = 0;
  const rows = Array.from({ length: count }, (_, n): Row => {
    const at = new Date(Date.UTC(2020, 0, 1, n)).toISOString().replace(".000", "");
    const body: Body = {
      at,
      odometer_km: 5_000,
      lines: [{ tank_id: "t", litres_l: (n * 37.7) % 2_000, full: true }],
    };
    const row = { id: `f${n}`, kind: "fill", rev: `r${n}`, order: n };
    return {
      ...row,
      get body() {
        looked += 1;
        return body;
      },
    };
  });
  return { rows, looked: () => looked };
}

describe("entries that may be one", () => {
  it("are looked for among neighbours, however many stand at one place", () => {
    const [few, many] = [400, 3_200].map((count) => {
      const { rows, looked } = crowded(count);
      const pairs = alike({ book: openBook({ rows }) });
      expect(pairs.length).toBeGreaterThan(0);
      return looked();
    });
    expect(many! / few!).toBeLessThan(8 * 2);
  });
});
