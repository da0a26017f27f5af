/** Water: the same filter over person-days, and the days that follow from it. */
import type { Bank } from "./bank";
import { checkFinite, checkRange } from "./errors";
import type { Model, Settings } from "./filter";
import { drawnTanks, GAUGE_U, RESERVE_SHARE, shutOffs, type TankSpec } from "./fuel";
import { FULL_U_L } from "./fullfull";
import { rangeAt } from "./remain";

/** Assumed, and visible to the user; the Python twin names what each figure rests on. */
export const WATER: Settings = {
  per: 1,
  u_common: 0.5,
  u_class: 0,
  walk: 0.05,
  walk_class: 0,
  walk_ref: 20,
  ell: 1,
  fill_u: 0.02,
  full_u_l: FULL_U_L,
  gauge_u: GAUGE_U,
};
/**
 * How far heat, company or showers may move the use of water, relative: 6 L on the road and 10 L active in the heat
 * (DRINKING) are two of it apart (assumed).
 */
export const WATER_CHANGE_U = 0.33;
export const WATER_KAPPAS: readonly number[] = [0.1, 0.2, 0.4, 0.8, 1.6];
/** "At least 6 L" a person and day: South Australian advice for remote travel (second-hand). */
export const WATER_RATE = 6;
/** Drink and food 2.5 to 3 L: Sphere Handbook 2011, water supply standard 1 (second-hand). */
export const DRINKING_RATE = 3;
/** Litres of drink a person and day by heat and work; the Python twin names the sources. */
export const DRINKING = { rest: DRINKING_RATE, road: WATER_RATE, active: 10, work: 11.36 } as const;
export const CLASS = "all";
export const DAY_S = 86_400;
/** With fewer readings the prior rules. */
export const EARLY = 3;

/** Somebody aboard from one UTC second to another (open: null), with a share of an adult's water. */
export interface Presence {
  readonly share: number;
  readonly from_s: number;
  readonly until_s?: number | null;
}

export interface WaterModel {
  readonly tanks: readonly TankSpec[];
  readonly rate?: number;
  readonly settings?: Settings;
}

/** The filter's model: the drawn tanks in their turn and one class; rate in litres per person-day, > 0. */
export function waterModel({ tanks, rate = WATER_RATE, settings = WATER }: WaterModel): Model {
  const drawn = drawnTanks({ tanks });
  return {
    tank_ids: drawn.map((tank) => tank.id),
    capacity_l: drawn.map((tank) => tank.capacity_l),
    class_ids: [CLASS],
    rate0: [checkRange("rate", rate, { above: 0, unit: "L" })],
    settings,
    full_u_l: shutOffs({ tanks: drawn, settings }),
  };
}

export interface PersonDays {
  readonly presences: readonly Presence[];
  readonly from_s: number;
  readonly until_s: number;
}

/** Person-days between two instants: the shares of those aboard times the days they were. */
export function personDays({ presences, from_s, until_s }: PersonDays): number {
  checkRange("until_s", until_s, { low: checkFinite("from_s", from_s), unit: "s" });
  let total = 0;
  for (const one of presences) {
    checkPresence(one);
    const end = Math.min(one.until_s ?? until_s, until_s);
    total += (one.share * Math.max(end - Math.max(one.from_s, from_s), 0)) / DAY_S;
  }
  return total;
}

export interface PeopleAt {
  readonly presences: readonly Presence[];
  readonly at_s: number;
}

/** Shares of all who are aboard at an instant. */
export function peopleAt({ presences, at_s }: PeopleAt): number {
  checkFinite("at_s", at_s);
  presences.forEach(checkPresence);
  const aboard = presences.filter((one) => one.from_s <= at_s && (one.until_s == null || at_s < one.until_s));
  return aboard.reduce((sum, one) => sum + one.share, 0);
}

function checkPresence({ share, from_s, until_s }: Presence): void {
  checkRange("share", share, { low: 0 });
  checkFinite("from_s", from_s);
  checkFinite("until_s", until_s ?? from_s);
}

export interface DaysAt {
  readonly bank: Bank;
  readonly people: number;
  readonly p: number;
  readonly reserve_l?: number;
}

/** Days for which the water lasts with probability p: range in person-days / people; null with nobody aboard. */
export function daysAt({ bank, people, p, reserve_l = 0 }: DaysAt): number | null {
  checkRange("people", people, { low: 0 });
  if (people === 0) return null;
  return rangeAt({ bank, mix: { [CLASS]: 1 }, p, counting: { reserve_l } }) / people;
}

/** Litres of water not to be counted on: 10 % of the drawn tanks (common practice, no source). */
export function uncountedWater({ tanks }: { readonly tanks: readonly TankSpec[] }): number {
  return RESERVE_SHARE * drawnTanks({ tanks }).reduce((sum, tank) => sum + tank.capacity_l, 0);
}

export interface FloorDays {
  readonly litres_l: number;
  readonly people: number;
  readonly reserve_l?: number;
  /** Litres a person and day. */
  readonly rate_l?: number;
}

/** Days of drink and food alone: (V - reserve)/(rate x people), not below 0; null with nobody aboard. */
export function floorDays({
  litres_l,
  people,
  reserve_l = 0,
  rate_l = DRINKING_RATE,
}: FloorDays): number | null {
  checkRange("people", people, { low: 0 });
  checkRange("reserve_l", reserve_l, { low: 0, unit: "L" });
  checkRange("rate_l", rate_l, { above: 0, unit: "L" });
  checkFinite("litres_l", litres_l);
  if (people === 0) return null;
  return Math.max(litres_l - reserve_l, 0) / (rate_l * people);
}
