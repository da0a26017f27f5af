/** What a correction keeps of the entry that it corrects. */
import { describe, expect, it } from "vitest";
import { openBook, type Row } from "@/domain/book";
import { fillKept, unasked, waterKept } from "@/ui/screens/correct/kept";
import { bodyOf } from "@/ui/screens/entry/spec";
import { type FillForm, formOfFill, readFill } from "@/ui/screens/fuel/entry";
import { formOfWater, readWater, type WaterForm } from "@/ui/screens/water/entry";

const tank = (id: string, holds: string): Row => ({
  ...{ id, kind: "tank", rev: "" },
  body: { name: id, holds, capacity_l: 80 },
});
const BOOK = openBook({ rows: [tank("main", "fuel"), tank("sub", "fuel")] });
const NOW = ["2026-05-01T08:00:00Z", "Etc/UTC"] as const;

const FILL: Row = {
  ...{ id: "f", kind: "fill", rev: "" },
  body: {
    ...{ at: NOW[0], zone: NOW[1], odometer_km: 1_000, towing: null, note: "from the list" },
    lines: [
      {
        ...{ tank_id: "main", litres_l: 40, litres_u_l: 2, measured: false, full: true },
        as_typed: { litres_l: ["40", "L"], litres_u_l: ["2", "L"] },
      },
      { tank_id: "sub", litres_l: 20, measured: true, full: false },
      { tank_id: "sold", litres_l: 9, full: false },
    ],
  },
};

/** The fill corrected, with these answers changed. */
function corrected(changed: Partial<FillForm>) {
  const form = { ...formOfFill(FILL), ...changed };
  const { body } = readFill(BOOK, form, ...NOW, true);
  return { ...fillKept(FILL, form, body!, ["main", "sub"]), ...unasked(FILL) };
}

describe("a fill corrected", () => {
  it("keeps each line's own u and meter, lines of tanks that are gone, and the surface nobody told", () => {
    const lines = { ...formOfFill(FILL).lines, main: { text: "44", unit: "L" } };
    const { note, surface, towing, ...body } = corrected({ lines });
    expect(body.lines).toEqual([
      {
        ...{ tank_id: "main", litres_l: 44, litres_u_l: 2, measured: false, full: true },
        as_typed: { litres_l: ["44", "L"], litres_u_l: ["2", "L"] },
      },
      { tank_id: "sub", litres_l: 20, measured: true, full: false, as_typed: { litres_l: ["20", "L"] } },
      FILL.body.lines[2],
    ]);
    expect([note, surface, towing]).toEqual(["from the list", null, null]);
  });

  it("takes what is answered anew", () => {
    const { lines, surface, towing } = corrected({ about: false, surface: "sand", towing: true });
    expect(lines[0]).not.toHaveProperty("litres_u_l");
    expect([lines[0].measured, lines[1].measured]).toEqual([true, true]);
    expect([surface, towing]).toEqual([{ sealed: 0, gravel: 0, sand: 1 }, true]);
  });
});

const DRAWN: Row = {
  ...{ id: "w", kind: "water", rev: "" },
  body: {
    ...{ at: NOW[0], zone: NOW[1], tank_id: "fresh", action: "draw", litres_l: 0, everything: true },
    ...{ drinkable: "unknown", measured: false },
  },
};
const FILLED: Row = { ...DRAWN, body: { ...DRAWN.body, action: "fill", everything: false, litres_u_l: 3 } };

function water(row: Row, changed: Partial<WaterForm>) {
  const form = { ...formOfWater(row), ...changed };
  const { body } = readWater(tank("fresh", "water"), form, ...NOW);
  return waterKept(row, form, body!);
}

describe("a water entry corrected", () => {
  it("keeps how well the litres were known", () => {
    const more = { litres: { text: "30", unit: "L" } };
    expect(water(FILLED, more)).toMatchObject({ litres_l: 30, litres_u_l: 3, measured: false });
    expect(water(FILLED, { ...more, action: "draw" })).not.toHaveProperty("litres_u_l");
    expect(water(FILLED, { action: "dump", everything: true })).not.toHaveProperty("litres_u_l");
  });

  it("keeps that all was drawn, until litres are said", () => {
    expect(water(DRAWN, { source: "rain" })).toMatchObject({ everything: true });
    expect(water(DRAWN, { litres: { text: "12", unit: "L" } })).not.toHaveProperty("everything");
  });
});

describe("a small entry corrected", () => {
  const moved = { litres_l: 20, litres_u_l: 1, note: "half", as_typed: { litres_u_l: ["1", "L"] } };

  it("keeps what its form does not ask", () => {
    const fields = { from_tank_id: "can", to: "main", litres_l: 18, as_typed: { litres_l: ["18", "L"] } };
    expect(bodyOf("moved", fields, moved)).toEqual({
      ...{ from_tank_id: "can", to_tank_id: "main", litres_l: 18, litres_u_l: 1, note: "half" },
      as_typed: { litres_l: ["18", "L"], litres_u_l: ["1", "L"] },
    });
    const surface = { sealed: 0, gravel: 0, sand: 1 };
    const tyres = bodyOf("change", { what: "tyres", rate_u: 0.1 }, { surface, towing: true, rate_u: 0.2 });
    expect(tyres).toEqual({ what: "tyres", rate_u: 0.1, surface, towing: true });
    expect(bodyOf("water_use", { what: "heat" }, { odometer_km: 900 })).toMatchObject({ odometer_km: 900 });
  });

  it("does not keep the u of litres that are now all there were", () => {
    const all = { from_tank_id: "can", to: "main", everything: true };
    expect(bodyOf("moved", all, moved)).not.toHaveProperty("litres_u_l");
  });
});
