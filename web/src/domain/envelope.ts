/** Every state that the tanks can be in: extremes of loads, of the chance to be over, and of the CG's height. */
import type { Geometry } from "./axles";
import { checkFinite, checkRange, NotKnown } from "./errors";
import { chanceOver } from "./limits";
import { checkParts, design, loads, type Part, sign, tankContent } from "./statics";

export const MOST_VERTICES = 10; // up to this many tanks every combination of ends is looked at: 2^10
const SETTLED_M = 1e-13;

/** A tank between two levels; `bottom_m` and `height_m` say where its content is in height. */
export interface Tank {
  readonly id: string;
  readonly capacity_l: number;
  readonly x_m: number;
  readonly least_level?: number;
  readonly greatest_level?: number;
  readonly level_u?: number;
  readonly density_kg_per_l?: number;
  readonly density_u_kg_per_l?: number;
  readonly capacity_u_l?: number;
  readonly x_u_m?: number;
  readonly y_m?: number;
  readonly bottom_m?: number | null;
  readonly height_m?: number;
  readonly on?: string;
}

/** Least and greatest mean load of a row, kg, and the levels there, tank by tank. */
export interface Span {
  readonly row: string;
  readonly least_kg: number;
  readonly greatest_kg: number;
  readonly least_at: readonly number[];
  readonly greatest_at: readonly number[];
}

/** The state to judge a limit by. `found`: vertex (the greatest chance), over (the mean is), or bound. */
export interface Worst {
  readonly chance: number;
  readonly value_kg: number;
  readonly u_kg: number;
  readonly levels: readonly number[];
  readonly found: string;
}

/** Least and greatest height of the centre of gravity, m, and the levels there. */
export interface Heights {
  readonly least_m: number;
  readonly greatest_m: number;
  readonly least_at: readonly number[];
  readonly greatest_at: readonly number[];
}

/** What a tank holds at a level, as a part; its centre is half way up what is in it. */
export function content({ tank, level }: { readonly tank: Tank; readonly level: number }): Part {
  const { density_kg_per_l = 1, density_u_kg_per_l = 0, capacity_u_l = 0, level_u = 0 } = tank;
  const { id, capacity_l, x_m, x_u_m = 0, y_m = 0, bottom_m = null, height_m = 0, on = "vehicle" } = tank;
  const z_m = bottom_m === null ? null : bottom_m + (level * height_m) / 2;
  const amounts = { density_kg_per_l, density_u_kg_per_l, capacity_l, capacity_u_l, level, level_u };
  return tankContent({ id, ...amounts, x_m, x_u_m, y_m, z_m, on });
}

export interface EnvelopeOf {
  readonly parts: readonly Part[];
  readonly tanks: readonly Tank[];
  readonly geometry: Geometry;
  readonly rows: readonly string[];
}

/** Least and greatest load of each row over independent levels: linear, so each tank is at one of its ends. */
export function envelope({ parts, tanks, geometry, rows }: EnvelopeOf): Span[] {
  checkTanks(parts, tanks);
  const ends = endsOf(tanks);
  const fixed = loads({ parts, geometry, rows }).mean_kg;
  const { shares } = design({ parts: ends.map(([low]) => low), geometry, rows });
  return rows.map((row, k) => {
    const pairs = ends.map((pair, j) => pair.map((end) => shares[k]![j]! * end.mass_kg) as [number, number]);
    const rising = pairs.map(([low, high]) => high >= low);
    return {
      row,
      least_kg: pairs.reduce((sum, pair) => sum + Math.min(...pair), fixed[k]!),
      greatest_kg: pairs.reduce((sum, pair) => sum + Math.max(...pair), fixed[k]!),
      least_at: tanks.map((tank, j) => levelOf(tank, !rising[j])),
      greatest_at: tanks.map((tank, j) => levelOf(tank, rising[j]!)),
    };
  });
}

export interface WorstOf {
  readonly parts: readonly Part[];
  readonly tanks: readonly Tank[];
  readonly geometry: Geometry;
  readonly row: string;
  readonly limit_kg: number;
}

/** The tank state by which to judge a limit: the worst vertex, or a bound beyond ten tanks. */
export function worstChance({ parts, tanks, geometry, row, limit_kg }: WorstOf): Worst {
  checkTanks(parts, tanks);
  checkRange("limit_kg", limit_kg, { above: 0, unit: "kg" });
  const base = loads({ parts, geometry, rows: [row] });
  const contents = endsOf(tanks).map((pair) => pair.map((one) => loaded(one, geometry, row)) as [End, End]);
  const fixed = { fixed_kg: base.mean_kg[0]!, fixed_kg2: base.cov_kg2[0]![0]! };
  const { ends, ...worst } = worstEnds({ ...fixed, contents, limit_kg });
  return { ...worst, levels: tanks.map((tank, j) => levelOf(tank, ends[j] === 1)) };
}

/** Load and variance of a content at one of its ends, kg and kg^2. */
export type End = readonly [mean_kg: number, variance_kg2: number];

export interface WorstEndsOf {
  readonly fixed_kg: number;
  readonly fixed_kg2: number;
  readonly contents: readonly (readonly [End, End])[];
  readonly limit_kg: number;
}

/** The ends to judge a limit by: 0 or 1 for each content, with load, u and chance there. */
export interface WorstEnds {
  readonly chance: number;
  readonly value_kg: number;
  readonly u_kg: number;
  readonly ends: readonly number[];
  readonly found: string;
}

/** The ends of some contents by which to judge a limit; see `worstChance`. */
export function worstEnds({ fixed_kg, fixed_kg2, contents, limit_kg }: WorstEndsOf): WorstEnds {
  checkRange("limit_kg", limit_kg, { above: 0, unit: "kg" });
  const state = (picks: readonly boolean[]): WorstEnds => {
    const chosen = contents.map(([low, high], j) => (picks[j] ? high : low));
    const value_kg = fixed_kg + chosen.reduce((sum, [mean]) => sum + mean, 0);
    const u_kg = Math.sqrt(fixed_kg2 + chosen.reduce((sum, [, variance]) => sum + variance, 0));
    const chance = chanceOver({ limit_kg, value_kg, u_kg });
    return { chance, value_kg, u_kg, ends: picks.map(Number), found: "vertex" };
  };
  const heaviest = state(contents.map(([low, high]) => high[0] >= low[0]));
  if (heaviest.value_kg >= limit_kg) return { ...heaviest, found: "over" };
  if (contents.length <= MOST_VERTICES)
    return vertices(contents.length)
      .map(state)
      .reduce((worst, one) => (nearer(one, worst, limit_kg) ? one : worst));
  const most = contents.map(([low, high]) => Math.max(low[1], high[1]));
  const u_kg = Math.sqrt(fixed_kg2 + most.reduce((sum, one) => sum + one, 0));
  const chance = chanceOver({ limit_kg, value_kg: heaviest.value_kg, u_kg });
  return { ...heaviest, chance, u_kg, found: "bound" };
}

/** Which is nearer the limit in u, then in kg: in the order of the chances, but far below the limit those are all 0. */
function nearer(one: WorstEnds, other: WorstEnds, limit_kg: number): boolean {
  const nearness = ({ value_kg, u_kg }: WorstEnds) =>
    u_kg > 0 ? (value_kg - limit_kg) / u_kg : Number.NEGATIVE_INFINITY;
  const [a, b] = [nearness(one), nearness(other)];
  return a > b || (a === b && one.value_kg > other.value_kg);
}

export interface HeightsOf {
  readonly parts: readonly Part[];
  readonly tanks: readonly Tank[];
}

/** Least and greatest height of the centre of gravity over the levels; the least is at a part-full level. */
export function heightSpan({ parts, tanks }: HeightsOf): Heights {
  checkTanks(parts, tanks);
  const own = parts.filter((part) => (part.on ?? "vehicle") === "vehicle");
  const aboard = tanks.filter((tank) => (tank.on ?? "vehicle") === "vehicle");
  if (own.some((part) => part.z_m == null) || aboard.some((tank) => tank.bottom_m == null))
    throw new NotKnown("z_m", "the height of the centre of gravity");
  const mass = own.reduce((sum, part) => sum + sign(part) * part.mass_kg, 0);
  checkRange("mass_kg", mass, { above: 0, unit: "kg" });
  const moment = own.reduce((sum, part) => sum + sign(part) * part.mass_kg * (part.z_m ?? 0), 0);
  const [least_m, least_at] = fixedPoint(mass, moment, tanks, surfaceAt);
  const [greatest_m, greatest_at] = fixedPoint(mass, moment, tanks, endAbove);
  return { least_m, greatest_m, least_at, greatest_at };
}

type Best = (tank: Tank, bottom_m: number, z_m: number) => number;

function fixedPoint(mass: number, moment: number, tanks: readonly Tank[], best: Best): [number, number[]] {
  let z = moment / mass;
  let levels = tanks.map((tank) => tank.least_level ?? 0);
  for (let i = 0; i < 100; i++) {
    levels = tanks.map((tank) => best(tank, tank.bottom_m ?? 0, z));
    const contents = tanks.map((tank, j) => content({ tank, level: levels[j]! }));
    const aboard = contents.filter((one) => one.on === "vehicle");
    const total = aboard.reduce((sum, one) => sum + one.mass_kg, mass);
    const before = z;
    z = (moment + aboard.reduce((sum, one) => sum + one.mass_kg * (one.z_m ?? 0), 0)) / total;
    if (Math.abs(z - before) <= SETTLED_M) break;
  }
  return [z, levels];
}

/** The level whose surface is at z: what is poured in below z lowers the centre, above z it raises it. */
function surfaceAt(tank: Tank, bottom_m: number, z_m: number): number {
  const { height_m = 0, least_level = 0, greatest_level = 1 } = tank;
  if (height_m === 0) return levelOf(tank, bottom_m < z_m);
  return Math.min(Math.max((z_m - bottom_m) / height_m, least_level), greatest_level);
}

/** The end whose content has the greater moment about z. */
function endAbove(tank: Tank, bottom_m: number, z_m: number): number {
  const lift = (level: number) => level * (bottom_m - z_m + (level * (tank.height_m ?? 0)) / 2);
  return levelOf(tank, lift(tank.greatest_level ?? 1) > lift(tank.least_level ?? 0));
}

function endsOf(tanks: readonly Tank[]): [Part, Part][] {
  return tanks.map((tank) => [
    content({ tank, level: tank.least_level ?? 0 }),
    content({ tank, level: tank.greatest_level ?? 1 }),
  ]);
}

function levelOf(tank: Tank, greatest: boolean): number {
  return greatest ? (tank.greatest_level ?? 1) : (tank.least_level ?? 0);
}

/** Mean and variance that one content adds to a row; the hitch's moment counts once, not per content. */
function loaded(part: Part, geometry: Geometry, row: string): End {
  const { trailer = null } = geometry;
  const solo = { ...geometry, trailer: trailer && { ...trailer, hitch_moment_kgm: 0 } };
  const found = loads({ parts: [part], geometry: solo, rows: [row] });
  return [found.mean_kg[0]!, found.cov_kg2[0]![0]!];
}

/** All combinations of ends, the last tank changing fastest. */
function vertices(count: number): boolean[][] {
  if (count === 0) return [[]];
  const fewer = vertices(count - 1);
  return [false, true].flatMap((first) => fewer.map((rest) => [first, ...rest]));
}

function checkTanks(parts: readonly Part[], tanks: readonly Tank[]): void {
  for (const { least_level = 0, greatest_level = 1, height_m = 0, bottom_m } of tanks) {
    const high = checkRange("greatest_level", greatest_level, { low: 0, high: 1 });
    checkRange("least_level", least_level, { low: 0, high });
    checkRange("height_m", height_m, { low: 0, unit: "m" });
    checkFinite("bottom_m", bottom_m ?? 0);
  }
  checkParts([...parts, ...tanks.map((tank) => content({ tank, level: tank.greatest_level ?? 1 }))]);
}
