import { describe, expect, it } from "vitest";
import type { SeenBridge } from "@/services/bridges";
import {
  type BridgeFacts,
  factsOf,
  lastOf,
  named,
  noBridge,
  openFacts,
  readFacts,
} from "@/ui/screens/weigh/bridge_facts";
import { guessedInterval } from "@/ui/screens/weigh/interval";

const figures = (...values: number[]) => values.map((value_kg) => shown(value_kg, String(value_kg), "kg"));
const shown = (value_kg: number, digits: string, unit: string) => ({
  value_kg,
  typed: [digits, unit] as const,
  struck_out: null as string | null,
});
const HILL: SeenBridge = {
  key: "hb-7",
  book: "b1",
  at: "2026-11-20T00:00:00Z",
  body: {
    ...{ key: "hb-7", name: "Hill bridge", site_number: "HB-7", form: "single_deck" },
    ...{ interval_kg: 20, accuracy_class: "IIII", max_kg: 50_000 },
  },
};
const DALE: SeenBridge = {
  ...{ key: "dalepads", book: "b2", at: "2026-11-21T00:00:00Z" },
  body: { name: "Dale pads", form: "pads", interval_kg: 1, accuracy_class: "percent", percent: 1 },
};
const SEEN = [DALE, HILL];
const read = (facts: Partial<BridgeFacts>, values = [1340, 3560]) =>
  readFacts({ ...noBridge, ...facts }, "single_deck", figures(...values));

describe("a bridge that was seen", () => {
  it("brings everything along that was written down of it", () => {
    const { body, errors } = read(factsOf(HILL));
    expect(body).toEqual({ ...HILL.body, settled_by: "confirmed" });
    expect(errors).toEqual({});
  });

  it("is the latest of the same vehicle on a scale of the same form", () => {
    expect(lastOf(SEEN, "b1", "single_deck")).toBe(HILL);
    expect(lastOf(SEEN, "b1", "pads")).toBeNull();
    expect(lastOf(SEEN, "b2", "pads")).toBe(DALE);
  });

  it("is meant by a typed name whatever its case and blanks, and is left behind by another", () => {
    const found = named(noBridge, " hill  BRIDGE", SEEN);
    expect(found).toEqual({ ...factsOf(HILL), name: " hill  BRIDGE" });
    expect(named(noBridge, "hb-7", SEEN).known).toBe("hb-7");
    expect(named(found, "hill bridge 2", SEEN)).toEqual({ ...noBridge, name: "hill bridge 2" });
    const typed = { ...noBridge, interval_kg: 50, by_hand: true };
    expect(named(typed, "Moor", SEEN)).toEqual({ ...typed, name: "Moor" });
  });

  it("gives way to figures that do not step by its interval, and that is said", () => {
    const found = read(factsOf(HILL), [1330, 3560]);
    expect([found.interval_kg, found.steps_by_kg, found.body.interval_kg]).toEqual([10, 10, 10]);
    expect(found.body.settled_by).toBe("guessed_from_readings");
    expect(read(factsOf(HILL), [1340, 3560]).steps_by_kg).toBeNull();
  });

  it("keeps an interval that a person chose, and still says so", () => {
    const found = read({ ...factsOf(HILL), interval_kg: 20, by_hand: true }, [1330]);
    expect([found.interval_kg, found.steps_by_kg, found.body.settled_by]).toEqual([20, 10, "confirmed"]);
  });

  it("steps by its display where that is finer than the interval", () => {
    const found = read({ ...factsOf(HILL), displayed: { text: "10", unit: "kg" } }, [1330]);
    expect([found.interval_kg, found.steps_by_kg, found.body.displayed_interval_kg]).toEqual([20, null, 10]);
  });
});

describe("what is typed of a bridge", () => {
  it("assumes nothing in writing", () => {
    expect(read({}).body).toEqual({
      form: "single_deck",
      interval_kg: 20,
      settled_by: "guessed_from_readings",
    });
  });

  it("needs the percentage of a scale that is not verified, by name and range", () => {
    expect(read({ accuracy_class: "percent" }).errors.percent).toMatch(/^Error in percent.*0.01 to 20/);
    const percent = (text: string) => read({ accuracy_class: "percent", percent: { text, unit: "1" } });
    expect(percent("1,5 %").body.percent).toBe(1.5);
    expect(percent("30").errors.percent).toMatch(/30 is not possible, it must be 0.01 to 20/);
  });

  it("refuses a Max and a step out of range", () => {
    expect(read({ max: { text: "300", unit: "t" } }).errors.max).toMatch(/300 t.*100 to 200000 kg/);
    expect(read({ displayed: { text: "0", unit: "kg" } }).errors.displayed).toMatch(/0.1 to 200 kg/);
    expect(read({ max: { text: "40", unit: "t" } }).body.max_kg).toBe(40_000);
  });

  it("refuses a class whose table does not reach what was read, and judges without it meanwhile", () => {
    const found = read({ accuracy_class: "IIII", interval_kg: 2, by_hand: true });
    expect(found.errors.accuracy_class).toMatch(
      /Class IIII.*2\u202fkg.*2\u202f000\u202fkg.*3\u202f560\u202fkg/,
    );
    expect(found.body.accuracy_class).toBeUndefined();
    expect(read({ accuracy_class: "IIII", interval_kg: 5, by_hand: true }, [5000]).errors).toEqual({});
  });

  it("counts no figure that was set aside against the class", () => {
    const aside = { ...shown(3560, "3560", "kg"), struck_out: "it rolled" };
    const facts = { ...noBridge, accuracy_class: "IIII", interval_kg: 2, by_hand: true } as const;
    expect(readFacts(facts, "single_deck", [...figures(1340), aside]).errors).toEqual({});
  });

  it("opens a draft from before there was more to say", () => {
    expect(openFacts({ name: "", interval_kg: null })).toBeNull();
    expect(openFacts({ name: "Hill", interval_kg: 10 })).toEqual({
      ...noBridge,
      ...{ name: "Hill", interval_kg: 10, by_hand: true },
    });
    const kept = { ...noBridge, max: { text: "4", unit: "t" } };
    expect(openFacts(kept)).toEqual(kept);
  });
});

describe("the interval that the figures suggest", () => {
  it("is the largest usual step that divides those that count", () => {
    expect(guessedInterval(figures(1340, 3560))).toBe(20);
    expect(guessedInterval(figures(1345, 3560))).toBe(5);
    expect(guessedInterval([...figures(1340), { ...shown(1345, "1345", "kg"), struck_out: "rolled" }])).toBe(
      20,
    );
  });

  it("counts in pounds where the figures do", () => {
    const pound_kg = 0.45359237;
    expect(guessedInterval([shown(2960 * pound_kg, "2960", "lb")])).toBeCloseTo(20 * pound_kg, 9);
    expect(guessedInterval([shown(2961 * pound_kg, "2961", "lb")])).toBeCloseTo(pound_kg, 9);
  });

  it("is never so fine that no class reaches the greatest figure", () => {
    expect(guessedInterval(figures(10_187))).toBe(2);
    expect(guessedInterval(figures(10_000.5))).toBe(2);
  });
});
