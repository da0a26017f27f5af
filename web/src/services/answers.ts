/** What the device answers by itself: the domain's computations over an opened book. */

import { type Assumed, assumed } from "@/domain/assumed";
import { type Geometry, ROWS, VEHICLE_ROWS } from "@/domain/axles";
import type { Book, Row } from "@/domain/book";
import { type PlanCentre, planCentre } from "@/domain/centre";
import { type Comparison, compare } from "@/domain/comparison";
import { type Explanation, explain } from "@/domain/explain";
import { FORGOTTEN_SHARE } from "@/domain/forgotten";
import { type Guidance, guidance } from "@/domain/guidance";
import type { Judged } from "@/domain/judge";
import { learn, type WeighedDay, weighedDays } from "@/domain/learning";
import { CONFIDENCE, verdict } from "@/domain/limits";
import { type LogDefault, logDefaults } from "@/domain/log_defaults";
import { fuelOf, massUKg, TOLD_U_C } from "@/domain/parts";
import {
  baseCorrelationOf,
  forgottenOf,
  geometryOf,
  type Plan,
  planIn,
  planned,
  plannedLoads,
  reckoned,
} from "@/domain/plan";
import { type Rating, ratingsOf } from "@/domain/plates";
import { movedPlan, moveTo, shiftedLoads } from "@/domain/shift";
import { planSplit, type Split } from "@/domain/split";
import { centreOfGravity } from "@/domain/stability";
import { fullState, loggedState, type State } from "@/domain/state";
import { type Loads, loads, type Part, uKg, valueKg } from "@/domain/statics";
import { levelsAt } from "./consumption";

/** A book's weighings read by themselves, once for as long as the book is the same. */
const READ = new WeakMap<Book, readonly WeighedDay[]>();

/** All weighings of a book read by themselves. */
export function daysOf(book: Book): readonly WeighedDay[] {
  const days = READ.get(book) ?? weighedDays({ book });
  READ.set(book, days);
  return days;
}

/** The comparison of one recorded weighing. */
export function comparisonOf(book: Book, weighing_id: string): Comparison {
  return compare({ book, weighing_id, known: daysOf(book) });
}

/** What could explain the gap of one recorded weighing. */
export function explained(book: Book, weighing_id: string): Explanation {
  return explain({ book, weighing_id, known: daysOf(book) });
}

/** A weighing that is not saved yet: what it says, and what to read next, which takes longer. */
export interface OnDeck {
  readonly comparison: Comparison;
  readonly guide: () => Guidance;
}

/** A weighing that is not saved yet, as if it were the book's latest. */
export function provisional(saved: Book, weighing: Row): OnDeck {
  const book = { ...saved, weighings: [...saved.weighings, weighing] };
  const days = weighedDays({ book, known: daysOf(saved) });
  const learning = planned({ book }) ? learn({ book, days }) : null;
  const found = compare({ book, weighing_id: weighing.id, known: days, learning });
  const confidence: number = book.vehicle?.body.confidence ?? CONFIDENCE;
  return { comparison: found, guide: () => guidance({ book, found, days, learning, confidence }) };
}

/** The latest weighing's comparison, or null where nothing was weighed. */
export function latestComparison(book: Book): Comparison | null {
  const latest = book.weighings.at(-1);
  return latest ? comparisonOf(book, latest.id) : null;
}

/** What the plan alone says of a state: loads, centre of gravity along the vehicle, what could not be counted. */
export interface Planned {
  readonly loads: Loads;
  readonly cg_x_m: number | null;
  readonly cg_u_m: number;
  readonly missing: ReturnType<typeof planIn>["missing"];
  readonly plan: Plan;
  readonly geometry: Geometry;
}

export function plannedIn(book: Book, state: State, ordered = false): Planned | null {
  if (!reckoned({ book, state })) return null;
  const plan = planIn({ book, state, ordered });
  const geometry = geometryOf({ book, state });
  return { ...centred(book, plan), loads: plannedLoads({ book, plan, state }), geometry };
}

/** The same with one thing elsewhere, without summing the others again: quick enough for each frame of a drag. */
export function plannedWith(book: Book, found: Planned, record_id: string, x_m: number): Planned {
  const { plan, geometry, loads } = found;
  const move = moveTo({ book, plan, record_id, x_m });
  const shifted = shiftedLoads({ found: loads, move, geometry });
  return { ...centred(book, movedPlan({ plan, move })), loads: shifted, geometry };
}

function centred(book: Book, plan: Plan): Pick<Planned, "cg_x_m" | "cg_u_m" | "missing" | "plan"> {
  const parts = [...plan.lasting, ...plan.passing];
  const centre = centreOfGravity({ parts, base_correlation: baseCorrelationOf({ book }) });
  return { cg_x_m: centre?.x_m ?? null, cg_u_m: centre?.x_u_m ?? 0, missing: plan.missing, plan };
}

/** The mass that a plan leaves out, counted in or not, and what it does to each load. */
export interface Forgotten {
  readonly share: number;
  readonly counted: boolean;
  readonly part: Part;
  readonly effect: Loads;
}

/** Null where nothing was added yet. */
export function forgottenIn(book: Book, found: Planned, ordered: boolean): Forgotten | null {
  const own: number | null = book.vehicle?.body.forgotten_share ?? null;
  const share = own || FORGOTTEN_SHARE;
  const part = forgottenOf({ book, share, ordered });
  if (!part) return null;
  const { rows } = found.loads;
  const effect = loads({
    parts: [part],
    geometry: { ...found.geometry, trailer: null },
    rows: ofVehicle(rows),
  });
  return { share, counted: Boolean(own), part, effect };
}

function ofVehicle(rows: readonly string[]): string[] {
  return rows.filter((row) => (VEHICLE_ROWS as readonly string[]).includes(row));
}

/** One standard uncertainty of an item's mass: its own, or by how it is known. */
export function massUOf(body: Row["body"]): number {
  return massUKg(body, body.mass_kg);
}

/** Where the plan's centre of gravity is in a state; null where the plan does not reach it. */
export function centreOf(book: Book, state: State, ordered = false): PlanCentre | null {
  return reckoned({ book, state }) ? planCentre({ book, state, ordered }) : null;
}

/** What single wheels and single rear axles carry by the plan; null where the plan does not reach the state. */
export function splitOf(book: Book, state: State, ordered = false): Split | null {
  return reckoned({ book, state }) ? planSplit({ book, state, ordered }) : null;
}

/** The rating with the least to spare when all is full and aboard, over all trailers. */
export function tightest({ forecasts }: Comparison): { judged: Judged; trailer_id: string | null } | null {
  const spare = ({ verdict: { margin_kg, reach_kg } }: Judged) => (margin_kg ?? 0) - reach_kg;
  const rated = forecasts.flatMap(({ full, trailer_id }) =>
    full.filter((one) => one.verdict.margin_kg !== null).map((judged) => ({ judged, trailer_id })),
  );
  return rated.sort((a, b) => spare(a.judged) - spare(b.judged))[0] ?? null;
}

/** The state at an instant as the log has it. */
export function stateAt(book: Book, at: string): State {
  return loggedState({ book, at, levels: levelsAt(book, at) });
}

/** Who sits where and what is coupled, without reading the tanks: quick enough for each touch. */
export function presentAt(book: Book, at: string): State {
  return loggedState({ book, at });
}

/** Loads of the plan against the ratings. */
export function judgeLoads(book: Book, found: Loads, ratings: readonly Rating[]): Judged[] {
  const confidence: number = book.vehicle?.body.confidence ?? CONFIDENCE;
  return ratings
    .filter((one) => found.rows.includes(one.rating))
    .map(({ rating, limit_kg }) => ({
      verdict: verdict({
        rating,
        value_kg: valueKg(found, rating),
        u_kg: uKg(found, rating),
        limit_kg,
        confidence,
      }),
      source: "plan",
      why: null,
    }));
}

export {
  bookSince,
  fuel,
  fuelCorrected,
  fuelWith,
  isRead,
  placeToKeep,
  reach,
  readSlowly,
  recall,
  toKeep,
} from "./consumption";
/** What the plan takes for granted, and which blank replaces it. */
export function assumedIn(book: Book): Assumed[] {
  return assumed({ book });
}

/** What the reading of the fuel or water log takes for granted. */
export function logDefaultsOf(book: Book, holds: "fuel" | "water", at: string): LogDefault[] {
  return logDefaults({ book, holds, trailers_on: presentAt(book, at).trailers_on });
}

export { drinkersAt, drinkRates, survivalAt, water } from "./water";
export type { Book, Comparison, Explanation, Guidance, Judged, LogDefault, Row, State };
export { fuelOf, fullState, ROWS, ratingsOf, TOLD_U_C };
