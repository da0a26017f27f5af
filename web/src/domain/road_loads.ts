/** Loads along a route of a book: its tanks, what comes aboard or goes, and every rating at its nearest place. */
import { type LoadsAlong, loadsAlong } from "./along";
import type { Geometry } from "./axles";
import type { Body, Book } from "./book";
import { OnTheWay } from "./errors";
import type { Settings } from "./filter";
import { GREY_FRACTION } from "./grey";
import type { Happening, Vessel } from "./happenings";
import { changesOf, travellers } from "./itinerary";
import { type Learning, loadsOf } from "./learning";
import { CONFIDENCE, type Verdict, verdict } from "./limits";
import { DESCRIBED_U_M, densityOf, type Fuel, fuelOf, MASS_SHARE, positionUM } from "./parts";
import { cutWay, SAME_KM } from "./pieces";
import { baseCorrelationOf, geometryOf, type Missing, type Plan, planIn, reckoned } from "./plan";
import { ratingsOf } from "./plates";
import { type RouteAnswer, type RoutePoint, type Stop, takesOn } from "./route";
import { type State, seatsFor, type TankLevel } from "./state";
import { type Loads, loads, type Part, productMoments } from "./statics";
import type { Stretch } from "./stretch";
import { ratedRows } from "./worst";

/** Litres planned beyond what fits by the likely figure that still count as filling up (assumed). */
export const FITS_L = 1;

/** What is drawn from along the way: litres, planned stops, the tanks' levels now, and the log's settings. */
export interface Drawn {
  readonly answer: RouteAnswer;
  readonly stops: readonly Stop[];
  readonly levels: readonly TankLevel[];
  readonly settings: Settings;
}

/** A route's record at an instant, with its way as it is cut, and who is aboard now. */
export interface Trip {
  readonly book: Book;
  readonly route: Body;
  readonly at: string;
  readonly from_km: number;
  readonly way: readonly Stretch[];
  readonly aboard: readonly string[];
}

/** A rating where it is nearest: judged at its greatest chance, `margin_at` is the mark of the least margin. */
export interface RatingAlong {
  readonly verdict: Verdict;
  readonly chance_at: number;
  readonly margin_at: number;
  readonly margin_kg: number;
}

/** Where the way cannot go on as planned; the loads end there. */
export interface Stuck {
  readonly what: OnTheWay["what"];
  readonly tank_id: string;
  readonly at_km: number;
  readonly litres_l: number;
}

/** Loads along the way, ratings at their nearest, what stops it, and what the plan leaves blank. */
export interface RoadLoads {
  readonly along: LoadsAlong;
  readonly ratings: readonly RatingAlong[];
  readonly stuck: Stuck | null;
  readonly missing: readonly Missing[];
}

export interface AskRoadLoads {
  readonly trip: Trip;
  readonly state: State;
  readonly drawn: Readonly<Record<string, Drawn>>;
  readonly learning?: Learning | null;
}

/** Loads along a route from a state; null where the plan does not reach it. */
export function roadLoads({ trip, state, drawn, learning = null }: AskRoadLoads): RoadLoads | null {
  const { book, at, from_km } = trip;
  if (!reckoned({ book, state })) return null;
  const vessels = vesselsOf(trip, state, drawn);
  const rest = restOf(trip, state, learning, new Set(vessels.map((one) => one.id)));
  const { geometry } = rest;
  const fixed = weighed(rest);
  const { missing } = planned(rest);
  const day = at.slice(0, 10);
  const ratings = ratingsOf({ book, day, trailer_id: geometry.trailer?.id ?? null });
  const rated = ratings.filter((one) => one.limit_kg !== null && fixed.rows.includes(one.rating));
  const limits = Object.fromEntries(rated.map((one) => [one.rating, one.limit_kg!]));
  const events = eventsOf(trip, drawn, vessels, rest);
  const walked = (some: readonly Happening[]) =>
    loadsAlong({ fixed, vessels, events: some, geometry, limits, from_km });
  try {
    const along = walked(events);
    return { along, ratings: ratingsAlong(along, book), stuck: null, missing };
  } catch (error) {
    if (!(error instanceof OnTheWay)) throw error;
    const { event, tank_id, at_km, litres_l } = error.place;
    const along = walked(events.slice(0, event));
    const stuck = { what: error.what, tank_id, at_km, litres_l };
    return { along, ratings: ratingsAlong(along, book), stuck, missing };
  }
}

function ratingsAlong({ nearest, rows, marks }: LoadsAlong, book: Book): RatingAlong[] {
  const confidence: number = book.vehicle?.body.confidence || CONFIDENCE;
  return nearest.map(({ rating, limit_kg, chance_at, margin_at, margin_kg }) => {
    const k = rows.indexOf(rating);
    const { value_kg, u_kg } = marks[chance_at]!;
    const judged = verdict({ rating, value_kg: value_kg[k]!, u_kg: u_kg[k]!, limit_kg, confidence });
    return { verdict: judged, chance_at, margin_at, margin_kg };
  });
}

/** Everything but the tanks: who sits where, what is aboard; changed along the way. */
interface Rest {
  readonly trip: Trip;
  readonly learning: Learning | null;
  readonly geometry: Geometry;
  readonly held: ReadonlySet<string>;
  readonly extra: Map<string, Part>;
  state: State;
  rows: readonly string[];
}

function restOf(trip: Trip, state: State, learning: Learning | null, held: ReadonlySet<string>): Rest {
  const geometry = geometryOf({ book: trip.book, state });
  const rest: Rest = { trip, learning, geometry, held, extra: new Map(), state, rows: [] };
  seat(rest, trip.from_km);
  for (const [n, change] of changesOf({ route: trip.route }).entries()) {
    const gone = change.until_km != null && change.until_km <= trip.from_km;
    if (change.what === "load" && change.at_km < trip.from_km && !gone) load(rest, n, change);
  }
  rest.rows = ratedRows({ plan: planned(rest), geometry });
  return rest;
}

function seat(rest: Rest, at_km: number): void {
  const { book, route, aboard, from_km } = rest.trip;
  const people = travellers({ route, aboard, at_km, from_km });
  rest.state = { ...rest.state, seats: seatsFor({ book, seats: rest.state.seats ?? [], people }) };
}

function load({ extra }: Rest, n: number, { mass_kg, mass_u_kg, x_m }: Body): void {
  if (mass_kg == null || x_m == null) return;
  const id = `load:${n}`;
  const own = { mass_kg, mass_u_kg: mass_u_kg ?? MASS_SHARE.estimate! * mass_kg };
  extra.set(id, { id, ...own, x_m, x_u_m: DESCRIBED_U_M });
}

function item(rest: Rest, item_id: string, aboard: boolean): void {
  const away = (rest.state.items_away ?? []).filter((one) => one !== item_id);
  rest.state = { ...rest.state, items_away: aboard ? away : [...away, item_id] };
}

function planned({ trip, state, held, extra }: Rest): Plan {
  const plan = planIn({ book: trip.book, state });
  const passing = plan.passing.filter(({ id }) => !(id.endsWith(":content") && held.has(id.slice(0, -8))));
  return { ...plan, passing: [...passing, ...extra.values()] };
}

function weighed(rest: Rest): Loads {
  const { learning, rows, geometry, trip } = rest;
  const plan = planned(rest);
  if (learning) return loadsOf(learning, plan, rows, geometry);
  const base_correlation = baseCorrelationOf({ book: trip.book });
  return loads({ parts: [...plan.lasting, ...plan.passing], geometry, rows, base_correlation });
}

function vesselsOf({ book }: Trip, state: State, drawn: AskRoadLoads["drawn"]): Vessel[] {
  const bodies = new Map(book.tanks.map(({ id, body }) => [id, body]));
  const fuel = fuelOf(book.vehicle?.body, state);
  const greys = new Set<string>();
  const out = Object.entries(drawn).flatMap(([holds, { levels }]) => {
    if (levels.some(({ tank_id }) => bodies.get(tank_id)!.x_m == null)) return [];
    return levels.map((level, drain_order) => {
      const body = bodies.get(level.tank_id)!;
      const grey_id = holds === "water" ? (body.grey_tank_id ?? null) : null;
      const into = grey_id !== null && isPlaced(bodies.get(grey_id), state) ? grey_id : null;
      if (into !== null) greys.add(into);
      return { ...vesselOf(body, level, holds, fuel), drain_order, ...greyOf(into, body) };
    });
  });
  const unknown = (tank_id: string): TankLevel => ({ tank_id, level: 0, level_u: 0, known_from: "prior" });
  for (const id of greys) {
    const known = state.tanks?.find((one) => one.tank_id === id);
    const level = known && known.known_from !== "prior" ? known : unknown(id);
    out.push({ ...vesselOf(bodies.get(id)!, level, id, fuel), drain_order: 0, ...greyOf(null, {}) });
  }
  return out;
}

/** Into the grey tank goes the share that the tank says, or the usual one. */
function greyOf(
  grey_id: string | null,
  { grey_fraction }: Body,
): { grey_id: string | null; grey_fraction: number } {
  return { grey_id, grey_fraction: grey_id === null ? 0 : (grey_fraction ?? GREY_FRACTION) };
}

/** Whether a grey tank can be filled and weighed: its size and place are known, and what it is on is there. */
function isPlaced(grey: Body | undefined, { trailers_on = [] }: State): boolean {
  const on: string | null = grey?.trailer_id || null;
  return Boolean(grey?.capacity_l) && grey?.x_m != null && (on === null || trailers_on.includes(on));
}

function vesselOf(body: Body, level: TankLevel, holds: string, fuel: Fuel) {
  const capacity_l: number = body.capacity_l;
  const size = [capacity_l, body.capacity_u_l ?? 0] as const;
  const [litres_l, litres_u_l] = productMoments(size, [level.level, level.level_u]);
  const [density_kg_per_l, density_u_kg_per_l] = densityOf(body, fuel);
  const x = {
    x_m: body.x_m as number,
    x_u_m: positionUM(body),
    on: (body.trailer_id || "vehicle") as string,
  };
  return {
    id: level.tank_id,
    holds,
    capacity_l,
    litres_l,
    litres_u_l,
    density_kg_per_l,
    density_u_kg_per_l,
    full_u_l: (body.full_u_l ?? null) as number | null,
    ...x,
  };
}

function eventsOf(
  { way, from_km }: Trip,
  drawn: AskRoadLoads["drawn"],
  vessels: readonly Vessel[],
  rest: Rest,
): Happening[] {
  const known = Object.entries(drawn).filter(([holds]) => vessels.some((one) => one.holds === holds));
  const steps = known.map(([holds, { answer }]) => [holds, stepsOf(answer)] as const);
  const takes = known.flatMap(([holds, one]) => takesOf(holds, one, from_km));
  const due = [...takes, ...changesIn(rest, vessels)];
  due.sort((a, b) => a.at_km - b.at_km);
  const events: Happening[] = [];
  let [k, at_km] = [0, from_km];
  for (const piece of cutWay({ stretches: way, at_km: [], from_km }).ahead) {
    events.push(...happen(due, piece.from_km));
    const points = piece.points ?? 1;
    const distance_km = (piece.to_km - piece.from_km) / points;
    for (let n = 0; n < points; n++, k++) {
      const now = steps.map(([holds, pairs]) => [holds, pairs[k]!] as const);
      const used = now.map(([holds, [a, b]]) => [holds, Math.max(a.left.mean - b.left.mean, 0)]);
      const left = now.map(([holds, [, b]]) => [holds, b.left.u]);
      const [used_l, left_u_l] = [Object.fromEntries(used), Object.fromEntries(left)];
      events.push({ kind: "way", distance_km, used_l, left_u_l });
    }
    at_km = piece.to_km;
  }
  events.push(...happen(due, at_km));
  return events;
}

/** Each point of the way that was driven to, with the one before it. */
function stepsOf({ points }: RouteAnswer): (readonly [RoutePoint, RoutePoint])[] {
  return points.slice(1).flatMap((after, n) => (after.taken ? [] : [[points[n]!, after] as const]));
}

/** What happens at a place of the way. */
interface Due {
  readonly at_km: number;
  readonly happens: () => readonly Happening[];
}

/** Litres taken on at counted supplies, as the answer takes them. */
function takesOf(holds: string, { answer, stops, settings }: Drawn, from_km: number): Due[] {
  const to_km = answer.points.at(-1)!.at_km;
  // those ahead are the last ones, for they stand in order of distance; the answer's places are those of the way's pieces
  const ahead = stops.slice(stops.length - answer.stops.length);
  const taking = ahead.map((stop, n) => ({ stop, room: answer.stops[n]!.room_l }));
  return taking.flatMap(({ stop, room }): Due[] => {
    const { at_km, take_l = null } = stop;
    if (!takesOn({ stop, from_km, to_km })) return [];
    const fills = take_l === null || (room <= take_l && take_l <= room + FITS_L);
    const litres_u_l = fills ? settings.full_u_l : settings.fill_u * take_l;
    return [{ at_km, happens: () => [{ kind: "take", holds, litres_l: fills ? null : take_l, litres_u_l }] }];
  });
}

/** What comes aboard or goes from here on, by the record. */
function changesIn(rest: Rest, vessels: readonly Vessel[]): Due[] {
  const { route, from_km } = rest.trip;
  const greys = [...new Set(vessels.flatMap(({ grey_id }) => grey_id ?? []))].sort();
  return changesOf({ route }).flatMap((change, n) => {
    const { at_km, what, subject_id = null, until_km = null } = change;
    const emptied = greys
      .filter((name) => subject_id === null || subject_id === name)
      .map((tank_id) => ({ kind: "empty", tank_id }) as const);
    const due: Due[] = [];
    if (at_km >= from_km)
      due.push({ at_km, happens: () => (what === "grey" ? emptied : [changed(rest, n, change)]) });
    if (until_km !== null && until_km > from_km)
      due.push({ at_km: until_km, happens: () => [changed(rest, n, null)] });
    return due;
  });
}

/** What it all weighs once a change of the record has happened, or its end. */
function changed(rest: Rest, n: number, change: Body | null): Happening {
  if (!change) rest.extra.delete(`load:${n}`);
  else if (change.what === "load") load(rest, n, change);
  else if (change.what === "item" && change.subject_id)
    item(rest, change.subject_id, change.aboard !== false);
  else seat(rest, change.at_km);
  return { kind: "rest", loads: weighed(rest) };
}

function happen(due: Due[], at_km: number): Happening[] {
  const events: Happening[] = [];
  while (due.length > 0 && due[0]!.at_km <= at_km + SAME_KM) events.push(...due.shift()!.happens());
  return events;
}
