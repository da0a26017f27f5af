/** A fuel log that is continued says exactly what it says when it is read anew, whatever came, went or was answered. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { FuelEntry } from "@/domain/entries";
import { FUEL } from "@/domain/fuel";
import { finished, fuelLogPieces, type ReadFuelLog, readFuelLog, type WholeLog } from "@/domain/fuel_log";
import { drawn, entriesOf, TANKS, TWO } from "./logs";

type Edit = { readonly what: "append" | "drop" | "hide" | "confirm" | "alike" | "ask"; readonly at: number };
const edits = fc.array(
  fc.record<Edit>({
    what: fc.constantFrom("append", "append", "append", "append", "drop", "hide", "confirm", "alike", "ask"),
    at: fc.integer({ min: 0, max: 1_000 }),
  }),
  { minLength: 1, maxLength: 8 },
);

const told = ({ journal: { kept: _, ...journal }, ...log }: WholeLog) => ({ ...log, journal });

describe("a fuel log continued", () => {
  it("says what it says when it is read anew", () => {
    fc.assert(
      fc.property(
        fc.array(drawn, { minLength: 4, maxLength: 60 }),
        fc.boolean(),
        edits,
        (list, twoTanks, changes) => {
          const every = entriesOf(list, twoTanks);
          let shown = every.slice(0, Math.ceil(every.length / 2));
          let [confirmed, alike]: [string[], Record<string, string>] = [[], {}];
          let ahead = ["sealed"];
          let log: WholeLog | null = null;
          for (const { what, at } of [{ what: "drop", at: 1_000_000 } as Edit, ...changes]) {
            const one = shown[at % Math.max(shown.length, 1)];
            if (what === "append") shown = [...shown, ...every.filter((e) => !shown.includes(e)).slice(0, 1)];
            else if (what === "drop") shown = at < 1_000_000 ? shown.slice(0, -1) : shown;
            else if (what === "hide") shown = shown.filter((e) => e !== one);
            else if (what === "ask") ahead = at % 2 ? ["sealed", "sand"] : ["gravel"];
            else if (what === "confirm" && one) confirmed = [...confirmed, one.id];
            else if (one) alike = { ...alike, [one.id]: "other" };
            const setup = { tanks: twoTanks ? TWO : TANKS, confirmed, alike, ahead };
            const given: ReadFuelLog = { setup, entries: shown, previous: log };
            log = at % 3 ? readFuelLog(given) : finished(fuelLogPieces(given, 1 + (at % 7)));
            expect(told(log)).toEqual(told(readFuelLog({ setup, entries: shown })));
          }
        },
      ),
      { numRuns: 150 },
    );
  });
});

describe("a log whose entries contradict each other", () => {
  /** How often the filter is asked for the drift over a way, in a log read piece by piece. */
  function driven(count: number): number {
    let asked = 0;
    const settings = {
      ...FUEL,
      get walk_ref() {
        asked += 1;
        return FUEL.walk_ref;
      },
    };
    const entries = Array.from({ length: count }, (_, n): FuelEntry => {
      const about = { id: `e${n}`, at_s: 3600 * n, sequence: n, odometer_km: (n * 7_919) % 100_003 };
      return { kind: "fill", ...about, lines: [{ tank_id: "main", litres_l: (n * 31) % 85, full: true }] };
    });
    const log = finished(fuelLogPieces({ setup: { tanks: TANKS, settings }, entries }, 40));
    expect(log.findings.length).toBeGreaterThan(count / 2);
    return asked;
  }

  it("costs twice as much when it is twice as long", () => {
    expect(driven(1_600) / driven(400)).toBeLessThan(4 * 1.5);
  });
});
