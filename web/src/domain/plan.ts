/** From the book's records to parts: what the vehicle was planned to weigh, in any state. Blanks are named, not guessed. */
import {
  FRONT_ROLL_SHARE,
  type Geometry,
  type Trailer as Lever,
  REARMOST_SHARE,
  rearXM,
  rowsOf,
  STIFFNESS,
} from "./axles";
import { type Body, type Book, bodyOfDay, type Row, rowsOfDay } from "./book";
import { NotKnown } from "./errors";
import { forgottenPart, NOTHING } from "./forgotten";
import {
  cgHeightUM,
  densityOf,
  fuelOf,
  heightInTankM,
  itemPart,
  MASS_SHARE,
  seatPart,
  tankParts,
  trailerParts,
} from "./parts";
import { type State, unknownLevel } from "./state";
import { type Loads, loads, type Part } from "./statics";

/** Of the errors of the two base masses (assumed). */
export const BASE_CORRELATION = 0;

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
  const lasting = [...base(day), ...trailerBase(day), ...items(day), ...forgotten(day)];
  return { lasting, passing: [...contents(day), ...people(day)], missing };
}

interface Day extends Required<PlanIn> {
  readonly missing: Missing[];
}

export interface ForgottenOf {
  readonly book: Book;
  readonly share: number;
  readonly revisions?: Revisions;
  readonly ordered?: boolean;
}

/** The mass that a plan forgets, at a share of what was added: of every item, left behind today or not. */
export function forgottenOf({ book, share, revisions = null, ordered = false }: ForgottenOf): Part | null {
  const state: State = { tanks: [], seats: [], items_away: [], trailers_on: [] };
  const added = [...items({ book, state, revisions, ordered, missing: [] })];
  return forgottenPart({ added, share });
}

/** Every lasting part of the book as it is now, those of all its trailers too. */
export function lastingOf({ book }: { readonly book: Book }): readonly Part[] {
  const trailers_on = book.trailers.map((trailer) => trailer.id);
  return planIn({ book, state: { tanks: [], seats: [], items_away: [], trailers_on } }).lasting;
}

export interface InState {
  readonly book: Book;
  readonly state: State;
}

/** The trailer that is on; of several the first. */
export function towedTrailer({ book, state }: InState): Row | null {
  if (state.trailers_on.length === 0) return null;
  const known = [...book.trailers, ...book.gone.filter((row) => row.kind === "trailer")];
  return known.find((row) => state.trailers_on.includes(row.id)) ?? null;
}

const LEVER = ["coupling_to_axle_m", "base_coupling_kg", "base_axles_kg"] as const;

/** Whether the plan reaches a state: a trailer that is on needs its lever and the place of the coupling. */
export function reckoned({ book, state }: InState): boolean {
  const trailer = towedTrailer({ book, state });
  if (!trailer || !planned({ book })) return planned({ book });
  return book.vehicle?.body.coupling_x_m != null && LEVER.every((name) => trailer.body[name] != null);
}

export interface GeometryOf {
  readonly book: Book;
  readonly state?: State | null;
}

/** Where the axles are, and those of the trailer that is on; refused without a wheelbase. Blanks take the usual model. */
export function geometryOf({ book, state = null }: GeometryOf): Geometry {
  const body: Body = book.vehicle?.body ?? {};
  if (body.wheelbase_m == null) throw new NotKnown("wheelbase_m", "axle loads");
  const group = ["load_sharing_pair", "independent_pair"].includes(body.rear_axles) && body.rear_spread_m;
  const trailer = state && towedTrailer({ book, state });
  const coupling_x_m: number | null = body.coupling_x_m ?? null;
  return {
    wheelbase_m: body.wheelbase_m,
    spread_m: group ? body.rear_spread_m : null,
    second_axle: body.rear_axles === "independent_pair" ? "springs" : "pair",
    rearmost_share: body.rear_share ?? REARMOST_SHARE,
    stiffness: [
      body.stiffness_front ?? STIFFNESS,
      body.stiffness_rear_1 ?? STIFFNESS,
      body.stiffness_rear_2 ?? STIFFNESS,
    ],
    front_track_m: body.track_front_m ?? null,
    rear_track_m: body.track_rear_m ?? null,
    frame: body.frame || "flexible",
    front_roll_share: body.front_roll_share ?? FRONT_ROLL_SHARE,
    coupling_x_m,
    trailer: trailer && coupling_x_m !== null ? leverOf(trailer) : null,
  };
}

function leverOf({ id, body }: Row): Lever | null {
  if (body.coupling_to_axle_m == null) return null;
  const moment: number | null = body.levelling_hitch === false ? null : (body.hitch_moment_kgm ?? null);
  return { id, coupling_to_axle_m: body.coupling_to_axle_m, hitch_moment_kgm: moment ?? 0 };
}

/** The fuel tank that the empty mass's fuel is in: the first to be drawn from, no can. */
export function mainTank({ book }: { readonly book: Book }): Row | null {
  const order = (tank: Row): number => tank.body.drain_order || 99;
  const tanks = book.tanks.filter((tank) => tank.body.holds === "fuel" && !tank.body.can);
  return tanks.sort((a, b) => order(a) - order(b))[0] ?? null;
}

/** How the errors of the two base masses are linked: 0 unless the vehicle's record says otherwise. */
export function baseCorrelationOf({ book }: { readonly book: Book }): number {
  return book.vehicle?.body.base_correlation ?? BASE_CORRELATION;
}

export interface PlannedLoads extends GeometryOf {
  readonly plan: Plan;
}

/** What the plan alone says of every row in its state. */
export function plannedLoads({ book, plan, state = null }: PlannedLoads): Loads {
  const parts = [...plan.lasting, ...plan.passing];
  const geometry = geometryOf({ book, state });
  const roof = plan.lasting.some((part) => part.roof) ? ["roof"] : [];
  const rows = [...rowsOf(geometry), ...roof];
  return loads({ parts, geometry, rows, base_correlation: baseCorrelationOf({ book }) });
}

function* base(day: Day): Iterable<Part> {
  const vehicle = day.book.vehicle;
  if (!vehicle) return;
  const body = ofDay(day, vehicle);
  if (body.wheelbase_m == null) {
    day.missing.push({ record_id: vehicle.id, kind: "vehicle", field: "wheelbase_m" });
    return;
  }
  const geometry = geometryOf({ book: day.book });
  for (const [end, x_m] of [
    ["front", 0],
    ["rear", rearXM({ ...geometry, second_axle: "pair" })], // a delivered load stands by its share
  ] as const) {
    const mass_kg: number | null = body[`base_${end}_kg`] ?? null;
    if (mass_kg === null) {
      day.missing.push({ record_id: vehicle.id, kind: "vehicle", field: `base_${end}_kg` });
      continue;
    }
    const mass_u_kg = body[`base_${end}_u_kg`] ?? MASS_SHARE[body.base_known_by ?? "estimate"]! * mass_kg;
    const z = { z_m: body.cg_height_m ?? null, z_u_m: cgHeightUM(body) };
    const axle = geometry.spread_m == null ? null : end;
    yield { id: `base_${end}`, mass_kg, mass_u_kg, x_m, ...z, axle };
  }
  yield* includedInBase(day.book, body);
}

/** The delivered trailer: what stands on the coupling, and what on its axles. */
function* trailerBase(day: Day): Iterable<Part> {
  const { book, state, revisions, missing } = day;
  if (state.trailers_on.length > 0 && book.vehicle && book.vehicle.body.coupling_x_m == null)
    missing.push({ record_id: book.vehicle.id, kind: "vehicle", field: "coupling_x_m" });
  for (const row of rowsOfDay(book, "trailer", book.trailers, revisions)) {
    if (!state.trailers_on.includes(row.id)) continue;
    const body = ofDay(day, row);
    if (body.levelling_hitch && body.hitch_moment_kgm == null)
      missing.push({ record_id: row.id, kind: "trailer", field: "hitch_moment_kgm" });
    if (complete(day, row, "trailer", body, LEVER)) yield* trailerParts(row.id, body);
  }
}

/** Fuel and driver that the "empty" mass already holds come off again, since the state counts them; even across. */
function* includedInBase(book: Book, body: Body): Iterable<Part> {
  const main = mainTank({ book })?.body;
  if (body.base_fuel_l && main?.x_m != null) {
    const [density, density_u] = densityOf(main, fuelOf(body));
    const litres: number = body.base_fuel_l;
    const mass = { mass_kg: density * litres, mass_u_kg: density_u * litres };
    const z_m = main.capacity_l ? heightInTankM(main, Math.min(1, litres / main.capacity_l)) : null;
    yield { id: "base_fuel", ...mass, x_m: main.x_m, z_m, taken_off: true };
  }
  const seat = book.seats[0]?.body;
  if (body.base_driver_kg && seat?.x_m != null) {
    const { x_m, z_m = null } = seat;
    yield { id: "base_driver", mass_kg: body.base_driver_kg, mass_u_kg: 0, x_m, z_m, taken_off: true };
  }
}

function* items(day: Day): Iterable<Part> {
  const away = new Set(day.state.items_away);
  for (const row of rowsOfDay(day.book, "item", day.book.items, day.revisions)) {
    if (away.has(row.id)) continue;
    const body = ofDay(day, row);
    const stage = body.stage || "fitted";
    if (stage === "removed" || (stage === "on_order" && !day.ordered) || !isThere(day, body)) continue;
    if (complete(day, row, "item", body, ["mass_kg", "x_m"])) yield itemPart(row.id, body);
  }
}

function* contents(day: Day): Iterable<Part> {
  const fuel = fuelOf(day.book.vehicle?.body, day.state);
  const levels = new Map(day.state.tanks.map((tank) => [tank.tank_id, tank]));
  for (const row of rowsOfDay(day.book, "tank", day.book.tanks, day.revisions)) {
    const body = ofDay(day, row);
    if (!isThere(day, body)) continue;
    const level = levels.get(row.id) ?? unknownLevel(row.id);
    // named, and counted as anything between empty and full
    if (!levels.has(row.id)) day.missing.push({ record_id: row.id, kind: "tank", field: "level" });
    if (complete(day, row, "tank", body, ["capacity_l", "x_m"])) yield* tankParts(row.id, body, level, fuel);
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

function* forgotten(day: Day): Iterable<Part> {
  const { book, revisions, ordered } = day;
  const share: number = (book.vehicle && ofDay(day, book.vehicle).forgotten_share) || NOTHING;
  const part = share ? forgottenOf({ book, share, revisions, ordered }) : null;
  if (part) yield part;
}

/** Whether what a record is on is there: the vehicle, or a trailer that is on. */
function isThere({ state }: Day, body: Body): boolean {
  return !body.trailer_id || state.trailers_on.includes(body.trailer_id);
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
