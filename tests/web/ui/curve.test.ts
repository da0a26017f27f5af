/** The scale of the curve above the beam, and the line styles that tell its limits apart. */
import { describe, expect, it } from "vitest";
import { type CurvePiece, scaleOf, styleOf } from "@/ui/parts/drawing/curve";

function piece(...kgs: (number | null)[]): CurvePiece {
  return { key: "rear", label: "Rear axle", points: kgs.map((kg, x_m) => ({ x_m, kg })) };
}

describe("the scale of the curve", () => {
  it("reaches the greatest room in few round steps", () => {
    const { top, lines } = scaleOf([piece(307, 571), piece(571, 571, 439)]);
    expect(top).toBeGreaterThanOrEqual(571);
    expect(lines).toEqual([200, 400]);
  });

  it("cuts a curve that rises without end", () => {
    const rising = Array.from({ length: 25 }, (_, k) => 100 / (1 - k / 24.001));
    expect(scaleOf([piece(...rising)]).top).toBeLessThan(1000);
  });

  it("stands where nothing is left, or nothing is known", () => {
    for (const kgs of [[0, 0], [null, null], []]) {
      const { top, lines } = scaleOf([piece(...kgs)]);
      expect(top).toBeGreaterThan(0);
      expect(lines.length).toBeGreaterThan(0);
    }
  });
});

it("gives each limit a line style of its own", () => {
  const keys = ["gross", "front", "rear", "combination", "trailer", "trailer_axles", "coupling", "roof"];
  const styles = [...keys, "lift front"].map(styleOf);
  expect(new Set(styles).size).toBe(styles.length);
});
