/** Random fuel logs: late entries, blanks, slips of the finger, one or two tanks and a can. */
import fc from "fast-check";
import type { FuelEntry } from "@/domain/entries";

export const TANKS = [
  { id: "main", capacity_l: 80, drain_order: 1, drawn: true },
  { id: "can", capacity_l: 20, drain_order: 9, drawn: false },
];
export const TWO = [...TANKS, { id: "sub", capacity_l: 50, drain_order: 2, drawn: true }];
const SURFACES = [null, { sealed: 1 }, { gravel: 0.5, sealed: 0.5 }, { sand: 1 }];

/** What is drawn of one entry; where it stands follows from the entries before it. */
export interface Drawn {
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

export const drawn = fc.record<Drawn>({
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

/** Entries as drawn, each where those before it leave off. */
export function entriesOf(list: readonly Drawn[], twoTanks: boolean): FuelEntry[] {
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
