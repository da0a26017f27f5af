import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Body, Row } from "@/domain/book";
import { fileName } from "@/services/lists/export";
import { kindsFor, listsOf } from "@/ui/screens/import/kinds";
import { parseCsv } from "@/units/csv";
import { bookOf, read, row } from "./lists";

const TRAILER = row("trailer", "t", { name: "Wagtail, long" });
const TANKS = [
  row("tank", "main", { name: "Main", holds: "fuel", capacity_l: 80 }),
  row("tank", "sub", { name: "-Sub", holds: "fuel", capacity_l: 60 }),
];

function text(kind: string, rows: readonly Row[]): string {
  return listsOf(bookOf(rows))
    .find((one) => one.kind === kind)!
    .text();
}

/** What comes back of a list that went out and came into an empty book. */
function back(kind: string, rows: readonly Row[], there: readonly Row[] = []): Body[] {
  const list = read(text(kind, [...rows, ...there]), { kind }, there);
  expect(list.questions).toEqual([]);
  expect(list.lines.flatMap(({ errors }) => errors)).toEqual([]);
  return list.ready.map(({ body }) => withoutTyped(body));
}

function withoutTyped({ as_typed: _, ...body }: Body): Body {
  const { lines } = body;
  return lines ? { ...body, lines: lines.map(withoutTyped) } : body;
}

const name = fc
  .oneof(
    fc.string({ unit: "grapheme" }),
    fc.constantFrom("=1+1", "-5", "+", "@x", "'=", 'a"b', "a,b;c\td", "1,5"),
  )
  .map((one) => one.replace(/[\p{Cc}\p{Cs}]/gu, "").trim())
  .filter((one) => one !== "" && one.length <= 80);
/** A file has twenty decimals: what is less than a millionth is not asked of it. */
const figure = (min: number, max: number) =>
  fc.double({ min, max, noNaN: true }).map((one) => (Math.abs(one) < 1e-6 ? 0 : one));
const flag = fc.boolean();

const ITEM = fc.record(
  {
    name,
    nature: fc.constantFrom("part", "load"),
    mass_kg: figure(0, 10_000),
    mass_u_kg: figure(0, 5_000),
    known_by: fc.constantFrom("weighed", "data_sheet", "similar", "estimate"),
    count: fc.integer({ min: 1, max: 1000 }),
    x_m: figure(-3, 20),
    x_u_m: figure(0, 5),
    y_m: figure(-2, 2),
    z_m: figure(0, 5),
    position_by: fc.constantFrom("measured", "described"),
    stage: fc.constantFrom("fitted", "on_order", "removed"),
    roof: flag,
    taken_off: flag,
    keep_aboard: flag,
    trailer_id: fc.constant("t"),
    note: name,
  },
  { requiredKeys: ["name", "nature"] },
);

const TANK = fc.record(
  {
    name,
    holds: fc.constantFrom("fuel", "water", "grey", "gas", "stores"),
    capacity_l: figure(0.1, 5_000),
    unusable_l: figure(0, 500),
    empty_mass_kg: figure(0, 500),
    density_kg_per_l: figure(0.1, 3),
    x_m: figure(-3, 20),
    z_bottom_m: figure(0, 5),
    height_m: figure(0.01, 3),
    drain_order: fc.integer({ min: 1, max: 99 }),
    can: flag,
    trailer_id: fc.constant("t"),
  },
  { requiredKeys: ["name", "holds"] },
);

const SEAT = fc.record(
  { name, x_m: figure(-3, 20), y_m: figure(-2, 2), z_m: figure(0, 5) },
  { requiredKeys: ["name"] },
);

describe("a list that went out and comes in again", () => {
  it.each([
    ["item", ITEM],
    ["tank", TANK],
    ["seat", SEAT],
  ] as const)("of the kind %s makes the same records", (kind, one) => {
    fc.assert(
      fc.property(fc.array(one as fc.Arbitrary<Body>, { minLength: 1, maxLength: 8 }), (bodies) => {
        const rows = bodies.map((body, i) => row(kind, `r${i}`, body));
        expect(back(kind, rows, [TRAILER])).toEqual(bodies);
      }),
      { numRuns: 150 },
    );
  });

  it("beside the records that it came from says nothing new", () => {
    const rows = [
      row("item", "a", { name: "Bar", nature: "part", mass_kg: 60.010270551, x_m: -0.7, roof: false }),
    ];
    const { counts } = read(text("item", rows), { kind: "item" }, rows);
    expect(counts).toEqual({ same: 1 });
  });

  it("of the fuel log makes the same entries, and beside them none", () => {
    const stop = fc.record(
      {
        at: fc
          .date({ min: new Date("2000-01-01"), max: new Date("2026-11-01"), noInvalidDate: true })
          .map((one) => one.toISOString()),
        zone: fc.constantFrom("Australia/Darwin", "America/Denver", "UTC"),
        lines: fc.uniqueArray(
          fc.record({
            tank_id: fc.constantFrom("main", "sub"),
            litres_l: figure(0.1, 4_999),
            measured: flag,
            full: flag,
          }),
          { minLength: 1, maxLength: 2, selector: (one) => one.tank_id },
        ),
        odometer_km: fc.option(figure(0, 1e6)),
        missed_before: flag,
        towing: flag,
        price: fc.record({ amount: fc.constantFrom("90", "45.10"), currency: fc.constantFrom("AUD", "EUR") }),
        place: fc.record({ name }),
        surface: fc.constantFrom({ sealed: 1, gravel: 0, sand: 0 }, { sealed: 0.5, gravel: 0.3, sand: 0.2 }),
        note: name,
      },
      { requiredKeys: ["at", "zone", "lines", "odometer_km"] },
    );
    const stops = fc.uniqueArray(stop as fc.Arbitrary<Body>, {
      minLength: 1,
      maxLength: 6,
      selector: (one) => one.at,
    });
    fc.assert(
      fc.property(stops, (bodies) => {
        const rows = bodies.map((body, i) => row("fill", `f${i}`, body));
        const sorted = [...bodies].sort((a, b) => (a.at < b.at ? -1 : 1));
        const listed = text("fill", [...rows, ...TANKS]);
        const { questions, ready, lines } = read(
          listed,
          { kind: "fill", said: { left: allIn(listed) } },
          TANKS,
        );
        expect([questions, lines.flatMap(({ errors }) => errors)]).toEqual([[], []]);
        expect(ready.map(({ body }) => withoutTyped(body))).toEqual(sorted);
        expect(read(listed, { kind: "fill" }, [...rows, ...TANKS]).ready).toEqual([]);
      }),
      { numRuns: 100 },
    );
  });
});

/** Alike entries of a random log are different ones: each row is wanted. */
function allIn(listed: string): Record<string, boolean> {
  return Object.fromEntries(parseCsv(listed, ",").records.map((_, i) => [i + 1, false]));
}

describe("the file", () => {
  it("has units in its headings, ISO days and decimal points", () => {
    const water = row("water", "w", {
      ...{
        at: "2026-03-04T20:00:00Z",
        zone: "Australia/Darwin",
        tank_id: "main",
        action: "fill",
        litres_l: 12.5,
      },
      ...{ drinkable: "yes", note: "=rain" },
    });
    const [head, first] = parseCsv(text("water", [water, ...TANKS]), ",").records;
    expect(head?.slice(0, 5)).toEqual(["Date", "Time", "Tank", "What was done", "Litres (L)"]);
    expect(first?.slice(0, 5)).toEqual(["2026-03-05", "05:30:00", "Main", "fill", "12.5"]);
    expect(first?.at(-1)).toBe("'=rain");
    const items = parseCsv(
      text("item", [row("item", "a", { name: "-x", nature: "part", x_m: -0.7 })]),
      ",",
    ).records;
    expect(items[0]).toEqual(expect.arrayContaining(["Mass of one (kg)", "Place (m)"]));
    expect([items[1]?.[0], items[1]?.[items[0]!.indexOf("Place (m)")]]).toEqual(["'-x", "-0.7"]);
  });

  it("is named after the vehicle", () => {
    expect(fileName("Wren", "Fuel log")).toBe("Wren fuel log.csv");
    expect(fileName("../Wren: 4/4?", "Items")).toBe("Wren 4 4 items.csv");
    expect(fileName("", "Items")).toBe("items.csv");
  });
});

describe("who brings in what", () => {
  it("goes by what a role may write", () => {
    expect(kindsFor("owner")).toEqual(["item", "tank", "seat", "fill"]);
    expect(kindsFor("co_driver")).toEqual(["fill"]);
    expect(kindsFor("fitter")).toEqual(["item", "tank", "seat"]);
  });
});
