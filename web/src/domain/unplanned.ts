/** Mass that nobody planned: weighed minus planned, whether it is real, and where it may sit. */
import { checkFinite, checkRange } from "./errors";
import { fieller, type Zone } from "./fieller";
import { finite, matmul, transpose } from "./linalg";
import type { Loads } from "./statics";

export const Z95 = 1.959964; // two-sided 95 %

/** Weighed minus planned mass; `real` at 95 %. `finding` says whether, and why not, its zone is a place. */
export interface Unplanned {
  readonly mass_kg: number;
  readonly u_kg: number;
  readonly real: boolean;
  readonly finding: "placed" | "too_small" | "no_single_mass" | "anywhere" | "total_only";
  readonly zone: Zone | null;
}

export interface UnplannedMass {
  readonly measured: Loads;
  readonly planned: Loads;
  readonly rear_x_m: number;
  /** The foremost and the hindmost x of the vehicle. */
  readonly ends: readonly [number, number];
  readonly z?: number;
}

/** Unplanned mass and its zone from the front and rear axle, weighed and planned in the state of the day. */
export function unplannedMass({ measured, planned, rear_x_m, ends, z = Z95 }: UnplannedMass): Unplanned {
  checkRange("rear_x_m", rear_x_m, { above: 0, unit: "m" });
  finite("ends", ends);
  const [found, cov] = axles(measured);
  const [expected, more] = axles(planned);
  const turn = [
    [0, rear_x_m],
    [1, 1],
  ];
  const sigma = cov.map((row, i) => row.map((value, j) => value + more[i]![j]!));
  const w = matmul(matmul(turn, sigma), transpose(turn));
  const [w_aa, w_ab, w_bb] = [w[0]![0]!, w[0]![1]!, w[1]![1]!];
  const rear = found[1]! - expected[1]!;
  const mass_kg = found[0]! - expected[0]! + rear;
  const zone = fieller({ moment_kgm: rear_x_m * rear, mass_kg, w_aa, w_ab, w_bb, z });
  const real = zone.kind === "interval";
  return { mass_kg, u_kg: Math.sqrt(w_bb), real, finding: finding(zone, ends), zone };
}

export interface UnplannedTotal {
  readonly weighed_kg: number;
  readonly weighed_u_kg: number;
  readonly planned_kg: number;
  readonly planned_u_kg: number;
  readonly z?: number;
}

/** Unplanned mass from a total alone, which says nothing about its place. */
export function unplannedTotal(given: UnplannedTotal): Unplanned {
  const { weighed_kg, weighed_u_kg, planned_kg, planned_u_kg, z = Z95 } = given;
  checkFinite("weighed_kg", weighed_kg);
  checkFinite("planned_kg", planned_kg);
  checkRange("weighed_u_kg", weighed_u_kg, { low: 0, unit: "kg" });
  checkRange("planned_u_kg", planned_u_kg, { low: 0, unit: "kg" });
  checkRange("z", z, { above: 0 });
  const mass_kg = weighed_kg - planned_kg;
  const u_kg = Math.sqrt(weighed_u_kg ** 2 + planned_u_kg ** 2);
  return { mass_kg, u_kg, real: Math.abs(mass_kg) > z * u_kg, finding: "total_only", zone: null };
}

function axles({ rows, mean_kg, cov_kg2 }: Loads): [number[], number[][]] {
  const order = [rows.indexOf("front"), rows.indexOf("rear")];
  finite("mean_kg", mean_kg);
  finite("cov_kg2", cov_kg2);
  return [order.map((i) => mean_kg[i]!), order.map((i) => order.map((j) => cov_kg2[i]![j]!))];
}

function finding(zone: Zone, ends: readonly [number, number]): Unplanned["finding"] {
  if (zone.kind !== "interval" || zone.from_m === null || zone.to_m === null) return "too_small";
  if (zone.to_m < ends[0] || zone.from_m > ends[1]) return "no_single_mass";
  return zone.from_m <= ends[0] && zone.to_m >= ends[1] ? "anywhere" : "placed";
}
