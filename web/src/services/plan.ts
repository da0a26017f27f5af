/** What the plan alone says: the loads of a state, how sure, and where its centre is. */
import { type Geometry, VEHICLE_ROWS } from "@/domain/axles";
import type { Book, Row } from "@/domain/book";
import { type PlanCentre, planCentre } from "@/domain/centre";
import { FORGOTTEN_SHARE } from "@/domain/forgotten";
import type { Judged } from "@/domain/judge";
import { CONFIDENCE, verdict } from "@/domain/limits";
import { massUKg } from "@/domain/parts";
import {
  baseCorrelationOf,
  forgottenOf,
  geometryOf,
  type Plan,
  planIn,
  plannedLoads,
  reckoned,
} from "@/domain/plan";
import { type Rating, ratingsOf } from "@/domain/plates";
import { movedPlan, moveTo, shiftedLoads } from "@/domain/shift";
import { planSplit, type Split } from "@/domain/split";
import { centreOfGravity } from "@/domain/stability";
import type { State } from "@/domain/state";
import { type Loads, loads, type Part, uKg, valueKg } from "@/domain/statics";

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

export { ratingsOf };
