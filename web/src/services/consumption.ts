/** Fuel and water on the device: the domain's estimators over an opened book. */
import type { Book, Row } from "@/domain/book";
import { entryEffect } from "@/domain/effect";
import { type FuelAnswer as Answer, fuelAnswer } from "@/domain/fuel_answer";
import type { FuelLog } from "@/domain/fuel_log";
import { seconds } from "@/domain/log_rows";
import type { Finding } from "@/domain/placing";
import type { TankLevel } from "@/domain/state";
import { fuelLogOf, levelsAt as levels, SURFACES_AHEAD, waterLogOf } from "@/domain/supplies";
import { waterAnswer } from "@/domain/water_answer";

export type { Finding };
export type SurfaceAhead = "sealed" | "gravel" | "sand";

/** How far, on one surface ahead, and what that rests on. Rates are per 100 true km. */
export interface FuelAnswer {
  readonly surface: SurfaceAhead;
  readonly count_on_km: number;
  readonly likely_km: number;
  readonly litres: number;
  readonly litres_u: number;
  readonly reserve_l: number;
  readonly since_full: { readonly l_per_100km: number; readonly u: number } | null;
  readonly rates: readonly {
    readonly surface: SurfaceAhead;
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

/** The fuel answer on a surface; by default the one that most of the last way was on. Null before the first entry. */
export function fuel(book: Book, surface?: SurfaceAhead): FuelAnswer | null {
  const log = logOf(book);
  if (!log || log.journal.steps.length === 0) return null;
  const ahead = surface ?? mostOf(log);
  const found = fuelAnswer({ log, mix: { [ahead]: 1 } });
  return {
    surface: ahead,
    count_on_km: found.stands.count_on_km,
    likely_km: found.stands.likely_km,
    litres: found.stands.litres.mean,
    litres_u: found.stands.litres.u,
    reserve_l: found.reserve_l,
    since_full: found.since_full,
    rates: ratesOf(found),
    findings: log.findings.filter((one) => one.standing !== "noted"),
    late: lateOf(book, log, ahead),
  };
}

/** Probability of reaching a true distance on one surface. */
export function reach(book: Book, distance_km: number, surface: SurfaceAhead): number | null {
  const log = logOf(book);
  return log ? fuelAnswer({ log, mix: { [surface]: 1 }, distance_km }).stands.reach : null;
}

/** The water answer at an instant; null without a tank or before the first entry. */
export function water(book: Book, now: string): WaterAnswer | null {
  const log = waterLogOf({ book, until: now });
  if (!log || log.journal.steps.length === 0) return null;
  const found = waterAnswer({ log, now_s: seconds(now) });
  const { count_on_days, likely_days, floor_days, litres } = found.stands;
  return {
    ...{ count_on_days, likely_days, floor_days },
    drinkable_days: found.drinkable.count_on_days,
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
function lateOf(book: Book, log: FuelLog, surface: string): FuelAnswer["late"] {
  const rows = [...book.fills, ...book.dips, ...book.transfers];
  const latest = rows.reduce((last, row) => ((row.order ?? 0) >= (last.order ?? 0) ? row : last));
  const late = log.findings.some((one) => one.code === "late" && one.entry_id === latest.id);
  const found = late
    ? entryEffect({ book, entry_id: latest.id, mix: { [surface]: 1 }, previous: log })
    : null;
  if (!found) return null;
  const { before, after } = found;
  return { entry_id: latest.id, before_km: before.count_on_km, after_km: after.count_on_km };
}

function ratesOf({ rates }: Answer): FuelAnswer["rates"] {
  return rates.flatMap(({ class_id, ...rate }) =>
    SURFACES_AHEAD.includes(class_id) ? [{ surface: class_id as SurfaceAhead, ...rate }] : [],
  );
}

function mostOf({ mix }: FuelLog): SurfaceAhead {
  const share = (surface: string) => (mix[surface] ?? 0) + (mix[`${surface}+trailer`] ?? 0);
  return [...SURFACES_AHEAD].sort((a, b) => share(b) - share(a))[0] as SurfaceAhead;
}

/** A book does not change while it is open on the screen: its log is read once. */
const logs = new WeakMap<Book, FuelLog | null>();
/** The log of the vehicle as it was last read: with one more entry only that one is read. */
let latest: { readonly vehicle: string; readonly log: FuelLog } | null = null;

function logOf(book: Book): FuelLog | null {
  const known = logs.get(book);
  if (known !== undefined) return known;
  const vehicle = book.vehicle?.id ?? "";
  const log = fuelLogOf({ book, previous: latest?.vehicle === vehicle ? latest.log : null });
  if (log) latest = { vehicle, log };
  logs.set(book, log);
  return log;
}
