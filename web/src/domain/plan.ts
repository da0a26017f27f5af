/** From the book's records to parts: what the vehicle was planned to weigh, in any state. Blanks are named, not guessed. */
import type { Geometry } from "./axles";
import { type Body, type Book, bodyOfDay, type Row, rowsOfDay } from "./book";
import { NotKnown } from "./errors";
import type { SeatLoad, State, TankLevel } from "./state";
import { copiesU, type Loads, loads, type Part, tankContent } from "./statics";

// One standard uncertainty as a share of the mass, by how it is known (assumed; a record's own u replaces it)
export const MASS_SHARE: Readonly<Record<string, number>> = {
  weighed: 0.005,
  data_sheet: 0.05,
  similar: 0.1,
  estimate: 0.15,
};
export const MEASURED_U_M = 0.02; // position taken with a tape (assumed)
export const DESCRIBED_U_M = 0.15; // position told in words (assumed)

// kg/L and its u. Diesel: EN 590 at 15 C, 0.820-0.845, uniform. Petrol: EN 228, 0.720-0.775, uniform.
// Liquefied gas: 0.51 from memory. Stores are counted in kg, so a litre stands for a kilogram.
export const DENSITY: Readonly<Record<string, readonly [number, number]>> = {
  diesel: [0.8325, 0.0072],
  petrol: [0.7475, 0.0159],
  water: [1, 0.002],
  gas: [0.51, 0.02],
  stores: [1, 0],
};

type Revisions = Readonly<Record<string, string>> | null;

/** A blank that something needs. */
export interface Missing {
  readonly record_id: string;
  readonly kind: string;
  readonly field: string;
}

/** All parts of a vehicle in one state, and what could not be counted. */
export interface Plan {
  readonly lasting: readonly Part[];
  readonly passing: readonly Part[];
  readonly missing: readonly Missing[];
}

/** Whether there is a plan at all: base masses and a wheelbase, without which nothing can be compared. */
export function planned({ book }: { readonly book: Book }): boolean {
  const body = book.vehicle?.body ?? {};
  return ["base_front_kg", "base_rear_kg", "wheelbase_m"].every((name) => body[name] != null);
}

export interface PlanIn {
  readonly book: Book;
  readonly state: State;
  readonly revisions?: Revisions;
  readonly ordered?: boolean;
}

/** The parts of a book in a state; `revisions` takes the plan of a weighing's day, `ordered` counts what is on order. */
export function planIn({ book, state, revisions = null, ordered = false }: PlanIn): Plan {
  const missing: Missing[] = [];
  const day = { book, state, revisions, ordered, missing };
  return { lasting: [...base(day), ...items(day)], passing: [...contents(day), ...people(day)], missing };
}

interface Day extends Required<PlanIn> {
  readonly missing: Missing[];
}

/** Where the axles of a planned vehicle are; refused without a wheelbase. */
export function geometryOf({ book }: { readonly book: Book }): Geometry {
  const wheelbase_m: number | null = book.vehicle?.body.wheelbase_m ?? null;
  if (wheelbase_m === null) throw new NotKnown("wheelbase_m", "axle loads");
  return { wheelbase_m };
}

/** How the errors of the two base masses are linked: 0 unless the vehicle's record says otherwise. */
export function baseCorrelationOf({ book }: { readonly book: Book }): number {
  return book.vehicle?.body.base_correlation ?? 0;
}

/** What the plan alone says of front, rear and gross. */
export function plannedLoads({ book, plan }: { readonly book: Book; readonly plan: Plan }): Loads {
  const parts = [...plan.lasting, ...plan.passing];
  return loads({ parts, geometry: geometryOf({ book }), base_correlation: baseCorrelationOf({ book }) });
}

/** One standard uncertainty of a mass: the record's own, else the share for how it is known. */
export function massUKg(body: Body, mass_kg: number): number {
  return body.mass_u_kg ?? MASS_SHARE[body.known_by ?? "estimate"]! * mass_kg;
}

/** One standard uncertainty of a place: the record's own, else by how it was found. */
export function positionUM(body: Body, field = "x_u_m"): number {
  return body[field] ?? (body.position_by === "measured" ? MEASURED_U_M : DESCRIBED_U_M);
}

/** Density of a tank's content and its u, kg/L: the tank's own, else by what it holds. */
export function densityOf(tank: Body, fuel_kind: string | null): readonly [number, number] {
  let content: string = tank.holds;
  if (content === "fuel") content = fuel_kind === "petrol" ? "petrol" : "diesel";
  else if (content === "grey" || content === "waste") content = "water";
  const [usual, usual_u] = DENSITY[content]!;
  if (tank.density_kg_per_l == null) return [usual, tank.density_u_kg_per_l ?? usual_u];
  return [tank.density_kg_per_l, tank.density_u_kg_per_l ?? 0];
}

function* base(day: Day): Iterable<Part> {
  const vehicle = day.book.vehicle;
  if (!vehicle) return;
  const body = ofDay(day, vehicle);
  if (body.wheelbase_m == null) {
    day.missing.push({ record_id: vehicle.id, kind: "vehicle", field: "wheelbase_m" });
    return;
  }
  for (const [end, x_m] of [
    ["front", 0],
    ["rear", body.wheelbase_m],
  ] as const) {
    const mass_kg: number | null = body[`base_${end}_kg`] ?? null;
    if (mass_kg === null) {
      day.missing.push({ record_id: vehicle.id, kind: "vehicle", field: `base_${end}_kg` });
      continue;
    }
    const mass_u_kg = body[`base_${end}_u_kg`] ?? MASS_SHARE[body.base_known_by ?? "estimate"]! * mass_kg;
    const z = { z_m: body.cg_height_m ?? null, z_u_m: body.cg_height_u_m ?? 0 };
    yield { id: `base_${end}`, mass_kg, mass_u_kg, x_m, ...z };
  }
  yield* includedInBase(day.book, body);
}

/** Fuel and driver that the "empty" mass already holds come off again, since the state counts them. */
function* includedInBase(book: Book, body: Body): Iterable<Part> {
  const order = (tank: Row): number => tank.body.drain_order ?? 99;
  const main = book.tanks
    .filter((tank) => tank.body.holds === "fuel" && !tank.body.can)
    .sort((a, b) => order(a) - order(b))[0]?.body;
  if (body.base_fuel_l && main?.x_m != null) {
    const [density, density_u] = densityOf(main, body.fuel_kind ?? null);
    const litres: number = body.base_fuel_l;
    const mass = { mass_kg: density * litres, mass_u_kg: density_u * litres };
    yield { id: "base_fuel", ...mass, x_m: main.x_m, taken_off: true };
  }
  const seat = book.seats[0]?.body;
  if (body.base_driver_kg && seat?.x_m != null)
    yield { id: "base_driver", mass_kg: body.base_driver_kg, mass_u_kg: 0, x_m: seat.x_m, taken_off: true };
}

function* items(day: Day): Iterable<Part> {
  const away = new Set(day.state.items_away);
  for (const row of rowsOfDay(day.book, "item", day.book.items, day.revisions)) {
    if (away.has(row.id)) continue;
    const body = ofDay(day, row);
    const stage = body.stage || "fitted";
    if (stage === "removed" || (stage === "on_order" && !day.ordered) || body.trailer_id) continue;
    if (complete(day, row, "item", body, ["mass_kg", "x_m"])) yield itemPart(row.id, body);
  }
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
    y_m: body.y_m ?? 0,
    y_u_m: body.y_m == null ? 0 : positionUM(body, "y_u_m"),
    z_m: body.z_m ?? null,
    z_u_m: body.z_m == null ? 0 : positionUM(body, "z_u_m"),
    roof: Boolean(body.roof),
    article: body.article_id ?? null,
    taken_off: Boolean(body.taken_off),
  };
}

function* contents(day: Day): Iterable<Part> {
  const fuel_kind: string | null = day.book.vehicle?.body.fuel_kind ?? null;
  const levels = new Map(day.state.tanks.map((tank) => [tank.tank_id, tank]));
  for (const row of rowsOfDay(day.book, "tank", day.book.tanks, day.revisions)) {
    const body = ofDay(day, row);
    const level = levels.get(row.id);
    if (body.trailer_id || !level) continue;
    if (complete(day, row, "tank", body, ["capacity_l", "x_m"]))
      yield* tankParts(row.id, body, level, fuel_kind);
  }
}

/** What a tank weighs at a level: its content, what the outlet cannot reach, and a can's own mass. */
export function* tankParts(
  id: string,
  body: Body,
  level: TankLevel,
  fuel_kind: string | null,
): Iterable<Part> {
  const [density_kg_per_l, density_u_kg_per_l] = densityOf(body, fuel_kind);
  const place = { x_m: body.x_m as number, x_u_m: positionUM(body) };
  const bottom_m: number | null = body.z_bottom_m ?? null;
  const z_m = bottom_m === null ? null : bottom_m + (level.level * (body.height_m ?? 0)) / 2;
  yield tankContent({
    id: `${id}:content`,
    density_kg_per_l,
    density_u_kg_per_l,
    capacity_l: body.capacity_l,
    capacity_u_l: body.capacity_u_l ?? 0,
    level: level.level,
    level_u: level.level_u,
    ...place,
    y_m: body.y_m ?? 0,
    z_m,
  });
  if (body.unusable_l) {
    const litres: number = body.unusable_l;
    const mass = { mass_kg: density_kg_per_l * litres, mass_u_kg: density_u_kg_per_l * litres };
    yield { id: `${id}:unusable`, ...mass, ...place, z_m: bottom_m };
  }
  if (body.empty_mass_kg) {
    const mass = { mass_kg: body.empty_mass_kg, mass_u_kg: MASS_SHARE.data_sheet! * body.empty_mass_kg };
    yield { id: `${id}:empty`, ...mass, ...place, z_m };
  }
}

function* people(day: Day): Iterable<Part> {
  const taken = new Map(day.state.seats.map((load) => [load.seat_id, load]));
  for (const row of rowsOfDay(day.book, "seat", day.book.seats, day.revisions)) {
    const load = taken.get(row.id);
    if (!load) continue;
    const body = ofDay(day, row);
    if (complete(day, row, "seat", body, ["x_m"])) yield seatPart(load, body);
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
    y_m: seat.y_m ?? 0,
    z_m: seat.z_m ?? null,
  };
}

/** Whether a record has what counting it needs; blanks are noted. */
function complete(day: Day, row: Row, kind: string, body: Body, names: readonly string[]): boolean {
  const blanks = names.filter((field) => body[field] == null);
  day.missing.push(...blanks.map((field) => ({ record_id: row.id, kind, field })));
  return blanks.length === 0;
}

function ofDay(day: Day, row: Row): Body {
  return bodyOfDay(day.book, row, day.revisions?.[row.id] ?? null);
}
