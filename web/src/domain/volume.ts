/** Volume and density with temperature: fuel to 15 C, and water. */
import { checkRange } from "./errors";

// K0, K1, or A, B for the transition zone: ASTM D1250-80 / API 2540 chapter 11.1 table 54B, ISO 91-1.
const GASOLINE = [346.4228, 0.4388] as const;
const TRANSITION = [-0.00336312, 2680.3206] as const;
const JET = [594.5418, 0] as const;
const FUEL_OIL = [186.9696, 0.4862] as const;
const [GASOLINE_TO, TRANSITION_TO, JET_TO] = [770.25, 787.75, 838.75]; // between the printed ends of two groups

/** At 15 C, kg/m3: where the table begins and ends. */
export const DENSITIES = [653, 1075] as const;

export interface Expansion {
  readonly density_15_kg_per_m3: number;
}

/** Coefficient of thermal expansion at 15 C, per C, of a fuel with this density at 15 C. */
export function expansion({ density_15_kg_per_m3: rho }: Expansion): number {
  checkRange("density_15_kg_per_m3", rho, { low: DENSITIES[0], high: DENSITIES[1], unit: "kg/m3" });
  if (rho > GASOLINE_TO && rho < TRANSITION_TO) return TRANSITION[0] + TRANSITION[1] / rho ** 2;
  const [k0, k1] = rho <= GASOLINE_TO ? GASOLINE : rho < JET_TO ? JET : FUEL_OIL;
  return k0 / rho ** 2 + k1 / rho;
}

export interface VolumeFactor extends Expansion {
  readonly temperature_c: number;
}

/** Volume at 15 C over volume at this temperature: exp(-a dt (1 + 0.8 a dt)), dt = t - 15. */
export function volumeFactor({ temperature_c, density_15_kg_per_m3 }: VolumeFactor): number {
  checkRange("temperature_c", temperature_c, { low: -40, high: 90, unit: "C" });
  const aDt = expansion({ density_15_kg_per_m3 }) * (temperature_c - 15);
  return Math.exp(-aDt * (1 + 0.8 * aDt));
}

export interface FuelFactor extends VolumeFactor {
  readonly temperature_u_c: number;
}

/** `volumeFactor` and its u, to first order: factor a (1 + 1.6 a dt) u_t. */
export function fuelFactor({ temperature_u_c, ...given }: FuelFactor): readonly [number, number] {
  checkRange("temperature_u_c", temperature_u_c, { low: 0, high: 50, unit: "C" });
  const factor = volumeFactor(given);
  const a = expansion(given);
  return [factor, factor * a * Math.abs(1 + 1.6 * a * (given.temperature_c - 15)) * temperature_u_c];
}

/** Density of air-free water at 101.325 kPa, kg/L, from 0 to 40 C (CIPM 2001, Tanaka et al.). */
export function waterDensity({ temperature_c: t }: { readonly temperature_c: number }): number {
  checkRange("temperature_c", t, { low: 0, high: 40, unit: "C" });
  const fall = ((t - 3.983035) ** 2 * (t + 301.797)) / (522528.9 * (t + 69.34881));
  return 0.99997495 * (1 - fall);
}
