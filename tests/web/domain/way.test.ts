/** What must hold for load advice and along a way, on the device as on the server. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { advise, heldBy, type Item, type Limit } from "@/domain/advice";
import { loadsAlong } from "@/domain/along";
import type { Happening, Vessel, Way } from "@/domain/happenings";
import { zAt } from "@/domain/normal";
import { loads } from "@/domain/statics";

const number = (min: number, max: number) =>
  fc.integer({ min: Math.round(min * 100), max: Math.round(max * 100) }).map((n) => n / 100);

const WHEELBASE_M = 3.2;
const ROWS = ["front", "rear", "gross"];

/** An item at x, or left behind: its load on front, rear and gross, with what its mass and its place leave open. */
function option(id: string, mass_kg: number, u_kg: number, x_m: number | null) {
  const share = x_m === null ? [0, 0, 0] : [1 - x_m / WHEELBASE_M, x_m / WHEELBASE_M, 1];
  const slope = x_m === null ? [0, 0, 0] : [1 / WHEELBASE_M, 1 / WHEELBASE_M, 0];
  return {
    id,
    loads_kg: share.map((one) => one * mass_kg),
    variances_kg2: share.map(
      (one, k) => (one * u_kg) ** 2 + (mass_kg ** 2 + u_kg ** 2) * (slope[k]! * 0.15) ** 2,
    ),
    off_kg: x_m === null ? mass_kg : 0,
  };
}

const items: fc.Arbitrary<Item[]> = fc
  .array(
    fc.record({ mass_kg: number(2, 70), share: number(0, 0.15), x_m: number(2, 4.4), to_m: number(-0.5, 3) }),
    { minLength: 5, maxLength: 5 },
  )
  .map((list) =>
    list.map(({ mass_kg, share, x_m, to_m }, i) => ({
      id: `item ${i}`,
      mass_kg,
      options: [
        option("here", mass_kg, share * mass_kg, x_m),
        option("there", mass_kg, share * mass_kg, to_m),
        option("off", mass_kg, share * mass_kg, null),
      ],
    })),
  );

const choices = (count: number): number[][] =>
  count === 0 ? [[]] : choices(count - 1).flatMap((rest) => [0, 1, 2].map((pick) => [...rest, pick]));

describe("the least change", () => {
  it("is as small as the smallest of all choices of five items", () => {
    const asked = fc.record({ items, rear: number(-60, 40), gross: number(-120, 80), off: fc.boolean() });
    fc.assert(
      fc.property(asked, ({ items, rear, gross, off }) => {
        const at = (k: number) => items.reduce((sum, one) => sum + one.options[0]!.loads_kg[k]!, 0);
        const limits: Limit[] = [
          { id: "front", limit_kg: 0, fixed_kg: 30, variance_kg2: 9, least: true },
          { id: "rear", limit_kg: 930 + at(1) + rear, fixed_kg: 930, variance_kg2: 100 },
          { id: "gross", limit_kg: 2200 + at(2) + gross, fixed_kg: 2200, variance_kg2: 144 },
        ];
        const found = advise({ limits, items, objective: off ? "off" : "moves" });
        const met = (picks: number[]) =>
          heldBy({ limits, items, picks }).every(({ value_kg, u_kg }, k) => {
            const { limit_kg, least = false } = limits[k]!;
            const reach = zAt(0.95) * u_kg;
            return least ? value_kg - reach >= limit_kg - 1e-9 : value_kg + reach <= limit_kg + 1e-9;
          });
        const costs = choices(items.length)
          .filter(met)
          .map((picks) => {
            const moves = picks.filter((pick) => pick > 0).length;
            const left = picks.reduce((sum, pick, i) => sum + items[i]!.options[pick]!.off_kg!, 0);
            return off ? [left, moves] : [moves, left];
          });
        if (costs.length === 0) {
          expect(found.word).toBe("impossible");
          return;
        }
        const [first, second] = costs.sort((a, b) =>
          Math.abs(a[0]! - b[0]!) > 1e-6 ? a[0]! - b[0]! : a[1]! - b[1]!,
        )[0]!;
        const got = off ? [found.off_kg, found.moves] : [found.moves, found.off_kg];
        expect(got[0]).toBeCloseTo(first!, 6);
        expect(got[1]).toBeCloseTo(second!, 6);
        expect(met([...found.picks])).toBe(true);
      }),
      { numRuns: 60 },
    );
  });
});

describe("loads along a way", () => {
  it("have the extremes that fine steps find", () => {
    const trip = fc.record({
      main: number(20, 90),
      sub: number(10, 60),
      main_x: number(-0.5, 4.4),
      sub_x: number(-0.5, 4.4),
      fresh: number(10, 60),
      fraction: number(0, 1),
      burnt: number(0, 1),
      drunk: number(0, 1),
      pieces: fc.integer({ min: 2, max: 40 }),
    });
    fc.assert(
      fc.property(trip, (one) => {
        const geometry = { wheelbase_m: WHEELBASE_M };
        const base = [
          { id: "front", mass_kg: 1300, mass_u_kg: 10, x_m: 0 },
          { id: "rear", mass_kg: 1200, mass_u_kg: 10, x_m: WHEELBASE_M },
        ];
        const fixed = loads({ parts: base, geometry, rows: ROWS });
        const vessels: Vessel[] = [
          {
            id: "main",
            holds: "fuel",
            capacity_l: one.main,
            litres_l: one.main,
            x_m: one.main_x,
            drain_order: 1,
          },
          {
            id: "sub",
            holds: "fuel",
            capacity_l: one.sub,
            litres_l: one.sub,
            x_m: one.sub_x,
            drain_order: 2,
          },
          {
            id: "fresh",
            holds: "water",
            capacity_l: 60,
            litres_l: one.fresh,
            x_m: 2,
            grey_id: "grey",
            grey_fraction: one.fraction,
          },
          { id: "grey", holds: "grey", capacity_l: 60, litres_l: 0, x_m: 4.2 },
        ];
        const fuel = one.burnt * (one.main + one.sub);
        const water = one.drunk * one.fresh;
        const whole: Way = { kind: "way", distance_km: 600, used_l: { fuel, water } };
        const piece: Way = {
          kind: "way",
          distance_km: 600 / one.pieces,
          used_l: { fuel: fuel / one.pieces, water: water / one.pieces },
        };
        const answer = (events: readonly Happening[]) => loadsAlong({ fixed, vessels, events, geometry });
        const [coarse, fine] = [answer([whole]), answer(new Array<Way>(one.pieces).fill(piece))];
        for (const [k] of ROWS.entries())
          for (const end of ["least_at", "greatest_at"] as const) {
            const expected = fine.marks[fine.ranges[k]![end]]!.value_kg[k]!;
            expect(coarse.marks[coarse.ranges[k]![end]]!.value_kg[k]!).toBeCloseTo(expected, 6);
          }
        const gone = fuel + water * (1 - one.fraction);
        const [first, last] = [coarse.marks[0]!, coarse.marks.at(-1)!];
        expect(first.value_kg[2]! - last.value_kg[2]!).toBeCloseTo(gone, 6);
      }),
    );
  });
});
