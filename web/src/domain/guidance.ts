/** Which further reading would settle a doubt, said before the vehicle rolls off. */
import type { Book } from "./book";
import { type Comparison, compare } from "./comparison";
import type { Judged } from "./judge";
import { type Learning, learn, teaches, type WeighedDay, weighedDays } from "./learning";
import { CONFIDENCE } from "./limits";
import { nextByPlan, nextByReadings, type Prospect, settleChance, WORTH_OFFERING } from "./next_reading";
import { baseCorrelationOf, geometryOf, lastingOf, planned } from "./plan";
import { type Slip, slips, toRepeat } from "./slips";
import type { Loads } from "./statics";
import { beside, type Visit } from "./visit";
import type { Reading } from "./weighing";

/** So many u, and such a share, off the plan: look at the figure again (our choice). */
export const FAR_SD = 6;
export const FAR_SHARE = 0.15;
export const SOLO: readonly (readonly string[])[] = [["front"], ["front", "rear"], ["rear"]];
export const TOWING: readonly (readonly string[])[] = [
  ["front"],
  ["front", "rear"],
  ["front", "rear", "trailer_axles"],
  ["trailer_axles"],
  ["rear"],
];
/** Stops with the trailer uncoupled. */
export const APART: readonly (readonly string[])[] = [["front", "rear"], ["trailer"]];

/** A stop not yet made: for which row, and the chance that it settles it; null where the row is not weighed yet. */
export interface NextStop {
  readonly axles: readonly string[];
  readonly uncoupled: boolean;
  readonly row: string;
  readonly chance: number | null;
}

/** Rows in doubt and the stops that could settle them; where readings disagree, which to repeat and what may have slipped. */
export interface Guidance {
  readonly doubtful: readonly string[];
  readonly stops: readonly NextStop[];
  readonly repeat_id: string | null;
  readonly slips: readonly Slip[];
  /** Rows so far from the plan that a figure is more likely mistyped than the plan wrong. */
  readonly far: readonly string[];
}

export interface Guide {
  readonly book: Book;
  readonly weighing_id: string;
  readonly confidence?: number | null;
  readonly known?: readonly WeighedDay[];
}

/** `guidance` for one weighing of a book, at the vehicle's confidence unless given; an unknown one is refused. */
export function guide({ book, weighing_id, confidence = null, known = [] }: Guide): Guidance {
  const days = weighedDays({ book, known });
  const learning = planned({ book }) ? learn({ book, days }) : null;
  const found = compare({ book, weighing_id, confidence, known: days, learning });
  const level: number = confidence || book.vehicle?.body.confidence || CONFIDENCE;
  return guidance({ book, found, days, learning, confidence: level });
}

export interface GuidanceFor {
  readonly book: Book;
  readonly found: Comparison;
  readonly days: readonly WeighedDay[];
  readonly learning: Learning | null;
  readonly confidence: number;
}

/** What to read next on the visit of a comparison, before it rolls off. */
export function guidance(given: GuidanceFor): Guidance {
  const { found, days } = given;
  const { visit } = found;
  if (visit.readings.length === 0) return { doubtful: [], stops: [], repeat_id: null, slips: [], far: [] };
  if (!visit.agree)
    return disagreeing(visit, days.find((one) => one.visit.id === visit.id)?.expected ?? null);
  const doubtful = found.day.filter(inDoubt);
  const candidates = notMade(visit);
  const stops = doubtful.flatMap((one) =>
    prospects(one, candidates, given).flatMap(({ id, chance }): NextStop[] => {
      const candidate = candidates.find((reading) => reading.id === id);
      if (!candidate || (chance !== null && chance < WORTH_OFFERING)) return [];
      const { axles, uncoupled = false } = candidate;
      return [{ axles, uncoupled, row: one.verdict.rating, chance }];
    }),
  );
  stops.sort(
    (a, b) =>
      Number(a.chance !== null) - Number(b.chance !== null) ||
      (b.chance ?? 0) - (a.chance ?? 0) ||
      a.axles.length - b.axles.length,
  );
  const far = found.gaps
    .filter(
      ({ gap_kg, gap_u_kg, planned_kg }) =>
        Math.abs(gap_kg) > Math.max(FAR_SD * gap_u_kg, FAR_SHARE * Math.abs(planned_kg)),
    )
    .map((gap) => gap.row);
  return { doubtful: doubtful.map((one) => one.verdict.rating), stops, repeat_id: null, slips: [], far };
}

function disagreeing(visit: Visit, planned: Loads | null): Guidance {
  const { taken: readings, bridge, setup, deck, typed } = visit;
  const repeat_id = toRepeat({ readings, bridge, setup, deck, planned });
  return {
    doubtful: [],
    stops: [],
    repeat_id,
    far: [],
    slips: slips({ readings, bridge, setup, deck, typed }),
  };
}

/** A known rating that cannot be told; the roof is never on a deck. */
function inDoubt({ verdict }: Judged): boolean {
  return verdict.limit_kg !== null && verdict.word === "cannot_tell" && verdict.rating !== "roof";
}

/** The stops of the usual order that this visit has not had; the value only sizes the scale's error. */
function notMade(visit: Visit): Reading[] {
  const towed = visit.trailer_id !== null;
  const key = (axles: readonly string[], apart: boolean) =>
    `${[...axles].sort().join("+")}${apart ? "-" : ""}`;
  const whole = visit.readings.filter((one) => !one.without?.length);
  const made = new Set(whole.map((one) => key(one.axles, one.uncoupled ?? false)));
  const single = visit.readings.every((one) => !one.deck);
  const stops = [
    ...(towed ? TOWING : SOLO).map((axles) => ({ axles, apart: false })),
    ...(towed ? APART : []).map((axles) => ({ axles, apart: true })),
  ];
  return stops
    .filter(({ axles, apart }) => !made.has(key(axles, apart)))
    .map(({ axles, apart }) => ({
      id: `${axles.join("+")}${apart ? "-" : ""}`,
      axles,
      value_kg: (visit.setup.total_kg * axles.length) / 2,
      split: single && beside({ axles }),
      uncoupled: apart,
    }));
}

function prospects(judged: Judged, candidates: readonly Reading[], given: GuidanceFor): Prospect[] {
  const { book, found, days, learning, confidence } = given;
  const { value_kg, u_kg, rating: row } = judged.verdict;
  const { readings, bridge, setup, deck } = found.visit;
  const limit_kg = judged.verdict.limit_kg ?? 0;
  const byReadings = nextByReadings({ readings, bridge, setup, deck, candidates, row, limit_kg, confidence });
  if (judged.source !== "plan") return byReadings;
  const fixing = byReadings.map((one) => {
    const after_u_kg = Math.min(one.after_u_kg, u_kg);
    const chance = settleChance({ limit_kg, value_kg, before_u_kg: u_kg, after_u_kg, confidence });
    return { ...one, before_u_kg: u_kg, chance };
  });
  const others = candidates.filter((one) => !fixing.some((fixed) => fixed.id === one.id));
  const day = days.find((one) => one.visit.id === found.weighing_id);
  if (!learning || !day?.session || !teaches(day) || others.length === 0) return fixing;
  const byPlan = nextByPlan({
    lasting: lastingOf({ book }),
    geometry: geometryOf({ book }),
    sessions: days.filter(teaches).flatMap((one) => one.session ?? []),
    session_id: found.weighing_id,
    candidates: others,
    row,
    limit_kg,
    confidence,
    unlisted: learning.unlisted,
    base_correlation: baseCorrelationOf({ book }),
  });
  return [...fixing, ...byPlan];
}
