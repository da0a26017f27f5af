/** A fuel log that is continued says exactly what it says when it is read anew, whatever came, went or was answered. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { FuelEntry } from "@/domain/entries";
import { FUEL } from "@/domain/fuel";
import { type FuelLog, finished, fuelLogPieces, type ReadFuelLog, readFuelLog } from "@/domain/fuel_log";

const TANKS = [
  { id: "main", capacity_l: 80, drain_order: 1, drawn: true },
  { id: "can", capacity_l: 20, drain_order: 9, drawn: false },
];
const TWO = [...TANKS, { id: "sub", capacity_l: 50, drain_order: 2, drawn: true }];
const SURFACES = [null, { sealed: 1 }, { gravel: 0.5, sealed: 0.5 }, { sand: 1 }];

/** What is drawn of one entry; where it stands follows from the entries before it. */
interface Drawn {
  readonly kind: number;
  readonly gap_km: number;
  readonly hours: number;
  readonly litres_l: number;
  readonly full: boolean;
  readonly blank: boolean;
  readonly slip_km: number;
  readonly surface: number;
  readonly late: number;
}

const drawn = fc.record<Drawn>({
  kind: fc.integer({ min: 0, max: 15 }),
  gap_km: fc.integer({ min: 0, max: 700 }),
  hours: fc.integer({ min: 0, max: 30 }),
  litres_l: fc.double({ min: 0, max: 90, noNaN: true }),
  full: fc.boolean(),
  blank: fc.integer({ min: 0, max: 5 }).map((n) => n === 0),
  slip_km: fc.constantFrom(0, 0, 0, 0, 0, 0, 0, -300, 9_000),
  surface: fc.integer({ min: 0, max: SURFACES.length - 1 }),
  late: fc.constantFrom(0, 0, 0, 0, 0, 2, 5),
});

function entriesOf(list: readonly Drawn[], twoTanks: boolean): FuelEntry[] {
  let [odometer, hour] = [1_000, 0];
  return list.map((one, n): FuelEntry => {
    odometer += one.gap_km;
    hour += one.hours;
    const about = {
      id: `e${n}`,
      at_s: (hour - (one.late > 0 ? 24 * one.late : 0)) * 3600,
      sequence: one.kind === 10 ? n - 9 : n,
      odometer_km: one.blank ? null : odometer + one.slip_km,
      surface: SURFACES[one.surface]!,
      towing: one.kind === 1 ? true : null,
    };
    const tank_id = twoTanks && one.kind % 2 === 0 ? "sub" : "main";
    if (one.kind === 2) return { kind: "dip", ...about, tank_id, how: "gauge", level: one.litres_l / 90 };
    if (one.kind === 3)
      return { kind: "dip", ...about, tank_id, how: "dip_measured", litres_l: one.litres_l };
    if (one.kind === 4)
      return { kind: "transfer", ...about, from_tank_id: "can", to_tank_id: "main", litres_l: 5 };
    if (one.kind === 5) return { kind: "transfer", ...about, from_tank_id: "main", litres_l: 3 };
    if (one.kind === 6) return { kind: "change", ...about, rate_u: 0.2, ratio: one.full ? 1.03 : 1 };
    const lines = [{ tank_id, litres_l: one.litres_l, full: one.full }];
    if (one.kind === 7) lines.push({ tank_id: "can", litres_l: 10, full: false });
    if (one.kind === 8 && twoTanks) lines.push({ tank_id: "main", litres_l: 12, full: true });
    return { kind: "fill", ...about, lines, missed_before: one.kind === 9 };
  });
}

type Edit = { readonly what: "append" | "drop" | "hide" | "confirm" | "alike" | "ask"; readonly at: number };
const edits = fc.array(
  fc.record<Edit>({
    what: fc.constantFrom("append", "append", "append", "append", "drop", "hide", "confirm", "alike", "ask"),
    at: fc.integer({ min: 0, max: 1_000 }),
  }),
  { minLength: 1, maxLength: 8 },
);

const told = ({ journal: { kept: _, ...journal }, ...log }: FuelLog) => ({ ...log, journal });

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
          let log: FuelLog | null = null;
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
