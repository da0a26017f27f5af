/** What a water log answers: litres, days that can be counted on, and days of drink alone. */
import { type Bank, bankAdvance, bankState, bankTotal, type Value } from "./bank";
import { lowerBanks, planWay } from "./journal";
import { quantile } from "./normal";
import {
  CLASS,
  DRINKING_RATE,
  daysAt,
  EARLY,
  floorDays,
  peopleAt,
  personDays,
  uncountedWater,
} from "./water";
import type { WaterLog } from "./water_log";

/** u of a can or reserve that only its entries tell of, as a share of it (assumed). */
export const APART_U = 0.05;

/** Litres left (shown from empty to full), and days; they are null while nobody is aboard. */
export interface Days {
  readonly litres: Value;
  readonly count_on_days: number | null;
  readonly likely_days: number | null;
  readonly floor_days: number | null;
}

/** One tank: litres with u, and whether they may be drunk. What is counted apart has u 0. */
export interface TankWater {
  readonly tank_id: string;
  readonly litres: Value;
  readonly drinkable: string;
}

/** `stands` is the lower of `counted` and `other`; `drinkable` the same of the drawn tanks known to be drinkable. */
export interface WaterAnswer {
  readonly stands: Days;
  readonly counted: Days;
  readonly other: Days | null;
  readonly drinkable: Days;
  readonly drinkable_word: string;
  readonly tanks: readonly TankWater[];
  readonly people: number;
  readonly rate: Value;
  readonly reserve_l: number;
  readonly readings: number;
  readonly early: boolean;
}

/** If nothing more comes: litres known to be drinkable, of all tanks and cans, and the days that they last. */
export interface Survival {
  readonly litres: Value;
  /** What there is at least, one-sided. */
  readonly least_l: number;
  /** The part of the mean in cans and reserves. */
  readonly apart_l: number;
  /** In tanks that are not known to be drinkable. */
  readonly doubtful_l: number;
  readonly people: number;
  readonly rate_l: number;
  readonly days: number | null;
}

export interface AskWater {
  readonly log: WaterLog;
  readonly now_s: number;
  readonly people?: number | null;
  readonly p?: number;
  readonly reserve_l?: number | null;
}

/** The answer at an instant, for `people` by their shares (default: those aboard). */
export function waterAnswer({
  log,
  now_s,
  people: given = null,
  p = 0.95,
  reserve_l,
}: AskWater): WaterAnswer {
  const people = peopleOf(log, now_s, given);
  const reserve = reserve_l ?? log.setup.reserve_l ?? uncountedWater(log.setup);
  const banks = waterBanks({ log, now_s });
  const days = banks.map((bank) => daysOf(bank, people, p, reserve));
  const fit = banks.map((bank) => daysOf(drinkableOnly(log, bank), people, p, reserve));
  const used = log.journal.outcomes.filter((one) => one.held === null);
  const readings = sum(used.map((one) => one.readings.length));
  return {
    stands: lowerDays({ days }),
    counted: days[0]!,
    other: days.length > 1 ? lowerDays({ days: days.slice(1) }) : null,
    drinkable: lowerDays({ days: fit }),
    drinkable_word: wordOf(log, banks[0]!),
    tanks: tanksOf(log, banks[0]!),
    people,
    rate: bankState({ bank: banks[0]! }).at(-1)!,
    reserve_l: reserve,
    readings,
    early: readings < EARLY,
  };
}

export interface WaterBanks {
  readonly log: WaterLog;
  readonly now_s: number;
}

/** The banks whose lower answer stands, brought from the last entry to an instant by who was aboard. */
export function waterBanks({ log, now_s }: WaterBanks): Bank[] {
  const from_s = log.until_s ?? now_s;
  const { presences } = log.setup;
  const amount = personDays({ presences, from_s, until_s: Math.max(now_s, from_s) });
  return lowerBanks({ state: log.journal.state }).map((bank) => moved(bank, amount));
}

export interface AskSurvival {
  readonly log: WaterLog;
  readonly now_s: number;
  readonly people?: number | null;
  readonly rate_l?: number;
  readonly p?: number;
}

/** What is left to drink if we stay here, with the reserves that are otherwise never planned to be drunk. */
export function survival(asked: AskSurvival): Survival {
  const { log, rate_l = DRINKING_RATE, p = 0.95 } = asked;
  const people = peopleOf(log, asked.now_s, asked.people ?? null);
  const good = new Set(log.qualities.flatMap((one) => (one.drinkable === "yes" ? [one.tank_id] : [])));
  const apart = (is: boolean) =>
    sum(log.apart.flatMap((one) => (good.has(one.tank_id) === is ? [one.litres_l] : [])));
  const apart_l = apart(true);
  const found = waterBanks({ log, now_s: asked.now_s }).map((now) => {
    const total = bankTotal({ bank: drinkableOnly(log, now) });
    const kept = Math.max(total.mean, 0);
    const [mean, u] = [kept + apart_l, Math.hypot(total.u, APART_U * apart_l)];
    const least_l = Math.max(mean - quantile(p) * u, 0);
    return { litres: { mean, u }, least_l, doubtful: Math.max(bankTotal({ bank: now }).mean - kept, 0) };
  });
  const { doubtful, ...lowest } = found.reduce((low, one) => (one.least_l < low.least_l ? one : low));
  const days = floorDays({ litres_l: lowest.least_l, people, rate_l });
  return { ...lowest, apart_l, doubtful_l: doubtful + apart(false), people, rate_l, days };
}

/** The lower of each figure; null stays null, since then nobody is aboard in any of them. */
export function lowerDays({ days }: { readonly days: readonly Days[] }): Days {
  return days.reduce((low, one) => ({
    litres: one.litres.mean < low.litres.mean ? one.litres : low.litres,
    count_on_days: least(low.count_on_days, one.count_on_days),
    likely_days: least(low.likely_days, one.likely_days),
    floor_days: least(low.floor_days, one.floor_days),
  }));
}

/** Who is asked about: by default all who are aboard, at the instant of the last entry at the earliest. */
function peopleOf(log: WaterLog, now_s: number, people: number | null): number {
  return people ?? peopleAt({ presences: log.setup.presences, at_s: Math.max(now_s, log.until_s ?? now_s) });
}

function moved(bank: Bank, amount: number): Bank {
  const uses = planWay({ bank, way: [{ class_id: CLASS, amount }] });
  return uses.reduce((now, event) => bankAdvance({ bank: now, event }), bank);
}

function daysOf(bank: Bank, people: number, p: number, reserve_l: number): Days {
  const total = bankTotal({ bank });
  const litres = { mean: Math.min(Math.max(total.mean, 0), sum(bank.model.capacity_l)), u: total.u };
  return {
    litres,
    count_on_days: daysAt({ bank, people, p, reserve_l }),
    likely_days: daysAt({ bank, people, p: 0.5, reserve_l }),
    floor_days: floorDays({ litres_l: litres.mean, people, reserve_l }),
  };
}

/** The bank as if every drawn tank that is not known to be drinkable were poured away. */
function drinkableOnly(log: WaterLog, bank: Bank): Bank {
  const drinkable = new Set(log.qualities.filter((one) => one.drinkable === "yes").map((one) => one.tank_id));
  return log.model.tank_ids
    .filter((tank_id) => !drinkable.has(tank_id))
    .reduce(
      (now, tank_id) => bankAdvance({ bank: now, event: { kind: "pour", tank_id, into_id: null } }),
      bank,
    );
}

function tanksOf(log: WaterLog, bank: Bank): TankWater[] {
  const words = new Map(log.qualities.map((one) => [one.tank_id, one.drinkable]));
  const state = bankState({ bank });
  const drawn = log.model.tank_ids.map((tank_id, t) => {
    const { mean, u } = state[t]!;
    const litres = { mean: Math.min(Math.max(mean, 0), log.model.capacity_l[t]!), u };
    return { tank_id, litres, drinkable: words.get(tank_id)! };
  });
  const apart = log.apart.map(({ tank_id, litres_l }) => ({
    tank_id,
    litres: { mean: litres_l, u: 0 },
    drinkable: words.get(tank_id)!,
  }));
  return [...drawn, ...apart];
}

function wordOf(log: WaterLog, bank: Bank): string {
  const drawn = tanksOf(log, bank).slice(0, log.model.tank_ids.length);
  const holding = drawn.filter((one) => one.litres.mean > 0).map((one) => one.drinkable);
  if (holding.length === 0) return "unknown";
  return ["no", "unknown"].find((word) => holding.includes(word)) ?? "yes";
}

function least(one: number | null, other: number | null): number | null {
  return one === null || other === null ? null : Math.min(one, other);
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
