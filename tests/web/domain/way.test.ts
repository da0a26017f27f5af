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

/** What each choice that meets all limits costs, the least first: moves then kg off, or the other way round. */
function costs(limits: readonly Limit[], items: readonly Item[], off: boolean): number[][] {
  const met = (picks: readonly number[]) =>
    heldBy({ limits, items, picks }).every(({ value_kg, u_kg }, k) => {
      const { limit_kg, least = false } = limits[k]!;
      const reach = zAt(0.95) * u_kg;
      return least ? value_kg - reach >= limit_kg - 1e-9 : value_kg + reach <= limit_kg + 1e-9;
    });
  const cost = (picks: readonly number[]) => {
    const moves = picks.filter((pick) => pick > 0).length;
    const left = picks.reduce((sum, pick, i) => sum + items[i]!.options[pick]!.off_kg!, 0);
    return off ? [left, moves] : [moves, left];
  };
  const order = (a: readonly number[], b: readonly number[]) =>
    Math.abs(a[0]! - b[0]!) > 1e-6 ? a[0]! - b[0]! : a[1]! - b[1]!;
  return choices(items.length).filter(met).map(cost).sort(order);
}

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
        const [best] = costs(limits, items, off);
        expect(found.word === "impossible").toBe(best === undefined);
        if (best === undefined) return;
        const got = off ? [found.off_kg, found.moves] : [found.moves, found.off_kg];
        expect(got[0]).toBeCloseTo(best[0]!, 6);
        expect(got[1]).toBeCloseTo(best[1]!, 6);
      }),
      { numRuns: 60 },
    );
  });
});

/** Two fuel tanks and fresh water that runs into a grey tank. */
const tanks = fc
  .record({
    main: number(20, 90),
    sub: number(10, 60),
    main_x: number(-0.5, 4.4),
    sub_x: number(-0.5, 4.4),
    fresh: number(10, 60),
    fraction: number(0, 1),
  })
  .map(({ main, sub, main_x, sub_x, fresh, fraction }): Vessel[] => [
    { id: "main", holds: "fuel", capacity_l: main, litres_l: main, x_m: main_x, drain_order: 1 },
    { id: "sub", holds: "fuel", capacity_l: sub, litres_l: sub, x_m: sub_x, drain_order: 2 },
    {
      id: "fresh",
      holds: "water",
      capacity_l: 60,
      litres_l: fresh,
      x_m: 2,
      grey_id: "grey",
      grey_fraction: fraction,
    },
    { id: "grey", holds: "grey", capacity_l: 60, litres_l: 0, x_m: 4.2 },
  ]);

describe("loads along a way", () => {
  it("have the extremes that fine steps find", () => {
    const trip = fc.record({
      vessels: tanks,
      burnt: number(0, 1),
      drunk: number(0, 1),
      pieces: fc.integer({ min: 2, max: 40 }),
    });
    const geometry = { wheelbase_m: WHEELBASE_M };
    const base = [
      { id: "front", mass_kg: 1300, mass_u_kg: 10, x_m: 0 },
      { id: "rear", mass_kg: 1200, mass_u_kg: 10, x_m: WHEELBASE_M },
    ];
    const fixed = loads({ parts: base, geometry, rows: ROWS });
    fc.assert(
      fc.property(trip, ({ vessels, burnt, drunk, pieces }) => {
        const fuel = burnt * (vessels[0]!.litres_l + vessels[1]!.litres_l);
        const water = drunk * vessels[2]!.litres_l;
        const way = (share: number): Way => ({
          kind: "way",
          distance_km: 600 * share,
          used_l: { fuel: fuel * share, water: water * share },
        });
        const answer = (events: readonly Happening[]) => loadsAlong({ fixed, vessels, events, geometry });
        const [coarse, fine] = [answer([way(1)]), answer(new Array<Way>(pieces).fill(way(1 / pieces)))];
        for (const [k] of ROWS.entries())
          for (const end of ["least_at", "greatest_at"] as const) {
            const expected = fine.marks[fine.ranges[k]![end]]!.value_kg[k]!;
            expect(coarse.marks[coarse.ranges[k]![end]]!.value_kg[k]!).toBeCloseTo(expected, 6);
          }
        const gone = fuel + water * (1 - vessels[2]!.grey_fraction!);
        expect(coarse.marks[0]!.value_kg[2]! - coarse.marks.at(-1)!.value_kg[2]!).toBeCloseTo(gone, 6);
      }),
    );
  });
});
