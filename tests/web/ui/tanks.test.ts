import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { frameFor, shapeOf, type TrailerFacts, trailerShapeOf } from "@/ui/parts/drawing/frame";
import { grainOf, stepsOf } from "@/ui/parts/drawing/tank_picture";
import { endsOf, layTanks, levelY, sizeOf, type TankMark, tanksAt } from "@/ui/parts/drawing/tanks";

const BOX: TrailerFacts = { body_form: "box", coupled: true, axles: 2, coupling_to_axle_m: 5 };
const VEHICLES = [
  ["2.6 m", { wheelbase_m: 2.6 }, null],
  ["3.2 m", { wheelbase_m: 3.2 }, null],
  ["3.8 m tandem with a trailer", { wheelbase_m: 3.8, rear_axles: "load_sharing_pair" }, BOX],
] as const;

function mark(
  id: string,
  x_m: number,
  facts: Parameters<typeof sizeOf>[0],
  more: Partial<TankMark> = {},
): TankMark {
  const level = { share: 0.5, reach: 0.1 };
  return { id, x_m, mass_kg: 0, label: id, y_m: 0, size: sizeOf(facts), level, told: id, ...more };
}

function paper(
  body: (typeof VEHICLES)[number][1],
  facts: TrailerFacts | null,
  marks: readonly TankMark[],
  width = 360,
) {
  const shape = shapeOf(body);
  const trailer = facts && trailerShapeOf(facts, shape);
  const frame = frameFor(
    shape,
    width,
    46,
    marks.flatMap((one) => endsOf(one, trailer)),
    trailer,
  );
  return { frame, trailer, laid: layTanks(marks, frame, trailer) };
}

describe("the size of a tank as drawn", () => {
  it("is its volume over its height and breadth", () => {
    // 80 L and 4 L below the outlet in a box 0.28 m high and 0.5 m across: 0.6 m long
    const size = sizeOf({
      holds: "fuel",
      capacity_l: 80,
      unusable_l: 4,
      height_m: 0.28,
      breadth_m: 0.5,
      z_bottom_m: 0.4,
    });
    expect(size.length_m).toBeCloseTo(0.6, 12);
    expect(size.unusable).toBeCloseTo(4 / 84, 12);
    expect(size.assumed).toBe(false);
  });

  it("keeps a length that is typed, and takes the height from it where there is none", () => {
    expect(sizeOf({ capacity_l: 60, height_m: 0.3, length_m: 0.7 }).length_m).toBe(0.7);
    const flat = sizeOf({ capacity_l: 60, length_m: 1.2, breadth_m: 0.5 });
    expect(flat.height_m).toBeCloseTo(0.1, 12);
    expect(flat.assumed).toBe(true);
  });

  it("is assumed where nothing says it, a can upright and high", () => {
    const [tank, can] = [sizeOf({ holds: "water", capacity_l: 60 }), sizeOf({ can: true, capacity_l: 20 })];
    expect([tank.assumed, can.assumed]).toEqual([true, true]);
    expect(can.height_m).toBeGreaterThan(can.length_m);
    expect(can.bottom_m).toBeGreaterThan(tank.bottom_m);
  });
});

describe.each(VEHICLES)("tanks on %s", (_, body, trailer) => {
  const facts = { holds: "fuel", capacity_l: 80, height_m: 0.25, breadth_m: 0.5, z_bottom_m: 0.4 };

  it("stand to scale where they are", () => {
    const { frame, laid } = paper(body, trailer, [mark("main", 2, facts)]);
    const [one] = laid;
    expect(one!.x + one!.width / 2).toBeCloseTo(frame.x(2), 9);
    expect(one!.width / one!.height).toBeCloseTo(0.64 / 0.25, 9);
    expect(one!.y + one!.height).toBeCloseTo(frame.z(0.4), 9);
  });

  it("show half full in the middle of what the pump reaches", () => {
    const [one] = paper(body, trailer, [mark("main", 2, { ...facts, capacity_l: 60, unusable_l: 20 })]).laid;
    expect(levelY(one!, 0)).toBeCloseTo(one!.y + 0.75 * one!.height, 9);
    expect(levelY(one!, 0.5)).toBeCloseTo(one!.y + 0.375 * one!.height, 9);
    expect(levelY(one!, 1.3)).toBeCloseTo(one!.y, 9);
  });

  it("side by side are drawn one behind the other, each with a scale of its own", () => {
    const pair = [mark("right", 2, facts, { y_m: 0.5 }), mark("left", 2, facts, { y_m: -0.5 })];
    const [near, far] = paper(body, trailer, pair).laid;
    expect([near!.mark.id, far!.mark.id]).toEqual(["left", "right"]);
    expect([far!.x > near!.x, far!.y < near!.y]).toEqual([true, true]);
    expect(Math.abs(near!.scale_x - far!.scale_x)).toBeGreaterThanOrEqual(9);
  });
});

it("places a trailer's tank behind the coupling", () => {
  const tank = mark("drum", 2, { holds: "water", capacity_l: 70 }, { trailer: true });
  const { frame, trailer, laid } = paper(VEHICLES[2][1], BOX, [tank]);
  expect(laid[0]!.x + laid[0]!.width / 2).toBeCloseTo(frame.x(trailer!.coupling_x_m + 2), 9);
});

it("keeps any number of tanks on the paper, each under a finger that comes down on it", () => {
  const tank = fc.record({
    x_m: fc.double({ min: -0.5, max: 4.5, noNaN: true }),
    y_m: fc.double({ min: -0.8, max: 0.8, noNaN: true }),
    capacity_l: fc.double({ min: 5, max: 400, noNaN: true }),
    can: fc.boolean(),
  });
  fc.assert(
    fc.property(fc.array(tank, { maxLength: 8 }), fc.constantFrom(360, 620), (tanks, width) => {
      const marks = tanks.map((one, k) =>
        mark(String(k), one.x_m, { holds: "fuel", ...one }, { y_m: one.y_m }),
      );
      const { laid, frame } = paper(VEHICLES[1][1], null, marks, width);
      expect(laid.length).toBe(tanks.length);
      for (const { mark: own, x, y, width: wide, height, scale_x } of laid) {
        expect(x).toBeGreaterThanOrEqual(0);
        expect(x + wide).toBeLessThanOrEqual(frame.width + 4 * tanks.length);
        expect(scale_x).toBeGreaterThanOrEqual(x);
        expect(tanksAt(laid, x + wide / 2, y + height / 2).map((one) => one.id)).toContain(own.id);
      }
    }),
    { seed: 20261126, numRuns: 200 },
  );
});

describe("the dip scale", () => {
  it.each([
    [80, 20, 4],
    [60, 10, 5],
    [140, 50, 5],
    [20, 5, 5],
    [9, 2, 4],
    [450, 100, 5],
  ])("of %d L has a figure each %d L and %d short steps between", (capacity_l, step, parts) => {
    expect(stepsOf(capacity_l)).toEqual({ step, parts });
  });

  it("never has more than seven figures, and moves by about a hundredth", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 5000, noNaN: true }), (capacity_l) => {
        const { step } = stepsOf(capacity_l);
        expect(capacity_l / step).toBeLessThanOrEqual(6.000001);
        expect(capacity_l / step).toBeGreaterThan(2);
        expect(capacity_l / grainOf(capacity_l)).toBeLessThanOrEqual(125.001);
        expect(capacity_l / grainOf(capacity_l)).toBeGreaterThan(40);
      }),
      { seed: 20261126, numRuns: 300 },
    );
  });
});
