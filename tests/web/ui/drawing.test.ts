import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type BodyFacts,
  frameFor,
  shapeOf,
  type TrailerFacts,
  trailerShapeOf,
} from "@/ui/parts/drawing/frame";
import { type Label, type Placed, placeLabels, touchSpans } from "@/ui/parts/drawing/labels";
import { outlineOf } from "@/ui/parts/drawing/outline";
import { layOut, type Support } from "@/ui/parts/drawing/supports";
import { axlePlaces } from "@/ui/parts/drawing/towed";
import { trailerOutlineOf } from "@/ui/parts/drawing/trailer_outline";

const box: TrailerFacts = { body_form: "box", coupled: true };
const pair = { rear_axles: "independent_pair" } as const;

/** Short and long vehicles, with a second rear axle, with trailers short, long, and uncoupled. */
const VEHICLES: readonly (readonly [
  name: string,
  body: BodyFacts,
  trailer: TrailerFacts | null,
  singly: boolean,
])[] = [
  ["2.6 m solo", { wheelbase_m: 2.6 }, null, false],
  ["3.8 m solo", { wheelbase_m: 3.8, body_form: "cab_chassis" }, null, false],
  [
    "2.6 m, short trailer",
    { wheelbase_m: 2.6 },
    { ...box, body_form: "open", coupling_to_axle_m: 2.1 },
    false,
  ],
  ["3.2 m, long trailer", { wheelbase_m: 3.2 }, { ...box, coupling_to_axle_m: 5.4, axles: 3 }, false],
  [
    "3.8 m tandem, two axles",
    { wheelbase_m: 3.8, ...pair, rear_spread_m: 1.25 },
    { ...box, axles: 2 },
    false,
  ],
  [
    "3.8 m singly",
    { wheelbase_m: 3.8, ...pair, rear_spread_m: 0.9 },
    { ...box, coupling_to_axle_m: 6 },
    true,
  ],
  ["uncoupled", { wheelbase_m: 3.1 }, { ...box, coupled: false, dim: true }, false],
];

function laidOut(body: BodyFacts, trailer: TrailerFacts | null, singly: boolean, figure: string) {
  const shape = shapeOf(body);
  const behind = trailer && trailerShapeOf(trailer, shape);
  const frame = frameFor(shape, 360, 46, [], behind);
  const supports: Support[] = axlePlaces(body, trailer, singly).map((one) => ({
    ...one,
    figure,
    label: one.id,
  }));
  return { frame, shape, behind, laid: layOut(supports, frame, behind) };
}

function overlaps(labels: readonly Label[], placed: readonly Placed[]): number {
  const pairs = placed.flatMap((a, i) => placed.slice(i + 1).map((b, k) => [a, b, i, i + 1 + k] as const));
  return pairs.filter(
    ([a, b, i, k]) => a.row === b.row && Math.abs(a.x - b.x) < (labels[i]!.width + labels[k]!.width) / 2,
  ).length;
}

describe.each(VEHICLES)("the beam of %s", (_, body, trailer, singly) => {
  it.each(["?", "1 340", "1 338 ± 112"])("keeps the figures %s apart and on the paper", (figure) => {
    const { laid } = laidOut(body, trailer, singly, figure);
    const labels = laid.map((one) => ({ x: one.x, width: figure.length * 10.6 }));
    expect(laid.length).toBe(2 + Number(singly) + (trailer ? 1 + Number(trailer.coupled) : 0));
    expect(
      overlaps(
        labels,
        laid.map((one) => one.figure),
      ),
    ).toBe(0);
    laid.forEach(({ figure: placed }, k) => {
      expect(placed.x - labels[k]!.width / 2).toBeGreaterThanOrEqual(-1e-9);
      expect(placed.x + labels[k]!.width / 2).toBeLessThanOrEqual(360 + 1e-9);
      expect(placed.row).toBeLessThanOrEqual(Math.max(2, laid.length - 2));
    });
  });

  it("gives each axle 48 px of a phone of 390, and none to two", () => {
    const spans = laidOut(body, trailer, singly, "?").laid.flatMap((one) => one.touch ?? []);
    expect(spans.length).toBe(2 + Number(singly) + Number(trailer !== null));
    for (const { from, to } of spans) expect(((to - from) * 358) / 360).toBeGreaterThanOrEqual(48);
    spans.slice(1).forEach((span, k) => {
      expect(span.from).toBeGreaterThanOrEqual(spans[k]!.to - 1e-9);
    });
  });

  it("draws everything inside the paper", () => {
    const { frame, shape, behind } = laidOut(body, trailer, singly, "?");
    const lines = [outlineOf(shape, frame).body, behind ? trailerOutlineOf(behind, 5, frame).body : ""];
    const points = lines.join("").match(/[ML]-?[\d.]+ -?[\d.]+/g) ?? [];
    expect(points.length).toBeGreaterThan(6);
    for (const point of points) {
      const [x = Number.NaN, y = Number.NaN] = point.slice(1).split(" ").map(Number);
      expect(x).toBeGreaterThanOrEqual(0);
      expect(x).toBeLessThanOrEqual(360);
      expect(y).toBeGreaterThan(0);
      expect(y).toBeLessThan(frame.ground);
    }
  });
});

describe("figures under supports", () => {
  it("never overlap, wherever the supports are", () => {
    const label = fc.record({
      x: fc.double({ min: 12, max: 348, noNaN: true }),
      width: fc.constantFrom(11, 53, 106),
    });
    fc.assert(
      fc.property(fc.array(label, { minLength: 1, maxLength: 5 }), (some) => {
        const labels = [...some].sort((a, b) => a.x - b.x);
        expect(overlaps(labels, placeLabels(labels, 360))).toBe(0);
      }),
      { seed: 20261125, numRuns: 300 },
    );
  });

  it("stand under their supports on one line where there is room", () => {
    const labels = [40, 180, 320].map((x) => ({ x, width: 60 }));
    expect(placeLabels(labels, 360)).toEqual([40, 180, 320].map((x) => ({ x, row: 0 })));
  });

  it("give way by a little before they take a second line", () => {
    const placed = placeLabels(
      [100, 150].map((x) => ({ x, width: 60 })),
      360,
    );
    expect(placed.map((one) => one.row)).toEqual([0, 0]);
    expect(placed[1]!.x - placed[0]!.x).toBeGreaterThanOrEqual(68 - 1e-9);
  });
});

describe("fingers", () => {
  it("share the space between two axles that stand close", () => {
    const [a, b] = touchSpans([200, 230], 360);
    expect(a!.to).toBe(215);
    expect(b!.from).toBe(215);
    expect(a!.from).toBe(152);
  });
});

describe("a trailer on the paper", () => {
  it("carries the same line on behind the coupling, to one scale", () => {
    const { frame, laid } = laidOut(
      { wheelbase_m: 3 },
      { coupled: true, coupling_x_m: 4.2, coupling_to_axle_m: 3 },
      false,
      "?",
    );
    const x = Object.fromEntries(laid.map((one) => [one.support.id, one.x]));
    expect((x.trailer! - x.coupling!) / (x.rear! - x.front!)).toBeCloseTo(1, 9);
    expect(x.coupling).toBeCloseTo(frame.x(4.2), 9);
  });

  it("stands a little behind the vehicle when it is uncoupled, without a figure at the coupling", () => {
    const facts = { coupled: false, coupling_x_m: 4.2, coupling_to_axle_m: 3 };
    const { frame, laid, behind } = laidOut({ wheelbase_m: 3 }, facts, false, "?");
    expect(laid.map((one) => one.support.id)).toEqual(["front", "rear", "trailer"]);
    expect(laid[2]!.x).toBeGreaterThan(frame.x(7.2));
    expect(trailerOutlineOf(behind!, 4, frame).stand).toMatch(/^M/);
  });
});
