/** Which further reading would settle a doubt; how sure it makes a load does not depend on its value. */
import type { Geometry } from "./axles";
import { type Bridge, canWeigh } from "./bridge";
import { type Deck, type ReadDeck, readDeck } from "./deck";
import { checkFinite, checkRange, Unknown } from "./errors";
import { cdf, zAt } from "./normal";
import { reconcile, type Session } from "./reconcile";
import type { Part } from "./statics";
import type { Reading, SplitSetup } from "./weighing";

export const NO_HELP = 1e-6; // a fall of the sd by less than this share is rounding
export const WORTH_OFFERING = 0.2; // below this chance say that no further reading here will settle it (our choice)

/** A reading not yet taken; `chance` is null where the load is not fixed without it. */
export interface Prospect {
  readonly id: string;
  readonly before_u_kg: number | null;
  readonly after_u_kg: number;
  readonly chance: number | null;
}

export interface Settle {
  readonly limit_kg: number;
  readonly value_kg: number;
  readonly before_u_kg: number;
  readonly after_u_kg: number;
  readonly confidence?: number;
}

/** Chance that a verdict is under or over once u has fallen from s0 to s1; 0 where it does not fall. */
export function settleChance(given: Settle): number {
  const { limit_kg, value_kg, confidence = 0.95 } = given;
  checkFinite("limit_kg", limit_kg);
  checkFinite("value_kg", value_kg);
  const before = checkRange("before_u_kg", given.before_u_kg, { low: 0, unit: "kg" });
  const after = checkRange("after_u_kg", given.after_u_kg, { low: 0, unit: "kg" });
  const reach = zAt(confidence) * after;
  const moved = Math.sqrt(Math.max((before - after) * (before + after), 0));
  if (moved <= NO_HELP * before) return 0;
  const margin = limit_kg - value_kg;
  return cdf((margin - reach) / moved) + cdf((-margin - reach) / moved);
}

export interface NextByPlan {
  readonly lasting: readonly Part[];
  readonly geometry: Geometry;
  readonly sessions: readonly Session[];
  readonly session_id: string;
  readonly candidates: readonly Reading[];
  readonly row: string;
  readonly limit_kg: number;
  readonly confidence?: number;
  readonly unlisted?: readonly Part[];
  readonly base_correlation?: number;
}

/** Further readings of one session that its scale reaches, the most promising first, by the reconciled plan. */
export function nextByPlan(given: NextByPlan): Prospect[] {
  const { lasting, geometry, sessions, session_id, candidates, row, limit_kg, confidence = 0.95 } = given;
  const { unlisted = [], base_correlation = 0 } = given;
  const session = sessions.find((one) => one.id === session_id);
  if (!session)
    throw new Unknown(
      "session_id",
      session_id,
      sessions.map((one) => one.id),
    );
  const others = sessions.filter((one) => one !== session);
  const trailer = (session.geometry ?? geometry).trailer ?? null;
  const here = unlisted.filter((one) => (one.on ?? "vehicle") === "vehicle" || one.on === trailer?.id);
  const stacked = (more: readonly Reading[], rows: readonly string[]): [number, number] => {
    const now = { ...session, readings: [...session.readings, ...more] };
    const posterior = reconcile({
      lasting,
      geometry,
      sessions: [...others, now],
      unlisted,
      base_correlation,
    });
    const found = posterior.loads({
      lasting: [...session.lasting, ...here],
      passing: session.passing,
      rows,
      geometry: session.geometry ?? null,
      session: now.readings.length > 0 ? session.id : null,
    });
    const variance = found.cov_kg2.reduce((sum, line) => line.reduce((total, one) => total + one, sum), 0);
    return [found.mean_kg.reduce((sum, one) => sum + one, 0), Math.sqrt(Math.max(variance, 0))];
  };
  const [value_kg, before] = stacked([], [row]);
  const apart = trailer ? stacked([], ["coupling"])[0] : 0;
  const out = candidates.flatMap((one) => {
    const predicted = Math.max(stacked([], one.axles)[0] - (one.uncoupled ? apart : 0), 0);
    if (!canWeigh({ bridge: session.bridge, value_kg: predicted })) return [];
    const [, after] = stacked([{ ...one, value_kg: predicted }], [row]);
    return prospect(one.id, { limit_kg, value_kg, before_u_kg: before, after_u_kg: after, confidence });
  });
  return bestFirst(out);
}

export interface NextByReadings {
  readonly readings: readonly Reading[];
  readonly bridge: Bridge;
  readonly setup?: SplitSetup | null;
  readonly deck: Deck;
  readonly candidates: readonly Reading[];
  readonly row: string;
  readonly limit_kg: number;
  readonly confidence?: number;
}

/** Further readings that the scale reaches, the most promising first, where a row rests on the readings alone. */
export function nextByReadings(given: NextByReadings): Prospect[] {
  const { readings, bridge, setup = null, deck, candidates, row, limit_kg, confidence = 0.95 } = given;
  const fix = (taken: readonly Reading[]) => fixed({ readings: taken, bridge, setup, deck }, row);
  const now = fix(readings);
  const out: Prospect[] = [];
  for (const one of candidates) {
    if (!canWeigh({ bridge, value_kg: one.value_kg })) continue;
    const after = fix([...readings, one]);
    if (after === null) continue;
    if (now === null) out.push({ id: one.id, before_u_kg: null, after_u_kg: after[1], chance: null });
    else {
      const [value_kg, before_u_kg] = now;
      out.push(prospect(one.id, { limit_kg, value_kg, before_u_kg, after_u_kg: after[1], confidence }));
    }
  }
  return bestFirst(out);
}

function fixed(given: ReadDeck, row: string): [number, number] | null {
  const found = readDeck(given);
  const k = found?.rows.indexOf(row) ?? -1;
  return found && k >= 0 ? [found.mean_kg[k]!, Math.sqrt(found.cov_kg2[k]![k]!)] : null;
}

function prospect(id: string, settle: Settle): Prospect {
  const after_u_kg = Math.min(settle.after_u_kg, settle.before_u_kg);
  return { id, before_u_kg: settle.before_u_kg, after_u_kg, chance: settleChance({ ...settle, after_u_kg }) };
}

/** By chance; what fixes an open load stands before all, the surest of them first. */
function bestFirst(prospects: readonly Prospect[]): Prospect[] {
  return [...prospects].sort(
    (a, b) =>
      Number(a.chance !== null) - Number(b.chance !== null) ||
      (b.chance ?? 0) - (a.chance ?? 0) ||
      a.after_u_kg - b.after_u_kg,
  );
}
