/** Fuel and water on the device: the domain's estimators over an opened book. */
import type { Book } from "@/domain/book";
import type { TankLevel } from "@/domain/state";

export type SurfaceAhead = "sealed" | "gravel" | "sand";

export interface Finding {
  readonly entry_id: string;
  readonly code: string;
  readonly value: string;
  readonly allowed: string;
}

export interface FuelAnswer {
  readonly surface: SurfaceAhead;
  readonly count_on_km: number;
  readonly likely_km: number;
  readonly litres: number;
  readonly litres_u: number;
  readonly reserve_l: number;
  readonly since_full: { readonly l_per_100km: number; readonly u: number } | null;
  readonly rates: readonly {
    readonly surface: SurfaceAhead;
    readonly l_per_100km: number;
    readonly u: number;
    readonly full_tanks: number;
  }[];
  readonly findings: readonly Finding[];
}

export interface WaterAnswer {
  readonly count_on_days: number;
  readonly likely_days: number;
  readonly floor_days: number;
  readonly litres: number;
  readonly litres_u: number;
  readonly drinkable: "yes" | "no" | "unknown";
  readonly people: number;
  readonly l_per_person_day: number;
  readonly rate_u: number;
  readonly readings: number;
  readonly reserve_l: number;
}

export function levelsAt(_book: Book, _at: string): TankLevel[] {
  return [];
}

export function fuel(_book: Book, _now: string, _surface?: SurfaceAhead): FuelAnswer | null {
  return null;
}

export function reach(_book: Book, _now: string, _km: number, _surface: SurfaceAhead): number | null {
  return null;
}

export function water(_book: Book, _now: string): WaterAnswer | null {
  return null;
}
