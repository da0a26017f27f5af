/** Where a mass sits: a ratio of an uncertain moment to an uncertain mass. Fieller 1954, J. R. Stat. Soc. B 16:175. */
import { checkFinite, checkRange } from "./errors";

/** Confidence set of a place: an interval, everything `outside` one, or the whole `line`; `g` says how skew it is. */
export interface Zone {
  readonly kind: string;
  readonly from_m: number | null;
  readonly to_m: number | null;
  readonly g: number | null;
}

export interface Fieller {
  readonly moment_kgm: number;
  readonly mass_kg: number;
  readonly w_aa: number;
  readonly w_ab: number;
  readonly w_bb: number;
  readonly z?: number;
}

/** The set of x with (a - x b)^2 <= z^2 (W_aa - 2 x W_ab + x^2 W_bb); an interval when |b| > z sqrt(W_bb). */
export function fieller({ moment_kgm: a, mass_kg: b, w_aa, w_ab, w_bb, z = 1.959964 }: Fieller): Zone {
  checkFinite("moment_kgm", a);
  checkFinite("mass_kg", b);
  checkFinite("w_ab", w_ab);
  checkRange("w_aa", w_aa, { low: 0 });
  checkRange("w_bb", w_bb, { low: 0 });
  checkRange("z", z, { above: 0 });
  const lead = b * b - z * z * w_bb;
  const half = a * b - z * z * w_ab;
  const tail = a * a - z * z * w_aa;
  const square = z * z * (w_aa * b * b - 2 * w_ab * a * b + w_bb * a * a - z * z * (w_aa * w_bb - w_ab ** 2));
  const g = b === 0 ? null : (z * z * w_bb) / (b * b);
  if (lead > 0) return { kind: "interval", ...roots(lead, half, tail, Math.max(square, 0)), g };
  if (lead < 0 && square > 0) return { kind: "outside", ...roots(lead, half, tail, square), g };
  return { kind: "line", from_m: null, to_m: null, g };
}

function roots(lead: number, half: number, tail: number, square: number): { from_m: number; to_m: number } {
  const q = half + (half >= 0 ? Math.sqrt(square) : -Math.sqrt(square));
  const [first, second] = [q / lead, q === 0 ? 0 : tail / q];
  return { from_m: Math.min(first, second), to_m: Math.max(first, second) };
}
