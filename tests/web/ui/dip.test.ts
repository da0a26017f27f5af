import { describe, expect, it } from "vitest";
import type { Book, Row } from "@/services/answers";
import {
  atLitres,
  atQuarter,
  type DipForm,
  emptyDip,
  formOfDip,
  quarterIn,
  readDip,
} from "@/ui/screens/level/dip";

const AT = "2026-05-03T08:00:00Z";
const row = (id: string, kind: string, body: Row["body"]): Row =>
  ({ id, kind, rev: `${id}-1`, body, order: 1 }) as Row;
const MAIN = row("main", "tank", { name: "Main", holds: "fuel", capacity_l: 80 });
const WATER = row("water", "tank", { name: "Water", holds: "water", capacity_l: 60, gauge_u: 0.2 });
const book = (...dips: Row[]) =>
  ({ dips, fills: [], transfers: [], tanks: [MAIN, WATER] }) as unknown as Book;
const read = (tank: Row, form: DipForm) => readDip(tank, form, AT, "Etc/UTC");
const typed = (text: string, unit: string, more: Partial<DipForm> = {}): DipForm => ({
  ...emptyDip(book(), MAIN),
  amount: { text, unit },
  ...more,
});

describe("a level", () => {
  it("touched on the picture has no digits to keep", () => {
    const { body, standing } = read(MAIN, atLitres(emptyDip(book(), MAIN), 62));
    expect(body).toEqual({ at: AT, zone: "Etc/UTC", tank_id: "main", how: "gauge", litres_l: 62 });
    expect(standing!.reach).toBeCloseTo(1.959964 * 0.05 * 80, 9);
  });

  it("typed in litres, with its own ± and the odometer, keeps what was typed", () => {
    const form = typed("41,5", "L", { u: { text: "2", unit: "L" }, odometer: { text: "53400", unit: "km" } });
    expect(read(MAIN, form).body).toEqual({
      ...{ at: AT, zone: "Etc/UTC", tank_id: "main", how: "gauge" },
      ...{ litres_l: 41.5, litres_u_l: 2, odometer_km: 53_400 },
      as_typed: { litres_l: ["41.5", "L"], litres_u_l: ["2", "L"], odometer_km: ["53400", "km"] },
    });
  });

  it("typed as a share is a share, and its ± in litres becomes one", () => {
    const { body, standing } = read(MAIN, typed("25", "%", { u: { text: "4", unit: "L" } }));
    expect(body).toMatchObject({ level: 0.25, level_u: 0.05, as_typed: { level: ["25", "%"] } });
    expect(standing!.litres).toBe(20);
  });

  it("read off lamps is a quarter with the lamps' ±", () => {
    const form = atQuarter(emptyDip(book(), WATER), 3);
    const { body, standing } = read(WATER, form);
    expect(quarterIn(form)).toBe(3);
    expect(body).toMatchObject({ level: 0.75, how: "lamps" });
    expect(standing!.reach).toBeCloseTo(1.959964 * 0.1 * 60, 9);
    expect(quarterIn({ ...form, how: "gauge" })).toBeNull();
  });

  it("off the tank's own gauge has that gauge's ±", () => {
    expect(read(WATER, typed("30", "L", { how: "gauge" })).standing!.reach).toBeCloseTo(1.959964 * 12, 9);
  });

  it.each([
    ["nothing", "", "L", /Litres in it/],
    ["more than there is room for", "99", "L", /0 to 88 L/],
    ["more than all", "120", "%", /must be 0 to 1/],
    ["letters", "half", "L", /not a number/],
  ])("of %s is refused in words", (_, text, unit, told) => {
    const { body, errors } = read(MAIN, typed(text, unit));
    expect(body).toBeNull();
    expect(errors.amount).toMatch(told);
  });

  it("is read as the last time", () => {
    const before = row("d", "dip", { at: AT, tank_id: "main", how: "stick", level: 0.5 });
    expect(emptyDip(book(before), MAIN).how).toBe("stick");
    expect([emptyDip(book(before), WATER).how, emptyDip(book(), MAIN).how]).toEqual(["tube", "gauge"]);
  });
});

describe("a level to be corrected", () => {
  it.each([
    [
      {
        how: "tube",
        litres_l: 30,
        litres_u_l: 2,
        as_typed: { litres_l: ["30", "L"], litres_u_l: ["2", "L"] },
      },
    ],
    [{ how: "lamps", level: 0.75, level_u: 0.1 }],
    [{ how: "gauge", level: 0.333, odometer_km: 100, as_typed: { odometer_km: ["100", "km"] } }],
    [{ how: "stick", litres_l: 12.5 }],
  ])("reads again as %j", (body: Row["body"]) => {
    const { as_typed, ...figures } = body;
    const again = read(
      MAIN,
      formOfDip(row("d", "dip", { at: AT, zone: "Etc/UTC", tank_id: "main", ...body })),
    ).body!;
    for (const [name, value] of Object.entries(figures))
      if (typeof value === "number") expect(again[name]).toBeCloseTo(value, 12);
    expect(again.how).toBe(body.how);
    for (const [name, kept] of Object.entries(as_typed ?? {})) expect(again.as_typed[name]).toEqual(kept);
  });
});
