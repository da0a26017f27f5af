/** What a distance costs: money over true distance from full tank to full tank, each currency for itself. */
import { checkRange } from "./errors";
import type { WholeLog } from "./fuel_log";

/** What one stop cost in all. */
export interface Paid {
  readonly amount: number;
  readonly currency: string;
}

/** Over all segments that are wholly paid in one currency: money, true km, money per 100 true km. */
export interface Cost {
  readonly currency: string;
  readonly amount: number;
  readonly distance_km: number;
  readonly per_100km: number;
}

export interface CostPerDistance {
  readonly log: WholeLog;
  readonly fill_ids: readonly string[];
  readonly paid: Readonly<Record<string, Paid>>;
}

/** Ratio of sums over the log's segments, by currency; a segment counts where all of its fills have one currency. */
export function costPerDistance({ log, fill_ids, paid }: CostPerDistance): Cost[] {
  for (const one of Object.values(paid)) checkRange("amount", one.amount, { low: 0 });
  const place = new Map(log.journal.steps.map((step, n) => [step.entry_id, n]));
  const fills = fill_ids.filter((id) => place.has(id));
  const sums = new Map<string, { amount: number; distance_km: number }>();
  for (const { from_id, to_id, distance_km } of log.segments) {
    const [first, last] = [place.get(from_id)!, place.get(to_id)!];
    const within = fills.filter((id) => first < place.get(id)! && place.get(id)! <= last);
    const prices = within.map((id) => paid[id] ?? null);
    const currency = prices[0]?.currency;
    if (currency === undefined || prices.some((one) => one?.currency !== currency)) continue;
    const before = sums.get(currency) ?? { amount: 0, distance_km: 0 };
    const amount = prices.reduce((sum, one) => sum + (one?.amount ?? 0), before.amount);
    sums.set(currency, { amount, distance_km: before.distance_km + distance_km });
  }
  return [...sums.entries()]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([currency, sum]) => ({ currency, ...sum, per_100km: (100 * sum.amount) / sum.distance_km }));
}
