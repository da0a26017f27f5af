import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Body } from "@/domain/book";
import { noteOf } from "@/ui/screens/import/shown";
import { wrongCell } from "@/ui/text/lists";
import { parseCsv } from "@/units/csv";
import { allIn, bookOf, ELSEWHERE, figure, flag, name, read, row, text, withoutTyped } from "./lists";

describe("a water log that went out", () => {
  const WATER_TANKS = [
    row("tank", "w", { name: "Water", holds: "water", capacity_l: 60 }),
    row("tank", "w2", { name: "water", holds: "water", capacity_l: 20 }),
  ];
  const entry = fc.record(
    {
      at: fc
        .date({ min: new Date("2000-01-01"), max: new Date("2026-11-01"), noInvalidDate: true })
        .map((one) => one.toISOString()),
      zone: fc.constantFrom("Australia/Darwin", "America/Denver", "UTC"),
      tank_id: fc.constantFrom("w", "w2"),
      action: fc.constantFrom("fill", "draw", "dump"),
      litres_l: figure(0, 5_000),
      litres_u_l: figure(0, 500),
      measured: flag,
      full: flag,
      everything: flag,
      source: fc.constantFrom("mains", "bore", "rain", "surface", "bought", "unknown"),
      drinkable: fc.constantFrom("yes", "no", "unknown"),
      place: fc.record(
        { name, latitude_deg: figure(-90, 90), longitude_deg: figure(-180, 180) },
        { requiredKeys: ["name"] },
      ),
      note: name,
    },
    { requiredKeys: ["at", "zone", "tank_id", "action", "litres_l", "drinkable"] },
  );

  it.each(ELSEWHERE)("makes the same entries, and beside them none: %j", (how) => {
    const entries = fc.array(entry as fc.Arbitrary<Body>, { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(entries, (bodies) => {
        const rows = bodies.map((body, i) => row("water", `e${i}`, body));
        const sorted = bookOf([...rows, ...WATER_TANKS]).waters.map(({ body }) => body);
        const listed = text("water", [...rows, ...WATER_TANKS], how);
        const left = allIn(listed, how.mark === "," ? ";" : ",");
        const { questions, ready, lines } = read(listed, { kind: "water", said: { left } }, WATER_TANKS);
        expect([questions, lines.flatMap(({ errors }) => errors)]).toEqual([[], []]);
        const made = ready.map(({ body }) => withoutTyped(body));
        if (how.units.volume === undefined) expect(made).toEqual(sorted);
        else expect(made.map((one) => one.at)).toEqual(sorted.map((one) => one.at));
        expect(read(listed, { kind: "water" }, [...rows, ...WATER_TANKS]).ready).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });

  it("of another hand is read by its headings, and what it lacks is asked once", () => {
    const list = read(
      "date,water litres,what\n2026-03-04,20,filled\n2026-03-05,18,drawn\n",
      { kind: "water" },
      [WATER_TANKS[0]!],
    );
    expect(list.questions.map(({ field }) => field.name)).toEqual(["drinkable"]);
    expect(list.lines.map(({ values }) => values.action)).toEqual(["fill", "draw"]);
    const again = read(
      "date,litres,action\n2026-03-04,20,filled\n2026-03-04,20,filled\n",
      {
        kind: "water",
        said: { all: { drinkable: "yes" } },
      },
      [WATER_TANKS[0]!],
    );
    expect(again.counts).toEqual({ new: 1, there: 1 });
  });

  it("keeps coordinates in the place, and of the digits those of the litres alone", () => {
    const head = "date,litres,action,drinkable,latitude,longitude\n";
    const list = read(`${head}2026-03-04,20,filled,yes,-30.5,131.25\n`, { kind: "water" }, [WATER_TANKS[0]!]);
    expect(list.ready[0]?.body).toMatchObject({
      as_typed: { litres_l: ["20", "L"] },
      place: { latitude_deg: -30.5, longitude_deg: 131.25 },
    });
    expect(list.ready[0]?.body.as_typed).not.toHaveProperty("latitude_deg");
  });

  it("has coordinates in degrees, each within its own range", () => {
    const spots = (...cells: string[]) =>
      read(
        `date;litres;action;drinkable;latitude;longitude\n2026-03-04;20;filled;yes;${cells.join(";")}`,
        { kind: "water" },
        [WATER_TANKS[0]!],
      );
    const told = (...cells: string[]) => spots(...cells).lines.flatMap(({ errors }) => errors.map(wrongCell));
    expect(told("-90.5", "181")).toEqual([
      "Latitude: -90.5 ° is not possible, it must be -90 to 90 °.",
      "Longitude: 181 ° is not possible, it must be -180 to 180 °.",
    ]);
    expect(told("30.25 %", "131")).toEqual(['Latitude: "30.25 %" ends in a unit that is not one of °.']);
    // no degrees come in thousands, whatever mark the other figures have
    for (const [latitude, longitude] of [
      ["-30.256", "131.036"],
      ["-30,256", "131,036°"],
      ["-30.256 deg", "131,036 degrees"],
    ]) {
      const { ready, questions } = spots(latitude!, longitude!);
      expect(questions).toEqual([]);
      expect(ready[0]?.body.place).toEqual({ latitude_deg: -30.256, longitude_deg: 131.036 });
    }
  });

  it("names degrees in the headings of coordinates, and shows them to a metre", () => {
    const place = { latitude_deg: -30.254321, longitude_deg: 131.5 };
    const water = row("water", "w", {
      ...{ at: "2026-03-04T20:00:00Z", zone: "UTC", tank_id: "w", action: "fill", litres_l: 5 },
      ...{ drinkable: "yes", place },
    });
    const listed = text("water", [water, WATER_TANKS[0]!]);
    expect(parseCsv(listed, ",").records[0]).toEqual(
      expect.arrayContaining(["Latitude (°)", "Longitude (°)"]),
    );
    const list = read(listed, { kind: "water" }, [WATER_TANKS[0]!]);
    expect(list.ready[0]?.body.place).toEqual(place);
    expect(noteOf(list.lines[0]!, list)).toContain("Latitude \u221230.25432 ° · Longitude 131.5 °");
  });
});
