/** Fuel and water on the device: the domain's estimators over an opened book. */
import type { Book, Row } from "@/domain/book";
import { type BookRest, beyondPlace, bookRestOf } from "@/domain/book_rest";
import { entryEffect } from "@/domain/effect";
import { classOf, WITH_TRAILER } from "@/domain/fuel";
import { type FuelAnswer as Answer, fuelAnswer } from "@/domain/fuel_answer";
import { type FuelLog, finished, isWhole, type WholeLog } from "@/domain/fuel_log";
import { CONFIDENCE } from "@/domain/limits";
import type { Finding } from "@/domain/placing";
import type { Mix } from "@/domain/remain";
import type { TankLevel } from "@/domain/state";
import { fuelLogOf, fuelPiecesOf, goneOnOf, levelsAt as levels, SURFACES_AHEAD } from "@/domain/supplies";
import { readWater } from "./water_read";

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

/** Surface and towing of a class of ways. */
export function classOfName(class_id: string) {
  const surface = class_id.replace(WITH_TRAILER, "") as SurfaceAhead;
  return { surface, towing: class_id !== surface };
}

export function levelsAt(book: Book, at: string): TankLevel[] {
  return levels({ book, at, previous: readLog(book), water: readWater(book, at) });
}

/** The answer as it would be with one more fill, before it is saved; null where it would not count. */
export function fuelWith(saved: Book, body: Row["body"]): FuelAnswer | null {
  const order = Math.max(0, ...saved.fills.map((row) => row.order ?? 0)) + 1;
  const row = { id: "new", kind: "fill", rev: "", order, body };
  const book = { ...saved, fills: [...saved.fills, row] };
  const log = fuelLogOf({ book, previous: readLog(saved) });
  if (!log || log.findings.some((one) => one.entry_id === row.id && one.standing !== "noted")) return null;
  logs.set(book, log);
  return fuel(book);
}

/** The book with one more event, before it is saved: the surface since the last entry. */
export function bookSince(saved: Book, body: Row["body"]): Book {
  const order = Math.max(0, ...saved.events.map((row) => row.order ?? 0)) + 1;
  const row = { id: "new", kind: "event", rev: "", order, body };
  return readWith({ ...saved, events: [...saved.events, row] }, readLog(saved));
}

/** The answer with another body of one entry, before it is saved. */
export function fuelCorrected(saved: Book, { id }: Row, body: Row["body"]): FuelAnswer | null {
  const put = (rows: readonly Row[]) => rows.map((row) => (row.id === id ? { ...row, body } : row));
  const { fills, dips, events } = saved;
  const book = { ...saved, fills: put(fills), dips: put(dips), events: put(events) };
  return fuel(readWith(book, wholeLog(saved)));
}

/** A book that is not saved, read beside the saved one: nothing is kept of it. */
function readWith(book: Book, previous: FuelLog | null): Book {
  logs.set(book, fuelLogOf({ book, previous }));
  return book;
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
  const log = readLog(book);
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
  const log = readLog(book);
  return log ? fuelAnswer({ log, mix: aheadOf(log, ahead).mix, distance_km }).stands.reach : null;
}

function aheadOf(log: FuelLog, asked: Ahead) {
  const surface = asked.surface ?? mostOf(log);
  const towing = asked.towing ?? Object.keys(log.mix).some((name) => name.endsWith(WITH_TRAILER));
  return { surface, towing, mix: { [classOf({ surface, towing })]: 1 } };
}

/** One-sided, of verdicts, ranges and days alike. */
export function confidenceOf(book: Book): number {
  return book.vehicle?.body.confidence ?? CONFIDENCE;
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
    .map(({ class_id, ...rate }) => ({ ...classOfName(class_id), ...rate }));
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

/** A place to go on from in a book's log, kept for the next opening; of which vehicle and code. */
export interface KeptPlace extends BookRest {
  /** Of its rows and no others. */
  readonly name: string;
  readonly vehicle: string;
  readonly build: string;
}

/** What is kept of a book; it may be dropped at any time. */
export interface Kept {
  readonly answer: KeptAnswer | null;
  readonly place: KeptPlace | null;
}

/** Let a book answer with what was kept until its log has been read, and read that on from where it was. */
export function recall(book: Book, { answer, place }: Kept, build: string): void {
  if (place && isOfBook(place, book, build)) places.set(book, place);
  if (answer && answer.of === contentOf(book, place, build)) recalled.set(book, answer.answer);
}

const places = new WeakMap<Book, KeptPlace>();

function isOfBook({ vehicle, build: of }: KeptPlace, book: Book, build: string): boolean {
  return vehicle === book.vehicle?.id && of === build;
}

/** What to keep of a book whose log has been read; null where there is nothing, or the same is kept already. */
export function toKeep(book: Book, { answer: kept, place }: Kept, build: string): KeptAnswer | null {
  const answer = logs.get(book) ? fuel(book) : null;
  const of = contentOf(book, place, build);
  return answer && of !== kept?.of ? { of, answer } : null;
}

/** The place to keep of a log that has been read whole; null where there is none, or the one kept serves still. */
export function placeToKeep(book: Book, kept: KeptPlace | null, build: string): KeptPlace | null {
  const log = logs.get(book);
  if (!log || log.rest) return null;
  if (kept && isOfBook(kept, book, build)) {
    const gone = goneOnOf({ book, rest: kept });
    if (gone && gone.journal.steps.length <= AGAIN / 2) return null;
  }
  const found = bookRestOf({ book, log });
  return found && { ...found, name: markOf(book), vehicle: book.vehicle?.id ?? "", build };
}

/** Entries read at once while the page has other things to do. */
const PIECE = 200;
/** With more entries than these behind the place kept, the log is read whole, so that a later place can be kept. */
const AGAIN = 64;

/**
 * Read a book's log piece by piece, or on from where it was; `pause` says whether to go on. A question meanwhile reads
 * the rest at once.
 */
export async function readSlowly(book: Book, pause: () => Promise<boolean>): Promise<boolean> {
  if (!(await pause())) return false;
  const place = places.get(book);
  if (!logs.has(book) && place && !previousOf(book)) {
    const gone = goneOnOf({ book, rest: place });
    if (gone) remember(book, gone);
  }
  if (isEnough(book)) return true;
  if (!pieces.has(book)) pieces.set(book, fuelPiecesOf({ book, previous: previousOf(book) }, PIECE));
  for (;;) {
    const next = pieces.get(book)?.next();
    if (!next || next.done) {
      remember(book, next?.value ?? null);
      return true;
    }
    if (!(await pause())) return false;
    if (isEnough(book)) return true;
  }
}

/** Whether a log has been read, and not much of it behind the place that was kept. */
function isEnough(book: Book): boolean {
  const log = logs.get(book);
  return log !== undefined && !(log?.rest && log.journal.steps.length > AGAIN);
}

/** Logs of which a part has been read. */
const pieces = new WeakMap<Book, Generator<null, WholeLog> | null>();

function remember<L extends FuelLog | null>(book: Book, log: L): L {
  if (log) latest = { vehicle: book.vehicle?.id ?? "", log };
  logs.set(book, log);
  if (!log?.rest) pieces.delete(book);
  return log;
}

/** Everything that a fuel answer rests on: what a place stands for, and what was written since; without one a mark of all. */
function contentOf(book: Book, place: KeptPlace | null, build: string): string {
  const { vehicle, tanks, trailers } = book;
  const plan = JSON.stringify([vehicle, ...tanks].map((row) => [row?.id, row?.body]));
  const since = place && isOfBook(place, book, build) ? beyondPlace({ book, rest: place }) : null;
  const rows = since === null ? markOf(book) : `${place?.name} ${since}`;
  return `${build} ${trailers.length} ${plan} ${rows}`;
}

/** Two sums over ids, revisions and order of recording: 64 bits. */
function markOf({ fills, dips, transfers, events, kept }: Book): string {
  let [one, other] = [0x811c9dc5, 0x9e3779b9];
  const mix = (text: string) => {
    for (let n = 0; n < text.length; n++) {
      const code = text.charCodeAt(n);
      one = Math.imul(one ^ code, 0x01000193);
      other = Math.imul(other ^ code, 0x85ebca6b) + n;
    }
  };
  for (const rows of [fills, dips, transfers, events, kept]) {
    for (const { id, rev, order = 0 } of rows) {
      mix(id);
      mix(rev);
      mix(String(order));
    }
    mix(` ${rows.length}`);
  }
  return `${fills.length} ${(one >>> 0).toString(36)} ${(other >>> 0).toString(36)}`;
}

function previousOf(book: Book): FuelLog | null {
  return latest && latest.vehicle === book.vehicle?.id ? latest.log : null;
}

/** Whether a book's fuel log has been read, so that what needs it comes at once. */
export function isRead(book: Book): boolean {
  return logs.has(book);
}

/** The fuel log of a book, read once, perhaps on from a place; null without a tank that fuel is drawn from. */
export function readLog(book: Book): FuelLog | null {
  const known = logs.get(book);
  if (known !== undefined) return known;
  const [begun, previous, rest] = [pieces.get(book), previousOf(book), places.get(book)];
  if (begun) return remember(book, finished(begun));
  return remember(book, fuelLogOf(previous || !rest ? { book, previous } : { book, rest }));
}

/** The same with all its entries. */
export function wholeLog(book: Book): WholeLog | null {
  const log = readLog(book);
  if (log === null || isWhole(log)) return log;
  const begun = pieces.get(book) ?? fuelPiecesOf({ book }, Number.POSITIVE_INFINITY);
  return begun && remember(book, finished(begun));
}
