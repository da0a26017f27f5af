import { describe, expect, it } from "vitest";
import { type Body, openBook } from "@/domain/book";
import { comparisonOf, latestComparison, provisional } from "@/services/answers";
import { readingNotes, whyUnread } from "@/services/readings";
import { sidesOf } from "@/services/sides";

const WHEELS = { front_left: 640, front_right: 660, rear_left: 820, rear_right: 780 };
const PADS = { name: "Pads", form: "pads", interval_kg: 1, accuracy_class: "percent", percent: 1 };

function bookOf(readings: readonly Body[], bridge: Body, vehicle: Body = {}) {
  const row = (kind: string, id: string, body: Body) => ({ id, kind, rev: id, body });
  const at = "2026-11-25T00:00:00Z";
  return openBook({
    rows: [
      row("vehicle", "v", { name: "Wren", ...vehicle }),
      row("weighing", "w", { at, zone: "UTC", bridge, readings, state: null }),
    ],
  });
}

const onPads = (deck: (wheel: string) => string) =>
  Object.entries(WHEELS).map(([wheel, value_kg]) => ({
    ...{ id: wheel, on_deck: [wheel], value_kg, deck: deck(wheel) },
  }));

describe("a weighing that cannot be read", () => {
  const row = (kind: string, id: string, body: Body) => ({ id, kind, rev: id, body });
  const weighed = (id: string, day: number, bridge: Body) => {
    const readings = [{ id: `${id}r`, on_deck: ["front", "rear"], value_kg: 3000 }];
    return row("weighing", id, {
      at: `2026-11-0${day}T00:00:00Z`,
      zone: "UTC",
      bridge,
      readings,
      state: null,
    });
  };
  const book = openBook({
    rows: [
      row("vehicle", "v", { name: "Wren", wheelbase_m: 3, base_front_kg: 1300, base_rear_kg: 1500 }),
      weighed("fine", 1, {}),
      weighed("beyond", 2, { interval_kg: 2, accuracy_class: "IIII" }),
      weighed("blank", 3, { accuracy_class: "percent" }),
    ],
  });

  it("says why, and the others do without it", () => {
    expect(book.unread.map(({ id }) => id)).toEqual(["beyond", "blank"]);
    expect(book.unread.map(whyUnread)).toEqual([
      { beyond: { value_kg: 3000, reach_kg: 2000 } },
      { beyond: null },
    ]);
    expect(book.weighings.map(whyUnread)).toEqual([null]);
    expect(latestComparison(book)?.weighing_id).toBe("fine");
    const next = provisional(book, weighed("now", 4, {}));
    expect(next.comparison.gaps).toHaveLength(1);
    expect(next.guide().doubtful).toEqual([]);
  });
});

describe("left and right", () => {
  it("add up, with errors that several pads do not share and one pad does", () => {
    const share = 0.01 / Math.sqrt(3);
    const round = 1 / 12;
    const several = sidesOf(
      bookOf(
        onPads((wheel) => wheel),
        PADS,
      ),
      "w",
    )!;
    const one = sidesOf(
      bookOf(
        onPads(() => "pad"),
        PADS,
      ),
      "w",
    )!;
    expect(several.sides.map((side) => side.row)).toEqual(["left", "right"]);
    expect(several.sides[0]!.weighed_kg).toBeCloseTo(1460, 9);
    expect(several.sides[1]!.weighed_kg).toBeCloseTo(1440, 9);
    const apart = share ** 2 * (640 ** 2 + 820 ** 2) + 2 * round;
    expect(several.sides[0]!.weighed_u_kg).toBeCloseTo(Math.sqrt(apart), 6);
    expect(one.sides[0]!.weighed_u_kg).toBeCloseTo(Math.sqrt((share * 1460) ** 2 + 2 * round), 6);
    for (const wheel of several.wheels)
      expect(wheel.weighed_kg).toBeCloseTo(WHEELS[wheel.row as keyof typeof WHEELS], 9);
    expect([several.frame, several.wheels[0]!.planned]).toEqual([null, null]);
  });

  it("stand beside the plan where both tracks are known", () => {
    const plan = { wheelbase_m: 3, base_front_kg: 1200, base_rear_kg: 1400 };
    const tracks = { track_front_m: 1.6, track_rear_m: 1.6, frame: "rigid" };
    const found = sidesOf(bookOf(onPads(String), PADS, { ...plan, ...tracks }), "w")!;
    expect(found.frame).toBe("rigid");
    expect(found.wheels.map((one) => one.planned!.kg)).toEqual([600, 600, 700, 700]);
    expect(found.sides.map((one) => one.planned!.kg)).toEqual([1300, 1300]);
    expect(sidesOf(bookOf(onPads(String), PADS, plan), "w")!.frame).toBeNull();
  });

  it("are not told of axles", () => {
    const axles = [{ id: "f", on_deck: ["front"], value_kg: 1300 }];
    expect(sidesOf(bookOf(axles, {}), "w")).toBeNull();
  });
});

describe("notes of readings", () => {
  it("say what is below the scale's least load, 20 intervals of class III, and what was averaged", () => {
    const reading = (id: string, value_kg: number, axle: string) => ({ id, value_kg, on_deck: [axle] });
    const readings = [reading("a", 380, "trailer"), reading("b", 1340, "front"), reading("c", 1360, "front")];
    const found = comparisonOf(bookOf(readings, { interval_kg: 20 }), "w");
    expect([...readingNotes(found)]).toEqual([
      ["a", { light: true, averaged: null }],
      ["b", { light: false, averaged: { count: 2, value_kg: 1350 } }],
      ["c", { light: false, averaged: { count: 2, value_kg: 1350 } }],
    ]);
  });
});
