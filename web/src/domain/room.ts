/**
 * Room left: the greatest mass that may still be added at a place, and what a typed mass does there. A limit is held
 * at a confidence, load + z u <= limit; a lower one (front axle and coupling must not lift) is the same with its signs
 * turned. A rating that the mass relieves, or does not touch, does not bind.
 */
import { checkFinite, checkRange, Unknown } from "./errors";
import { CONFIDENCE, chanceOver, type Verdict, verdict } from "./limits";
import { zAt } from "./normal";

/** Stretches shorter than this are rounding. */
const SLIVER_M = 1e-12;

/** One limit in one state: its load before anything is added, and what a kilogram at x adds: share + per_m x. */
export interface Bound {
  readonly rating: string;
  /** The load is at most the limit, or at least. */
  readonly side: "upper" | "lower";
  readonly limit_kg: number | null;
  readonly mean_kg: number;
  readonly u_kg: number;
  readonly share?: number;
  readonly per_m?: number;
}

/** A limit by its rating and its side. */
export type Which = Pick<Bound, "rating" | "side">;

/** What may be added at one place; `already` are limits not held even now that the mass would worsen. */
export interface Room {
  /** Null where no known limit binds. */
  readonly most_kg: number | null;
  readonly binds: Which | null;
  readonly already: readonly Which[];
  /** Ratings that take some of the mass and are not known. */
  readonly unknown: readonly string[];
}

/** Places along which one limit binds: the room there is spare_kg / (share + per_m x), 0 if nothing is to spare. */
export interface Stretch {
  readonly from_m: number;
  readonly to_m: number;
  readonly binds: Which | null;
  readonly spare_kg: number;
  readonly share: number;
  readonly per_m: number;
  readonly from_kg: number | null;
  readonly to_kg: number | null;
}

/** One limit after a mass was added, and the greatest mass known as well that it would bear there. */
export interface After {
  readonly side: Bound["side"];
  readonly verdict: Verdict;
  readonly most_kg: number | null;
}

/** A typed mass at a place: the room for such a mass there, and every limit after it. */
export interface Asked {
  readonly room: Room;
  readonly after: readonly After[];
}

export interface Headroom {
  readonly bound: Bound;
  readonly confidence?: number;
}

/** How far a load stays from its limit at the confidence, kg: below zero it is not held even now. */
export function headroomKg({ bound, confidence = CONFIDENCE }: Headroom): number | null {
  check(bound);
  return headroom(bound, zAt(confidence));
}

/** Where something is put, and how well its mass (u/m) and its place are known. */
export interface Put {
  readonly x_m: number;
  readonly confidence?: number;
  readonly mass_share?: number;
  readonly x_u_m?: number;
}

/** The greatest mass at x that one limit bears, kg: the root of l m + z sqrt(u^2 + q^2 m^2) = limit - mean. */
export function mostKg({ bound, ...put }: Put & { readonly bound: Bound }): number | null {
  check(bound);
  return most(bound, checked(put), zAt(put.confidence ?? CONFIDENCE));
}

/** The greatest mass that may be added at x with every limit held that is held now, and none made worse. */
export function roomAt({ bounds, ...put }: Put & { readonly bounds: readonly Bound[] }): Room {
  const { x_m } = put;
  const z = zAt(put.confidence ?? CONFIDENCE);
  const how = checked(put);
  bounds.forEach(check);
  const found = bounds.map((bound) => most(bound, how, z));
  const known = found.filter((kg) => kg !== null);
  const most_kg = known.length > 0 ? Math.min(...known) : null;
  const taking = bounds.filter((one) => shareAt(one, x_m) > 0);
  return {
    most_kg,
    binds: most_kg === null ? null : which(bounds[found.indexOf(most_kg)]!),
    already: taking.filter((one) => (headroom(one, z) ?? 0) < 0).map(which),
    unknown: taking.filter((one) => one.limit_kg === null).map(({ rating }) => rating),
  };
}

export interface Along {
  readonly bounds: readonly Bound[];
  readonly from_m: number;
  readonly to_m: number;
  readonly confidence?: number;
}

/** The room for an exact mass along a stretch, cut where another limit begins to bind: exact, nothing is sampled. */
export function stretches({ bounds, from_m, to_m, confidence = CONFIDENCE }: Along): Stretch[] {
  checkFinite("from_m", from_m);
  checkRange("to_m", to_m, { above: from_m, unit: "m" });
  const z = zAt(confidence);
  bounds.forEach(check);
  const known = bounds.flatMap((one): Known[] => {
    const spare = headroom(one, z);
    return spare === null ? [] : [[one, spare]];
  });
  const inner = crossings(known).filter((x) => x > from_m && x < to_m);
  const cuts = [...new Set([from_m, ...inner.sort((a, b) => a - b), to_m])];
  const out: Stretch[] = [];
  for (let k = 1; k < cuts.length; k++) {
    const [left, right] = [cuts[k - 1]!, cuts[k]!];
    if (right - left <= SLIVER_M && right < to_m) continue;
    const middle = (left + right) / 2;
    const last = out.at(-1);
    const fresh = stretch(known, middle, last?.to_m ?? from_m, right);
    const same = last && last.binds?.rating === fresh.binds?.rating && last.binds?.side === fresh.binds?.side;
    if (same) out[out.length - 1] = stretch(known, middle, last.from_m, right);
    else out.push(fresh);
  }
  return out;
}

export interface Ask {
  readonly bounds: readonly Bound[];
  readonly x_m: number;
  readonly mass_kg: number;
  readonly mass_u_kg?: number;
  readonly x_u_m?: number;
  readonly confidence?: number;
}

/** Every limit after a mass m +- u is added at x +- u_x (maths A.3), and the room there for one known as well. */
export function ask({ bounds, x_m, mass_kg, mass_u_kg = 0, x_u_m = 0, confidence = CONFIDENCE }: Ask): Asked {
  checkRange("mass_kg", mass_kg, { above: 0, unit: "kg" });
  checkRange("mass_u_kg", mass_u_kg, { low: 0, unit: "kg" });
  const put = { x_m, mass_share: mass_u_kg / mass_kg, x_u_m };
  const room = roomAt({ bounds, confidence, ...put });
  const z = zAt(confidence);
  const square = mass_kg ** 2 + mass_u_kg ** 2;
  const after = bounds.map((one): After => {
    const { share = 0, per_m = 0, mean_kg } = one;
    const value_kg = mean_kg + (share + per_m * x_m) * mass_kg;
    const own = shareAt(one, x_m) ** 2 * mass_u_kg ** 2 + per_m ** 2 * square * x_u_m ** 2;
    const u_kg = Math.sqrt(one.u_kg ** 2 + own);
    const judged = judge(one, value_kg, u_kg, z, confidence);
    return { side: one.side, verdict: judged, most_kg: most(one, put, z) };
  });
  return { room, after };
}

function check(bound: Bound): void {
  const { side, limit_kg, share = 0, per_m = 0 } = bound;
  if (side !== "upper" && side !== "lower") throw new Unknown("side", side, ["upper", "lower"]);
  for (const [name, value] of Object.entries({ mean_kg: bound.mean_kg, share, per_m }))
    checkFinite(name, value);
  checkRange("u_kg", bound.u_kg, { low: 0, unit: "kg" });
  if (limit_kg !== null && side === "upper") checkRange("limit_kg", limit_kg, { above: 0, unit: "kg" });
  else if (limit_kg !== null) checkFinite("limit_kg", limit_kg);
}

type How = Required<Omit<Put, "confidence">>;

function checked({ x_m, mass_share = 0, x_u_m = 0 }: Put): How {
  checkFinite("x_m", x_m);
  checkRange("mass_share", mass_share, { low: 0 });
  checkRange("x_u_m", x_u_m, { low: 0, unit: "m" });
  return { x_m, mass_share, x_u_m };
}

function which({ rating, side }: Bound): Which {
  return { rating, side };
}

function sign({ side }: Bound): number {
  return side === "upper" ? 1 : -1;
}

/** What a kilogram at x takes from the headroom. */
function shareAt(bound: Bound, x_m: number): number {
  const { share = 0, per_m = 0 } = bound;
  return sign(bound) * (share + per_m * x_m);
}

function headroom(bound: Bound, z: number): number | null {
  const { limit_kg, mean_kg, u_kg } = bound;
  return limit_kg === null ? null : sign(bound) * (limit_kg - mean_kg) - z * u_kg;
}

/** The root in the form without cancellation: with b = h l, A = l^2 - z^2 q^2, c = h^2 - z^2 u^2 as products. */
function most(bound: Bound, { x_m, mass_share, x_u_m }: How, z: number): number | null {
  const left = headroom(bound, z);
  if (left === null) return null;
  const spare = Math.max(left, 0);
  const { per_m = 0, u_kg } = bound;
  const [perKg, reach] = [shareAt(bound, x_m), z * u_kg];
  const q = Math.sqrt((perKg * mass_share) ** 2 + per_m ** 2 * (1 + mass_share ** 2) * x_u_m ** 2);
  if (perKg + z * q <= 0) return null;
  if (q === 0 || (spare === 0 && perKg > 0)) return spare / perKg;
  const [limit, c] = [spare + reach, spare * (spare + 2 * reach)];
  const root = z * Math.sqrt((perKg * u_kg) ** 2 + q ** 2 * c);
  if (perKg > 0) return c / (limit * perKg + root);
  return (limit * perKg - root) / ((perKg - z * q) * (perKg + z * q));
}

type Known = readonly [bound: Bound, spare_kg: number];

/** Where (share + per_m x) / spare of two limits are equal, or one is zero. */
function crossings(known: readonly Known[]): number[] {
  return known.flatMap(([one, spare], k) => {
    const { share = 0, per_m = 0 } = one;
    const out = per_m === 0 ? [] : [-share / per_m];
    for (const [other, otherSpare] of known.slice(0, k)) {
      const [a, b] = [sign(one) * otherSpare, sign(other) * spare];
      const slope = per_m * a - (other.per_m ?? 0) * b;
      if (spare > 0 && otherSpare > 0 && slope !== 0) out.push(((other.share ?? 0) * b - share * a) / slope);
    }
    return out;
  });
}

/** The limit that binds in the middle binds from end to end. */
function stretch(known: readonly Known[], middle_m: number, from_m: number, to_m: number): Stretch {
  let [best, least]: [Known | null, number] = [null, Number.POSITIVE_INFINITY];
  for (const one of known) {
    const perKg = shareAt(one[0], middle_m);
    const kg = Math.max(one[1], 0) / perKg;
    if (perKg > 0 && kg < least) [best, least] = [one, kg];
  }
  const nothing = { binds: null, spare_kg: 0, share: 0, per_m: 0, from_kg: null, to_kg: null };
  if (best === null) return { from_m, to_m, ...nothing };
  const [bound, spare] = best;
  const spare_kg = Math.max(spare, 0);
  const [share, per_m] = [sign(bound) * (bound.share ?? 0), sign(bound) * (bound.per_m ?? 0)];
  const room = (x_m: number) => {
    const perKg = share + per_m * x_m;
    return spare_kg === 0 ? 0 : perKg > 0 ? spare_kg / perKg : null;
  };
  const ends = { from_kg: room(from_m), to_kg: room(to_m) };
  return { from_m, to_m, binds: which(bound), spare_kg, share, per_m, ...ends };
}

function judge(bound: Bound, value_kg: number, u_kg: number, z: number, confidence: number): Verdict {
  const { rating, limit_kg, side } = bound;
  if (side === "upper" || limit_kg === null) return verdict({ rating, value_kg, u_kg, limit_kg, confidence });
  const [margin_kg, reach_kg] = [value_kg - limit_kg, z * u_kg];
  const word = margin_kg >= reach_kg ? "under" : margin_kg < -reach_kg ? "over" : "cannot_tell";
  const over_probability = chanceOver({ limit_kg: -limit_kg, value_kg: -value_kg, u_kg });
  return { rating, limit_kg, value_kg, u_kg, reach_kg, margin_kg, over_probability, word };
}
