import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Body, Row } from "@/domain/book";
import { fileName, PLAIN, type Written } from "@/services/lists/export";
import { readSlots, slotsText } from "@/services/lists/slots";
import { kindsFor } from "@/ui/screens/import/kinds";
import { parseCsv } from "@/units/csv";
import { allIn, ELSEWHERE, figure, flag, name, read, row, text, withoutTyped } from "./lists";

const TRAILER = row("trailer", "t", { name: "Wagtail, long" });
const TANKS = [
  row("tank", "main", { name: "Main", holds: "fuel", capacity_l: 80 }),
  row("tank", "sub", { name: "-Sub", holds: "fuel", capacity_l: 60 }),
];

const GREY = row("tank", "grey", { name: "Sump", holds: "grey", capacity_l: 30 });
const PEOPLE = [
  row("person", "ann", { name: "Ann", nature: "person" }),
  row("person", "ann2", { name: "ann", nature: "person" }),
  row("person", "x", { name: "", nature: "person" }),
];

/** What comes back of a list that went out and came into a book without its records. */
function back(kind: string, rows: readonly Row[], there: readonly Row[] = [], how: Written = PLAIN): Body[] {
  const list = read(text(kind, [...rows, ...there], how), { kind }, there);
  expect(list.questions).toEqual([]);
  expect(list.lines.flatMap(({ errors }) => errors)).toEqual([]);
  return list.ready.map(({ body }) => withoutTyped(body));
}

const day = fc.constantFrom("2026-03-04", "2024-02-29");
const SLOT = fc.record(
  {
    label: name.filter((one) => one.length <= 40),
    x_m: figure(-3, 20),
    y_m: figure(-2, 2),
    z_m: figure(0, 5),
    roof: fc.constant(true),
    trailer_id: fc.constant("t"),
  },
  { requiredKeys: ["x_m"] },
);

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
    may_stay_behind: flag,
    may_move_to: fc.array(SLOT, { minLength: 1, maxLength: 4 }),
    weighed_singly: flag,
    y_u_m: figure(0, 2),
    z_u_m: figure(0, 2),
    fitted_on: day,
    removed_on: day,
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
    grey_tank_id: fc.constant("grey"),
    grey_fraction: figure(0, 1),
    gauge_u: figure(0, 0.5),
    emergency_reserve: flag,
    full_u_l: figure(0, 50),
    capacity_u_l: figure(0, 500),
    empty_mass_u_kg: figure(0, 100),
    density_u_kg_per_l: figure(0, 0.5),
    x_u_m: figure(0, 5),
    y_m: figure(-2, 2),
    position_by: fc.constantFrom("measured", "described"),
    note: name,
    trailer_id: fc.constant("t"),
  },
  { requiredKeys: ["name", "holds"] },
);

const SEAT = fc.record(
  {
    name,
    ...{ x_m: figure(-3, 20), y_m: figure(-2, 2), z_m: figure(0, 5) },
    usual_person_id: fc.constantFrom("ann", "ann2", "x"),
    x_u_m: figure(0, 5),
    position_by: fc.constantFrom("measured", "described"),
    note: name,
  },
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
        const there = kind === "tank" ? [TRAILER, GREY] : [TRAILER, ...PEOPLE];
        const made = back(kind, rows, there).filter(({ name }) => name !== GREY.body.name || kind !== "tank");
        expect(made).toEqual(bodies);
      }),
      { numRuns: 150 },
    );
  });

  it.each(ELSEWHERE)("in other units and with another mark changes nothing: %j", (how) => {
    fc.assert(
      fc.property(fc.array(ITEM as fc.Arbitrary<Body>, { minLength: 1, maxLength: 5 }), (bodies) => {
        const rows = bodies.map((body, i) => row("item", `r${i}`, { ...body, name: `Item ${i}` }));
        const { counts, questions, lines } = read(text("item", [...rows, TRAILER], how), { kind: "item" }, [
          ...rows,
          TRAILER,
        ]);
        expect([questions, lines.flatMap(({ errors }) => errors)]).toEqual([[], []]);
        expect(counts).toEqual({ same: rows.length });
        const made = back("item", rows, [TRAILER], how);
        for (const [i, body] of made.entries())
          expect(body.mass_kg ?? 0).toBeCloseTo(bodies[i]?.mass_kg ?? 0, 8);
      }),
      { numRuns: 60 },
    );
  });

  it("keeps the digits that were typed in the unit of the file", () => {
    const typed = { mass_kg: ["132.3", "lb"], x_m: ["1.234", "m"] };
    const body = { name: "Bar", nature: "part", mass_kg: 132.3 * 0.45359237, x_m: 1.234, as_typed: typed };
    const listed = text("item", [row("item", "a", body)], { units: { mass: "lb" }, mark: "," });
    expect(listed).toContain(";132,3;");
    const [made] = read(listed, { kind: "item" }).ready;
    expect(made?.body).toMatchObject({ mass_kg: body.mass_kg, as_typed: { mass_kg: ["132.3", "lb"] } });
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
            litres_u_l: fc.option(figure(0, 500), { nil: undefined }).map((one) => one as number),
            measured: flag,
            full: flag,
          }),
          { minLength: 1, maxLength: 2, selector: (one) => one.tank_id },
        ),
        odometer_km: fc.option(figure(0, 1e6)),
        missed_before: flag,
        towing: flag,
        price: fc.record({ amount: fc.constantFrom("90", "45.10"), currency: fc.constantFrom("AUD", "EUR") }),
        place: fc.record(
          { name, latitude_deg: figure(-90, 90), longitude_deg: figure(-180, 180) },
          { requiredKeys: ["name"] },
        ),
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

describe("other places of an item in one cell", () => {
  it("are told in words and may be typed short", () => {
    const slots = [
      { label: "Tray front", x_m: 2.4, z_m: 1.1 },
      { label: "Box (a|b)", x_m: 0.4, roof: true, trailer_id: "t" },
    ];
    const cell = slotsText(slots, [["t", "Wagtail, long"]]);
    expect(cell).toBe("Tray front (x 2.4 m, z 1.1 m) | Box \\(a\\|b\\) (x 0.4 m, roof, on Wagtail, long)");
    expect(readSlots(cell, [["t", "Wagtail, long"]])).toEqual(slots);
    expect(readSlots("2.4 | -0.5", [])).toEqual([{ x_m: 2.4 }, { x_m: -0.5 }]);
  });

  it.each(["somewhere", "(x 90 m)", "A (x 1 m, on Nothing)", "|", "A (x 1 m, y 3 m)"])(
    "are not %s",
    (cell) => {
      expect(readSlots(cell, [])).toBeNull();
    },
  );
});

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
    expect(first?.slice(0, 5)).toEqual(["2026-03-05", "05:30:00", "Main", "filled", "12.5"]);
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
    expect(kindsFor("owner")).toEqual(["item", "tank", "seat", "fill", "water"]);
    expect(kindsFor("co_driver")).toEqual(["fill", "water"]);
    expect(kindsFor("fitter")).toEqual(["item", "tank", "seat"]);
  });
});
