/** How far a km of the odometer is: measured against road posts or a recorded track. */
import { checkRange, Unknown } from "./errors";
import { STEP_KM } from "./fullfull";
import type { Factor } from "./tyres";

/** u of a true distance between two road posts passed, km (assumed). */
export const POSTS_U_KM = 0.05;
/** u of a recorded track as a share of it: it cuts the corners of a winding road (assumed). */
export const TRACK_U = 0.01;
export const HOW: readonly string[] = ["posts", "track"];

export interface MeasuredFactor {
  readonly indicated_km: number;
  readonly true_km: number;
  readonly how?: string;
  /** Blank: that of how the true distance was known. */
  readonly true_u_km?: number | null;
  readonly step_km?: number;
}

/** True km per km on the odometer, k = true / indicated, with the u of the true distance and of the odometer's steps. */
export function measuredFactor(given: MeasuredFactor): Factor {
  const { indicated_km, true_km, how = "posts", true_u_km = null, step_km = STEP_KM } = given;
  checkRange("indicated_km", indicated_km, { above: 0, unit: "km" });
  checkRange("true_km", true_km, { above: 0, unit: "km" });
  checkRange("step_km", step_km, { low: 0, unit: "km" });
  if (!HOW.includes(how)) throw new Unknown("how", how, HOW);
  const usual = how === "posts" ? POSTS_U_KM : TRACK_U * true_km;
  const true_u = true_u_km === null ? usual : checkRange("true_u_km", true_u_km, { low: 0, unit: "km" });
  const factor = checkRange("factor", true_km / indicated_km, { low: 0.5, high: 2 });
  const factor_u = factor * Math.sqrt((true_u / true_km) ** 2 + step_km ** 2 / 6 / indicated_km ** 2);
  return { factor, factor_u };
}
