/** Planned against weighed: a weighing judged, compared with the plan of its day, carried to other states. */
import { rearXM } from "./axles";
import type { Book, Row } from "./book";
import { Unknown } from "./errors";
import { type Forecast, forecast, type Judged, judgeDay } from "./judge";
import { type Gap, type Learning, learn, loadsOf, teaches, type WeighedDay, weighedDays } from "./learning";
import { CONFIDENCE, lifts } from "./limits";
import { type Missing, planned, reckoned } from "./plan";
import { ratingsOf } from "./plates";
import type { Learnt } from "./posterior";
import { fullState, type State } from "./state";
import { type Loads, uKg, valueKg } from "./statics";
import { type Unplanned, unplannedMass, unplannedTotal } from "./unplanned";
import { measuredOf, type Visit } from "./visit";
import { ratedRows } from "./worst";

/** Everything that one weighing says; `forecasts` are the full states, without a trailer and with each. */
export interface Comparison {
  readonly weighing_id: string;
  readonly at: string;
  readonly visit: Visit;
  readonly state: State;
  readonly day: readonly Judged[];
  readonly lifts: readonly string[];
  readonly forecasts: readonly Forecast[];
  readonly gaps: readonly Gap[];
  readonly unplanned: Unplanned | null;
  readonly unplanned_trailer: Unplanned | null;
  readonly items: readonly Learnt[];
  readonly missing: readonly Missing[];
  readonly planned: boolean;
}

export interface Compare {
  readonly book: Book;
  readonly weighing_id: string;
  readonly confidence?: number | null;
  /** Days of this very book that were read before. */
  readonly known?: readonly WeighedDay[];
  /** What all of them teach, where the caller has it. */
  readonly learning?: Learning | null;
}

/** Judge one weighing of a book and compare it with the plan of its day. */
export function compare(given: Compare): Comparison {
  const { book, weighing_id, confidence = null, known = [] } = given;
  const vehicle = book.vehicle;
  const days = weighedDays({ book, known });
  const day = days.find((one) => one.visit.id === weighing_id);
  if (!day || !vehicle)
    throw new Unknown(
      "weighing_id",
      weighing_id,
      book.weighings.map((one) => one.id),
    );
  const { visit } = day;
  const level: number = confidence || vehicle.body.confidence || CONFIDENCE;
  const date = visit.at.slice(0, 10);
  const ratings = ratingsOf({ book, day: date, trailer_id: visit.trailer_id });
  const learning = given.learning ?? (planned({ book }) ? learn({ book, days }) : null);
  const today = todayOf(day, learning);
  return {
    weighing_id,
    at: visit.at,
    visit,
    state: visit.state,
    day: judgeDay({ ratings, visit, today, confidence: level }),
    lifts: lifts({ loads: today ?? visit.loads }),
    forecasts: forecastsOf(book, learning, date, level),
    gaps: day.gaps,
    unplanned: unplannedOf(day, vehicle),
    unplanned_trailer: unplannedTrailer(day),
    items: itemsOf(day, learning),
    missing: day.plan?.missing ?? [],
    planned: learning !== null,
  };
}

/** Where the vehicle begins and ends, m; 1 m before and 1.6 m behind the axles if not known (assumed). */
export function extent(vehicle: Row): [number, number] {
  const { front_overhang_m, rear_overhang_m, wheelbase_m } = vehicle.body;
  return [-(front_overhang_m ?? 1), wheelbase_m + (rear_overhang_m ?? 1.6)];
}

/** Every row on the day from the reconciled plan, its own readings included where they agree. */
function todayOf(day: WeighedDay, learning: Learning | null): Loads | null {
  const { plan, geometry, visit } = day;
  if (!learning || !plan || !geometry) return null;
  return loadsOf(learning, plan, ratedRows({ plan, geometry }), geometry, teaches(day) ? visit.id : null);
}

function forecastsOf(book: Book, learning: Learning | null, day: string, confidence: number): Forecast[] {
  if (!learning) return [];
  const trailers = book.trailers
    .map((trailer) => trailer.id)
    .filter((trailer_id) => reckoned({ book, state: fullState({ book, trailer_id }) }));
  return [null, ...trailers].map((trailer_id) => forecast({ book, learning, day, confidence, trailer_id }));
}

function itemsOf({ plan }: WeighedDay, learning: Learning | null): Learnt[] {
  if (!learning || !plan) return [];
  return plan.lasting.filter((part) => !part.taken_off).map((part) => learning.posterior.learnt(part.id));
}

function unplannedOf(day: WeighedDay, vehicle: Row): Unplanned | null {
  const { visit, expected: planned, geometry } = day;
  if (!planned || !geometry || !visit.agree) return null;
  const measured = visit.loads;
  if (["front", "rear"].every((row) => measured.rows.includes(row)))
    return unplannedMass({ measured, planned, rear_x_m: rearXM(geometry), ends: extent(vehicle) });
  return totalOf(day, "gross", planned);
}

function unplannedTrailer(day: WeighedDay): Unplanned | null {
  if (day.visit.trailer_id === null || !day.expected || !day.visit.agree) return null;
  return totalOf(day, "trailer", day.expected) ?? totalOf(day, "trailer_axles", day.expected);
}

function totalOf(day: WeighedDay, row: string, expected: Loads): Unplanned | null {
  const measured = measuredOf(day.visit, row);
  if (!measured) return null;
  return unplannedTotal({
    weighed_kg: measured.value_kg,
    weighed_u_kg: measured.u_kg,
    planned_kg: valueKg(expected, row),
    planned_u_kg: uKg(expected, row),
  });
}
