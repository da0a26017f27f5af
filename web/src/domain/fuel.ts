/** Fuel: what the filter assumes of it, its classes, and the rates that a log begins with. */
import { checkFinite, checkRange, OutOfRange, Unknown } from "./errors";
import type { Model, Settings } from "./filter";
import { FULL_U_L, PUMP_U } from "./fullfull";

/** u of a gauge as a share of the capacity (assumed). */
export const GAUGE_U = 0.05;
/** Assumed, and visible to the user; the Python twin names what each figure rests on. */
export const FUEL: Settings = {
  per: 100,
  u_common: 0.25,
  u_class: 0.15,
  walk: 0.05,
  walk_class: 0.02,
  walk_ref: 1000,
  ell: 100,
  fill_u: PUMP_U,
  full_u_l: FULL_U_L,
  gauge_u: GAUGE_U,
};
export const FUEL_KAPPAS: readonly number[] = [0.04, 0.07, 0.12, 0.2];

/** u of a level as a share of the capacity, by how it was read (assumed). */
export const DIP_U: Readonly<Record<string, number>> = {
  gauge: GAUGE_U,
  stick: 0.03,
  tube: 0.03,
  lamps: 0.1,
};

/** L/100 km of a loaded mid-size diesel on sealed roads: 10 to 13, from memory. */
export const BASE_RATE = 12;
/** Times the base rate (assumed). */
export const SURFACES: Readonly<Record<string, number>> = { sealed: 1, gravel: 1.15, sand: 1.6 };
/** Shares of a way whose sum is as near to 1 as this are as typed (assumed). */
export const SHARES_TO = 1e-6;
/** Times the rate of the same surface alone (assumed). */
export const TOWING = 1.4;
export const WITH_TRAILER = "+trailer";
/** The greater of the two (common practice, no source). */
export const RESERVE_L = 8;
export const RESERVE_SHARE = 0.1;

/** A tank of a log; what is not `drawn` (a can, an emergency store) is counted apart. */
export interface TankSpec {
  readonly id: string;
  readonly capacity_l: number;
  readonly drain_order?: number;
  readonly drawn?: boolean;
  /** u of its shut-off, and of its gauge as a share of the capacity, where they are not the usual ones. */
  readonly full_u_l?: number | null;
  readonly gauge_u?: number | null;
}

export interface ClassOf {
  readonly surface: string;
  readonly towing?: boolean;
}

/** Name of a class: a surface, alone or with a trailer; an unknown surface is refused. */
export function classOf({ surface, towing = false }: ClassOf): string {
  if (!(surface in SURFACES)) throw new Unknown("surface", surface, Object.keys(SURFACES));
  return towing ? surface + WITH_TRAILER : surface;
}

export interface MixOf {
  readonly surface: Readonly<Record<string, number>>;
  readonly towing?: boolean;
}

/** The classes of a way with their shares of it, which then add up to 1; shares whose sum is not 1 to 1e-6 are refused. */
export function mixOf({ surface, towing = false }: MixOf): Record<string, number> {
  let total = 0;
  for (const [name, share] of Object.entries(surface)) {
    if (!(name in SURFACES)) throw new Unknown("surface", name, Object.keys(SURFACES));
    total += checkRange("surface", share, { low: 0, high: 1 });
  }
  if (Math.abs(total - 1) > SHARES_TO) throw new OutOfRange("surface", total, { low: 1, high: 1 });
  const mix: Record<string, number> = {};
  for (const [name, share] of Object.entries(surface))
    if (share > 0) mix[classOf({ surface: name, towing })] = share / total;
  return mix;
}

export interface RateGuess {
  readonly class_id: string;
  readonly base_rate?: number;
}

/** Prior rate of a class, L per 100 true km: base > 0 times the surface's and the trailer's multiplier. */
export function rateGuess({ class_id, base_rate = BASE_RATE }: RateGuess): number {
  checkRange("base_rate", base_rate, { above: 0, unit: "L/100 km" });
  const towing = class_id.endsWith(WITH_TRAILER);
  const surface = towing ? class_id.slice(0, -WITH_TRAILER.length) : class_id;
  const multiplier = SURFACES[surface];
  if (multiplier === undefined) throw new Unknown("class_id", class_id, Object.keys(SURFACES));
  return base_rate * multiplier * (towing ? TOWING : 1);
}

export interface OwnRates {
  /** L/100 km alone, by surface; one of which nothing is said stands in its usual proportion to the sealed road. */
  readonly surfaces: Readonly<Record<string, number>>;
  /** Times the same surface alone. */
  readonly towing?: number | null;
}

/** Prior rates that replace those of `rateGuess`, by class, from what a user says of some. */
export function ownRates({ surfaces, towing = null }: OwnRates): Record<string, number> {
  for (const [surface, rate] of Object.entries(surfaces)) {
    if (!(surface in SURFACES)) throw new Unknown("surface", surface, Object.keys(SURFACES));
    checkRange("surfaces", rate, { above: 0, unit: "L/100 km" });
  }
  if (towing !== null) checkRange("towing", towing, { low: 1 });
  if (Object.keys(surfaces).length === 0 && towing === null) return {};
  const base = surfaces.sealed ?? BASE_RATE;
  const alone = Object.entries(SURFACES).map(
    ([name, share]) => [name, surfaces[name] ?? base * share] as const,
  );
  const both = alone.map(([name, rate]) => [name + WITH_TRAILER, (towing ?? TOWING) * rate] as const);
  return Object.fromEntries([...alone, ...both]);
}

export interface FuelModel {
  readonly tanks: readonly TankSpec[];
  readonly class_ids: readonly string[];
  readonly base_rate?: number;
  readonly rates?: Readonly<Record<string, number>> | null;
  readonly factor?: number;
  readonly settings?: Settings;
}

/** The filter's model of a vehicle: its drawn tanks in their turn, its classes in a fixed order. */
export function fuelModel(given: FuelModel): Model {
  const { tanks, class_ids, base_rate = BASE_RATE, rates, factor = 1, settings = FUEL } = given;
  checkRange("factor", factor, { above: 0 });
  const drawn = drawnTanks({ tanks });
  const ordered = allClasses().filter((name) => class_ids.includes(name));
  for (const name of class_ids)
    if (!ordered.includes(name)) throw new Unknown("class_id", name, allClasses());
  return {
    tank_ids: drawn.map((tank) => tank.id),
    capacity_l: drawn.map((tank) => tank.capacity_l),
    class_ids: ordered,
    rate0: ordered.map((class_id) => {
      const rate = rates?.[class_id] ?? rateGuess({ class_id, base_rate });
      return factor * checkRange("rates", rate, { above: 0, unit: "L/100 km" });
    }),
    settings,
    full_u_l: shutOffs({ tanks: drawn, settings }),
  };
}

/** The tanks that are drawn from, in their turn; equal turns in the order given. Capacities > 0 L, u >= 0. */
export function drawnTanks({ tanks }: { readonly tanks: readonly TankSpec[] }): TankSpec[] {
  for (const { capacity_l, full_u_l, drain_order } of tanks) {
    checkRange("capacity_l", capacity_l, { above: 0, unit: "L" });
    checkRange("full_u_l", full_u_l ?? 0, { low: 0, unit: "L" });
    checkFinite("drain_order", drain_order ?? 99);
  }
  const turn = (tank: TankSpec) => tank.drain_order ?? 99;
  return tanks.filter((tank) => tank.drawn ?? true).sort((a, b) => turn(a) - turn(b));
}

export interface ShutOffs {
  readonly tanks: readonly TankSpec[];
  readonly settings: Settings;
}

/** u of each tank's shut-off, L: its own, or the usual one of the settings. */
export function shutOffs({ tanks, settings }: ShutOffs): number[] {
  return tanks.map((tank) => tank.full_u_l ?? settings.full_u_l);
}

export interface ReserveFloors {
  readonly tanks: readonly TankSpec[];
  readonly reserve_l: number;
}

/** Litres of a reserve >= 0 that stand in each drawn tank: the last litres are in those that are drawn last. */
export function reserveFloors({ tanks, reserve_l }: ReserveFloors): Record<string, number> {
  let left = checkRange("reserve_l", reserve_l, { low: 0, unit: "L" });
  const floors: Record<string, number> = {};
  for (const { id, capacity_l } of drawnTanks({ tanks }).reverse()) {
    floors[id] = Math.min(left, capacity_l);
    left -= floors[id]!;
  }
  return floors;
}

/** Every class there can be: the surfaces alone, then with a trailer. */
export function allClasses(): string[] {
  const surfaces = Object.keys(SURFACES);
  return [...surfaces, ...surfaces.map((surface) => surface + WITH_TRAILER)];
}

/** Litres not to be counted on: 8 L or 10 % of the drawn tanks, the greater (common practice, no source). */
export function usualReserve({ tanks }: { readonly tanks: readonly TankSpec[] }): number {
  const total = drawnTanks({ tanks }).reduce((sum, tank) => sum + tank.capacity_l, 0);
  return Math.max(RESERVE_L, RESERVE_SHARE * total);
}
