/**
 * Loads along a way: tanks that empty one after the other, grey water, supplies, people and loads in and out. Every
 * kink is made an event, so that each load's extremes lie at the marks.
 */
import { checkGeometry, type Geometry } from "./axles";
import { checkFinite, checkRange, OnTheWay, Unknown } from "./errors";
import { checkHappenings, checkVessels, type Happening, NOTHING_L, type Vessel } from "./happenings";
import { chanceOver } from "./limits";
import { finite } from "./linalg";
import { design, type Loads } from "./statics";

/** Below this chance everywhere, a rating is nearest where its margin is least (assumed). */
export const NEVER = 1e-6;

/** The loads at a place, row by row. `cause`: start, the event's kind, or `ran_empty` inside a way. */
export interface Mark {
  readonly at_km: number;
  /** The event's number, -1 at the start. */
  readonly event: number;
  readonly cause: string;
  readonly value_kg: readonly number[];
  readonly u_kg: readonly number[];
  /** The tanks that hold nothing there. */
  readonly empty: readonly string[];
}

/** Least and greatest load of a row, by the numbers of their marks. */
export interface Range {
  readonly row: string;
  readonly least_at: number;
  readonly greatest_at: number;
}

/** A rating along the way: the greatest chance to be over and, separately, the least margin, with their marks. */
export interface Nearest {
  readonly rating: string;
  readonly limit_kg: number;
  readonly chance: number;
  readonly chance_at: number;
  readonly margin_kg: number;
  readonly margin_at: number;
}

/** Each row's load over the distance: straight lines between the marks. */
export interface LoadsAlong {
  readonly rows: readonly string[];
  readonly marks: readonly Mark[];
  readonly ranges: readonly Range[];
  readonly nearest: readonly Nearest[];
}

export interface AskLoads {
  /** All but the vessels' contents. */
  readonly fixed: Loads;
  readonly vessels: readonly Vessel[];
  readonly events: readonly Happening[];
  readonly geometry: Geometry;
  readonly limits?: Readonly<Record<string, number>> | null;
  readonly from_km?: number;
}

/** Loads of the rows of `fixed` along a list of events; what tanks cannot give or take is refused with its place. */
export function loadsAlong({ fixed, vessels, events, geometry, limits, from_km = 0 }: AskLoads): LoadsAlong {
  checkGeometry(geometry);
  checkFinite("from_km", from_km);
  finite("mean_kg", fixed.mean_kg);
  finite("cov_kg2", fixed.cov_kg2);
  checkVessels({ vessels });
  checkHappenings({ vessels, events, rows: fixed.rows });
  const rated = Object.entries(limits ?? {});
  for (const [row, limit] of rated) {
    if (!fixed.rows.includes(row)) throw new Unknown("row", row, fixed.rows);
    checkRange("limit_kg", limit, { above: 0, unit: "kg" });
  }
  const walk = setOut(fixed, vessels, geometry, from_km);
  for (const [n, event] of events.entries()) step(walk, n, event);
  const { marks } = walk;
  const ranges = fixed.rows.map((row, k) => ({ row, ...rangeOf(k, marks) }));
  return {
    rows: fixed.rows,
    marks,
    ranges,
    nearest: rated.map(([row, limit]) => nearestOf(row, limit, fixed.rows.indexOf(row), marks)),
  };
}

function rangeOf(k: number, marks: readonly Mark[]) {
  let [least_at, greatest_at] = [0, 0];
  for (const [n, { value_kg }] of marks.entries()) {
    if (value_kg[k]! < marks[least_at]!.value_kg[k]!) least_at = n;
    if (value_kg[k]! > marks[greatest_at]!.value_kg[k]!) greatest_at = n;
  }
  return { least_at, greatest_at };
}

function nearestOf(rating: string, limit_kg: number, k: number, marks: readonly Mark[]): Nearest {
  const far = marks.map(({ value_kg, u_kg }) => {
    const over = value_kg[k]! - limit_kg;
    return u_kg[k]! > 0 ? over / u_kg[k]! : over > 0 ? Infinity : -Infinity;
  });
  const value = (n: number) => marks[n]!.value_kg[k]!;
  const chance = (n: number) => chanceOver({ limit_kg, value_kg: value(n), u_kg: marks[n]!.u_kg[k]! });
  const likeliest = marks.reduce(
    (best, _, n) => (far[n]! > far[best]! || (far[n] === far[best] && value(n) > value(best)) ? n : best),
    0,
  );
  const { greatest_at: margin_at } = rangeOf(k, marks);
  const chance_at = chance(likeliest) >= NEVER ? likeliest : margin_at;
  return {
    rating,
    limit_kg,
    chance: chance(chance_at),
    chance_at,
    margin_kg: limit_kg - value(margin_at),
    margin_at,
  };
}

/** A vessel on its way: its coefficients per kg row by row, what is in it, and the u of its own level. */
interface Tank {
  readonly vessel: Vessel;
  readonly share: readonly number[];
  readonly per_m: readonly number[];
  readonly fraction: number;
  readonly rho: number;
  litres: number;
  u: number;
  /** Variance of what came into a grey tank before levels were known again. */
  came_u2: number;
  /** On the way: what it had more or less, the next tank has. */
  emptied: boolean;
}

interface Walk {
  fixed: Loads;
  at_km: number;
  readonly tanks: ReadonlyMap<string, Tank>;
  readonly groups: ReadonlyMap<string, readonly Tank[]>;
  /** Variance of what a group used since its level was known. */
  readonly used_u2: Map<string, number>;
  readonly marks: Mark[];
}

function setOut(fixed: Loads, vessels: readonly Vessel[], geometry: Geometry, at_km: number): Walk {
  const parts = vessels.map(({ id, x_m, on = "vehicle" }) => ({ id, mass_kg: 0, mass_u_kg: 0, x_m, on }));
  const lines = design({ parts, geometry, rows: fixed.rows });
  const all = vessels.map(
    (vessel, j): Tank => ({
      vessel,
      share: lines.shares.map((row) => row[j]!),
      per_m: lines.per_m.map((row) => row[j]!),
      fraction: vessel.grey_fraction ?? 0,
      rho: vessel.density_kg_per_l ?? 1,
      litres: vessel.litres_l,
      u: vessel.litres_u_l ?? 0,
      came_u2: 0,
      emptied: false,
    }),
  );
  const groups = new Map<string, Tank[]>();
  for (const tank of [...all].sort((a, b) => (a.vessel.drain_order ?? 99) - (b.vessel.drain_order ?? 99)))
    groups.set(tank.vessel.holds, [...(groups.get(tank.vessel.holds) ?? []), tank]);
  const walk = {
    ...{ fixed, at_km, groups, marks: [] },
    tanks: new Map(all.map((tank) => [tank.vessel.id, tank])),
    used_u2: new Map([...groups.keys()].map((holds) => [holds, 0])),
  };
  mark(walk, -1, "start");
  return walk;
}

function step(walk: Walk, n: number, event: Happening): void {
  if (event.kind === "way") {
    way(walk, n, event);
    return;
  }
  if (event.kind === "rest") walk.fixed = event.loads;
  else if (event.kind === "empty")
    Object.assign(walk.tanks.get(event.tank_id)!, { litres: 0, u: 0, came_u2: 0, emptied: false });
  else take(walk, n, event);
  mark(walk, n, event.kind);
}

type Of<K extends Happening["kind"]> = Extract<Happening, { kind: K }>;

function take(walk: Walk, event: number, { holds, litres_l = null, litres_u_l = 0 }: Of<"take">): void {
  const group = walk.groups.get(holds)!;
  if (litres_l === null) {
    settle(walk, holds);
    for (const tank of group)
      Object.assign(tank, {
        litres: tank.vessel.capacity_l,
        u: tank.vessel.full_u_l ?? litres_u_l,
        emptied: false,
      });
    return;
  }
  const roomOf = ({ vessel, litres }: Tank) => vessel.capacity_l - litres;
  if (litres_l > sum(group.map(roomOf)) + NOTHING_L)
    throw new OnTheWay("overfull", { litres_l, tank_id: holds, at_km: walk.at_km, event });
  // the tank that was in draw keeps what is uncertain so far, whichever is drawn from next
  const kept = drawnOf(group) ?? group.at(-1)!;
  const gone = group.filter((one) => one.emptied && one !== kept);
  const u = Math.sqrt(kept.u ** 2 + walk.used_u2.get(holds)! + sum(gone.map((one) => one.u ** 2)));
  settle(walk, holds);
  kept.u = u;
  let left = litres_l;
  for (const tank of [...group].reverse()) {
    const into = Math.min(left, roomOf(tank));
    if (!(into > 0)) continue;
    tank.litres += into;
    tank.emptied = false;
    tank.u = Math.sqrt(tank.u ** 2 + ((litres_u_l * into) / litres_l) ** 2);
    left -= into;
  }
}

/** A level is known again: what was used before is uncertain in the grey tank alone. */
function settle({ tanks, groups, used_u2 }: Walk, holds: string): void {
  const group = groups.get(holds)!;
  const into = ({ vessel, fraction }: Tank, variance: number) => {
    const grey = vessel.grey_id ? tanks.get(vessel.grey_id)! : null;
    if (grey) grey.came_u2 += fraction ** 2 * variance;
  };
  const drawn = drawnOf(group);
  if (drawn) into(drawn, used_u2.get(holds)!);
  for (const tank of group.filter((one) => one.emptied)) {
    into(tank, tank.u ** 2);
    tank.u = 0;
  }
  used_u2.set(holds, 0);
}

/** The tank of a group that is in draw. */
function drawnOf(group: readonly Tank[]): Tank | undefined {
  return group.find((tank) => tank.litres > NOTHING_L);
}

function way(walk: Walk, n: number, event: Of<"way">): void {
  const { groups, used_u2 } = walk;
  const start_km = walk.at_km;
  const used = Object.entries(event.used_l).filter(([, litres]) => litres > 0);
  const own = (holds: string) => sum(groups.get(holds)!.map((tank) => tank.u ** 2));
  const left = Object.entries(event.left_u_l ?? {});
  const before = left.map(([holds]) => own(holds) + used_u2.get(holds)!);
  let done = 0;
  while (true) {
    const ends = untilEmpty(walk, n, event, used, done, start_km);
    const share = Math.min(1, ...ends.values());
    for (const [holds, litres] of used) draw(walk, holds, litres * (share - done), ends.get(holds) === share);
    walk.at_km = start_km + share * event.distance_km;
    for (const [k, [holds, u]] of left.entries())
      used_u2.set(holds, Math.max(before[k]! + share * (u ** 2 - before[k]!) - own(holds), 0));
    done = share;
    if (done >= 1) break;
    mark(walk, n, "ran_empty");
  }
  mark(walk, n, event.kind);
}

/** The share of a way at which each group's tank in draw is empty; refused before something cannot be. */
function untilEmpty(
  { tanks, groups }: Walk,
  event: number,
  { distance_km }: Of<"way">,
  used: readonly (readonly [string, number])[],
  done: number,
  start_km: number,
): Map<string, number> {
  const [ends, into] = [new Map<string, number>(), new Map<string, number>()];
  for (const [holds, litres] of used) {
    const tank = drawnOf(groups.get(holds)!);
    if (!tank) {
      const litres_l = litres * (1 - done);
      if (litres_l > NOTHING_L)
        throw new OnTheWay("dry", { litres_l, tank_id: holds, at_km: start_km + done * distance_km, event });
      continue;
    }
    const end = done + tank.litres / litres;
    if (end < 1 || (end - 1) * litres <= NOTHING_L) ends.set(holds, Math.min(end, 1));
    const grey_id = tank.vessel.grey_id ?? null;
    if (grey_id !== null) into.set(grey_id, (into.get(grey_id) ?? 0) + tank.fraction * litres);
  }
  const share = Math.min(1, ...ends.values());
  for (const [tank_id, litres] of into) {
    const { vessel, litres: held } = tanks.get(tank_id)!;
    const room = vessel.capacity_l - held;
    const comes = litres * (share - done);
    const at_km = start_km + (done + Math.max(room, 0) / litres) * distance_km;
    if (comes > room + NOTHING_L)
      throw new OnTheWay("grey_full", { litres_l: held + comes, tank_id, at_km, event });
  }
  return ends;
}

function draw({ tanks, groups }: Walk, holds: string, litres: number, emptied: boolean): void {
  const tank = drawnOf(groups.get(holds)!);
  if (!tank) return;
  const gone = emptied ? tank.litres : litres;
  Object.assign(tank, { emptied, litres: emptied ? 0 : Math.max(tank.litres - gone, 0) });
  if (tank.vessel.grey_id) tanks.get(tank.vessel.grey_id)!.litres += tank.fraction * gone;
}

function mark(walk: Walk, event: number, cause: string): void {
  const { fixed, tanks, at_km, marks } = walk;
  const all = [...tanks.values()];
  const level_u2 = all.map((tank) => varianceOf(walk, (one) => Number(one === tank)));
  const value_kg = [...fixed.mean_kg];
  const u_kg = value_kg.map((_, k) => {
    let variance = fixed.cov_kg2[k]![k]! + varianceOf(walk, ({ share, rho }) => share[k]! * rho);
    for (const [n, { vessel, share, per_m, rho, litres }] of all.entries()) {
      const { density_u_kg_per_l: u_rho = 0, x_u_m = 0 } = vessel;
      const square = litres ** 2 + level_u2[n]!;
      variance += (share[k]! * u_rho) ** 2 * square;
      variance += (per_m[k]! * x_u_m) ** 2 * (rho ** 2 + u_rho ** 2) * square;
      value_kg[k]! += share[k]! * rho * litres;
    }
    return Math.sqrt(Math.max(variance, 0));
  });
  const empty = all.filter(({ litres }) => litres <= NOTHING_L).map(({ vessel }) => vessel.id);
  marks.push({ at_km, event, cause, value_kg, u_kg, empty });
}

/** Variance of a sum over what the tanks hold, by what a litre in each counts in it. */
function varianceOf({ tanks, groups, used_u2 }: Walk, perLitre: (tank: Tank) => number): number {
  const intoGrey = ({ vessel, fraction }: Tank) =>
    vessel.grey_id ? fraction * perLitre(tanks.get(vessel.grey_id)!) : 0;
  let total = 0;
  for (const [holds, group] of groups) {
    const drawn = drawnOf(group);
    const in_draw = drawn ? perLitre(drawn) - intoGrey(drawn) : 0;
    total += used_u2.get(holds)! * in_draw ** 2;
    for (const tank of group) {
      const own = tank.emptied ? intoGrey(tank) + in_draw : perLitre(tank);
      total += (tank.u * own) ** 2 + tank.came_u2 * perLitre(tank) ** 2;
    }
  }
  return total;
}

function sum(values: readonly number[]): number {
  return values.reduce((total, one) => total + one, 0);
}
