import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { delayMs } from "@/sync/backoff";

describe("the wait before the next try", () => {
  it.each([
    [1, 2_000],
    [2, 4_000],
    [8, 256_000],
    [9, 300_000],
    [1_000, 300_000],
  ])("after %i failures is at most %i ms", (failures, ceiling) => {
    expect(delayMs({ failures, chance: 1 })).toBe(ceiling);
  });

  it("is spread over all that", () => {
    expect(delayMs({ failures: 3, chance: 0.25 })).toBe(2_000);
    expect(delayMs({ failures: 3, chance: 0 })).toBe(0);
  });

  it("is never shorter than the server asked for, nor longer than it may be", () => {
    fc.assert(
      fc.property(
        fc.nat(50),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.nat(400),
        (failures, chance, asked) => {
          const wait = delayMs({ failures, chance, asked_s: asked });
          expect(wait).toBeGreaterThanOrEqual(Math.min(asked, 300) * 1_000);
          expect(wait).toBeLessThanOrEqual(600_000);
        },
      ),
    );
  });
});
