/** Where the centre of gravity is, and the static stability factor; only parts on the vehicle count. */
import { checkRange } from "./errors";
import { dot } from "./linalg";
import { checkParts, massTimes, type Part, sign } from "./statics";

/** Mass and centre of gravity with its u; the height is null where a part's height is not known. */
export interface Centre {
  readonly mass_kg: number;
  readonly x_m: number;
  readonly x_u_m: number;
  readonly y_m: number;
  readonly y_u_m: number;
  readonly z_m: number | null;
  readonly z_u_m: number | null;
}

/** Static stability factor, and its standard uncertainty. */
export interface Stability {
  readonly factor: number;
  readonly u: number;
}

export interface CentreOf {
  readonly parts: readonly Part[];
  readonly base_correlation?: number;
}

/** Centre of gravity of the parts on the vehicle; null without mass. The base's height error counts once. */
export function centreOfGravity({ parts, base_correlation = 0 }: CentreOf): Centre | null {
  checkParts(parts);
  checkRange("base_correlation", base_correlation, { low: -1, high: 1 });
  const own = parts.filter((part) => (part.on ?? "vehicle") === "vehicle");
  const mass_kg = own.reduce((sum, part) => sum + sign(part) * part.mass_kg, 0);
  if (!(mass_kg > 0)) return null;
  const mean = (place: (part: Part) => number, momentVariance: number): [number, number] => {
    const centre = own.reduce((sum, part) => sum + sign(part) * part.mass_kg * place(part), 0) / mass_kg;
    const d = own.map((part) => (sign(part) * (place(part) - centre)) / mass_kg);
    const variance = Math.max(dot(d, massTimes(own, d, base_correlation)), 0);
    return [centre, Math.sqrt(variance + momentVariance / mass_kg ** 2)];
  };
  const [x_m, x_u_m] = mean((part) => part.x_m, independent(own, "x_u_m"));
  const [y_m, y_u_m] = mean((part) => part.y_m ?? 0, independent(own, "y_u_m"));
  const level = { mass_kg, x_m, x_u_m, y_m, y_u_m };
  if (own.some((part) => part.z_m == null)) return { ...level, z_m: null, z_u_m: null };
  const [z_m, z_u_m] = mean((part) => part.z_m ?? 0, heights(own));
  return { ...level, z_m, z_u_m };
}

export interface StaticStability {
  readonly track_m: number;
  readonly height_m: number;
  readonly height_u_m?: number;
}

/** SSF = t / (2 h) and u = SSF u_h / h, with t the mean track (NHTSA rollover notice, section V). */
export function staticStability({ track_m, height_m, height_u_m = 0 }: StaticStability): Stability {
  checkRange("track_m", track_m, { above: 0, unit: "m" });
  checkRange("height_m", height_m, { above: 0, unit: "m" });
  checkRange("height_u_m", height_u_m, { low: 0, unit: "m" });
  const factor = track_m / (2 * height_m);
  return { factor, u: (factor * height_u_m) / height_m };
}

function independent(parts: readonly Part[], u: "x_u_m" | "y_u_m" | "z_u_m"): number {
  return parts.reduce((sum, part) => sum + (part.mass_kg * (part[u] ?? 0)) ** 2, 0);
}

function heights(parts: readonly Part[]): number {
  const isBase = (part: Part) => part.id === "base_front" || part.id === "base_rear";
  const base = parts.filter(isBase).reduce((sum, part) => sum + part.mass_kg * (part.z_u_m ?? 0), 0);
  const others = parts.filter((part) => !isBase(part));
  return base ** 2 + independent(others, "z_u_m");
}
