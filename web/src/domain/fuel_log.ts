/** From the entries of a fuel log to its journal, its segments, and what is the matter with which entry. */
import type { FuelEntry } from "./entries";
import { MOST_STATES, type Model, type Settings } from "./filter";
import {
  BASE_RATE,
  drawnTanks,
  FUEL,
  FUEL_KAPPAS,
  fuelModel,
  shutOffs,
  type TankSpec,
  WITH_TRAILER,
} from "./fuel";
import { type Closed, closedOf, counted } from "./fuel_closed";
import { type Order, orderOf, ratioAfter, sameUntil } from "./fuel_order";
import { FuelReader } from "./fuel_reader";
import type { Rest } from "./fuel_rest";
import { type Accuracy, FACTOR, FACTOR_U, type Segment, STEP_KM } from "./fullfull";
import { continuedFrom, type Journal, runJournal, type Step } from "./journal";
import type { Finding } from "./placing";
import type { Mix } from "./remain";
import type { Apart } from "./tank_reader";

export type { FuelEntry };

/** A vehicle as its fuel log needs it; rates are per 100 true km. The Python twin explains each field. */
export interface FuelSetup {
  readonly tanks: readonly TankSpec[];
  readonly base_rate?: number;
  readonly rates?: Readonly<Record<string, number>>;
  readonly factor?: number;
  readonly factor_u?: number;
  readonly settings?: Settings;
  readonly kappas?: readonly number[];
  readonly ahead?: readonly string[];
  readonly reserve_l?: number | null;
  readonly step_km?: number;
  readonly confirmed?: readonly string[];
  readonly alike?: Readonly<Record<string, string>>;
}

/**
 * A fuel log that has been read. `ways_km` and `full_tanks` say what the rates rest on, by class. What asks for every entry
 * of it takes a `WholeLog`.
 */
export interface FuelLog {
  readonly setup: Required<FuelSetup>;
  readonly model: Model;
  /** Of the entries since `rest` alone, and then without states to go on from. */
  readonly journal: Omit<Journal, "kept">;
  readonly findings: readonly Finding[];
  readonly segments: readonly Segment[];
  readonly apart: readonly Apart[];
  readonly odometer_km: number | null;
  readonly mix: Mix;
  readonly ways_km: Readonly<Record<string, number>>;
  readonly full_tanks: Readonly<Record<string, number>>;
  /** Where it was gone on from. */
  readonly rest?: Rest;
  /** The last of its segments, where the others are unpacked only when they are asked for. */
  readonly since_full?: Segment | null;
}

/** A fuel log that was read from its first entry. */
export interface WholeLog extends FuelLog {
  readonly journal: Journal;
  readonly rest?: never;
}

/** Whether a log was read from its first entry. */
export function isWhole(log: FuelLog): log is WholeLog {
  return log.rest === undefined;
}

export interface ReadFuelLog {
  readonly setup: FuelSetup;
  readonly entries: readonly FuelEntry[];
  readonly previous?: FuelLog | null;
}

/** Read a whole log; with `previous` only what is new or changed is read again. The result is the same. */
export function readFuelLog(given: ReadFuelLog): WholeLog {
  return finished(fuelLogPieces(given, Number.POSITIVE_INFINITY));
}

/** The same piece by piece, so many entries at a time; whoever asks in between decides when to go on. */
export function* fuelLogPieces(
  { setup: given, entries, previous = null }: ReadFuelLog,
  piece: number,
): Generator<null, WholeLog> {
  const setup = filled(given);
  const known = previous ? (READINGS.get(previous) ?? null) : null;
  const before = known && plainOf(known.reader.setup) === plainOf(setup) ? known : null;
  const { order, reader } = yield* walked(setup, entries, before, piece);
  const { tanks, base_rate, rates, settings, kappas } = setup;
  const factor = setup.factor * reader.firstWeight;
  const model = fuelModel({ tanks, class_ids: classesOf(setup, reader), base_rate, rates, factor, settings });
  const steps = reader.rows.map((row) => row.step);
  const journal = yield* run(
    { model, kappas, steps, previous: previous && isWhole(previous) ? previous.journal : null },
    piece,
  );
  const closing = { rows: reader.rows, journal, accuracy: accuracyOf({ setup }) };
  const closed = closedOf(closing, before && { ...before, rows: before.reader.rows });
  const log = {
    setup,
    model,
    journal,
    findings: [...order.checked, ...order.odd, ...reader.findings, ...reader.judged(journal)],
    segments: closed.segments,
    apart: [...reader.apart].map(([tank_id, litres_l]) => ({ tank_id, litres_l })),
    odometer_km: reader.odometer_km,
    mix: reader.mix,
    ways_km: reader.ways,
    full_tanks: counted(closed.tops),
  };
  READINGS.set(log, { order, reader, journal, closed });
  return log;
}

/** What comes of pieces once all of them have been read. */
export function finished<T>(pieces: Generator<null, T>): T {
  for (;;) {
    const { done, value } = pieces.next();
    if (done) return value;
  }
}

interface Run {
  readonly model: Model;
  readonly kappas: readonly number[];
  readonly steps: readonly Step[];
  readonly previous: Journal | null;
}

function* run({ steps, previous, ...given }: Run, piece: number): Generator<null, Journal> {
  let journal = previous;
  for (let n = continuedFrom({ ...given, steps, previous }) + piece; n < steps.length; n += piece) {
    journal = runJournal({ ...given, steps: steps.slice(0, n), previous: journal });
    yield null;
  }
  return runJournal({ ...given, steps, previous: journal });
}

/** What continuing a log needs beside what it says. */
export interface Reading {
  readonly order: Order;
  readonly reader: FuelReader;
  readonly journal: Journal;
  readonly closed: Closed;
}

const READINGS = new WeakMap<FuelLog, Reading>();

/** The reading of a log that was read from its beginning. */
export function readingOf(log: FuelLog): Reading | null {
  return READINGS.get(log) ?? null;
}

/** The setup but for what it says of single entries, and for what is asked of the log afterwards. */
export function plainOf(setup: Required<FuelSetup>): string {
  return JSON.stringify({ ...setup, confirmed: [], alike: {}, ahead: [] });
}

function* walked(
  setup: Required<FuelSetup>,
  entries: readonly FuelEntry[],
  before: Reading | null,
  piece: number,
): Generator<null, Pick<Reading, "order" | "reader">> {
  const checking = new FuelReader(setup, 1, null, null);
  const order = orderOf({ reader: checking, entries, before: before?.order ?? null });
  const firstWeight = ratioAfter(1, order.placed, order.refused);
  const usable = before?.reader.firstWeight === firstWeight ? before : null;
  const same = usable ? sameUntil(usable.order, order, changedBetween(usable.reader.setup, setup)) : 0;
  const mark = usable?.reader.marks.findLast((one) => one.n <= same) ?? null;
  const reader = new FuelReader(setup, firstWeight, usable?.reader ?? null, mark);
  for (let n = mark?.n ?? 0; n < order.placed.length; n += WALKED * piece) {
    if (n > 0 && n > (mark?.n ?? 0)) yield null;
    reader.read(order, n + WALKED * piece);
  }
  return { order, reader };
}

/** So many entries are walked through in the time in which one is run through the filter. */
const WALKED = 5;

/** Entries of which two setups say something different. */
function changedBetween(one: Required<FuelSetup>, other: Required<FuelSetup>): Set<string> {
  const lone = (a: readonly string[], b: readonly string[]) => a.filter((id) => !b.includes(id));
  const pairs = Object.keys({ ...one.alike, ...other.alike });
  return new Set([
    ...lone(one.confirmed, other.confirmed),
    ...lone(other.confirmed, one.confirmed),
    ...pairs.filter((id) => one.alike[id] !== other.alike[id]),
  ]);
}

/** How exact the segments of a log are: pump, the shut-offs of all drawn tanks together, odometer and its factor. */
export function accuracyOf({ setup }: { readonly setup: FuelSetup }): Accuracy {
  const { settings, step_km, factor, factor_u, tanks } = filled(setup);
  const each = shutOffs({ tanks: drawnTanks({ tanks }), settings });
  return { pump_u: settings.fill_u, full_u_l: Math.hypot(...each), step_km, factor, factor_u };
}

/** A setup with what is left blank. */
export function filled(given: FuelSetup): Required<FuelSetup> {
  return {
    base_rate: BASE_RATE,
    rates: {},
    factor: FACTOR,
    factor_u: FACTOR_U,
    settings: FUEL,
    kappas: FUEL_KAPPAS,
    ahead: ["sealed"],
    reserve_l: null,
    step_km: STEP_KM,
    confirmed: [],
    alike: {},
    ...given,
  };
}

/**
 * Classes that occur, the last entry's also where its way is not known; then those asked about as far as there is room, with
 * a trailer too where one of the others tows.
 */
export function classesOf(setup: Required<FuelSetup>, reader: FuelReader): string[] {
  const occur = [...new Set([...Object.keys(reader.ways), ...Object.keys(reader.mix)])].sort();
  const room = MOST_STATES - reader.drawn.length;
  const tows = occur.some((name) => name.endsWith(WITH_TRAILER));
  const towed = tows ? setup.ahead.map((name) => name.replace(WITH_TRAILER, "") + WITH_TRAILER) : [];
  const wanted = [...new Set([...occur, ...setup.ahead, ...towed])];
  return wanted.slice(0, Math.max(room, occur.length));
}
