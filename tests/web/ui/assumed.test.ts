import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import type { Assumed } from "@/domain/assumed";
import { KINDS } from "@/ui/screens/plan/fields";
import { words } from "@/ui/text/assumed";

const vectors = fileURLToPath(new URL("../../vectors/assumed.json", import.meta.url));
const cases: { out: Assumed[] }[] = JSON.parse(readFileSync(vectors, "utf8")).functions[0].cases;
const told = cases.flatMap((one) => one.out);

describe("what is assumed", () => {
  it("has words for each default, with its figure", () => {
    expect(told.length).toBeGreaterThan(25);
    for (const { code, value, u } of told) expect(words.say(code, value, u)).not.toBe(code);
    expect(words.say("mass_similar", 0.1, null)).toBe("u of a mass that is that of a similar one: 10 %");
    expect(words.say("density_diesel", 0.8325, 0.0072)).toMatch(
      /^Diesel at 15 °C: 0\.83\d ±.0\.014 kg\/L \(EN 590\)$/,
    );
  });

  it("can be said in the record's form, every one", () => {
    for (const { blanks } of told)
      for (const { kind, field } of blanks) {
        const { first, more } = KINDS[kind]!;
        expect([...first, ...more].map((one) => one.name)).toContain(field);
      }
  });
});
