/** What the reading of a fuel or water log takes for granted: each figure, whose it is, and where it can be said. */
import type { Body, Book, Row } from "./book";
import { Unknown } from "./errors";
import { CHANGE_U, OVERFILL } from "./events";
import type { Settings } from "./filter";
import {
  BASE_RATE,
  DIP_U,
  FUEL,
  FUEL_KAPPAS,
  ownRates,
  SURFACES,
  type TankSpec,
  TOWING,
  usualReserve,
} from "./fuel";
import { FACTOR, FACTOR_U, STEP_KM } from "./fullfull";
import { GREY_FRACTION } from "./grey";
import { CONFIDENCE } from "./limits";
import { ABOUT_U, tanksOf } from "./log_rows";
import { ALARM, SINGLE, SKIP, SLACK } from "./notice";
import { BEYOND, HOLD, OVERFULL } from "./running";
import {
  DRINKING_RATE,
  EARLY,
  uncountedWater,
  WATER,
  WATER_CHANGE_U,
  WATER_KAPPAS,
  WATER_RATE,
} from "./water";

type Fields = Readonly<Partial<Record<keyof Settings, string>>>;

/** Setting of the filter -> field of the vehicle that replaces it. */
export const FUEL_FIELDS: Fields = {
  u_common: "fuel_guess_u",
  u_class: "fuel_surface_u",
  walk: "fuel_drift",
  walk_class: "fuel_surface_drift",
  ell: "fuel_unsteady_km",
  fill_u: "pump_u",
};
export const WATER_FIELDS: Fields = {
  u_common: "water_guess_u",
  walk: "water_drift",
  fill_u: "water_fill_u",
};

export type Group = "guess" | "reading" | "asked";

/** One figure; `own` if a record says it. Record, kind and field say where it is or can be said, if anywhere. */
export interface LogDefault {
  readonly code: string;
  readonly value: number;
  readonly group: Group;
  readonly own: boolean;
  readonly record_id: string | null;
  readonly kind: string | null;
  readonly field: string | null;
}

/** What the filter assumes of fuel, with what the vehicle's record says instead. */
export function fuelSettings({ vehicle }: { readonly vehicle: Body }): Settings {
  return withOwn(FUEL, FUEL_FIELDS, vehicle);
}

/** What the filter assumes of water, with what the vehicle's record says instead. */
export function waterSettings({ vehicle }: { readonly vehicle: Body }): Settings {
  return withOwn(WATER, WATER_FIELDS, vehicle);
}

export interface LogDefaults {
  readonly book: Book;
  readonly holds: string;
  /** Whose tanks of water are drawn from too. */
  readonly trailers_on?: readonly string[];
}

/** The figures that the log of fuel or water rests on besides its entries; nothing without a vehicle. */
export function logDefaults({ book, holds, trailers_on = [] }: LogDefaults): LogDefault[] {
  if (holds !== "fuel" && holds !== "water") throw new Unknown("holds", holds, ["fuel", "water"]);
  if (!book.vehicle) return [];
  const tanks = tanksOf({ book, holds, trailers_on: holds === "water" ? trailers_on : [] });
  const of = holds === "fuel" ? ofFuel : ofWater;
  return [...of(book, book.vehicle, tanks), ...asked(holds)];
}

function withOwn(usual: Settings, fields: Fields, vehicle: Body): Settings {
  const told = Object.entries(fields).filter(([, field]) => vehicle[field] != null);
  return { ...usual, ...Object.fromEntries(told.map(([name, field]) => [name, vehicle[field]])) };
}

/** A figure that a field of a record holds, or would. */
function said(code: string, usual: number, group: Group, { id, kind, body }: Row, field: string): LogDefault {
  const own: number | null = body[field] ?? null;
  return { code, value: own ?? usual, group, own: own !== null, record_id: id, kind, field };
}

function fixed(code: string, value: number, group: Group): LogDefault {
  return { code, value, group, own: false, record_id: null, kind: null, field: null };
}

/** What the filter is given, but for the amounts put in, which are readings. */
function ofFilter(usual: Settings, fields: Fields, vehicle: Row): LogDefault[] {
  return Object.entries(fields)
    .filter(([name]) => name !== "fill_u")
    .map(([name, field]) => said(field, usual[name as keyof Settings], "guess", vehicle, field));
}

function ofFuel(book: Book, vehicle: Row, tanks: readonly TankSpec[]): LogDefault[] {
  const { body } = vehicle;
  const names = Object.keys(SURFACES).map((name) => [name, `${name}_l_per_100km`] as const);
  const told = names.filter(([, field]) => body[field] != null).map(([name, field]) => [name, body[field]]);
  const surfaces: Record<string, number> = Object.fromEntries(told);
  const own = ownRates({ surfaces });
  const base = surfaces.sealed ?? BASE_RATE;
  return [
    ...names.map(([name, field]) =>
      said(`${name}_rate`, own[name] ?? base * SURFACES[name]!, "guess", vehicle, field),
    ),
    said("towing_ratio", TOWING, "guess", vehicle, "towing_ratio"),
    ...ofFilter(FUEL, FUEL_FIELDS, vehicle),
    fixed("fuel_steadiest", Math.min(...FUEL_KAPPAS), "guess"),
    fixed("fuel_unsteadiest", Math.max(...FUEL_KAPPAS), "guess"),
    said("pump_u", FUEL.fill_u, "reading", vehicle, "pump_u"),
    ...ofReadings(book, tanks, FUEL),
    said("odometer_factor", FACTOR, "reading", vehicle, "odometer_factor"),
    said("odometer_factor_u", FACTOR_U, "reading", vehicle, "odometer_factor_u"),
    said("odometer_step_km", STEP_KM, "reading", vehicle, "odometer_step_km"),
    said("fuel_reserve_l", usualReserve({ tanks }), "guess", vehicle, "fuel_reserve_l"),
    said("confidence", CONFIDENCE, "guess", vehicle, "confidence"),
  ];
}

function ofWater(book: Book, vehicle: Row, tanks: readonly TankSpec[]): LogDefault[] {
  return [
    said("water_rate", WATER_RATE, "guess", vehicle, "water_l_per_day"),
    fixed("drinking_floor", DRINKING_RATE, "guess"),
    ...ofFilter(WATER, WATER_FIELDS, vehicle),
    fixed("water_steadiest", Math.min(...WATER_KAPPAS), "guess"),
    fixed("water_unsteadiest", Math.max(...WATER_KAPPAS), "guess"),
    fixed("early", EARLY, "guess"),
    said("water_fill_u", WATER.fill_u, "reading", vehicle, "water_fill_u"),
    ...ofReadings(book, tanks, WATER),
    ...book.tanks
      .filter(({ body }) => body.holds === "water" && body.grey_tank_id)
      .map((row) => said("grey_fraction", GREY_FRACTION, "guess", row, "grey_fraction")),
    said("water_reserve_l", uncountedWater({ tanks }), "guess", vehicle, "water_reserve_l"),
    said("confidence", CONFIDENCE, "guess", vehicle, "confidence"),
  ];
}

/** How exact a full tank, its gauge, a dip and an amount told are. */
function ofReadings(book: Book, tanks: readonly TankSpec[], settings: Settings): LogDefault[] {
  const drawn = tanks.filter((tank) => tank.drawn);
  const rows = book.tanks.filter(({ id }) => drawn.some((tank) => tank.id === id));
  const dips = Object.entries(DIP_U).filter(([how]) => how !== "gauge");
  return [
    ...rows.flatMap((row) => [
      said("full_u_l", settings.full_u_l, "reading", row, "full_u_l"),
      said("gauge_u", settings.gauge_u, "reading", row, "gauge_u"),
    ]),
    ...dips.map(([how, u]) => fixed(`dip_${how}`, u, "reading")),
    fixed("about_u", ABOUT_U, "reading"),
  ];
}

/** From where on an entry is asked about, and a change is noticed. */
function asked(holds: string): LogDefault[] {
  const figures: Record<string, number> = {
    ...{ hold: HOLD, overfull: OVERFULL, overfill: OVERFILL },
    change_u: holds === "fuel" ? CHANGE_U : WATER_CHANGE_U,
    ...(holds === "fuel" ? { beyond: BEYOND, skip: SKIP, slack: SLACK, alarm: ALARM, single: SINGLE } : {}),
  };
  return Object.entries(figures).map(([code, value]) => fixed(code, value, "asked"));
}
