/** The catalogue for screens: articles, kits and base vehicles, and what they become in a book. */
import type { Body } from "@/domain/book";
import { baseVehicles, type Proposal, typicalVehicle } from "@/domain/catalogue";

export type { Article, BaseVehicle, Kit, Proposal } from "@/domain/catalogue";
export {
  articles,
  baseVehicles,
  kitProposals,
  kits,
  placeXM,
  proposal,
  typicalVehicle,
} from "@/domain/catalogue";

/** A proposal as a new item's body: what is not known is left out, and what is no is not said. */
export function itemOf(found: Proposal): Body {
  return Object.fromEntries(Object.entries(found).filter(([, value]) => value !== null && value !== false));
}

export interface Total {
  readonly mass_kg: number;
  readonly u_kg: number;
}

/** What proposals weigh together; copies of one share its error, different articles do not, what comes off counts off. */
export function totalOf(list: readonly Proposal[]): Total {
  const mass = (one: Proposal) => (one.taken_off ? -1 : 1) * one.count * one.mass_kg;
  return {
    mass_kg: list.reduce((sum, one) => sum + mass(one), 0),
    u_kg: Math.hypot(...list.map((one) => one.count * one.mass_u_kg)),
  };
}

const REPLACED = ["wheelbase_m", "base_front_kg", "base_rear_kg"] as const;

/** The base vehicle whose typical figures a vehicle still has; null once each was replaced, even by the same figure. */
export function typicalIn(vehicle: Body): string | null {
  const found = baseVehicles().find(({ id }) => {
    const typical = typicalVehicle({ base: id });
    return REPLACED.some((name) => vehicle[name] === typical[name] && !vehicle.as_typed?.[name]);
  });
  return found?.name ?? null;
}
