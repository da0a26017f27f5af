/** Planned against weighed: a weighing judged, compared with the plan of its day, carried to other states. */
import { type Geometry, ROWS, rearXM } from "./axles";
import type { Book, Row } from "./book";
import { Unknown } from "./errors";
import { CONFIDENCE, type Verdict, verdict } from "./limits";
import {
  baseCorrelationOf,
  geometryOf,
  type Missing,
  type Plan,
  planIn,
  planned,
  plannedLoads,
} from "./plan";
import { type Rating, ratingsOn } from "./plates";
import type { Learnt, Reconciled } from "./posterior";
import { reconcile, type Session } from "./reconcile";
import { fullState, loggedState, type State, stateOfCopy } from "./state";
import { type Loads, type Part, uKg, valueKg } from "./statics";
import { levelsAt } from "./supplies";
import { type Unplanned, unplannedMass, unplannedTotal } from "./unplanned";
import { AXLES_OF, measuredOf, readVisit, type Visit } from "./visit";

/** A verdict with what it rests on and, where it cannot tell, why. */
export interface Judged {
  readonly verdict: Verdict;
  readonly source: "readings" | "plan" | "none";
  readonly why: "readings_disagree" | "not_weighed" | null;
}

/** One row planned and weighed, in the state of the day; u are standard uncertainties. */
export interface Gap {
  readonly row: string;
  readonly planned_kg: number;
  readonly planned_u_kg: number;
  readonly weighed_kg: number;
  readonly weighed_u_kg: number;
  readonly gap_kg: number;
  readonly gap_u_kg: number;
}

/** Everything that one weighing says. */
export interface Comparison {
  readonly weighing_id: string;
  readonly at: string;
  readonly visit: Visit;
  readonly state: State;
  readonly day: readonly Judged[];
  readonly full: readonly Judged[];
  readonly gaps: readonly Gap[];
  readonly unplanned: Unplanned | null;
  readonly items: readonly Learnt[];
  readonly missing: readonly Missing[];
  readonly planned: boolean;
}

export interface Compare {
  readonly book: Book;
  readonly weighing_id: string;
  readonly confidence?: number | null;
}

/** Judge one weighing of a book and compare it with the plan of its day. */
export function compare({ book, weighing_id, confidence = null }: Compare): Comparison {
  const row = book.weighings.find((one) => one.id === weighing_id);
  const vehicle = book.vehicle;
  if (!row || !vehicle)
    throw new Unknown(
      "weighing_id",
      weighing_id,
      book.weighings.map((one) => one.id),
    );
  const visit = readVisit({ weighing: row, vehicle: vehicle.body });
  const state = stateOf(book, row);
  const ratings = ratingsOn({ plates: book.plates, day: row.body.at.slice(0, 10) });
  const level: number = confidence || vehicle.body.confidence || CONFIDENCE;
  const rated = ratings.filter((one) => ROWS.includes(one.rating));
  const dayBy = (today: Loads | null) => rated.map((one) => judgeDay(one, visit, today, level));
  const head = { weighing_id, at: visit.at, visit, state };
  if (!planned({ book })) {
    const nothing = { full: [], gaps: [], unplanned: null, items: [], missing: [], planned: false };
    return { ...head, day: dayBy(null), ...nothing };
  }
  const plan = planIn({ book, state, revisions: revisionsOf(row) });
  const expected = plannedLoads({ book, plan });
  const learning = reconciled({ book });
  const counted = visit.agree && visit.readings.length > 0;
  return {
    ...head,
    day: dayBy(loadsOf(learning, plan, ROWS, counted ? weighing_id : null)),
    full: judgeState({ book, learning, state: fullState({ book }), ratings, confidence: level }),
    gaps: gapsOf(visit, expected),
    unplanned: unplannedOf(visit, expected, geometryOf({ book }), extent(vehicle)),
    items: plan.lasting.filter((part) => !part.taken_off).map((part) => learning.posterior.learnt(part.id)),
    missing: plan.missing,
    planned: true,
  };
}

/** The state that a weighing was made in: its own copy, or the log's where it has none. */
export function stateOf(book: Book, weighing: Row): State {
  const copy = weighing.body.state;
  if (copy) return stateOfCopy({ copy });
  const { at } = weighing.body;
  return loggedState({ book, at, levels: levelsAt({ book, at }) });
}

/** The plan records that took part, by id; null where the weighing names none. */
export function revisionsOf(weighing: Row): Readonly<Record<string, string>> | null {
  const plan: readonly { readonly id: string; readonly rev: string }[] = weighing.body.state?.plan ?? [];
  return plan.length > 0 ? Object.fromEntries(plan.map((one) => [one.id, one.rev])) : null;
}

/** The reconciled plan, with the parts that stand for what is not on the list. */
export interface Learning {
  readonly posterior: Reconciled;
  readonly unlisted: readonly Part[];
}

/** Loads of a plan in its state, or in that of a weighing; what is not on the list stays aboard. */
export function loadsOf(
  { posterior, unlisted }: Learning,
  plan: Plan,
  rows: readonly string[],
  session: string | null = null,
): Loads {
  return posterior.loads({ lasting: [...plan.lasting, ...unlisted], passing: plan.passing, rows, session });
}

/** The present plan updated with every weighing of the book whose readings agree. */
export function reconciled({ book }: { readonly book: Book }): Learning {
  const geometry = geometryOf({ book });
  const vehicle = book.vehicle?.body ?? {};
  const weighed = book.weighings.flatMap((weighing) => {
    const visit = readVisit({ weighing, vehicle });
    if (!visit.agree || visit.readings.length === 0) return [];
    const plan = planIn({ book, state: stateOf(book, weighing), revisions: revisionsOf(weighing) });
    return [{ visit, plan }];
  });
  const gaps = weighed.flatMap(({ visit, plan }) => gapsOf(visit, plannedLoads({ book, plan })));
  const unlisted = unlistedOf(gaps, geometry);
  const sessions: Session[] = weighed.map(({ visit, plan }) => ({
    id: visit.id,
    lasting: [...plan.lasting, ...unlisted],
    passing: plan.passing,
    readings: visit.readings,
    bridge: visit.bridge,
    setup: visit.setup,
  }));
  const { lasting } = planIn({ book, state: fullState({ book }) });
  const posterior = reconcile({
    lasting: [...lasting, ...unlisted],
    geometry,
    sessions,
    base_correlation: baseCorrelationOf({ book }),
  });
  return { posterior, unlisted };
}

/** What is not on the list: mean 0, with the variance that the gaps have beyond their own (method of moments). */
function unlistedOf(gaps: readonly Gap[], geometry: Geometry): Part[] {
  const length = geometry.wheelbase_m;
  const axles = { front: [0, 0], rear: [length, 0] } as const;
  const places: Readonly<Record<string, readonly [number, number]>> = gaps.some((gap) => gap.row in axles)
    ? axles
    : { gross: [0.75 * length, 0.35 * length] };
  return Object.entries(places).flatMap(([row, [x_m, x_u_m]]) => {
    const excess = gaps.filter((gap) => gap.row === row).map((gap) => gap.gap_kg ** 2 - gap.gap_u_kg ** 2);
    const total = excess.reduce((sum, value) => sum + value, 0);
    if (!(total > 0)) return [];
    return [{ id: `unlisted_${row}`, mass_kg: 0, mass_u_kg: Math.sqrt(total / excess.length), x_m, x_u_m }];
  });
}

export interface JudgeState {
  readonly book: Book;
  readonly learning: Learning;
  readonly state: State;
  readonly ratings: readonly Rating[];
  readonly confidence: number;
}

/** Every rating in another state, from the reconciled plan. */
export function judgeState({ book, learning, state, ratings, confidence }: JudgeState): Judged[] {
  const plan = planIn({ book, state });
  const rows = plan.lasting.some((part) => part.roof) ? [...ROWS, "roof"] : ROWS;
  const found = loadsOf(learning, plan, rows);
  return ratings
    .filter((one) => rows.includes(one.rating))
    .map((one) => ({ verdict: judge(one, found, confidence), source: "plan", why: null }));
}

/** Where the vehicle begins and ends, m; 1 m before and 1.6 m behind the axles if not known (assumed). */
export function extent(vehicle: Row): [number, number] {
  const { front_overhang_m, rear_overhang_m, wheelbase_m } = vehicle.body;
  return [-(front_overhang_m ?? 1), wheelbase_m + (rear_overhang_m ?? 1.6)];
}

function judgeDay(rating: Rating, visit: Visit, today: Loads | null, confidence: number): Judged {
  const row = rating.rating;
  const measured = measuredOf(visit, row);
  if (measured) {
    const { value_kg, u_kg } = measured;
    const found = verdict({ rating: row, value_kg, u_kg, limit_kg: rating.limit_kg, confidence });
    return doubted({ verdict: found, source: "readings", why: null }, visit.agree);
  }
  if (today) {
    const touched = visit.readings.some((one) => one.axles.some((axle) => AXLES_OF[row]!.includes(axle)));
    const found: Judged = { verdict: judge(rating, today, confidence), source: "plan", why: null };
    return doubted(found, visit.agree || !touched);
  }
  const blank = { value_kg: 0, u_kg: 0, reach_kg: 0, margin_kg: null, over_probability: null };
  const nothing: Verdict = { rating: row, limit_kg: rating.limit_kg, ...blank, word: "cannot_tell" };
  return { verdict: nothing, source: "none", why: "not_weighed" };
}

/** Readings that disagree make a row "cannot tell", unless its rating is not even known. */
function doubted(judged: Judged, agree: boolean): Judged {
  if (agree || judged.verdict.word === "not_known") return judged;
  return { ...judged, verdict: { ...judged.verdict, word: "cannot_tell" }, why: "readings_disagree" };
}

function judge({ rating, limit_kg }: Rating, found: Loads, confidence: number): Verdict {
  return verdict({
    rating,
    value_kg: valueKg(found, rating),
    u_kg: uKg(found, rating),
    limit_kg,
    confidence,
  });
}

function gapsOf(visit: Visit, plan: Loads): Gap[] {
  return visit.measured.map(({ row, value_kg, u_kg }) => {
    const [planned_kg, planned_u_kg] = [valueKg(plan, row), uKg(plan, row)];
    return {
      row,
      planned_kg,
      planned_u_kg,
      weighed_kg: value_kg,
      weighed_u_kg: u_kg,
      gap_kg: value_kg - planned_kg,
      gap_u_kg: Math.sqrt(planned_u_kg ** 2 + u_kg ** 2),
    };
  });
}

function unplannedOf(
  visit: Visit,
  expected: Loads,
  geometry: Geometry,
  ends: readonly [number, number],
): Unplanned | null {
  if (!visit.agree) return null;
  if (visit.axles) {
    const { axles: rows, mean_kg, cov_kg2 } = visit.axles;
    const measured = { rows, mean_kg, cov_kg2 };
    return unplannedMass({ measured, planned: expected, rear_x_m: rearXM(geometry), ends });
  }
  const total = measuredOf(visit, "gross");
  if (!total) return null;
  return unplannedTotal({
    weighed_kg: total.value_kg,
    weighed_u_kg: total.u_kg,
    planned_kg: valueKg(expected, "gross"),
    planned_u_kg: uKg(expected, "gross"),
  });
}
