import { describe, expect, it } from "vitest";
import { Frame, type Point } from "@/ui/screens/weighing/over_time_frame";

function point(at: string, weighed_kg: number | null, u: number): Point {
  const before = { before_kg: 2000, before_u_kg: 300 };
  const after = { after_kg: 2010, after_u_kg: u };
  const day = { planned_kg: 1900, planned_u_kg: 20, weighed_kg, weighed_u_kg: weighed_kg && 10 };
  return { id: at, at, row: "gross", ...day, ...before, ...after };
}

describe("the picture over time", () => {
  const months = ["04", "06", "07", "11"].map((month, i) =>
    point(`2026-${month}-01T00:00:00Z`, i % 2 ? null : 1950, 12 - i),
  );

  it("keeps time where there is room", () => {
    const { xs } = new Frame(months);
    expect(xs).toEqual([...xs].sort((a, b) => a - b));
    expect((xs[1]! - xs[0]!) / (xs[2]! - xs[1]!)).toBeCloseTo(61 / 30, 1);
  });

  it("puts weighings of one day side by side", () => {
    const { xs, left, right } = new Frame([months[0]!, months[0]!, months[3]!]);
    expect(xs[1]! - xs[0]!).toBeCloseTo(xs[2]! - xs[1]!);
    expect(xs.every((x) => x > left && x < right)).toBe(true);
  });

  it("holds every mark, and cuts only what was known before", () => {
    const frame = new Frame(months);
    for (const kg of [1900 - 40, 1950, 2010 + 24]) {
      expect(frame.y(kg)).toBeGreaterThan(frame.top);
      expect(frame.y(kg)).toBeLessThan(frame.floor);
    }
    expect(frame.y(1950)).toBeLessThan(frame.y(1900));
    expect(frame.y(2000 + 600)).toBe(frame.top);
    expect(frame.ticks.length).toBeGreaterThanOrEqual(2);
    expect(frame.ticks.every((kg) => frame.y(kg) >= frame.top && frame.y(kg) <= frame.floor)).toBe(true);
  });

  it("steps at each weighing", () => {
    const frame = new Frame(months);
    const steps = frame.steps(months);
    expect(steps).toHaveLength(2 + 2 * months.length);
    expect(steps[0]).toEqual({ x: frame.left, kg: 2000, u_kg: 300 });
    expect(steps.at(-1)).toEqual({ x: frame.right, kg: 2010, u_kg: 9 });
  });

  it("shows one weighing alone, however sure", () => {
    const alone = { ...point("2026-04-01T00:00:00Z", 2010, 0), planned_kg: 2010, planned_u_kg: 0 };
    const frame = new Frame([{ ...alone, before_kg: 2010, weighed_u_kg: 0 }]);
    expect(frame.y(2010)).toBeCloseTo((frame.top + frame.floor) / 2);
    expect(frame.xs).toHaveLength(1);
  });
});
