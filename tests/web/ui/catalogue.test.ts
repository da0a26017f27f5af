import { describe, expect, it } from "vitest";
import {
  articles,
  baseVehicles,
  itemOf,
  kitProposals,
  kits,
  totalOf,
  typicalIn,
  typicalVehicle,
} from "@/services/catalogue";
import { type ArticleForm, formFor, readArticle } from "@/ui/screens/catalogue/entry";
import { emptyForm, readVehicle } from "@/ui/screens/new_vehicle/form";
import { words } from "@/ui/text/catalogue";

const POUND = 0.45359237; // international agreement of 1959
const RECOVERY = articles().find((one) => one.id === "recovery")!;

function read(change: Partial<ArticleForm> = {}, wheelbase_m: number | null = 3.2) {
  return readArticle(RECOVERY, { ...formFor(RECOVERY, wheelbase_m), ...change }, wheelbase_m);
}

describe("an article", () => {
  it("left as it stands is the catalogue's, and nobody typed it", () => {
    expect(read().body).toEqual({
      ...{ name: RECOVERY.name, nature: "load", count: 1, keep_aboard: true },
      ...{ mass_kg: 35, mass_u_kg: expect.closeTo(40 / 2 / 1.6448536269514722, 12), known_by: "estimate" },
      ...{ x_m: expect.closeTo(3.4, 12), x_u_m: 0.15, position_by: "described" },
    });
  });

  it("typed over keeps what was typed, and the u of how it is known", () => {
    const { body } = read({ mass: { text: "80", unit: "lb" }, known_by: "weighed", count: "2" });
    expect(body).toMatchObject({ mass_kg: 80 * POUND, known_by: "weighed", count: 2 });
    expect(body?.as_typed).toEqual({ mass_kg: ["80", "lb"] });
    expect(body).not.toHaveProperty("mass_u_kg");
  });

  it("at another place goes there, on the roof with its height", () => {
    expect(read({ ...formFor(RECOVERY, 3.2, "roof") }).body).toMatchObject({
      roof: true,
      z_m: 2.05,
      x_m: 1.9,
    });
  });

  it("without a wheelbase has no place unless one is typed", () => {
    expect(read({}, null).body).not.toHaveProperty("x_m");
    expect(read({ x: { text: "350", unit: "cm" } }, null).body?.x_m).toBeCloseTo(3.5, 12);
  });

  it("blank has no mass, and what cannot be read is said", () => {
    expect(read({ mass: { text: "", unit: "kg" } }).body).not.toHaveProperty("mass_kg");
    const { body, errors } = read({
      mass: { text: "x", unit: "kg" },
      count: "0",
      x: { text: "25", unit: "m" },
    });
    expect(body).toBeNull();
    expect(errors).toEqual({
      mass: 'Mass of one: "x" is not a number: type digits, such as 1340 or 1,5.',
      count: "How many: 0 is not a whole number from 1 to 1000.",
      x: "Place: 25 m is not possible, it must be -3 to 20 m.",
    });
  });
});

describe("kits", () => {
  it("add up, copies of one with one error, and what comes off with a minus", () => {
    const total = totalOf(kitProposals({ kit: "tray" }));
    expect(total.mass_kg).toBe(150 - 115);
    const family = totalOf(kitProposals({ kit: "family" }));
    expect(family.mass_kg).toBe(40 + 4 * 14 + 28 * 2);
    const u = (low: number, high: number, count: number) => (count * (high - low)) / 2 / 1.6448536269514722;
    expect(family.u_kg).toBeCloseTo(Math.hypot(u(20, 70, 1), u(8, 25, 4), u(1.2, 3.5, 28)), 9);
  });

  it("become items without blanks", () => {
    const bodies = kits()
      .flatMap((kit) => kitProposals({ kit: kit.id, wheelbase_m: 3 }))
      .map(itemOf);
    expect(bodies.length).toBeGreaterThan(20);
    expect(bodies.flatMap(Object.values).every((one) => one !== null && one !== false)).toBe(true);
  });
});

describe("words", () => {
  it("name each place and put each article in one group", () => {
    const codes = words.groups.flatMap(([, all]) => all);
    for (const { places, name } of articles()) {
      expect(
        codes.filter((one) => one === places[0]),
        name,
      ).toHaveLength(1);
      for (const place of places) expect(words.places[place], place).toBeTruthy();
    }
  });
});

describe("a new vehicle that begins with typical figures", () => {
  const form = { ...emptyForm("id"), name: "Wren", base: "van" };

  it("has them as estimates, and no rating of theirs", () => {
    const { vehicle, plate } = readVehicle(form);
    expect(vehicle).toMatchObject({
      name: "Wren",
      wheelbase_m: 3.65,
      base_known_by: "estimate",
      body_form: "van",
    });
    expect(plate).toBeNull();
    expect(readVehicle({ ...form, base: "" }).vehicle).toEqual({ name: "Wren" });
  });

  it("is told of until the owner has replaced each, if by the same figure", () => {
    const body = typicalVehicle({ base: "van" });
    const typed = (...names: string[]) => Object.fromEntries(names.map((name) => [name, ["1", "m"]]));
    const own = { base_front_kg: 1200, base_rear_kg: 900 };
    expect(typicalIn(body)).toBe(baseVehicles()[2]?.name);
    expect(typicalIn({ ...body, ...own })).toBe("Long van");
    expect(typicalIn({ ...body, ...own, as_typed: typed("wheelbase_m") })).toBeNull();
    expect(typicalIn({ name: "Wren" })).toBeNull();
  });
});
