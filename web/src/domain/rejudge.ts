/** What has been judged, judged again under other ratings: the what-if of a planned plate. */
import type { Judged } from "./judge";
import { CONFIDENCE, verdict } from "./limits";
import type { Rating } from "./plates";

export interface Rejudge {
  readonly judged: readonly Judged[];
  readonly ratings: readonly Rating[];
  readonly confidence?: number;
}

/** The same values with the same u against `ratings`; only limit, margin, chance and word may differ. */
export function rejudged({ judged, ratings, confidence = CONFIDENCE }: Rejudge): Judged[] {
  const limits = new Map(ratings.map((one) => [one.rating, one.limit_kg]));
  return judged.map((one) => {
    const limit_kg = limits.get(one.verdict.rating);
    return limit_kg === undefined ? one : again(one, limit_kg, confidence);
  });
}

function again(judged: Judged, limit_kg: number | null, confidence: number): Judged {
  const { rating, value_kg, u_kg } = judged.verdict;
  if (judged.source === "none") return { ...judged, verdict: { ...judged.verdict, limit_kg } };
  const found = verdict({ rating, value_kg, u_kg, limit_kg, confidence });
  const open = judged.why !== null && limit_kg !== null;
  return { ...judged, verdict: open ? { ...found, word: "cannot_tell" } : found };
}
