/** What a fuel log answers: how far on what is left, and what that rests on. */
import { type Bank, bankAdvance, bankState, bankTotal, type Value } from "./bank";
import { checkRange } from "./errors";
import { usualReserve } from "./fuel";
import { accuracyOf, type FuelLog } from "./fuel_log";
import { pooled, type Segment } from "./fullfull";
import { lowerBanks, type Part, planWay } from "./journal";
import { type Counting, LIMIT, type Mix, rangeAt, reach } from "./remain";

/** Litres left (shown from empty to full), the two ranges, and the chance of a typed distance. */
export interface Ranges {
  readonly litres: Value;
  readonly count_on_km: number;
  readonly likely_km: number;
  readonly reach: number | null;
}

/** Consumption of one class, L per 100 true km with its u, and the way and full tanks that it rests on. */
export interface Rate {
  readonly class_id: string;
  readonly l_per_100km: number;
  readonly u: number;
  readonly way_km: number;
  readonly full_tanks: number;
}

/** `stands` is the lower of `counted` (held entries left out) and `other` (as typed; null where nothing is held). */
export interface FuelAnswer {
  readonly stands: Ranges;
  readonly counted: Ranges;
  readonly other: Ranges | null;
  readonly since_full: Segment | null;
  readonly pooled: Value | null;
  readonly rates: readonly Rate[];
  readonly mix: Mix;
  readonly reserve_l: number;
  readonly readings: number;
}

export interface AskFuel {
  readonly log: FuelLog;
  readonly mix?: Mix | null;
  readonly p?: number;
  readonly distance_km?: number | null;
  readonly odometer_km?: number | null;
  readonly reserve_l?: number | null;
}

/** The answer for a mix of classes ahead; by default that of the last entry. */
export function fuelAnswer(asked: AskFuel): FuelAnswer {
  const { log, p = 0.95, distance_km = null, odometer_km = null } = asked;
  const mix = asked.mix ?? log.mix;
  const { factor, factor_u } = log.setup;
  const reserve_l = asked.reserve_l ?? log.setup.reserve_l ?? usualReserve({ tanks: log.setup.tanks });
  const counting = { factor, factor_u, reserve_l };
  const way = waySince(log, mix, odometer_km);
  const banks = lowerBanks({ state: log.journal.state }).map((bank) => moved(bank, way));
  const counted = rangesOf(banks.slice(0, 1), mix, p, distance_km, counting);
  const other = banks.length > 1 ? rangesOf(banks.slice(1), mix, p, distance_km, counting) : null;
  const used = log.journal.outcomes.filter((one) => one.held === null);
  return {
    stands: lower({ ranges: other ? [counted, other] : [counted] }),
    ...{ counted, other },
    since_full: log.since_full === undefined ? (log.segments.at(-1) ?? null) : log.since_full,
    get pooled() {
      return pooled({ segments: log.segments, accuracy: accuracyOf({ setup: log.setup }) });
    },
    rates: ratesOf(log),
    mix,
    reserve_l,
    readings: used.reduce((sum, one) => sum + one.readings.length, log.rest?.readings ?? 0),
  };
}

/** The lower of each figure. */
export function lower({ ranges }: { readonly ranges: readonly Ranges[] }): Ranges {
  return ranges.reduce((low, one) => ({
    litres: one.litres.mean < low.litres.mean ? one.litres : low.litres,
    count_on_km: Math.min(low.count_on_km, one.count_on_km),
    likely_km: Math.min(low.likely_km, one.likely_km),
    reach: low.reach === null || one.reach === null ? null : Math.min(low.reach, one.reach),
  }));
}

function waySince(log: FuelLog, mix: Mix, odometer_km: number | null): Part[] {
  if (odometer_km === null || log.odometer_km === null) return [];
  checkRange("odometer_km", odometer_km, { low: log.odometer_km, unit: "km" });
  const amount = odometer_km - log.odometer_km;
  const parts = Object.entries(mix).map(([class_id, share]) => ({ class_id, amount: share * amount }));
  return parts.filter((part) => part.amount > 0);
}

function moved(bank: Bank, way: readonly Part[]): Bank {
  return planWay({ bank, way }).reduce((now, event) => bankAdvance({ bank: now, event }), bank);
}

/** The lower of each figure over some banks. */
function rangesOf(
  banks: readonly Bank[],
  mix: Mix,
  p: number,
  distance_km: number | null,
  counting: Counting,
): Ranges {
  const totals = banks.map((bank) => bankTotal({ bank }));
  const total = totals.reduce((least, one) => (one.mean < least.mean ? one : least));
  const most = banks[0]!.model.capacity_l.reduce((sum, capacity) => sum + capacity, 0);
  const chance = (bank: Bank, amount: number) => reach({ bank, mix, amount, counting });
  const lowest = (at: number) => {
    let found = LIMIT;
    // what reaches as far as the lowest so far need not be searched
    for (const bank of banks)
      if (found >= LIMIT || chance(bank, found) < at)
        found = Math.min(found, rangeAt({ bank, mix, p: at, counting }));
    return found;
  };
  return {
    litres: { mean: Math.min(Math.max(total.mean, 0), most), u: total.u },
    count_on_km: lowest(p),
    likely_km: lowest(0.5),
    reach: distance_km === null ? null : Math.min(...banks.map((bank) => chance(bank, distance_km))),
  };
}

/** b/k per class, with the u of k. */
function ratesOf(log: FuelLog): Rate[] {
  const state = bankState({ bank: log.journal.state.main.bank }).slice(log.model.tank_ids.length);
  const { factor, factor_u } = log.setup;
  return log.model.class_ids.map((class_id, i) => {
    const { mean, u } = state[i]!;
    return {
      class_id,
      l_per_100km: mean / factor,
      u: Math.sqrt(u ** 2 + ((mean * factor_u) / factor) ** 2) / factor,
      way_km: log.ways_km[class_id] ?? 0,
      full_tanks: log.full_tanks[class_id] ?? 0,
    };
  });
}
