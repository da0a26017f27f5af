/** Every tank state at once: each rating at the levels of the tanks that are worst for it. */
import { type Geometry, ROWS, TRAILER_ROWS } from "./axles";
import type { Book } from "./book";
import { type End, worstEnds } from "./envelope";
import { type Verdict, verdict } from "./limits";
import { baseCorrelationOf, geometryOf, type Plan, planIn } from "./plan";
import { type Rating, ratingsOf } from "./plates";
import type { State, TankLevel } from "./state";
import { type Loads, loads, type Part } from "./statics";

/** A rating at the levels of the tanks that are worst for it; `full` are the tanks that are full there. */
export interface Worst {
  readonly verdict: Verdict;
  readonly full: readonly string[];
}

export interface PlanWorst {
  readonly book: Book;
  readonly state: State;
  readonly day: string;
  readonly confidence: number;
}

/** Each known rating over every state of the tanks, from the plan alone; people, items and trailer as in `state`. */
export function planWorst({ book, state, day, confidence }: PlanWorst): Worst[] {
  const geometry = geometryOf({ book, state });
  const base_correlation = baseCorrelationOf({ book });
  const rated = ratedRows({ plan: planIn({ book, state }), geometry });
  const trailer_id = geometry.trailer?.id ?? null;
  const ratings = ratingsOf({ book, day, trailer_id }).filter((one) => rated.includes(one.rating));
  const loads_in = ({ lasting, passing }: Plan, rows: readonly string[]): Loads =>
    loads({ parts: [...lasting, ...passing], geometry, rows, base_correlation });
  return worstLevels({ book, state, ratings, confidence, loads_in });
}

export interface RatedRows {
  readonly plan: Plan;
  readonly geometry: Geometry;
}

/** The rows that a state can be judged by: a trailer's only while it is on, the roof's if something is on it. */
export function ratedRows({ plan, geometry }: RatedRows): string[] {
  const roof = plan.lasting.some((part) => part.roof) ? ["roof"] : [];
  return [...ROWS, ...(geometry.trailer ? TRAILER_ROWS : []), ...roof];
}

export interface WorstLevels {
  readonly book: Book;
  readonly state: State;
  readonly ratings: readonly Rating[];
  readonly confidence: number;
  readonly loads_in: (plan: Plan, rows: readonly string[]) => Loads;
}

/** Each known rating at the ends of the tanks' levels that are worst for it; `loads_in` is for all but the contents. */
export function worstLevels({ book, state, ratings, confidence, loads_in }: WorstLevels): Worst[] {
  const geometry = geometryOf({ book, state });
  const tanks = book.tanks.map(
    ({ id }): TankLevel => ({ tank_id: id, level: 1, level_u: 0, known_from: "typed" }),
  );
  const plan = planIn({ book, state: { ...state, tanks } });
  const contents = plan.passing.filter((part) => part.id.endsWith(":content"));
  const dry = { ...plan, passing: plan.passing.filter((part) => !contents.includes(part)) };
  const rows = ratings.map((one) => one.rating);
  const fixed = loads_in(dry, rows);
  const held = contents.map((part) => heldBy(part, rows, geometry));
  return ratings.flatMap(({ rating, limit_kg }, k) => {
    if (limit_kg === null) return [];
    const ends = held.map((one): [End, End] => [
      [0, 0],
      [one.mean_kg[k]!, one.cov_kg2[k]![k]!],
    ]);
    const all = { fixed_kg: fixed.mean_kg[k]!, fixed_kg2: fixed.cov_kg2[k]![k]!, contents: ends, limit_kg };
    const found = worstEnds(all);
    const full = contents
      .filter((_, j) => found.ends[j] === 1)
      .map((part) => part.id.split(":")[0] as string);
    const { value_kg, u_kg } = found;
    return [{ verdict: verdict({ rating, value_kg, u_kg, limit_kg, confidence }), full }];
  });
}

/** What one content adds to each row; the moment of a levelling hitch counts once and not per content. */
function heldBy(content: Part, rows: readonly string[], geometry: Geometry): Loads {
  const { trailer = null } = geometry;
  const slack = { ...geometry, trailer: trailer && { ...trailer, hitch_moment_kgm: 0 } };
  return loads({ parts: [content], geometry: slack, rows });
}
