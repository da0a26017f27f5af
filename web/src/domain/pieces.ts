/** A way of stretches cut into pieces at the places that matter, ahead of the vehicle and behind it. */
import { checkRange } from "./errors";
import type { Stretch, Way } from "./stretch";

/** Two places nearer than this are one. */
export const SAME_KM = 1e-6;

/** A piece of a stretch from one distance to another; of a stay both are the same. */
export interface Piece {
  readonly from_km: number;
  readonly to_km: number;
  readonly way: Way;
  readonly points?: number;
}

/** The pieces behind the vehicle and ahead of it, and the places asked for as they fall on their ends. */
export interface Road {
  readonly behind: readonly Piece[];
  readonly ahead: readonly Piece[];
  readonly at_km: readonly number[];
}

export interface CutWay {
  readonly stretches: readonly Stretch[];
  readonly at_km: readonly number[];
  readonly from_km?: number;
}

/**
 * Cut stretches at each place of `at_km` and at `from_km`, from which on they are ahead; a stay there is ahead. What is as
 * good as the way's beginning or end, as a place asked before, or as the end of a stretch is that one.
 */
export function cutWay({ stretches, at_km, from_km = 0 }: CutWay): Road {
  const ends = [0];
  for (const { distance_km, way } of stretches) {
    checkRange("distance_km", distance_km, { low: 0, unit: "km" });
    for (const amount of Object.values(way)) checkRange("amount", amount, { low: 0 });
    ends.push(ends.at(-1)! + distance_km);
  }
  const [start, ...places] = placed(ends, from_km, at_km);
  const cuts = [...new Set([start, ...places])].sort((a, b) => a - b);
  const pieces = stretches.flatMap((stretch, k) => cut(stretch, ends[k]!, ends[k + 1]!, cuts));
  const isBehind = (one: Piece) => one.to_km < start || (one.to_km === start && one.from_km < start);
  const behind = pieces.filter(isBehind);
  return { behind, ahead: pieces.slice(behind.length), at_km: places };
}

export interface PartOf {
  readonly piece: Piece;
  readonly share: number;
}

/** The beginning of a piece: a share of it, 0 to 1. */
export function partOf({ piece, share }: PartOf): Piece {
  checkRange("share", share, { low: 0, high: 1 });
  const { from_km, to_km, way } = piece;
  return {
    from_km,
    to_km: share === 1 ? to_km : from_km + share * (to_km - from_km),
    way: times(way, share),
    points: 1,
  };
}

export interface WayBack {
  readonly pieces: readonly Piece[];
  readonly to_km: number;
}

/** The ways back from the end of some pieces to a place behind, last first; stays are not repeated. */
export function wayBack({ pieces, to_km }: WayBack): Way[] {
  const out: Way[] = [];
  for (const piece of [...pieces].reverse()) {
    if (piece.to_km <= to_km) break;
    const length = piece.to_km - piece.from_km;
    if (length > 0) out.push(times(piece.way, Math.min((piece.to_km - to_km) / length, 1)));
  }
  return out;
}

function times(way: Way, share: number): Way {
  return Object.fromEntries(Object.entries(way).map(([name, amount]) => [name, share * amount]));
}

/** Places as they fall on the way. */
function placed(ends: readonly number[], from_km: number, at_km: readonly number[]): [number, ...number[]] {
  const last = ends.at(-1)!;
  const out: number[] = [];
  const onto = (name: string, at: number) => {
    checkRange(name, at, { low: 0, high: last + SAME_KM, unit: "km" });
    return nearest([last, 0], at) ?? nearest(out, at) ?? nearest(ends, at) ?? at;
  };
  const start = onto("from_km", from_km);
  out.push(start);
  for (const at of at_km) out.push(onto("at_km", at));
  return [start, ...out.slice(1)];
}

/** The nearest of some places, if it is as good as there. */
function nearest(places: readonly number[], at: number): number | null {
  let best = Number.POSITIVE_INFINITY;
  for (const one of places) if (Math.abs(one - at) < Math.abs(best - at)) best = one;
  return Math.abs(best - at) <= SAME_KM ? best : null;
}

function cut(
  { distance_km: _, way, points = 1 }: Stretch,
  a: number,
  b: number,
  cuts: readonly number[],
): Piece[] {
  const inner = [a, ...cuts.filter((at) => a < at && at < b), b];
  if (inner.length === 2) return [{ from_km: a, to_km: b, way, points }];
  return inner.slice(1).map((high, k) => {
    const low = inner[k]!;
    const share = (high - low) / (b - a);
    return {
      ...{ from_km: low, to_km: high, way: times(way, share) },
      points: Math.max(1, Math.ceil((points * (high - low)) / (b - a) - SAME_KM)),
    };
  });
}
