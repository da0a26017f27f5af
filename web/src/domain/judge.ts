/** Ratings judged: on the day of a weighing, and in other states. */
import { ROWS, TRAILER_ROWS } from "./axles";
import type { Book } from "./book";
import { type Learning, loadsOf } from "./learning";
import { anyOver, lifts, type Verdict, verdict } from "./limits";
import { geometryOf, planIn } from "./plan";
import { type Rating, ratingsOf } from "./plates";
import { fullState } from "./state";
import { type Loads, uKg, valueKg } from "./statics";
import { measuredOf, type Visit } from "./visit";
import { ratedRows, type Worst, worstLevels } from "./worst";

/** A verdict with what it rests on (readings, plan, none) and, where it cannot tell, why. */
export interface Judged {
  readonly verdict: Verdict;
  readonly source: string;
  readonly why: string | null;
}

/** Between which chances any rating of a state is exceeded. */
export interface Chances {
  readonly least: number;
  readonly greatest: number;
}

/** All tanks full, everyone and everything aboard: every rating there, and at its worst levels of the tanks. */
export interface Forecast {
  readonly trailer_id: string | null;
  readonly full: readonly Judged[];
  readonly worst: readonly Worst[];
  readonly any_over: Chances;
  readonly lifts: readonly string[];
}

export interface JudgeDay {
  readonly ratings: readonly Rating[];
  readonly visit: Visit;
  readonly today: Loads | null;
  readonly confidence: number;
}

/** The ratings that apply on the day: by the readings wherever they fix the row, else by the reconciled plan. */
export function judgeDay({ ratings, visit, today, confidence }: JudgeDay): Judged[] {
  const rows = [
    ...ROWS,
    ...(visit.trailer_id ? TRAILER_ROWS : []),
    ...(today?.rows.includes("roof") ? ["roof"] : []),
  ];
  return ratings
    .filter((one) => rows.includes(one.rating))
    .map((one) => judgeRow(one, visit, today, confidence));
}

export interface ForecastOf {
  readonly book: Book;
  readonly learning: Learning;
  readonly day: string;
  readonly confidence: number;
  readonly trailer_id: string | null;
}

/** Every rating in the full state, from the reconciled plan, with a trailer on or without. */
export function forecast({ book, learning, day, confidence, trailer_id }: ForecastOf): Forecast {
  const state = fullState({ book, trailer_id });
  const plan = planIn({ book, state });
  const geometry = geometryOf({ book, state });
  const rows = ratedRows({ plan, geometry });
  const ratings = ratingsOf({ book, day, trailer_id }).filter((one) => rows.includes(one.rating));
  const found = loadsOf(learning, plan, rows, geometry);
  const full = ratings.map((one) => ({ verdict: judge(one, found, confidence), source: "plan", why: null }));
  const [least, greatest] = anyOver({
    probabilities: full.flatMap((one) => one.verdict.over_probability ?? []),
  });
  return {
    trailer_id,
    full,
    worst: worstLevels({
      ...{ book, state, ratings, confidence },
      loads_in: (dry, rows) => loadsOf(learning, dry, rows, geometry),
    }),
    any_over: { least, greatest },
    lifts: lifts({ loads: found }),
  };
}

function judgeRow(rating: Rating, visit: Visit, today: Loads | null, confidence: number): Judged {
  const { rating: row, limit_kg } = rating;
  const measured = measuredOf(visit, row);
  if (measured) {
    const { value_kg, u_kg } = measured;
    const found = verdict({ rating: row, value_kg, u_kg, limit_kg, confidence });
    return doubted({ verdict: found, source: "readings", why: null }, visit.agree);
  }
  if (today?.rows.includes(row)) {
    const found = { verdict: judge(rating, today, confidence), source: "plan", why: null };
    return doubted(found, visit.agree || row === "roof");
  }
  const blank = { value_kg: 0, u_kg: 0, reach_kg: 0, margin_kg: null, over_probability: null };
  return {
    verdict: { rating: row, limit_kg, ...blank, word: "cannot_tell" },
    source: "none",
    why: "not_weighed",
  };
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
