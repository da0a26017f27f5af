/** From a generic article to an item's proposal for one vehicle: typical mass with its u, place, height. */
import {
  ARTICLES,
  type Article,
  BASE_VEHICLES,
  type BaseVehicle,
  KITS,
  type Kit,
  PLACES,
  REFERENCE_WHEELBASE_M,
  ROOF_Z_M,
} from "./articles";
import { checkFinite, checkRange, DomainError, Unknown } from "./errors";
import { quantile } from "./normal";

export type { Article, BaseVehicle, Kit };

export const PLACE_U_M = 0.15; // a place by code is good to 0.3 m at 95 % (common practice, no source)

/** An item as it would be entered; its fields are the record's. */
export interface Proposal {
  readonly name: string;
  readonly nature: string;
  readonly count: number;
  readonly mass_kg: number;
  readonly mass_u_kg: number;
  readonly x_m: number | null;
  readonly z_m: number | null;
  readonly roof: boolean;
  readonly keep_aboard: boolean;
  readonly taken_off: boolean;
  readonly x_u_m: number;
  readonly z_u_m: number | null;
  readonly known_by: "estimate";
  readonly position_by: "described";
}

/** A vehicle as delivered, by what is typical of its form: never a plate, never a weighing. */
export interface TypicalVehicle {
  readonly body_form: string;
  readonly wheelbase_m: number;
  readonly front_overhang_m: number;
  readonly coupling_x_m: number;
  readonly base_front_kg: number;
  readonly base_front_u_kg: number;
  readonly base_rear_kg: number;
  readonly base_rear_u_kg: number;
  readonly base_correlation: number;
  readonly base_fuel_l: number;
  readonly base_driver_kg: number;
  readonly base_known_by: "estimate";
}

/** All generic articles, in the order of the vehicle from front to tail, then loads. */
export function articles(): readonly Article[] {
  return ARTICLES;
}

/** All kits. */
export function kits(): readonly Kit[] {
  return KITS;
}

/** All generic vehicles. */
export function baseVehicles(): readonly BaseVehicle[] {
  return BASE_VEHICLES;
}

/** One standard uncertainty of what lies between low and high nine times in ten: (high - low) / (2 x 1.6449). */
export function rangeU({ low, high }: { readonly low: number; readonly high: number }): number {
  checkFinite("low", low);
  if (checkFinite("high", high) < low)
    throw new DomainError("high", high, `at least low, ${low}`, "Swap the two");
  return (high - low) / (2 * quantile(0.95));
}

export interface PlaceX {
  readonly place: string;
  readonly wheelbase_m: number;
}

/**
 * Middle of a position code on a vehicle of this wheelbase, m behind the front axle. Between the axles places go with
 * the wheelbase; ahead of the front axle they stay, behind the rear axle they keep their distance to it (assumed).
 */
export function placeXM({ place, wheelbase_m }: PlaceX): number {
  checkRange("wheelbase_m", wheelbase_m, { low: 1, high: 10, unit: "m" });
  if (!Object.hasOwn(PLACES, place)) throw new Unknown("place", place, Object.keys(PLACES));
  const [low, high] = PLACES[place]!;
  return (moved(low, wheelbase_m) + moved(high, wheelbase_m)) / 2;
}

function moved(x_m: number, wheelbase_m: number): number {
  if (x_m <= 0) return x_m;
  if (x_m <= REFERENCE_WHEELBASE_M) return (x_m * wheelbase_m) / REFERENCE_WHEELBASE_M;
  return x_m + wheelbase_m - REFERENCE_WHEELBASE_M;
}

export interface ProposalOf {
  readonly article: string;
  readonly wheelbase_m?: number | null;
  readonly place?: string | null;
  readonly count?: number | null;
}

/** An article as an item of a vehicle: its typical mass with the u of its range, at one of its places. */
export function proposal({ article, wheelbase_m = null, place, count }: ProposalOf): Proposal {
  const found = byId("article", article, ARTICLES);
  const where = place ?? found.places[0]!;
  if (!found.places.includes(where)) throw new Unknown("place", where, found.places);
  if (count != null) checkRange("count", count, { low: 1, high: 1000 });
  const roof = where === "roof";
  const [low, high] = ROOF_Z_M;
  const { name, nature, typical_kg, keep_aboard, taken_off } = found;
  return {
    ...{ name, nature, keep_aboard, taken_off, roof },
    count: count ?? found.count,
    mass_kg: typical_kg,
    mass_u_kg: rangeU({ low: found.low_kg, high: found.high_kg }),
    x_m: wheelbase_m === null ? null : placeXM({ place: where, wheelbase_m }),
    x_u_m: PLACE_U_M,
    z_m: roof ? (low + high) / 2 : null,
    z_u_m: roof ? rangeU({ low, high }) : null,
    known_by: "estimate",
    position_by: "described",
  };
}

export interface KitProposals {
  readonly kit: string;
  readonly wheelbase_m?: number | null;
}

/** All articles of a kit as items of a vehicle, each at its usual place; an unknown kit is refused. */
export function kitProposals({ kit, wheelbase_m = null }: KitProposals): Proposal[] {
  const { holds } = byId("kit", kit, KITS);
  return holds.map(([article, count]) => proposal({ article, wheelbase_m, count }));
}

/**
 * What is typical of a generic vehicle as delivered: wheelbase, empty axle loads with u and correlation. Kerb mass M and
 * front share s are independent, F = s M and R = (1 - s) M, with the exact moments of a product.
 */
export function typicalVehicle({ base }: { readonly base: string }): TypicalVehicle {
  const found = byId("base", base, BASE_VEHICLES);
  const [m_low, m, m_high] = found.kerb_kg;
  const [s_low, s, s_high] = found.front_share;
  const m_var = rangeU({ low: m_low, high: m_high }) ** 2;
  const s_var = rangeU({ low: s_low, high: s_high }) ** 2;
  const shared = s_var * (m ** 2 + m_var);
  const base_front_u_kg = Math.sqrt(s ** 2 * m_var + shared);
  const base_rear_u_kg = Math.sqrt((1 - s) ** 2 * m_var + shared);
  return {
    body_form: found.body_form,
    wheelbase_m: found.wheelbase_m[1],
    front_overhang_m: found.front_overhang_m[1],
    coupling_x_m: found.wheelbase_m[1] + found.axle_to_coupling_m[1],
    base_front_kg: s * m,
    base_front_u_kg,
    base_rear_kg: (1 - s) * m,
    base_rear_u_kg,
    base_correlation: (s * (1 - s) * m_var - shared) / (base_front_u_kg * base_rear_u_kg),
    base_fuel_l: found.fuel_l,
    base_driver_kg: 0,
    base_known_by: "estimate",
  };
}

function byId<T extends { readonly id: string }>(field: string, id: string, list: readonly T[]): T {
  const found = list.find((one) => one.id === id);
  if (!found)
    throw new Unknown(
      field,
      id,
      list.map((one) => one.id),
    );
  return found;
}
