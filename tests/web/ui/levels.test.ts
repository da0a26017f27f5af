import { describe, expect, it } from "vitest";
import type { Book, Row, State } from "@/services/answers";
import { floorsIn, readingU } from "@/services/levels";
import { tanksOf } from "@/ui/parts/drawing/loads";

const row = (id: string, kind: string, body: Row["body"]): Row =>
  ({ id, kind, rev: `${id}-1`, body, order: 1 }) as Row;
const tank = (id: string, holds: string, capacity_l: number, more: Row["body"] = {}) =>
  row(id, "tank", { name: id, holds, capacity_l, x_m: 2, ...more });
const TANKS = [
  tank("main", "fuel", 80, { drain_order: 2 }),
  tank("sub", "fuel", 60, { drain_order: 1 }),
  tank("can", "fuel", 20, { can: true }),
  tank("fresh", "water", 60),
  tank("drum", "water", 40, { trailer_id: "t", drain_order: 99 }),
];
const bookOf = (body: Row["body"] = {}): Book =>
  ({ vehicle: row("v", "vehicle", body), tanks: TANKS, trailers: [], seats: [] }) as unknown as Book;
const SOLO: State = { tanks: [], seats: [], items_away: [], trailers_on: [] };

describe("the reserve's floor in each tank", () => {
  it("is the usual one, in the tank that is drawn last", () => {
    // fuel: 10 % of 140 L; water: 10 % of 60 L
    expect(floorsIn(bookOf(), SOLO)).toEqual({ main: 14, sub: 0, fresh: 6 });
  });

  it("is the vehicle's own where its record has one", () => {
    const own = bookOf({ fuel_reserve_l: 95, water_reserve_l: 0 });
    expect(floorsIn(own, SOLO)).toEqual({ main: 80, sub: 15, fresh: 0 });
  });

  it("counts a trailer's tank while it is on", () => {
    expect(floorsIn(bookOf(), { ...SOLO, trailers_on: ["t"] })).toMatchObject({ fresh: 0, drum: 10 });
  });
});

it("a reading is as uncertain as how it was read, a gauge as that of its tank", () => {
  const own = { gauge_u: 0.12 };
  expect(["gauge", "stick", "tube", "lamps"].map((how) => readingU({}, how))).toEqual([
    0.05, 0.03, 0.03, 0.1,
  ]);
  expect([readingU(own, "gauge"), readingU(own, "lamps")]).toEqual([0.12, 0.1]);
});

describe("the tanks on the beam", () => {
  const state: State = {
    ...SOLO,
    tanks: [
      { tank_id: "main", level: 0.5, level_u: 0.05, known_from: "estimate" },
      { tank_id: "sub", level: 0.5, level_u: 0.29, known_from: "prior" },
    ],
  };

  it("have the level that something tells, and say it", () => {
    const [main, sub] = tanksOf(bookOf(), state, { trailer_id: null });
    expect(main!.level).toEqual({ share: 0.5, reach: expect.closeTo(1.959964 * 0.05, 9) });
    expect(main!.told).toMatch(/^main: 40.L ±.8 of 80.L/);
    expect([sub!.level, sub!.told]).toEqual([null, expect.stringMatching(/level not known/)]);
  });

  it("are those of the vehicle and of the trailer behind it, where they have a place", () => {
    const names = (trailer_id: string | null) =>
      tanksOf(bookOf(), state, { trailer_id }).map((one) => one.id);
    expect(names(null)).toEqual(["main", "sub", "can", "fresh"]);
    expect(names("t")).toEqual(["main", "sub", "can", "fresh", "drum"]);
    const placeless = { ...bookOf(), tanks: [tank("x", "fuel", 60, { x_m: null })] } as Book;
    expect(tanksOf(placeless, state, { trailer_id: null })).toEqual([]);
  });
});
