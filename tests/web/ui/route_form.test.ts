import { describe, expect, it } from "vitest";
import { openBook, type Row } from "@/domain/book";
import { formOf, kmOf, lengthOf, type RouteForm, readRoute } from "@/ui/screens/route_form/form";

const row = (kind: string, id: string, body: Row["body"]): Row => ({
  id,
  kind,
  rev: `${id}-1`,
  body,
  order: 0,
});
const BOOK = openBook({
  rows: [
    row("vehicle", "v", { name: "V" }),
    row("trailer", "t", { name: "Box" }),
    row("person", "ann", { name: "A", nature: "person" }),
    row("item", "box", { name: "Box", nature: "load" }),
  ],
});
const ROUTE = {
  name: "To the well",
  day_km: 250,
  begun_odometer_km: 12_000,
  as_typed: { day_km: ["250", "km"] },
  people_ids: ["ann"],
  legs: [
    {
      distance_km: 160.9344,
      surface: { sealed: 1, gravel: 0, sand: 0 },
      as_typed: { distance_km: ["100", "mi"] },
    },
    { distance_km: 0, surface: { sealed: 1, gravel: 0, sand: 0 }, days: 2, as_typed: { days: ["2", "1"] } },
    { distance_km: 100, surface: { sealed: 0, gravel: 0.75, sand: 0.25 }, towing: true, label: "Track" },
  ],
  supplies: [
    {
      name: "Bore",
      at_km: 80,
      fuel: false,
      water: true,
      certain: false,
      shut: true,
      latitude_deg: -20,
      longitude_deg: 131,
    },
    { name: "Town", at_km: 200, fuel: true, water: true, certain: true, fuel_take_l: 40 },
  ],
  changes: [
    { at_km: 50, what: "person", subject_id: "ann", aboard: false },
    { at_km: 60, what: "item", subject_id: "box", aboard: true },
    { at_km: 70, what: "load", name: "wood", mass_kg: 30, x_m: 3.5, until_km: 90, aboard: true },
    { at_km: 75, what: "grey", aboard: true },
  ],
};

function saved(form: RouteForm) {
  const read = readRoute(form, BOOK);
  expect(read.errors).toEqual({});
  return read.body!;
}

const typed = (text: string, unit = "km") => ({ text, unit });

describe("a route in its form", () => {
  it("comes back as it was, with what the form does not show", () => {
    const body = saved(formOf(ROUTE, BOOK));
    expect(body.legs[0]).toEqual({ ...ROUTE.legs[0], as_typed: { distance_km: ["100", "mi"] } });
    expect(body.legs[1]).toMatchObject(ROUTE.legs[1]!);
    expect(body.legs[2]).toMatchObject(ROUTE.legs[2]!);
    // a sum of two typed figures is nobody's typing
    expect(body.legs[2].as_typed?.distance_km).toBeUndefined();
    for (const part of ["supplies", "changes"] as const)
      for (const [n, one] of ROUTE[part].entries()) expect(body[part][n]).toMatchObject(one);
    expect(body).toMatchObject({ name: "To the well", day_km: 250, people_ids: ["ann"] });
  });

  it("adds up what can be read", () => {
    const form = formOf(ROUTE, BOOK);
    expect(form.legs.map(kmOf)).toEqual([160.9344, 0, 100]);
    const odd = { ...form.legs[2]!, form: { ...form.legs[2]!.form, sand: typed("odd") } };
    expect(lengthOf({ legs: [odd] })).toBe(75);
  });

  it("says what is missing or beyond the end, line by line", () => {
    const form = formOf(ROUTE, BOOK);
    const bare = { form: {}, kept: {} };
    const far = { form: { name: "Far", at_km: typed("261"), has: "fuel" }, kept: {} };
    const { body, errors } = readRoute(
      { ...form, legs: [...form.legs, bare], supplies: [far, bare], changes: [bare] },
      BOOK,
    );
    expect(body).toBeNull();
    expect(Object.keys(errors)).toEqual(["legs:3", "supplies:0", "supplies:1", "changes:0"]);
    expect(errors["supplies:0"]!.at_km).toMatch(/261.km lies beyond the end of the route \(261.km\)|beyond/);
    expect(Object.keys(errors["changes:0"]!)).toEqual(["at_km"]);
  });

  it("takes coordinates in their ranges, both or neither", () => {
    const form = formOf(ROUTE, BOOK);
    const at = (latitude_deg: string, longitude_deg: string) => {
      const degrees = (text: string) => ({ text, unit: "deg" });
      const placed = { latitude_deg: degrees(latitude_deg), longitude_deg: degrees(longitude_deg) };
      const supply = { form: { name: "Well", at_km: typed("90"), has: "water", ...placed }, kept: {} };
      return readRoute({ ...form, supplies: [supply] }, BOOK);
    };
    expect(at("-30.5", "131.036").body?.supplies[0]).toMatchObject({
      ...{ at_km: 90, latitude_deg: -30.5, longitude_deg: 131.036 },
      as_typed: { latitude_deg: ["-30.5", "deg"], longitude_deg: ["131.036", "deg"] },
    });
    expect(at("-95", "131").errors["supplies:0"]?.latitude_deg).toContain("must be -90 to 90");
    expect(at("-30", "200").errors["supplies:0"]?.longitude_deg).toContain("must be -180 to 180");
    expect(at("-30", "").errors["supplies:0"]?.longitude_deg).toContain("belong together");
    expect(at("", "").body).not.toBeNull();
  });

  it("needs a name and a leg", () => {
    const { errors } = readRoute({ ...formOf({}, BOOK), legs: [] }, BOOK);
    expect(errors.head!.name).toBeTruthy();
  });
});
