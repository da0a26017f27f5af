/** What must hold for any vehicle and any book, on the device as on the server. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Geometry, rearXM, rowsOf, WHEELS } from "@/domain/axles";
import { content, envelope, type Tank } from "@/domain/envelope";
import { reconcile, type Session, update } from "@/domain/reconcile";
import { loads, type Part, sign, valueKg } from "@/domain/statics";

const number = (min: number, max: number) =>
  fc.integer({ min: Math.round(min * 100), max: Math.round(max * 100) }).map((n) => n / 100);

const trailer = { id: "t", coupling_to_axle_m: 3.5, hitch_moment_kgm: 120 };
const geometries: fc.Arbitrary<Geometry> = fc.record({
  wheelbase_m: number(2.4, 4.5),
  spread_m: fc.option(number(0.8, 1.6), { nil: null }),
  second_axle: fc.constantFrom("pair", "springs"),
  coupling_x_m: fc.constant(5.6),
  trailer: fc.constantFrom(null, trailer),
});

const parts = (on: readonly string[]): fc.Arbitrary<Part[]> =>
  fc
    .array(
      fc.record({
        mass_kg: number(0, 150),
        mass_u_kg: number(0, 25),
        x_m: number(-1, 6),
        x_u_m: number(0, 0.3),
        taken_off: fc.boolean(),
        on: fc.constantFrom(...on),
      }),
      { maxLength: 8 },
    )
    .map((list) => list.map((one, i) => ({ id: `item ${i}`, ...one })));

const vehicles = geometries.chain((geometry) =>
  fc.tuple(fc.constant(geometry), parts(geometry.trailer ? ["vehicle", "t"] : ["vehicle"])),
);

const tanks: fc.Arbitrary<Tank[]> = fc
  .array(fc.record({ capacity_l: number(5, 150), x_m: number(-0.5, 5), level_u: number(0, 0.2) }), {
    maxLength: 4,
  })
  .map((list) => list.map((one, i) => ({ id: `tank ${i}`, ...one })));

describe("loads", () => {
  it("are all that is there", () => {
    fc.assert(
      fc.property(vehicles, ([geometry, aboard]) => {
        const rows = ["front", "rear", "gross", ...(geometry.trailer ? ["trailer_axles"] : [])];
        const found = loads({ parts: aboard, geometry, rows });
        const on = geometry.trailer ? valueKg(found, "trailer_axles") : 0;
        const total = aboard.reduce((sum, part) => sum + sign(part) * part.mass_kg, 0);
        expect(valueKg(found, "front") + valueKg(found, "rear") + on).toBeCloseTo(total, 7);
        expect(valueKg(found, "gross") + on).toBeCloseTo(total, 7);
      }),
    );
  });

  it("do not mind the order of parts, nor one that weighs nothing", () => {
    const nothing: Part = { id: "nothing", mass_kg: 0, mass_u_kg: 0, x_m: 5, x_u_m: 0.3 };
    fc.assert(
      fc.property(vehicles, ([geometry, aboard]) => {
        const rows = rowsOf(geometry);
        const there = loads({ parts: aboard, geometry, rows });
        const mixed = loads({ parts: [nothing, ...[...aboard].reverse()], geometry, rows });
        for (const [k, mean] of there.mean_kg.entries()) {
          expect(mixed.mean_kg[k]).toBeCloseTo(mean, 7);
          for (const [l, cov] of there.cov_kg2[k]!.entries())
            expect(mixed.cov_kg2[k]![l]).toBeCloseTo(cov, 6);
        }
      }),
    );
  });

  it("move by the moment of a mass that is shifted", () => {
    fc.assert(
      fc.property(vehicles, number(0, 200), number(-1, 6), number(-2, 2), ([geometry, aboard], kg, x, dx) => {
        fc.pre(geometry.second_axle === "pair");
        const rear = (x_m: number) => {
          const parts = [...aboard, { id: "shifted", mass_kg: kg, mass_u_kg: 0, x_m }];
          return valueKg(loads({ parts, geometry, rows: ["rear"] }), "rear");
        };
        expect(rear(x + dx) - rear(x)).toBeCloseTo((kg * dx) / rearXM(geometry), 7);
      }),
    );
  });

  it("swap left and right in a mirror", () => {
    const side = fc.array(fc.tuple(number(-0.9, 0.9), number(0, 0.2)), { minLength: 8, maxLength: 8 });
    const frames = fc.record({
      front_track_m: number(1.4, 1.8),
      rear_track_m: number(1.4, 1.8),
      frame: fc.constantFrom("flexible", "rigid"),
      front_roll_share: number(0, 1),
    });
    const swapped = WHEELS.map((row) =>
      row.replace(/left|right/, (one) => (one === "left" ? "right" : "left")),
    );
    fc.assert(
      fc.property(vehicles, side, frames, ([bare, aboard], sides, frame) => {
        const geometry = { ...bare, ...frame };
        const placed = (mirror: number) =>
          aboard.map((part, i) => ({ ...part, y_m: mirror * sides[i]![0], y_u_m: sides[i]![1] }));
        const there = loads({ parts: placed(1), geometry, rows: WHEELS });
        const back = loads({ parts: placed(-1), geometry, rows: swapped });
        for (const [k, mean] of there.mean_kg.entries()) {
          expect(back.mean_kg[k]).toBeCloseTo(mean, 7);
          for (const [l, cov] of there.cov_kg2[k]!.entries()) expect(back.cov_kg2[k]![l]).toBeCloseTo(cov, 6);
        }
      }),
    );
  });

  it("stay within the envelope at any level", () => {
    const rows = ["front", "rear"];
    fc.assert(
      fc.property(
        vehicles,
        tanks,
        fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 4, maxLength: 4 }),
        ([geometry, aboard], held, levels) => {
          const spans = envelope({ parts: aboard, tanks: held, geometry, rows });
          const contents = held.map((tank, i) => content({ tank, level: levels[i]! }));
          const found = loads({ parts: [...aboard, ...contents], geometry, rows });
          for (const [k, { least_kg, greatest_kg }] of spans.entries()) {
            expect(found.mean_kg[k]).toBeGreaterThanOrEqual(least_kg - 1e-7);
            expect(found.mean_kg[k]).toBeLessThanOrEqual(greatest_kg + 1e-7);
          }
        },
      ),
      { numRuns: 1000 },
    );
  });
});

describe("reconciling", () => {
  const geometry = { wheelbase_m: 3.2 };
  const lasting: Part[] = [
    { id: "base_front", mass_kg: 1300, mass_u_kg: 20, x_m: 0 },
    { id: "base_rear", mass_kg: 1200, mass_u_kg: 20, x_m: 3.2 },
    { id: "box", mass_kg: 80, mass_u_kg: 12, x_m: 2.6, x_u_m: 0.1 },
  ];
  const session = (id: string, rear: number, whole: number): Session => ({
    id,
    lasting,
    passing: [{ id: "driver", mass_kg: 80, mass_u_kg: 3, x_m: 1.2, x_u_m: 0.02 }],
    readings: [
      { id: "r", axles: ["rear"], value_kg: rear },
      { id: "w", axles: ["front", "rear"], value_kg: whole },
    ],
    bridge: { key: "b", interval_kg: 20, displayed_kg: 20, accuracy_class: "III", max_kg: 60_000 },
  });

  it("does not mind the order of weighings", () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(number(1150, 1400), number(2500, 2800)), { minLength: 2, maxLength: 4 }),
        (pairs) => {
          const sessions = pairs.map(([rear, whole], i) => session(`s${i}`, rear, whole));
          const ask = (some: readonly Session[]) =>
            reconcile({ lasting, geometry, sessions: some }).loads({
              lasting,
              passing: [],
              rows: ["front", "rear"],
            });
          const [there, back] = [ask(sessions), ask([...sessions].reverse())];
          for (const k of [0, 1]) {
            expect(back.mean_kg[k]).toBeCloseTo(there.mean_kg[k]!, 6);
            expect(back.cov_kg2[k]![k]).toBeCloseTo(there.cov_kg2[k]![k]!, 6);
          }
        },
      ),
    );
  });

  it("keeps its digits with a wide prior and sharp readings", () => {
    const [mean, cov] = update({
      mean: [0, 0],
      cov: [
        [1e12, 0],
        [0, 1e12],
      ],
      design: [
        [1, 0],
        [0.5, 1],
      ],
      readings: [500, 300],
      noise: [
        [1e-6, 0],
        [0, 1e-6],
      ],
    });
    expect(mean[0]).toBeCloseTo(500, 3);
    expect(cov[0]![0]! / 1e-6).toBeCloseTo(1, 4);
    expect(cov[0]![1]! / -5e-7).toBeCloseTo(1, 4);
    expect(cov[1]![1]! / 1.25e-6).toBeCloseTo(1, 4);
  });
});
