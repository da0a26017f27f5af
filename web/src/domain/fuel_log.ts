/** From the entries of a fuel log to its journal, its segments, and what is the matter with which entry. */
import type { FuelEntry } from "./entries";
import { MOST_STATES, type Model, type Settings } from "./filter";
import {
  allClasses,
  BASE_RATE,
  drawnTanks,
  FUEL,
  FUEL_KAPPAS,
  fuelModel,
  shutOffs,
  type TankSpec,
} from "./fuel";
import { type Order, orderOf, sameUntil } from "./fuel_order";
import { FuelReader } from "./fuel_reader";
import { type Accuracy, type Segment, type Stop, segments } from "./fullfull";
import { type Journal, runJournal } from "./journal";
import type { Finding } from "./placing";
import type { Mix } from "./remain";
import type { Apart, Row } from "./tank_reader";

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
  readonly confirmed?: readonly string[];
  readonly alike?: Readonly<Record<string, string>>;
}

/** A fuel log that has been read. `ways_km` and `full_tanks` say what the rates rest on, by class. */
export interface FuelLog {
  readonly setup: Required<FuelSetup>;
  readonly model: Model;
  readonly journal: Journal;
  readonly findings: readonly Finding[];
  readonly segments: readonly Segment[];
  readonly apart: readonly Apart[];
  readonly odometer_km: number | null;
  readonly mix: Mix;
  readonly ways_km: Readonly<Record<string, number>>;
  readonly full_tanks: Readonly<Record<string, number>>;
}

export interface ReadFuelLog {
  readonly setup: FuelSetup;
  readonly entries: readonly FuelEntry[];
  readonly previous?: FuelLog | null;
}

/** Read a whole log; with `previous` only what is new or changed is read again. The result is the same. */
export function readFuelLog({ setup: given, entries, previous = null }: ReadFuelLog): FuelLog {
  const setup = filled(given);
  const known = previous ? (READINGS.get(previous) ?? null) : null;
  const before = known && plain(known.reader.setup) === plain(setup) ? known : null;
  const { order, reader } = readerOf(setup, entries, before);
  const { tanks, base_rate, rates, settings, kappas } = setup;
  const factor = setup.factor * reader.firstWeight;
  const model = fuelModel({ tanks, class_ids: classesOf(setup, reader), base_rate, rates, factor, settings });
  const steps = reader.rows.map((row) => row.step);
  const journal = runJournal({ model, kappas, steps, previous: previous?.journal ?? null });
  const closed = closedOf({ rows: reader.rows, journal, accuracy: accuracyOf({ setup }) }, before);
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

/** What continuing a log needs beside what it says. */
interface Reading {
  readonly order: Order;
  readonly reader: FuelReader;
  readonly journal: Journal;
  readonly closed: Closed;
}

const READINGS = new WeakMap<FuelLog, Reading>();

/** The setup but for what it says of single entries, and for what is asked of the log afterwards. */
function plain(setup: Required<FuelSetup>): string {
  return JSON.stringify({ ...setup, confirmed: [], alike: {}, ahead: [] });
}

function readerOf(
  setup: Required<FuelSetup>,
  entries: readonly FuelEntry[],
  before: Reading | null,
): Pick<Reading, "order" | "reader"> {
  const checking = new FuelReader(setup, 1, null, null);
  const order = orderOf({ reader: checking, entries, before: before?.order ?? null });
  let firstWeight = 1;
  for (const entry of order.placed)
    if (entry.kind === "change" && !order.refused.has(entry.id)) firstWeight /= entry.ratio ?? 1;
  const usable = before?.reader.firstWeight === firstWeight ? before : null;
  const same = usable ? sameUntil(usable.order, order, changedBetween(usable.reader.setup, setup)) : 0;
  const mark = usable?.reader.marks.findLast((one) => one.n <= same) ?? null;
  const reader = new FuelReader(setup, firstWeight, usable?.reader ?? null, mark);
  reader.read(order);
  return { order, reader };
}

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
  const { settings, factor, factor_u, tanks } = filled(setup);
  const each = shutOffs({ tanks: drawnTanks({ tanks }), settings });
  return { pump_u: settings.fill_u, full_u_l: Math.hypot(...each), factor, factor_u };
}

function filled(given: FuelSetup): Required<FuelSetup> {
  return {
    base_rate: BASE_RATE,
    rates: {},
    factor: 1,
    factor_u: 0,
    settings: FUEL,
    kappas: FUEL_KAPPAS,
    ahead: ["sealed"],
    reserve_l: null,
    confirmed: [],
    alike: {},
    ...given,
  };
}

/** Classes that occur, then those asked about as far as the filter has room. */
function classesOf(setup: Required<FuelSetup>, reader: FuelReader): string[] {
  const occur = Object.keys(reader.ways).sort();
  const room = MOST_STATES - reader.drawn.length;
  const wanted = [...occur, ...setup.ahead.filter((name) => !occur.includes(name))];
  const chosen = wanted.slice(0, Math.max(room, occur.length));
  return chosen.length > 0 ? chosen : ["sealed"];
}

/** Segments, and of each the class that has most of its way. */
interface Closed {
  readonly segments: readonly Segment[];
  readonly tops: readonly string[];
}

interface Closing {
  readonly rows: readonly Row[];
  readonly journal: Journal;
  readonly accuracy: Accuracy;
}

/** Those of a reading that these rows continue are kept as long as nothing of them has changed. */
function closedOf(given: Closing, before: Reading | null): Closed {
  const { rows, journal, accuracy } = given;
  const [count, from] = before ? keptOf(given, before) : [0, 0];
  const found = segments({ stops: stopsOf(rows, journal, from), accuracy });
  const tops = topsOf(rows, found, from);
  if (!before || count === 0) return { segments: found, tops };
  return {
    segments: [...before.closed.segments.slice(0, count), ...found],
    tops: [...before.closed.tops.slice(0, count), ...tops],
  };
}

/** How many segments stand as they were, and the row of the full tank that the next one begins at. */
function keptOf({ rows, journal }: Closing, { reader, journal: earlier, closed }: Reading): [number, number] {
  const isSame = (n: number) => rows[n] === reader.rows[n] && journal.outcomes[n] === earlier.outcomes[n];
  let same = 0;
  while (same < Math.min(rows.length, reader.rows.length) && isSame(same)) same++;
  let n = same - 1;
  for (let count = closed.segments.length; count > 0; count--) {
    const { to_id } = closed.segments[count - 1]!;
    while (n >= 0 && rows[n]!.step.entry_id !== to_id) n--;
    if (n < 0) n = same - 1;
    else if (rows[n]!.full && isAlone(rows, n, same)) return [count, n];
  }
  return [0, 0];
}

/** Whether a stop on the way stands apart from the stops before and after it. */
function isAlone(rows: readonly Row[], n: number, end: number): boolean {
  let [before, after] = [n - 1, n + 1];
  while (before >= 0 && !rows[before]!.located) before--;
  while (after < end && !rows[after]!.located) after++;
  const { at } = rows[n]!;
  return after < end && rows[after]!.at > at && (before < 0 || rows[before]!.at < at);
}

/** What the segments are made of; litres of an entry without odometer belong to the next one with it. */
function stopsOf(rows: readonly Row[], journal: Journal, from: number): Stop[] {
  const stops: Stop[] = [];
  let [litres, variance, taken, missed] = [0, 0, 0, false];
  for (let n = from; n < rows.length; n++) {
    const row = rows[n]!;
    const { entry_id, tank_ids = [], refused = false } = row.step;
    const unused = refused || journal.outcomes[n]!.held !== null;
    missed = missed || row.missed || (unused && tank_ids.length > 0);
    if (!unused) {
      litres += row.litres;
      variance += row.variance;
      taken += row.taken;
    }
    if (!row.located) continue;
    stops.push({
      id: entry_id,
      odometer_km: row.at,
      litres_l: litres,
      full: row.full && !unused,
      missed_before: missed,
      litres_u_l: Math.sqrt(variance),
      taken_l: taken,
    });
    [litres, variance, taken, missed] = [0, 0, 0, false];
  }
  return stops;
}

function topsOf(rows: readonly Row[], closed: readonly Segment[], from: number): string[] {
  let n = from;
  const waysAt = (id: string) => {
    while (rows[n]!.step.entry_id !== id) n++;
    return rows[n]!.ways;
  };
  return closed.map(({ from_id, to_id }) => {
    const [before, after] = [waysAt(from_id), waysAt(to_id)];
    const gained = (name: string) => (after[name] ?? 0) - (before[name] ?? 0);
    return CLASSES.reduce((best, name) => (gained(name) > gained(best) ? name : best));
  });
}

const CLASSES = allClasses();

function counted(names: readonly string[]): Record<string, number> {
  const counts: Record<string, number> = {};
  for (const name of names) counts[name] = (counts[name] ?? 0) + 1;
  return counts;
}
