/** Properties of fuel and water that the browser must hold, too; the vectors hold the figures. */
import fc from "fast-check";
import { expect, it } from "vitest";
import { type Bank, bankAdvance, bankPrior } from "@/domain/bank";
import type { DipEntry, FillEntry } from "@/domain/entries";
import type { DomainEvent } from "@/domain/events";
import { advance, type Estimate, type Model, prior } from "@/domain/filter";
import { FUEL, FUEL_KAPPAS } from "@/domain/fuel";
import { fuelAnswer } from "@/domain/fuel_answer";
import { type FuelEntry, type FuelLog, readFuelLog } from "@/domain/fuel_log";
import { longestRise } from "@/domain/placing";
import { rangeAt, reach } from "@/domain/remain";
import { personDays } from "@/domain/water";

const MODEL: Model = {
  tank_ids: ["main"],
  capacity_l: [80],
  class_ids: ["sealed"],
  rate0: [11],
  settings: FUEL,
};
const FULL: DomainEvent = { kind: "full", tank_ids: ["main"] };
const use = (amount: number): DomainEvent => ({ kind: "use", amount, class_id: "sealed" });
const SETUP = { tanks: [{ id: "main", capacity_l: 80 }], base_rate: 11 };
const DAY = 86_400;

function run(events: readonly DomainEvent[]): Estimate {
  const first = prior({ model: MODEL });
  return events.reduce((estimate, event) => advance({ model: MODEL, kappa: 0.1, estimate, event }), first);
}

it("takes a leg cut in two for the same leg", () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 600 }), fc.double({ min: 0, max: 1, noNaN: true }), (way, cut) => {
      const [whole, parts] = [run([FULL, use(way)]), run([FULL, use(way * cut), use(way - way * cut)])];
      expect(parts.mean[0]).toBeCloseTo(whole.mean[0]!, 9);
      for (const [i, row] of whole.cov.entries())
        for (const [j, value] of row.entries()) expect(parts.cov[i]![j]).toBeCloseTo(value, 8);
    }),
  );
});

it("reaches the range at p with probability p", () => {
  const amounts = fc.integer({ min: 50, max: 500 });
  fc.assert(
    fc.property(amounts, fc.double({ min: 0.5, max: 0.98, noNaN: true }), (way, p) => {
      const events = [FULL, use(way)];
      const bank = events.reduce(
        (now, event) => bankAdvance({ bank: now, event }),
        bankPrior({ model: MODEL, kappas: FUEL_KAPPAS }),
      );
      const asked = { bank, mix: { sealed: 1 }, counting: { reserve_l: 8, factor_u: 0.01 } };
      const amount = rangeAt({ ...asked, p });
      if (amount > 0) expect(reach({ ...asked, amount })).toBeCloseTo(p, 9);
    }),
    { numRuns: 40 },
  );
});

it("learns nothing from a fill and a way of nothing", () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 600 }), (way) => {
      const nothing: DomainEvent[] = [{ kind: "fill", tank_id: "main", litres_l: 0 }, use(0)];
      const [without, found] = [run([FULL, use(way)]), run([FULL, use(way), ...nothing])];
      expect(found.mean).toEqual(without.mean);
      expect(found.cov).toEqual(without.cov);
    }),
  );
});

it("counts on less with more reserve, a higher p and a doubtful odometer", () => {
  const amounts = fc.integer({ min: 0, max: 500 });
  fc.assert(
    fc.property(amounts, amounts, (before, way) => {
      const bank = [use(before), FULL, use(way)].reduce(
        (now: Bank, event) => bankAdvance({ bank: now, event }),
        bankPrior({ model: MODEL, kappas: FUEL_KAPPAS }),
      );
      const found = (p: number, reserve_l: number, factor_u: number) =>
        rangeAt({ bank, mix: { sealed: 1 }, p, counting: { reserve_l, factor_u } });
      const asked = found(0.9, 5, 0.005);
      expect(found(0.9, 8, 0.005)).toBeLessThanOrEqual(asked + 1e-6);
      expect(found(0.95, 5, 0.005)).toBeLessThanOrEqual(asked + 1e-6);
      expect(found(0.9, 5, 0.02)).toBeLessThanOrEqual(asked + 1e-6);
    }),
    { numRuns: 60 },
  );
});

const step = fc.record({
  way: fc.integer({ min: 50, max: 500 }),
  litres: fc.integer({ min: 1, max: 90 }),
  full: fc.boolean(),
  dip: fc.boolean(),
  odometer: fc.constantFrom(1, 1, 1, 1, 10, null),
});

const logs = fc.array(step, { maxLength: 20 }).map((steps) => {
  let odometer = 1000;
  return steps.map(({ way, litres, full, dip, odometer: times }, n): FillEntry | DipEntry => {
    odometer += way;
    const odometer_km = times === null ? null : odometer * times;
    const about = { id: `e${n}`, at_s: n * DAY, sequence: n, odometer_km };
    if (dip) return { kind: "dip", ...about, tank_id: "main", level: litres / 90 };
    return { kind: "fill", ...about, lines: [{ tank_id: "main", litres_l: litres, full }] };
  });
});

const told = ({ journal, ...rest }: FuelLog) => ({
  ...rest,
  state: journal.state,
  outcomes: journal.outcomes,
});

it("continues a log as if from the beginning", () => {
  fc.assert(
    fc.property(logs, fc.nat(20), (entries: readonly FuelEntry[], cut) => {
      const previous = readFuelLog({ setup: SETUP, entries: entries.slice(0, cut) });
      const whole = readFuelLog({ setup: SETUP, entries });
      expect(told(readFuelLog({ setup: SETUP, entries, previous }))).toEqual(told(whole));
    }),
    { numRuns: 60 },
  );
});

it("answers whatever was entered, and the lower answer stands", () => {
  fc.assert(
    fc.property(logs, (entries: readonly FuelEntry[]) => {
      const { stands, counted, other } = fuelAnswer({ log: readFuelLog({ setup: SETUP, entries }) });
      for (const one of [counted, other ?? counted]) {
        expect(stands.count_on_km).toBeLessThanOrEqual(one.count_on_km);
        expect(stands.likely_km).toBeLessThanOrEqual(one.likely_km);
      }
      expect(stands.count_on_km).toBeGreaterThanOrEqual(0);
    }),
    { numRuns: 60 },
  );
});

it("adds person-days up", () => {
  const presence = fc.record({
    share: fc.integer({ min: 0, max: 4 }).map((n) => n / 4),
    from_s: fc.integer({ min: 0, max: 9 * DAY }),
    until_s: fc.option(fc.integer({ min: 0, max: 18 * DAY })),
  });
  fc.assert(
    fc.property(fc.array(presence, { maxLength: 4 }), fc.nat(9 * DAY), fc.nat(9 * DAY), (presences, a, b) => {
      const days = (from_s: number, until_s: number) => personDays({ presences, from_s, until_s });
      expect(days(0, a) + days(a, a + b)).toBeCloseTo(days(0, a + b), 9);
    }),
  );
});

it("finds a rise that never falls", () => {
  fc.assert(
    fc.property(fc.array(fc.nat(9)), (values) => {
      const taken = longestRise({ values }).map((i) => values[i]!);
      expect(taken).toEqual([...taken].sort((a, b) => a - b));
      expect(taken.length).toBeGreaterThanOrEqual(Math.min(values.length, 1));
    }),
  );
});
