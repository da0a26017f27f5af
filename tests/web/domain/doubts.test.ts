/** Several entries in doubt: every choice of up to three has its branch, and one more doubt never raises what stands. */
import fc from "fast-check";
import { expect, it } from "vitest";
import type { Bank } from "@/domain/bank";
import type { Model } from "@/domain/filter";
import { FUEL, FUEL_KAPPAS } from "@/domain/fuel";
import { lowerBanks, runJournal, type Step } from "@/domain/journal";
import { rangeAt } from "@/domain/remain";
import { EVERY_CHOICE, MOST_OTHERS } from "@/domain/running";

const ONE: Model = {
  ...{ tank_ids: ["main"], capacity_l: [80], class_ids: ["sealed"], rate0: [11] },
  settings: FUEL,
};
const TWO: Model = { ...ONE, tank_ids: ["main", "sub"], capacity_l: [80, 60] };

const stop = fc.record({
  amount: fc.integer({ min: 50, max: 400 }),
  litres_l: fc.integer({ min: 5, max: 60 }),
  full: fc.boolean(),
  sub: fc.boolean(),
});
const logs = fc.tuple(fc.array(stop, { minLength: 4, maxLength: 9 }), fc.boolean()).map(([stops, two]) => {
  const steps = stops.map(({ amount, litres_l, full, sub }, n): Step => {
    const tank_id = two && sub ? "sub" : "main";
    const put_in = { kind: "fill", tank_id, litres_l } as const;
    const filled = full ? [{ kind: "full", tank_ids: [tank_id] } as const] : [];
    const told = { entry_id: `s${n}`, events: [put_in, ...filled], tank_ids: [tank_id] };
    return { ...told, way: [{ class_id: "sealed", amount }], confirmed: true };
  });
  return { model: two ? TWO : ONE, steps };
});
type Log = { readonly model: Model; readonly steps: readonly Step[] };

/** Where a log ends with some steps in doubt, and some left out. */
function banks({ model, steps }: Log, doubts: readonly number[], left: readonly number[] = []): Bank[] {
  const said = steps.map((one, n): Step => {
    const doubt = doubts.includes(n) ? ("alike" as const) : null;
    return { ...one, doubt, refused: left.includes(n) };
  });
  return lowerBanks({ state: runJournal({ model, kappas: FUEL_KAPPAS, steps: said }).state });
}

const stands = (found: readonly Bank[]) =>
  Math.min(...found.map((bank) => rangeAt({ bank, mix: { sealed: 1 }, p: 0.95 })));
const named = (found: readonly Bank[]) => found.map((one) => JSON.stringify(one)).sort();
const places = (most: number) => fc.uniqueArray(fc.nat(8), { maxLength: most });
const within = ({ steps }: Log, at: readonly number[]) =>
  at.filter((n) => n < steps.length).sort((a, b) => a - b);

it("runs every choice of up to three doubts", () => {
  fc.assert(
    fc.property(logs, places(EVERY_CHOICE), (log, at) => {
      const doubts = within(log, at);
      const choices = Array.from({ length: 2 ** doubts.length }, (_, k) => k);
      const left = choices.map((choice) => doubts.filter((_, bit) => (choice >> bit) & 1));
      expect(named(banks(log, doubts))).toEqual(named(left.flatMap((one) => banks(log, [], one))));
    }),
    { numRuns: 60 },
  );
});

it("never raises what stands by one more doubt", () => {
  fc.assert(
    fc.property(logs, places(EVERY_CHOICE), (log, at) => {
      const doubts = within(log, at);
      const before = stands(banks(log, doubts.slice(1)));
      expect(stands(banks(log, doubts))).toBeLessThanOrEqual(before);
    }),
    { numRuns: 60 },
  );
});

it("never raises it by a later one, and keeps few branches", () => {
  fc.assert(
    fc.property(logs, places(EVERY_CHOICE + 3), ({ model, steps }, at) => {
      for (const [n, last] of within({ model, steps }, at).entries()) {
        const log = { model, steps: steps.slice(0, last + 1) };
        const doubts = within(log, at);
        const fewer = stands(banks(log, doubts.slice(0, n), [last]));
        expect(stands(banks(log, doubts))).toBeLessThanOrEqual(fewer);
      }
      const every = steps.map((_, n) => n);
      expect(banks({ model, steps }, every).length).toBeLessThanOrEqual(1 + MOST_OTHERS);
    }),
    { numRuns: 30 },
  );
});
