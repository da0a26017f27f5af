/** A weighing as recorded, read as numbers: bridge, readings, and which loads the readings alone fix. */
import { type AxleLoads, axleLoads } from "./agreement";
import type { Body, Row } from "./book";
import type { Bridge } from "./bridge";
import { NotFixed } from "./errors";
import { dot, matvec } from "./linalg";
import { mergeRepeats, type Reading, readingCovariance, type SplitSetup } from "./weighing";

export const INTERVAL_KG = 20; // the common public truck bridge (common practice, no source)
export const MAX_KG = 60_000; // likewise
export const CG_HEIGHT_M = 0.8; // laden mid-size four-wheel drive (from memory); only the deck's tilt rests on it
export const SHORT_WHEELBASE_M = 2.6; // where it is not known: short makes the tilt rather too great (assumed)

export const AXLES_OF: Readonly<Record<string, readonly string[]>> = {
  front: ["front"],
  rear: ["rear"],
  gross: ["front", "rear"],
};

/** A load that the readings fix without any plan. */
export interface Measured {
  readonly row: string;
  readonly value_kg: number;
  readonly u_kg: number;
}

/** Readings, the loads they fix, and whether they agree; p is null where there is nothing to test. */
export interface Visit {
  readonly id: string;
  readonly at: string;
  readonly bridge: Bridge;
  readonly readings: readonly Reading[];
  readonly setup: SplitSetup;
  readonly measured: readonly Measured[];
  readonly axles: AxleLoads | null;
  readonly p: number | null;
  readonly agree: boolean;
}

/** The measured load of one row, if the readings fix it. */
export function measuredOf(visit: Visit, row: string): Measured | null {
  return visit.measured.find((one) => one.row === row) ?? null;
}

/** One weighing as numbers; readings set aside do not count, repeats are merged, blanks take the public bridge. */
export function readVisit({ weighing, vehicle }: { readonly weighing: Row; readonly vehicle: Body }): Visit {
  const body = weighing.body;
  const bridge = bridgeOf(weighing.id, body.bridge);
  const readings = mergeRepeats({ readings: readingsOf(body) });
  const setup = setupOf(readings, vehicle);
  const solved = solve(readings, bridge, setup);
  return {
    id: weighing.id,
    at: body.at,
    bridge,
    readings,
    setup,
    measured: solved ? fixed(solved) : direct(readings, bridge, setup),
    axles: solved?.axles.length === 2 ? solved : null,
    p: solved?.p ?? null,
    agree: solved?.agree ?? true,
  };
}

/** What makes two bridges the same instrument: site number, else name; case and blanks ignored. */
export function bridgeKey(bridge: Body): string | null {
  for (const name of ["key", "site_number", "name"]) {
    const text = String(bridge[name] ?? "")
      .replace(/\s+/g, "")
      .toLowerCase();
    if (text) return text;
  }
  return null;
}

function bridgeOf(weighing_id: string, body: Body): Bridge {
  const interval_kg: number = body.interval_kg || INTERVAL_KG;
  const percent: number | null = body.accuracy_class === "percent" ? (body.percent ?? null) : null;
  return {
    key: bridgeKey(body) ?? weighing_id,
    interval_kg,
    displayed_kg: body.displayed_interval_kg || interval_kg,
    accuracy_class: percent !== null ? "III" : body.accuracy_class || "III",
    max_kg: body.max_kg || MAX_KG,
    percent,
  };
}

function readingsOf(body: Body): Reading[] {
  const single = (body.bridge.form || "single_deck") === "single_deck";
  const out: Reading[] = [];
  for (const one of body.readings) {
    const axles = [...new Set<string>(one.on_deck)].sort();
    if (one.struck_out || axles.some((axle) => axle !== "front" && axle !== "rear")) continue;
    const split = one.split ?? (single && axles.length === 1);
    out.push({ id: one.id, axles, value_kg: one.value_kg, split: Boolean(split) });
  }
  return out;
}

function setupOf(readings: readonly Reading[], vehicle: Body): SplitSetup {
  const whole = readings.find((reading) => reading.axles.length === 2);
  const singles = readings.filter((reading) => reading.axles.length === 1);
  const together = singles.reduce((total, reading) => total + reading.value_kg, 0);
  return {
    total_kg: whole ? whole.value_kg : singles.length === 2 ? together : 2 * together,
    wheelbase_m: vehicle.wheelbase_m || SHORT_WHEELBASE_M,
    cg_height_m: vehicle.cg_height_m || CG_HEIGHT_M,
  };
}

function solve(readings: readonly Reading[], bridge: Bridge, setup: SplitSetup): AxleLoads | null {
  if (readings.length === 0) return null;
  const covariance = readingCovariance({ readings, bridge, setup });
  try {
    return axleLoads({ readings, covariance });
  } catch (error) {
    if (error instanceof NotFixed) return null;
    throw error;
  }
}

function fixed(solved: AxleLoads): Measured[] {
  return Object.entries(AXLES_OF)
    .filter(([, axles]) => axles.every((axle) => solved.axles.includes(axle)))
    .map(([row, axles]) => {
      const pick = solved.axles.map((axle) => Number(axles.includes(axle)));
      const variance = dot(pick, matvec(solved.cov_kg2, pick));
      return { row, value_kg: dot(pick, solved.mean_kg), u_kg: Math.sqrt(variance) };
    });
}

/** One total alone fixes no axle, but it is itself the load of a row. */
function direct(readings: readonly Reading[], bridge: Bridge, setup: SplitSetup): Measured[] {
  return Object.entries(AXLES_OF).flatMap(([row, axles]) => {
    const reading = readings.find((one) => one.axles.join() === axles.join());
    if (!reading) return [];
    const cov = readingCovariance({ readings: [reading], bridge, setup });
    return [{ row, value_kg: reading.value_kg, u_kg: Math.sqrt(cov[0]![0]!) }];
  });
}
