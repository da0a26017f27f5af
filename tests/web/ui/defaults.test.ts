import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import type { LogDefault } from "@/domain/log_defaults";
import { KINDS } from "@/ui/screens/plan/fields";
import { words } from "@/ui/text/defaults";

const vectors = fileURLToPath(new URL("../../vectors/log_defaults.json", import.meta.url));
const cases: { out?: LogDefault[] }[] = JSON.parse(readFileSync(vectors, "utf8")).functions[0].cases;
const told = cases.flatMap((one) => one.out ?? []);

describe("what a log takes for granted", () => {
  it("has words for each figure", () => {
    expect(told.length).toBeGreaterThan(100);
    for (const { code, value } of told) expect(words.say(code, value).label).not.toBe(code);
    expect(words.say("pump_u", 0.005 / Math.sqrt(3)).figure).toBe("0.29 %");
    expect(words.say("fuel_surface_drift", 0.02).figure).toBe("2.0 %");
    expect(words.say("hold", 4).figure).toBe("4.0 u");
  });

  it("can be said in a record's form where a record holds it", () => {
    for (const { kind, field } of told) {
      if (!kind) continue;
      const { first, more } = KINDS[kind]!;
      expect([...first, ...more].map((one) => one.name)).toContain(field);
    }
  });
});
