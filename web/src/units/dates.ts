/** Days and times as lists have them. 04/03/2026 could be two days: the order is asked about, never guessed. */

export type DayOrder = "dmy" | "mdy";

/** A day and a time of day on the clock of some place. */
export interface Local {
  readonly year: number;
  readonly month: number;
  readonly day: number;
  readonly hour: number;
  readonly minute: number;
  readonly second: number;
}

export type ReadDay =
  | { readonly kind: "ok"; readonly local: Local; readonly timed: boolean; readonly utc: boolean }
  | { readonly kind: "blank" }
  | { readonly kind: "wrong" }
  | { readonly kind: "ask" };

const MONTHS = "jan feb mar apr may jun jul aug sep oct nov dec".split(" ");
const DAY = /^(\d{1,4})\s*[-/. ]\s*(\d{1,2}|[a-z]{3,9})\.?\s*[-/., ]\s*(\d{1,4})/i;
const NAMED_FIRST = /^([a-z]{3,9})\.?\s+(\d{1,2})(?:st|nd|rd|th)?,?\s+(\d{4})/i;
const TIME = /^(\d{1,2})[:.h](\d{2})(?:[:.](\d{2}(?:\.\d+)?))?\s*([ap])?\.?(?:m\.?)?\s*(z|utc)?$/i;

/** A day, with or without a time behind it: 2026-03-04, 4.3.2026, 04/03/26 17:05, 4 Mar 2026, 2026-03-04T05:06:07Z. */
export function readDay(text: string, order: DayOrder | null): ReadDay {
  const plain = text.trim().replace(/^[a-z]{2,9}[,.]?\s+(?=\d)/i, (word) => (isMonth(word) ? word : ""));
  if (plain === "") return { kind: "blank" };
  const named = NAMED_FIRST.exec(plain);
  const found = named ?? DAY.exec(plain);
  if (!found) return { kind: "wrong" };
  const [all, a = "", b = "", c = ""] = found;
  const day = named ? ymd(c, monthOf(a), b) : inOrder(a, b, c, order);
  if (day === "ask") return { kind: "ask" };
  const rest = plain.slice(all.length).replace(/^[T,\s]+/i, "");
  const time = rest === "" ? null : readTime(rest);
  if (!day || time === undefined) return { kind: "wrong" };
  const local = { ...day, ...(time?.at ?? { hour: 12, minute: 0, second: 0 }) };
  return { kind: "ok", local, timed: time !== null, utc: time?.utc ?? false };
}

type Time = Pick<Local, "hour" | "minute" | "second">;

/** A time of day: 17:05, 5:05 pm, 17:05:30; undefined where it is none. */
export function readTime(text: string): { readonly at: Time; readonly utc: boolean } | undefined {
  const found = TIME.exec(text.trim());
  if (!found) return undefined;
  const [, h = "", m = "", s = "0", half, utc] = found;
  const hour = half ? (Number(h) % 12) + (half.toLowerCase() === "p" ? 12 : 0) : Number(h);
  const at = { hour, minute: Number(m), second: Number(s) };
  const wrong = at.hour > 23 || at.minute > 59 || at.second >= 60 || (half && !/^(0?[1-9]|1[0-2])$/.test(h));
  return wrong ? undefined : { at, utc: Boolean(utc) };
}

/** Which order the days of a column can only have; null where none tells, or where they contradict each other. */
export function dayOrderOf(cells: readonly string[]): DayOrder | null {
  const only = (order: DayOrder, other: DayOrder) =>
    cells.some((cell) => readDay(cell, order).kind === "ok" && readDay(cell, other).kind === "wrong");
  const [dmy, mdy] = [only("dmy", "mdy"), only("mdy", "dmy")];
  return dmy === mdy ? null : dmy ? "dmy" : "mdy";
}

type Day = Pick<Local, "year" | "month" | "day">;

function inOrder(a: string, b: string, c: string, order: DayOrder | null): Day | null | "ask" {
  if (a.length > 2) return ymd(a, monthOf(b), c);
  if (!/^\d/.test(b)) return ymd(c, monthOf(b), a);
  const [dmy, mdy] = [ymd(c, Number(b), a), ymd(c, Number(a), b)];
  if (order) return order === "dmy" ? dmy : mdy;
  return dmy && mdy && a !== b ? "ask" : (dmy ?? mdy);
}

/** The day, if the calendar has it. A year of two digits is of this century. */
function ymd(year: string, month: number, day: string): Day | null {
  if (year.length !== 4 && year.length !== 2) return null;
  const found = { year: Number(year) + (year.length === 2 ? 2000 : 0), month, day: Number(day) };
  const date = new Date(Date.UTC(found.year, month - 1, found.day));
  return day.length <= 2 && date.getUTCMonth() === month - 1 && date.getUTCDate() === found.day
    ? found
    : null;
}

function monthOf(word: string): number {
  return /^\d/.test(word) ? Number(word) : MONTHS.indexOf(word.slice(0, 3).toLowerCase()) + 1;
}

function isMonth(word: string): boolean {
  return monthOf(word) > 0;
}

/** The UTC instant of a place's clock, ms; an hour that a change of clocks repeats or skips is read one way. */
export function instantOf(local: Local, zone: string): number {
  const { year, month, day, hour, minute, second } = local;
  const shown = Date.UTC(year, month - 1, day, hour, minute, 0, Math.round(second * 1000));
  return shown - aheadMs(shown - aheadMs(shown, zone), zone);
}

/** A place's clock at an instant, as 2026-03-04T14:36:07. */
export function clockAt(ms: number, zone: string): string {
  return new Date(ms + aheadMs(ms, zone)).toISOString().slice(0, 19);
}

const CLOCKS = new Map<string, Intl.DateTimeFormat>();

/** How far a place's clock is ahead of UTC at an instant; a zone that this device does not know counts as UTC. */
function aheadMs(ms: number, zone: string): number {
  const clock = CLOCKS.get(zone) ?? clockOf(zone);
  CLOCKS.set(zone, clock);
  const part = Object.fromEntries(clock.formatToParts(ms).map(({ type, value }) => [type, Number(value)]));
  const { year = 0, month = 1, day = 1, hour = 0, minute = 0, second = 0 } = part;
  return Date.UTC(year, month - 1, day, hour, minute, second) - Math.floor(ms / 1000) * 1000;
}

function clockOf(timeZone: string): Intl.DateTimeFormat {
  const figure = "numeric" as const;
  const wanted = { year: figure, month: figure, day: figure, hour: figure, minute: figure, second: figure };
  const all = { ...wanted, hourCycle: "h23" as const, calendar: "iso8601" };
  try {
    return new Intl.DateTimeFormat("en-u-nu-latn", { ...all, timeZone });
  } catch {
    return new Intl.DateTimeFormat("en-u-nu-latn", { ...all, timeZone: "UTC" });
  }
}
