/** Fuel and water on the device: the domain's estimators over an opened book. */
import type { Book, Row } from "@/domain/book";
import { entryEffect } from "@/domain/effect";
import { classOf, WITH_TRAILER } from "@/domain/fuel";
import { type FuelAnswer as Answer, fuelAnswer } from "@/domain/fuel_answer";
import type { FuelLog } from "@/domain/fuel_log";
import { CONFIDENCE } from "@/domain/limits";
import { fuelEntries, seconds } from "@/domain/log_rows";
import type { Finding } from "@/domain/placing";
import type { Mix } from "@/domain/remain";
import type { TankLevel } from "@/domain/state";
import {
  fuelLogOf,
  levelsAt as levels,
  presences,
  SURFACES_AHEAD,
  waterLogOf,
  waterShare,
} from "@/domain/supplies";
import { DRINKING, floorDays } from "@/domain/water";
import { type Survival, survival, type WaterAnswer as Water, waterAnswer } from "@/domain/water_answer";

export type { Finding };
export type SurfaceAhead = "sealed" | "gravel" | "sand";

/** How far, on one surface ahead, and what that rests on. Rates are per 100 true km. */
export interface FuelAnswer {
  readonly surface: SurfaceAhead;
  readonly towing: boolean;
  /** One-sided, of the count-on range. */
  readonly confidence: number;
  readonly count_on_km: number;
  readonly likely_km: number;
  readonly litres: number;
  readonly litres_u: number;
  readonly reserve_l: number;
  readonly since_full: { readonly l_per_100km: number; readonly u: number } | null;
  readonly rates: readonly {
    readonly surface: SurfaceAhead;
    readonly towing: boolean;
    readonly l_per_100km: number;
    readonly u: number;
    readonly full_tanks: number;
    readonly way_km: number;
  }[];
  readonly findings: readonly Finding[];
  /** What the latest entry changed of the count-on range, if it came late. */
  readonly late: { readonly entry_id: string; readonly before_km: number; readonly after_km: number } | null;
}

/** For how many days, and what that rests on; the days are null while nobody is aboard. */
export interface WaterAnswer {
  readonly count_on_days: number | null;
  readonly likely_days: number | null;
  readonly floor_days: number | null;
  /** The same on what is known to be drinkable alone. */
  readonly drinkable_days: number | null;
  /** Days of drink alone, of what is known to be drinkable, by heat and work. */
  readonly drink_days: Readonly<Record<Heat, number | null>>;
  /** Each tank; what is kept apart is in none of the figures above. */
  readonly tanks: readonly {
    readonly tank_id: string;
    readonly litres: number;
    readonly litres_u: number;
    readonly drinkable: WaterAnswer["drinkable"];
    readonly apart: boolean;
  }[];
  readonly litres: number;
  readonly litres_u: number;
  readonly drinkable: "yes" | "no" | "unknown";
  readonly people: number;
  readonly l_per_person_day: number;
  readonly rate_u: number;
  readonly readings: number;
  readonly reserve_l: number;
  readonly findings: readonly Finding[];
}

/** How hot it is and how hard the work, for drinking. */
export type Heat = keyof typeof DRINKING;

function drinkDays({ drinkable, people, reserve_l }: Water): WaterAnswer["drink_days"] {
  const litres_l = drinkable.litres.mean;
  const days = (rate_l: number) => floorDays({ litres_l, people, reserve_l, rate_l });
  const { rest, road, active, work } = DRINKING;
  return { rest: days(rest), road: days(road), active: days(active), work: days(work) };
}

/** Litres of drink a person and day, by heat and work. */
export const drinkRates: Readonly<Record<Heat, number>> = DRINKING;

/** A person or an animal, its share of an adult's water, and whether it is aboard. */
export interface Drinker {
  readonly id: string;
  readonly name: string;
  readonly share: number;
  readonly aboard: boolean;
}

export function drinkersAt(book: Book, now: string): Drinker[] {
  const at_s = seconds(now);
  return book.people.map((person) => {
    const alone = presences({ book: { ...book, people: [person] }, from_s: at_s });
    const aboard = alone.some((one) => one.from_s <= at_s && (one.until_s == null || at_s < one.until_s));
    return { id: person.id, name: person.body.name, share: waterShare({ person: person.body }), aboard };
  });
}

/** If nothing more comes: what may be drunk and for how long; null without a tank that water is drawn from. */
export function survivalAt(book: Book, now: string): Survival | null {
  const log = waterLogOf({ book, until: now });
  return log && survival({ log, now_s: seconds(now), p: confidenceOf(book) });
}

export type { Survival };

export function levelsAt(book: Book, at: string): TankLevel[] {
  return levels({ book, at, previous: logOf(book) });
}

/** The answer as it would be with one more fill, before it is saved; null where it would not count. */
export function fuelWith(saved: Book, body: Row["body"]): FuelAnswer | null {
  const order = Math.max(0, ...saved.fills.map((row) => row.order ?? 0)) + 1;
  const row = { id: "new", kind: "fill", rev: "", order, body };
  const book = { ...saved, fills: [...saved.fills, row] };
  const log = fuelLogOf({ book, previous: logOf(saved) });
  if (!log || log.findings.some((one) => one.entry_id === row.id && one.standing !== "noted")) return null;
  logs.set(book, log);
  return fuel(book);
}

/** The way ahead that is asked about; what is left out is as most of the last way was. */
export interface Ahead {
  readonly surface?: SurfaceAhead;
  readonly towing?: boolean;
}

/** The fuel answer on the way ahead. Null before the first entry. */
export function fuel(book: Book, ahead: Ahead = {}): FuelAnswer | null {
  const kept = logs.has(book) ? undefined : recalled.get(book);
  if (kept && isOf(kept, ahead)) return kept;
  const log = logOf(book);
  if (!log || log.journal.steps.length === 0) return null;
  const { surface, towing, mix } = aheadOf(log, ahead);
  const confidence = confidenceOf(book);
  const found = fuelAnswer({ log, mix, p: confidence });
  return {
    ...{ surface, towing, confidence },
    count_on_km: found.stands.count_on_km,
    likely_km: found.stands.likely_km,
    litres: found.stands.litres.mean,
    litres_u: found.stands.litres.u,
    reserve_l: found.reserve_l,
    since_full: found.since_full,
    rates: ratesOf(found),
    findings: log.findings.filter((one) => one.standing !== "noted"),
    late: lateOf(book, log, mix),
  };
}

/** Probability of reaching a true distance on one surface. */
export function reach(book: Book, distance_km: number, ahead: Ahead): number | null {
  const log = logOf(book);
  return log ? fuelAnswer({ log, mix: aheadOf(log, ahead).mix, distance_km }).stands.reach : null;
}

function aheadOf(log: FuelLog, asked: Ahead) {
  const surface = asked.surface ?? mostOf(log);
  const towing = asked.towing ?? Object.keys(log.mix).some((name) => name.endsWith(WITH_TRAILER));
  return { surface, towing, mix: { [classOf({ surface, towing })]: 1 } };
}

/** One-sided, of verdicts, ranges and days alike. */
function confidenceOf(book: Book): number {
  return book.vehicle?.body.confidence ?? CONFIDENCE;
}

/** The water answer at an instant; null without a tank or before the first entry. */
export function water(book: Book, now: string): WaterAnswer | null {
  const log = waterLogOf({ book, until: now });
  if (!log || log.journal.steps.length === 0) return null;
  const now_s = seconds(now);
  const found = waterAnswer({ log, now_s, p: confidenceOf(book) });
  const { count_on_days, likely_days, floor_days, litres } = found.stands;
  return {
    ...{ count_on_days, likely_days, floor_days },
    drinkable_days: found.drinkable.count_on_days,
    drink_days: drinkDays(found),
    tanks: found.tanks.map(({ tank_id, litres: { mean, u }, drinkable }) => ({
      ...{ tank_id, litres: mean, litres_u: u },
      drinkable: drinkable as WaterAnswer["drinkable"],
      apart: log.apart.some((one) => one.tank_id === tank_id),
    })),
    litres: litres.mean,
    litres_u: litres.u,
    drinkable: found.drinkable_word as WaterAnswer["drinkable"],
    people: found.people,
    l_per_person_day: found.rate.mean,
    rate_u: found.rate.u,
    readings: found.readings,
    reserve_l: found.reserve_l,
    findings: log.findings.filter((one) => one.standing !== "noted"),
  };
}

/** The entry recorded last, if it took a place before others. */
function lateOf(book: Book, log: FuelLog, mix: Mix): FuelAnswer["late"] {
  const rows = [...book.fills, ...book.dips, ...book.transfers];
  const latest = rows.reduce((last, row) => ((row.order ?? 0) >= (last.order ?? 0) ? row : last));
  const late = log.findings.some((one) => one.code === "late" && one.entry_id === latest.id);
  const asked = { book, entry_id: latest.id, mix, p: confidenceOf(book), previous: log };
  const found = late ? entryEffect(asked) : null;
  if (!found) return null;
  const { before, after } = found;
  return { entry_id: latest.id, before_km: before.count_on_km, after_km: after.count_on_km };
}

function ratesOf({ rates }: Answer): FuelAnswer["rates"] {
  return rates
    .filter(({ class_id, way_km }) => way_km > 0 || !class_id.endsWith(WITH_TRAILER))
    .map(({ class_id, ...rate }) => {
      const surface = class_id.replace(WITH_TRAILER, "") as SurfaceAhead;
      return { surface, towing: class_id !== surface, ...rate };
    });
}

function mostOf({ mix }: FuelLog): SurfaceAhead {
  const share = (surface: string) => (mix[surface] ?? 0) + (mix[surface + WITH_TRAILER] ?? 0);
  return [...SURFACES_AHEAD].sort((a, b) => share(b) - share(a))[0] as SurfaceAhead;
}

/** A book does not change while it is open on the screen: its log is read once. */
const logs = new WeakMap<Book, FuelLog | null>();
/** The log of the vehicle as it was last read: with one more entry only that one is read. */
let latest: { readonly vehicle: string; readonly log: FuelLog } | null = null;

function isOf({ surface, towing }: FuelAnswer, ahead: Ahead): boolean {
  return (ahead.surface ?? surface) === surface && (ahead.towing ?? towing) === towing;
}

/** What was kept of an earlier opening, where the book is as it was then. */
const recalled = new WeakMap<Book, FuelAnswer>();

/** A fuel answer kept for the next opening; `of` says of which entries, tanks and code. It may be dropped at any time. */
export interface KeptAnswer {
  readonly of: string;
  readonly answer: FuelAnswer;
}

/** Let a book answer with what was kept until its log has been read, if it was kept of the same. */
export function recall(book: Book, kept: KeptAnswer | null, build: string): void {
  if (kept && kept.of === contentOf(book, build)) recalled.set(book, kept.answer);
}

/** What to keep of a book whose log has been read; null where there is nothing, or the same is kept already. */
export function toKeep(book: Book, kept: KeptAnswer | null, build: string): KeptAnswer | null {
  const answer = logs.get(book) ? fuel(book) : null;
  const of = contentOf(book, build);
  return answer && of !== kept?.of ? { of, answer } : null;
}

/** Entries read at once while the page has other things to do. */
const PIECE = 200;

/** Read a book's log piece by piece; `pause` says whether to go on. A question meanwhile reads the rest at once. */
export async function readSlowly(book: Book, pause: () => Promise<boolean>): Promise<boolean> {
  const entries = fuelEntries({ book });
  for (let n = PIECE; n < entries.length && !logs.has(book); n += PIECE) {
    if (!(await pause())) return false;
    if (logs.has(book)) break;
    const until = new Date(entries[n]!.at_s * 1000).toISOString();
    const log = fuelLogOf({ book, until, previous: previousOf(book) });
    if (log) latest = { vehicle: book.vehicle?.id ?? "", log };
  }
  if (!(await pause())) return false;
  logOf(book);
  return true;
}

/** Everything that a fuel answer rests on, in a few letters. */
function contentOf({ vehicle, tanks, fills, dips, transfers, events, kept }: Book, build: string): string {
  const plan = [vehicle, ...tanks].map((row) => [row?.id, row?.body]);
  let [one, other] = [0x811c9dc5, 0x9e3779b9];
  const mix = (text: string) => {
    for (let n = 0; n < text.length; n++) {
      one = Math.imul(one ^ text.charCodeAt(n), 0x01000193);
      other = Math.imul(other ^ text.charCodeAt(n), 0x85ebca6b) + n;
    }
  };
  mix(`${build} ${JSON.stringify(plan)}`);
  for (const rows of [fills, dips, transfers, events, kept])
    for (const { id, rev, order } of rows) mix(`${id} ${rev} ${order} `);
  return `${fills.length} ${(one >>> 0).toString(36)} ${(other >>> 0).toString(36)}`;
}

function previousOf(book: Book): FuelLog | null {
  return latest && latest.vehicle === book.vehicle?.id ? latest.log : null;
}

function logOf(book: Book): FuelLog | null {
  const known = logs.get(book);
  if (known !== undefined) return known;
  const log = fuelLogOf({ book, previous: previousOf(book) });
  if (log) latest = { vehicle: book.vehicle?.id ?? "", log };
  logs.set(book, log);
  return log;
}
