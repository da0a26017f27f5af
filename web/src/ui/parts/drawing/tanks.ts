/**
 * Tanks on the beam: each is its own outline, to scale where its record says how large it is. A length, breadth, height
 * or place of its bottom that nobody typed is assumed, for the picture alone, and the outline is then dashed.
 */
import type { Frame, TrailerShape } from "./frame";
import type { Arrow } from "./marks";
import { placeOf } from "./supports";

export interface TankSize {
  readonly length_m: number;
  readonly height_m: number;
  readonly bottom_m: number;
  /** Of the height, below the outlet. */
  readonly unusable: number;
  /** Something of it was assumed. */
  readonly assumed: boolean;
}

/** Where it stands, as a share of the capacity, and how far its whisker reaches to either side. */
export interface Level {
  readonly share: number;
  readonly reach: number;
}

export interface TankMark extends Arrow {
  readonly size: TankSize;
  readonly y_m: number;
  /** Null where nothing tells of it. */
  readonly level: Level | null;
  /** What it is and what it holds, in words. */
  readonly told: string;
}

interface TankFacts {
  readonly holds?: string | null;
  readonly can?: boolean | null;
  readonly capacity_l?: number | null;
  readonly unusable_l?: number | null;
  readonly length_m?: number | null;
  readonly breadth_m?: number | null;
  readonly height_m?: number | null;
  readonly z_bottom_m?: number | null;
}

// Middle of what is fitted under a tray and of a 20 L can (from memory); only the picture rests on it.
const FITTED = { breadth_m: 0.5, height_m: 0.25, bottom_m: 0.38, capacity_l: 60 };
const LOOSE = { breadth_m: 0.17, height_m: 0.45, bottom_m: 0.75, capacity_l: 20 };
const LIQUID: readonly string[] = ["fuel", "water", "grey", "waste"];
const LONGEST_M = 2.5;

/** How large it is drawn: its volume over height and breadth is its length. */
export function sizeOf(facts: TankFacts): TankSize {
  const usual = !facts.can && LIQUID.includes(facts.holds ?? "fuel") ? FITTED : LOOSE;
  const capacity_l = facts.capacity_l ?? usual.capacity_l;
  const whole_m3 = (capacity_l + (facts.unusable_l ?? 0)) / 1000;
  const breadth_m = facts.breadth_m ?? usual.breadth_m;
  const told = facts.length_m ?? null;
  const height_m = facts.height_m ?? (told === null ? usual.height_m : whole_m3 / (told * breadth_m));
  const length_m = told ?? whole_m3 / (height_m * breadth_m);
  const known = [facts.capacity_l, facts.height_m, facts.z_bottom_m, facts.length_m ?? facts.breadth_m];
  return {
    length_m: Math.min(LONGEST_M, length_m),
    height_m,
    bottom_m: facts.z_bottom_m ?? usual.bottom_m,
    unusable: (facts.unusable_l ?? 0) / (whole_m3 * 1000),
    assumed: known.some((one) => one == null),
  };
}

/** Where its outline begins and ends, in metres behind the front axle. */
export function endsOf(mark: TankMark, trailer: TrailerShape | null): [number, number] {
  const at = placeOf(mark, trailer);
  return [at - mark.size.length_m / 2, at + mark.size.length_m / 2];
}

export interface LaidTank {
  readonly mark: TankMark;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  /** Drawing unit of its dip scale. */
  readonly scale_x: number;
}

const FARTHER = 4; // one tank behind another is drawn so many units up and to the right, as in an oblique drawing
const SCALES_APART = 9;

/** The tanks' outlines, the nearest first; what would cover another stands behind it, its dip scale at a free edge. */
export function layTanks(
  marks: readonly TankMark[],
  frame: Frame,
  trailer: TrailerShape | null,
): readonly LaidTank[] {
  const laid: LaidTank[] = [];
  for (const mark of [...marks].sort((a, b) => a.y_m - b.y_m)) {
    const { length_m, height_m, bottom_m } = mark.size;
    const [width, height] = [length_m * frame.units_per_m, height_m * frame.units_per_m];
    const flat = {
      x: frame.x(placeOf(mark, trailer)) - width / 2,
      y: frame.z(bottom_m + height_m),
      width,
      height,
    };
    const behind = laid.filter((one) => covers(one, flat)).length;
    const place = { ...flat, x: flat.x + FARTHER * behind, y: flat.y - FARTHER * behind };
    laid.push({ mark, ...place, scale_x: freeEdge(place, laid) });
  }
  return laid;
}

type Box = Pick<LaidTank, "x" | "y" | "width" | "height">;

/** Whether two outlines lie mostly over each other. */
function covers(one: Box, other: Box): boolean {
  const across = Math.min(one.x + one.width, other.x + other.width) - Math.max(one.x, other.x);
  const up = Math.min(one.y + one.height, other.y + other.height) - Math.max(one.y, other.y);
  const least = Math.min(one.width * one.height, other.width * other.height);
  return across > 0 && up > 0 && across * up > 0.5 * least;
}

/** The rear edge, or where another scale stands there, the front one or the middle. */
function freeEdge(box: Box, laid: readonly LaidTank[]): number {
  const edges = [box.x + box.width, box.x, box.x + box.width / 2];
  const free = (x: number) =>
    laid.every(
      (one) =>
        Math.abs(one.scale_x - x) >= SCALES_APART || one.y > box.y + box.height || one.y + one.height < box.y,
    );
  return edges.find(free) ?? edges[0]!;
}

/** Drawing unit of a share of the capacity in an outline: what the outlet cannot reach lies below 0. */
export function levelY({ y, height, mark }: LaidTank, share: number): number {
  const { unusable } = mark.size;
  return y + height * (1 - unusable) * (1 - Math.min(1, Math.max(0, share)));
}

const TOUCH = 6;

/** The tanks under a finger. */
export function tanksAt(laid: readonly LaidTank[], x: number, y: number): TankMark[] {
  const within = (at: number, from: number, size: number) => at >= from - TOUCH && at <= from + size + TOUCH;
  return laid
    .filter((one) => within(x, one.x, one.width) && within(y, one.y, one.height))
    .map((one) => one.mark);
}
