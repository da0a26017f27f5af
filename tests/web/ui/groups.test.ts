import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { frameFor, shapeOf } from "@/ui/parts/drawing/frame";
import { grouped, named, nearest } from "@/ui/parts/drawing/groups";
import type { Arrow } from "@/ui/parts/drawing/marks";
import { heightOn, topAt } from "@/ui/parts/drawing/outline";

const arrow = fc.record({
  id: fc.uuid(),
  x_m: fc.double({ min: -1, max: 5, noNaN: true }),
  mass_kg: fc.double({ min: 0, max: 200, noNaN: true }),
  label: fc.string({ minLength: 1, maxLength: 30 }),
  trailer: fc.boolean(),
});
const many = fc.array(arrow, { maxLength: 200 });
const SEED = { seed: 20261125, numRuns: 200 };
const x = ({ x_m }: Arrow) => (x_m + 1) * 60;

describe("arrows in one place", () => {
  it("are together, each once, and their masses add up", () => {
    fc.assert(
      fc.property(many, (arrows) => {
        const groups = grouped(arrows, x);
        const members = groups.flatMap((one) => one.members);
        expect(members.map((one) => one.id).sort()).toEqual(arrows.map((one) => one.id).sort());
        for (const { members: own, mass_kg, x: at } of groups) {
          expect(own.reduce((sum, one) => sum + one.mass_kg, 0)).toBeCloseTo(mass_kg, 6);
          for (const one of own) expect(Math.abs(x(one) - at)).toBeLessThan(15);
          expect(new Set(own.map((one) => one.trailer)).size).toBe(1);
        }
      }),
      SEED,
    );
  });

  it("leave so few that each can be told from the next but one", () => {
    fc.assert(
      fc.property(many, (arrows) => {
        const alike = arrows.filter((one) => !one.trailer);
        expect(grouped(alike, x).length).toBeLessThanOrEqual(1 + Math.floor(360 / 15) + 1);
      }),
      SEED,
    );
  });

  it("are found by the finger that is nearest", () => {
    const groups = grouped(
      [1, 2, 4].map((x_m) => ({ id: `${x_m}`, x_m, mass_kg: 9, label: "" })),
      x,
    );
    expect(nearest(groups, 170, 24)?.members[0]?.id).toBe("2");
    expect(nearest(groups, 235, 24)).toBeNull();
  });
});

describe("names above the arrows", () => {
  it("are those of the heaviest, none over another, all on the paper", () => {
    fc.assert(
      fc.property(many, (arrows) => {
        const names = named(grouped(arrows, x), 360, 7);
        expect(names.length).toBeLessThanOrEqual(7);
        const half = ({ text }: { text: string }) => (text.length * 5.6) / 2;
        for (const [k, one] of names.entries()) {
          expect(one.x - half(one)).toBeGreaterThanOrEqual(-1e-9);
          expect(one.x + half(one)).toBeLessThanOrEqual(360 + 1e-9);
          for (const other of names.slice(k + 1))
            if (other.row === one.row)
              expect(Math.abs(other.x - one.x)).toBeGreaterThan(half(one) + half(other));
        }
      }),
      SEED,
    );
  });
});

describe("what an arrow stands on", () => {
  it.each(["utility", "wagon", "van", "cab_chassis"] as const)("is the outline of a %s", (body_form) => {
    const shape = shapeOf({ body_form, wheelbase_m: 3.2 });
    const frame = frameFor(shape, 360, 60);
    for (let x_m = -2; x_m < 7; x_m += 0.05) {
      const top = topAt(shape, x_m);
      expect(top).toBeGreaterThan(0.4);
      expect(frame.z(top)).toBeGreaterThanOrEqual(59);
    }
    expect(topAt(shape, 1.6)).toBeGreaterThan(1.6);
    expect(topAt(shape, -0.85)).toBeLessThan(1.1);
  });

  it("takes the higher end of an upright, and the ends beyond a line", () => {
    const line = [
      [0, 1],
      [1, 2],
      [1, 0.5],
      [2, 0.5],
    ] as const;
    expect([-1, 0.5, 1, 1.5, 9].map((x_m) => heightOn(line, x_m))).toEqual([1, 1.5, 2, 0.5, 0.5]);
  });
});
