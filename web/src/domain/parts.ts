/** From one record to parts: what an item, a tank's content, an occupant or an empty trailer weighs, and where. */
import type { Body } from "./book";
import type { SeatLoad, State, TankLevel } from "./state";
import { copiesU, type Part, productMoments, tankContent } from "./statics";
import { DENSITIES, fuelFactor } from "./volume";

// One standard uncertainty as a share of the mass, by how it is known (assumed; a record's own u replaces it)
export const MASS_SHARE: Readonly<Record<string, number>> = {
  weighed: 0.005,
  data_sheet: 0.05,
  similar: 0.1,
  estimate: 0.15,
};
export const MEASURED_U_M = 0.02; // position taken with a tape (assumed)
export const DESCRIBED_U_M = 0.15; // position told in words (assumed)

// kg/L and its u, of fuel at 15 C. Diesel: EN 590 at 15 C, 0.820-0.845, uniform. Petrol: EN 228, 0.720-0.775, uniform.
// Liquefied gas: 0.51 from memory. Stores are counted in kg, so a litre stands for a kilogram.
export const DENSITY: Readonly<Record<string, readonly [number, number]>> = {
  diesel: [0.8325, 0.0072],
  petrol: [0.7475, 0.0159],
  water: [1, 0.002],
  gas: [0.51, 0.02],
  stores: [1, 0],
};

export const FUEL_C = 15; // fuel where nobody says how warm it is (assumed)
export const FUEL_U_C = 10; // u of that (assumed)
export const TOLD_U_C = 5; // u of a temperature that somebody told (assumed)

// What a record leaves blank beside it: u of a density and of a capacity that it states, litres that the outlet does not
// reach, and how far from the middle with its u (assumed)
export const STATED_DENSITY_U = 0;
export const CAPACITY_U_L = 0;
export const UNUSABLE_L = 0;
export const MIDDLE_M = 0;
export const MIDDLE_U_M = 0;

/** What is in the fuel tanks on a day: its kind, and how warm it is with u, C. */
export interface Fuel {
  readonly kind: string | null;
  readonly temperature_c: number;
  readonly temperature_u_c: number;
}

/** The fuel of a day: as warm as the state tells, else as the vehicle's record, else `FUEL_C` with `FUEL_U_C`. */
export function fuelOf(vehicle: Body | null | undefined, state: State | null = null): Fuel {
  const kind: string | null = vehicle?.fuel_kind ?? null;
  if (state?.fuel_temperature_c != null)
    return {
      kind,
      temperature_c: state.fuel_temperature_c,
      temperature_u_c: state.fuel_temperature_u_c ?? TOLD_U_C,
    };
  return {
    kind,
    temperature_c: vehicle?.fuel_temperature_c ?? FUEL_C,
    temperature_u_c: vehicle?.fuel_temperature_u_c ?? FUEL_U_C,
  };
}

/** One standard uncertainty of a mass: the record's own, else the share for how it is known. */
export function massUKg(body: Body, mass_kg: number): number {
  return body.mass_u_kg ?? MASS_SHARE[body.known_by ?? "estimate"]! * mass_kg;
}

/** One standard uncertainty of a place: the record's own, else by how it was found. */
export function positionUM(body: Body, field = "x_u_m"): number {
  return body[field] ?? (body.position_by === "measured" ? MEASURED_U_M : DESCRIBED_U_M);
}

/** One standard uncertainty of a place across or in height, m; none where the place itself is blank. */
export function placedUM(body: Body, place: string): number {
  return body[place] == null ? 0 : positionUM(body, `${place[0]}_u_m`);
}

/** One standard uncertainty of the delivered vehicle's height: its own, else that of a place told in words. */
export function cgHeightUM(vehicle: Body): number {
  return vehicle.cg_height_u_m ?? DESCRIBED_U_M;
}

/** Where the centre of a tank's content is in height, m; null unless its bottom and its own height are known. */
export function heightInTankM(body: Body, level: number): number | null {
  if (body.z_bottom_m == null || body.height_m == null) return null;
  return body.z_bottom_m + (level * body.height_m) / 2;
}

/** What a tank holds by the names of `DENSITY`: fuel as the vehicle's kind, used water as water. */
export function contentOf({ holds }: Body, fuel_kind: string | null): string {
  if (holds === "fuel") return fuel_kind === "petrol" ? "petrol" : "diesel";
  return holds === "grey" || holds === "waste" ? "water" : holds;
}

/** Density of a tank's content and its u, kg/L, on a day; that of fuel by how warm it is. */
export function densityOf(tank: Body, fuel: Fuel): readonly [number, number] {
  const [density, u] = statedDensity(tank, fuel.kind);
  const [low, high] = DENSITIES;
  if (tank.holds !== "fuel" || !(low <= 1000 * density && 1000 * density <= high)) return [density, u];
  const { temperature_c, temperature_u_c } = fuel;
  const factor = fuelFactor({ temperature_c, temperature_u_c, density_15_kg_per_m3: 1000 * density });
  return productMoments([density, u], factor);
}

/** Density of a tank's content and its u, kg/L, of fuel at 15 C: the tank's own, else by what it holds. */
export function statedDensity(tank: Body, fuel_kind: string | null): readonly [number, number] {
  const [usual, usual_u] = DENSITY[contentOf(tank, fuel_kind)]!;
  if (tank.density_kg_per_l == null) return [usual, tank.density_u_kg_per_l ?? usual_u];
  return [tank.density_kg_per_l, tank.density_u_kg_per_l ?? STATED_DENSITY_U];
}

/** One line of the build: count copies at one place. */
export function itemPart(id: string, body: Body): Part {
  const count: number = body.count || 1;
  return {
    id,
    mass_kg: body.mass_kg * count,
    mass_u_kg: copiesU({
      count,
      unit_u_kg: massUKg(body, body.mass_kg),
      weighed_singly: Boolean(body.weighed_singly),
    }),
    x_m: body.x_m,
    x_u_m: positionUM(body),
    y_m: body.y_m ?? MIDDLE_M,
    y_u_m: placedUM(body, "y_m"),
    z_m: body.z_m ?? null,
    z_u_m: placedUM(body, "z_m"),
    roof: Boolean(body.roof),
    article: body.article_id ?? null,
    taken_off: Boolean(body.taken_off),
    on: body.trailer_id || "vehicle",
    copies: count,
  };
}

/** What a tank weighs at a level: its content, what the outlet cannot reach, and a can's own mass. */
export function* tankParts(id: string, body: Body, level: TankLevel, fuel: Fuel): Iterable<Part> {
  const [density_kg_per_l, density_u_kg_per_l] = densityOf(body, fuel);
  const on: string = body.trailer_id || "vehicle";
  const across = {
    y_m: body.y_m ?? MIDDLE_M,
    y_u_m: placedUM(body, "y_m"),
    z_u_m: placedUM(body, "z_bottom_m"),
  };
  const place = { x_m: body.x_m as number, x_u_m: positionUM(body), ...across, on };
  const held = tankContent({
    id: `${id}:content`,
    density_kg_per_l,
    density_u_kg_per_l,
    capacity_l: body.capacity_l,
    capacity_u_l: body.capacity_u_l ?? CAPACITY_U_L,
    level: level.level,
    level_u: level.level_u,
    ...place,
    z_m: heightInTankM(body, level.level),
  });
  yield { ...held, ...across };
  const litres: number = body.unusable_l || UNUSABLE_L;
  if (litres) {
    const mass = { mass_kg: density_kg_per_l * litres, mass_u_kg: density_u_kg_per_l * litres };
    yield { id: `${id}:unusable`, ...mass, ...place, z_m: body.z_bottom_m ?? null };
  }
  if (body.empty_mass_kg) {
    const mass_u_kg: number = body.empty_mass_u_kg ?? MASS_SHARE.data_sheet! * body.empty_mass_kg;
    const mass = { mass_kg: body.empty_mass_kg, mass_u_kg };
    yield { id: `${id}:empty`, ...mass, ...place, z_m: heightInTankM(body, 1) };
  }
}

/** A person or an animal in a seat. */
export function seatPart(load: SeatLoad, seat: Body): Part {
  return {
    id: `${load.seat_id}:occupant`,
    mass_kg: load.mass_kg,
    mass_u_kg: load.mass_u_kg,
    x_m: seat.x_m,
    x_u_m: positionUM(seat),
    y_m: seat.y_m ?? MIDDLE_M,
    y_u_m: placedUM(seat, "y_m"),
    z_m: seat.z_m ?? null,
    z_u_m: placedUM(seat, "z_m"),
  };
}

/** The empty trailer as two parts, on its coupling and over its axles. */
export function* trailerParts(trailer_id: string, body: Body): Iterable<Part> {
  for (const [end, x_m] of [
    ["coupling", 0],
    ["axles", body.coupling_to_axle_m],
  ] as const) {
    const mass_kg: number = body[`base_${end}_kg`];
    const mass_u_kg = body[`base_${end}_u_kg`] ?? MASS_SHARE[body.base_known_by ?? "estimate"]! * mass_kg;
    yield { id: `${trailer_id}:base_${end}`, mass_kg, mass_u_kg, x_m, on: trailer_id };
  }
}
