/** From a book's log to fuel and water: what the estimators are given, and the levels that a state takes from them. */
import { alike } from "./alike";
import type { Body, Book } from "./book";
import { type BookRest, goOnBook, restBehind } from "./book_rest";
import type { FillLine } from "./entries";
import { classOf, DIP_U, drawnTanks, ownRates, type TankSpec } from "./fuel";
import {
  type FuelLog,
  type FuelSetup,
  fuelLogPieces,
  type ReadFuelLog,
  readFuelLog,
  type WholeLog,
} from "./fuel_log";
import { FACTOR, FACTOR_U, STEP_KM } from "./fullfull";
import { GREY_FRACTION, greyFilled } from "./grey";
import { levelsNow } from "./journal";
import { fuelSettings, waterSettings } from "./log_defaults";
import { fuelEntries, rowsUntil, seconds, tanksOf, waterEntries } from "./log_rows";
import { loggedState, type TankLevel } from "./state";
import { type Presence, WATER_RATE } from "./water";
import { APART_U, waterAnswer } from "./water_answer";
import { readWaterLog, type WaterLog } from "./water_log";

export const SURFACES_AHEAD: readonly string[] = ["sealed", "gravel", "sand"];
export const ANIMAL_SHARE = 0.25; // of an adult's water, where the record leaves it blank (assumed)
/** Nobody logs each kilometre: a fuel level older than so many hours is known less well (assumed, shares). */
export const STALE_U: readonly (readonly [hours: number, u: number])[] = [
  [1, 0.02],
  [12, 0.05],
  [Infinity, 0.15],
];

export interface FuelLogOf {
  readonly book: Book;
  readonly until?: string | null;
  /** Classes that will be asked about, before the usual ones: the surfaces, with a trailer in the book also towing. */
  readonly ahead?: readonly string[] | null;
  /** The log of nearly the same book: only what is new is run again. */
  readonly previous?: FuelLog | null;
  /** A place to go on from, without the log before it. */
  readonly rest?: BookRest | null;
}

/** The fuel log of a book, up to an instant; null without a tank that fuel is drawn from. */
export function fuelLogOf(asked: FuelLogOf): FuelLog | null {
  const setup = setupOf(asked);
  if (!setup) return null;
  return goneOnOf(asked) ?? readFuelLog(givenOf(asked, setup));
}

/** The same without the entries before a place that the log is gone on from; null where it has to be read whole. */
export function goneOnOf(asked: FuelLogOf): FuelLog | null {
  const { book, until = null, previous, rest = previous && restBehind(previous) } = asked;
  const setup = rest && setupOf(asked);
  return setup ? goOnBook({ book, until, setup, rest }) : null;
}

/** The same piece by piece and from the beginning, as in `fuelLogPieces`. */
export function fuelPiecesOf(asked: FuelLogOf, piece: number): Generator<null, WholeLog> | null {
  const setup = setupOf(asked);
  return setup && fuelLogPieces(givenOf(asked, setup), piece);
}

function givenOf({ book, until = null, previous = null }: FuelLogOf, setup: FuelSetup): ReadFuelLog {
  return { setup: { ...setup, ...answered(book) }, entries: fuelEntries({ book, until }), previous };
}

/** But for what it says of single entries. */
function setupOf({ book, ahead = null }: FuelLogOf): FuelSetup | null {
  const tanks = tanksOf({ book, holds: "fuel" });
  if (!book.vehicle || drawnTanks({ tanks }).length === 0) return null;
  const { odometer_factor, odometer_factor_u, odometer_step_km, fuel_reserve_l } = book.vehicle.body;
  return {
    tanks,
    factor: odometer_factor || FACTOR,
    factor_u: odometer_factor_u || FACTOR_U,
    rates: ownRatesOf(book.vehicle.body),
    settings: fuelSettings({ vehicle: book.vehicle.body }),
    step_km: odometer_step_km || STEP_KM,
    ahead: [...new Set([...(ahead ?? []), ...usuallyAhead(book)])],
    reserve_l: fuel_reserve_l ?? null,
  };
}

export interface WaterLogOf {
  readonly book: Book;
  readonly until: string;
  /** Which trailers are on, instead of what the log says. */
  readonly trailers_on?: readonly string[];
  /** The log of nearly the same book: only what is new is run again. */
  readonly previous?: WaterLog | null;
}

/** The water log of a book, up to an instant, with the tanks of a trailer that is on then; null without a drawn tank. */
export function waterLogOf({
  book,
  until,
  trailers_on = loggedState({ book, at: until }).trailers_on,
  previous = null,
}: WaterLogOf): WaterLog | null {
  const tanks = tanksOf({ book, holds: "water", trailers_on });
  if (drawnTanks({ tanks }).length === 0) return null;
  const entries = waterEntries({ book, until, trailers_on });
  const from_s = entries.reduce(
    (first, one) => Math.min(first, one.at_s),
    entries[0]?.at_s ?? seconds(until),
  );
  const { water_l_per_day, water_reserve_l } = book.vehicle?.body ?? {};
  const settings = waterSettings({ vehicle: book.vehicle?.body ?? {} });
  const own = { rate: water_l_per_day ?? WATER_RATE, settings, reserve_l: water_reserve_l ?? null };
  const setup = { tanks, presences: presences({ book, from_s }), ...own, ...answered(book) };
  return readWaterLog({ setup, entries, now_s: seconds(until), previous });
}

function usuallyAhead({ trailers }: Book): readonly string[] {
  if (trailers.length === 0) return SURFACES_AHEAD;
  return [...SURFACES_AHEAD, ...SURFACES_AHEAD.map((surface) => classOf({ surface, towing: true }))];
}

/** The rates that a vehicle's record begins with, by class; nothing where it says nothing. */
function ownRatesOf(vehicle: Body): Record<string, number> {
  const told = SURFACES_AHEAD.map((name) => [name, vehicle[`${name}_l_per_100km`]] as const);
  const surfaces = Object.fromEntries(told.filter(([, rate]) => rate != null));
  return ownRates({ surfaces, towing: vehicle.towing_ratio ?? null });
}

/** Entries that somebody has looked at, and those that may be others over again. */
function answered(book: Book) {
  const pairs = alike({ book }).map((one) => [one.second_id, one.first_id]);
  return { confirmed: book.kept.map(({ body }) => body.of_id), alike: Object.fromEntries(pairs) };
}

export interface Presences {
  readonly book: Book;
  readonly from_s: number;
}

/** Who drinks, and when: from the beginning of the log for whoever has a usual seat, then by the entries. */
export function presences({ book, from_s }: Presences): Presence[] {
  return book.people.flatMap((person) => {
    const usual =
      person.body.usual_seat_id || book.seats.some((seat) => seat.body.usual_person_id === person.id);
    const told = changesOf(book, person.id).sort((a, b) => a.at_s - b.at_s);
    // what was entered before the log began holds when it begins
    const start = Math.min(from_s, ...told.map((one) => one.at_s));
    const changes = [{ at_s: start, aboard: Boolean(usual) }, ...told];
    const share = waterShare({ person: person.body });
    return changes.flatMap(({ at_s, aboard }, i) => {
      const until_s = changes[i + 1]?.at_s ?? null;
      return aboard && until_s !== at_s ? [{ share, from_s: at_s, until_s }] : [];
    });
  });
}

/** A person's share of an adult's water; an animal's where the record leaves it blank is a quarter (assumed). */
export function waterShare({ person }: { readonly person: Body }): number {
  return person.water_share ?? (person.nature === "animal" ? ANIMAL_SHARE : 1);
}

export interface LevelsAt {
  readonly book: Book;
  readonly at: string;
  /** As in `fuelLogOf`. */
  readonly previous?: FuelLog | null;
  /** The water log at that instant, where it has been read already. */
  readonly water?: WaterLog | null;
}

/** Levels of the fuel and water tanks at an instant, by the log until then; tanks nobody logged are left out. */
export function levelsAt({ book, at, previous = null, water: read = null }: LevelsAt): TankLevel[] {
  const logged = loggedTanks(book, at);
  const water = read ?? waterLogOf({ book, until: at });
  const known = [...fuelLevels(book, at, previous), ...waterLevels(water, at)].filter((one) =>
    logged.has(one.tank_id),
  );
  return [...known, ...greyLevels(book, at, water)];
}

function fuelLevels(book: Book, at: string, previous: FuelLog | null): TankLevel[] {
  const log = fuelLogOf({ book, until: at, previous });
  if (!log || log.journal.steps.length === 0) return [];
  const stale = staleU((seconds(at) - toldLast(book, at)) / 3600);
  const drawn = levelsNow({ state: log.journal.state }).map((one) => ({
    ...one,
    level_u: Math.hypot(one.level_u, stale),
  }));
  return [...drawn, ...log.apart.map((one) => apart(log.setup.tanks, one.tank_id, one.litres_l))];
}

/** When the last fill, level or transfer of fuel was, in seconds; 0 before the first. */
function toldLast(book: Book, at: string): number {
  const lists = { fills: [], dips: [], transfers: [], events: [] };
  const last = (list: "fills" | "dips" | "transfers") => {
    const rows = book[list];
    for (let end = rows.length; end > 0; end -= A_FEW) {
      const few = { ...book, ...lists, [list]: rows.slice(Math.max(end - A_FEW, 0), end) };
      const found = fuelEntries({ book: few, until: at }).at(-1);
      if (found) return found.at_s;
    }
    return 0;
  };
  return Math.max(last("fills"), last("dips"), last("transfers"));
}

const A_FEW = 16;

function waterLevels(log: WaterLog | null, at: string): TankLevel[] {
  if (!log || log.journal.steps.length === 0) return [];
  const { tanks } = log.setup;
  const drawn = new Map(drawnTanks({ tanks }).map((tank) => [tank.id, tank.capacity_l]));
  return waterAnswer({ log, now_s: seconds(at) }).tanks.map(({ tank_id, litres }) => {
    const capacity = drawn.get(tank_id);
    if (capacity === undefined) return apart(tanks, tank_id, litres.mean);
    const level_u = Math.min(litres.u / capacity, 1);
    return { tank_id, level: clamped(litres.mean / capacity), level_u, known_from: "estimate" };
  });
}

/** Grey tanks of the vehicle since each was last emptied or read; one that never was is left out. */
function greyLevels(book: Book, at: string, log: WaterLog | null): TankLevel[] {
  const rows = rowsUntil({ rows: [...book.waters, ...book.dips], until: at });
  return tanksOf({ book, holds: "grey" }).flatMap(({ id: tank_id, capacity_l }): TankLevel[] => {
    const own = rows.filter(({ body }) => body.tank_id === tank_id);
    const known = own.findLastIndex(({ kind, body }) => kind === "dip" || body.everything);
    const last = own[known];
    if (!last) return [];
    const read = last.kind === "dip" ? greyRead(last.body, capacity_l) : { mean: 0, u: 0 };
    const gone = own.slice(known + 1).reduce((sum, { body }) => sum + body.litres_l, 0);
    const span = { from_s: seconds(last.body.at), until_s: seconds(at) };
    const fraction = greyFraction(book, tank_id);
    const ran = log ? greyFilled({ log, ...span, fraction }) : { mean: 0, u: 0 };
    const level = clamped((read.mean - gone + ran.mean) / capacity_l);
    const level_u = Math.min(Math.hypot(read.u, ran.u) / capacity_l, 1);
    return [{ tank_id, level, level_u, known_from: "estimate" }];
  });
}

/** A level read as litres with u; a blank u is that of how it was read. */
function greyRead({ how, litres_l, litres_u_l, level, level_u }: Body, capacity_l: number) {
  const usual = DIP_U[how]!;
  if (litres_l != null) return { mean: litres_l, u: litres_u_l ?? usual * capacity_l };
  return { mean: (level || 0) * capacity_l, u: (level_u ?? usual) * capacity_l };
}

/** Share of all water used that reaches a grey tank: by the tanks that drain into it, by their capacity. */
function greyFraction(book: Book, grey_id: string): number {
  const drawn = drawnTanks({ tanks: tanksOf({ book, holds: "water" }) });
  const sum = (of: (tank: TankSpec) => number) => drawn.reduce((total, tank) => total + of(tank), 0);
  const bodies = new Map(book.tanks.map(({ id, body }) => [id, body]));
  const into = sum(({ id, capacity_l }) => {
    const { grey_tank_id, grey_fraction } = bodies.get(id) ?? {};
    return grey_tank_id === grey_id ? capacity_l * (grey_fraction ?? GREY_FRACTION) : 0;
  });
  return drawn.length > 0 ? into / sum((tank) => tank.capacity_l) : 0;
}

/** Tanks that some entry names: of the others nothing is known, which is not the same as empty. */
function loggedTanks(book: Book, until: string): Set<string> {
  const held = book.tanks.filter(({ body }) => body.holds === "fuel" || body.holds === "water");
  const [asked, named] = [new Set(held.map((tank) => tank.id)), new Set<string>()];
  const name = (id: string | null | undefined) => {
    if (id && asked.delete(id)) named.add(id);
  };
  for (const rows of [book.fills, book.dips, book.transfers, book.waters])
    for (let n = rows.length - 1; n >= 0 && asked.size > 0; n--) {
      const { body } = rows[n]!;
      if (body.at > until) continue;
      for (const line of (body.lines ?? []) as readonly FillLine[]) name(line.tank_id);
      name(body.tank_id);
      name(body.from_tank_id);
      name(body.to_tank_id);
    }
  return named;
}

function changesOf(book: Book, person_id: string): { at_s: number; aboard: boolean }[] {
  return book.aboard
    .filter(({ body }) => body.subject_id === person_id)
    .flatMap(({ body }) => {
      const change = { at_s: seconds(body.at), aboard: Boolean(body.aboard) };
      return body.until ? [change, { at_s: seconds(body.until), aboard: !body.aboard }] : [change];
    });
}

function staleU(hours: number): number {
  return STALE_U.find(([end]) => hours <= end)![1];
}

function apart(tanks: readonly TankSpec[], tank_id: string, litres_l: number): TankLevel {
  const capacity = tanks.find((tank) => tank.id === tank_id)!.capacity_l;
  return { tank_id, level: clamped(litres_l / capacity), level_u: APART_U, known_from: "estimate" };
}

function clamped(share: number): number {
  return Math.min(Math.max(share, 0), 1);
}
