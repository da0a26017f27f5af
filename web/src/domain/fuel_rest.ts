/**
 * A fuel log gone on from a place near its end without what came before it. Only a place is taken behind which every
 * entry lies later, was recorded later and shows more kilometres than all before it: what follows then changes nothing
 * of what was read before, and is itself read as it would be behind all of it.
 */
import type { FuelEntry } from "./entries";
import { fuelModel } from "./fuel";
import { type Carried, counted, stopsOf, topsOf } from "./fuel_closed";
import {
  accuracyOf,
  classesOf,
  type FuelLog,
  type FuelSetup,
  filled,
  plainOf,
  type Reading,
  readingOf,
} from "./fuel_log";
import { beyond, type End, endOf, orderAfter, ratioAfter } from "./fuel_order";
import { FuelReader, type Mark } from "./fuel_reader";
import { type Segment, type Stop, segments } from "./fullfull";
import { EVERY, type Journal, runJournal, type Standing } from "./journal";
import { byTime, type Finding, type Placed } from "./placing";
import type { Before, Row } from "./tank_reader";

/** Where a log may be gone on from: plain data, of which a cache may be made. */
export interface Rest {
  /** The setup, but for what it says of single entries. */
  readonly plain: string;
  /** So many entries lie before. */
  readonly count: number;
  readonly end: End;
  /** The last of them with an odometer reading. */
  readonly last: Placed;
  readonly mark: Mark;
  readonly before: Before;
  readonly firstWeight: number;
  /** What the changes of the odometer up to here make of it. */
  readonly ratio: number;
  readonly checked: readonly Finding[];
  readonly odd: readonly Finding[];
  readonly read: readonly Finding[];
  readonly held: readonly Finding[];
  readonly alarm: Finding | null;
  readonly model: Journal["model"];
  readonly standing: Standing;
  readonly readings: number;
  readonly segments: Packed;
  readonly since_full: Segment | null;
  readonly tops: Readonly<Record<string, number>>;
  readonly open: Open;
}

/** Many segments in few objects: the ids of both ends, and five figures of each. */
interface Packed {
  readonly ids: string;
  readonly figures: Float64Array;
}

/** Stops since the last full tank, the ways up to each, and what belongs to the next stop. */
interface Open {
  readonly stops: readonly Stop[];
  readonly ways: Readonly<Record<string, Readonly<Record<string, number>>>>;
  readonly carried: Carried;
}

/** At least so many entries are read again, so that one a few places before the end needs no more than them. */
const AGAIN = 8;
/** So many places are tried, from the end. */
const TRIED = 6;

/** The last place that a log which was read whole may be gone on from, or null. */
export function restOf(log: FuelLog): Rest | null {
  const reading = readingOf(log);
  if (!reading) return null;
  const { entries, placed } = reading.order;
  if (new Set(entries.map((one) => one.id)).size < entries.length) return null;
  const marks = reading.reader.marks.filter(
    ({ n }) => n % EVERY === 0 && n > 0 && n <= placed.length - AGAIN,
  );
  for (const mark of marks.slice(-TRIED).reverse()) {
    const rest = restAt(log, reading, mark);
    if (rest) return rest;
  }
  return null;
}

function restAt(log: FuelLog, reading: Reading, mark: Mark): Rest | null {
  const { order, reader, journal, closed } = reading;
  const [before, after] = [order.entries.slice(0, mark.n), order.entries.slice(mark.n)];
  const ids = new Set(before.map((one) => one.id));
  const of = (list: readonly Finding[]) => list.filter((one) => ids.has(one.entry_id));
  if (!order.placed.slice(0, mark.n).every((one) => ids.has(one.id))) return null;
  const odd = of(order.odd);
  const end = endOf(before, odd);
  const last = before
    .filter((one) => one.odometer_km != null)
    .sort(byTime)
    .at(-1);
  if (!end || !last || order.placed[mark.n - 1]!.id !== last.id) return null;
  if (!after.every((one) => beyond(one, end))) return null;
  if (reader.replaced.some(({ n, by }) => n < mark.rows && by >= mark.rows)) return null;
  const rows = reader.rows.slice(0, mark.rows);
  const outcomes = journal.outcomes.slice(0, mark.rows);
  const { model, kappas } = journal;
  const steps = journal.steps.slice(0, mark.rows);
  const told = reader.judged({ outcomes });
  const [lastRow, open] = [rows.at(-1), openOf(rows, journal)];
  if (!lastRow || !open) return null;
  const done = new Set(rows.map((row) => row.step.entry_id));
  const count = closed.segments.filter((one) => done.has(one.to_id)).length;
  return {
    plain: plainOf(log.setup),
    count: mark.n,
    ...{ end, last: placeOf(last), mark, firstWeight: reader.firstWeight },
    before: { at: lastRow.at, busy: lastRow.dip_of === null && (lastRow.step.events?.length ?? 0) > 0 },
    ratio: ratioAfter(1, order.placed.slice(0, mark.n), order.refused),
    ...{ checked: of(order.checked), odd, read: reader.findings.slice(0, mark.findings) },
    held: told.filter((one) => one.standing === "held"),
    alarm: told.find((one) => one.standing === "asked") ?? null,
    model,
    standing: runJournal({ model, kappas, steps, previous: journal }).state,
    readings: outcomes.reduce((sum, one) => sum + (one.held === null ? one.readings.length : 0), 0),
    segments: packed(closed.segments.slice(0, count)),
    since_full: closed.segments[count - 1] ?? null,
    tops: counted(closed.tops.slice(0, count)),
    open,
  };
}

function placeOf({ id, at_s, sequence, odometer_km = null }: Placed): Placed {
  return { id, at_s, sequence, odometer_km };
}

/** From the first of the stops at the place of the last full tank on; without any, from the beginning. */
function openOf(rows: readonly Row[], journal: Journal): Open | null {
  const full = rows.findLastIndex(
    (row, n) => row.located && row.full && !row.step.refused && journal.outcomes[n]!.held === null,
  );
  const from = full < 0 ? 0 : rows.findIndex((row) => row.located && row.at === rows[full]!.at);
  const { stops, carried } = stopsOf(rows, journal, from);
  const known = new Map(rows.slice(from).map((row) => [row.step.entry_id, row.ways]));
  return { stops, carried, ways: Object.fromEntries(stops.map(({ id }) => [id, known.get(id) ?? {}])) };
}

export interface GoOn {
  readonly setup: FuelSetup;
  /** Those after the place, none of which has the id of one before it. */
  readonly entries: readonly FuelEntry[];
  readonly rest: Rest;
}

/** The log of what came before and of these entries; null wherever it might not be the same as read from the start. */
export function goOn({ setup: given, entries, rest }: GoOn): FuelLog | null {
  const setup = filled(given);
  if (entries.length === 0 || plainOf(setup) !== rest.plain) return null;
  if (!entries.every((one) => beyond(one, rest.end))) return null;
  const reader = new FuelReader(setup, rest.firstWeight, null, rest.mark, rest.before);
  const order = orderAfter({ reader, entries, last: rest.last });
  if (ratioAfter(rest.ratio, order.placed, order.refused) !== rest.firstWeight) return null;
  reader.read(order);
  const { tanks, base_rate, rates, settings, kappas } = setup;
  const factor = setup.factor * reader.firstWeight;
  const model = fuelModel({ tanks, class_ids: classesOf(setup, reader), base_rate, rates, factor, settings });
  if (reader.unsure || JSON.stringify(model) !== JSON.stringify(rest.model)) return null;
  const steps = reader.rows.map((row) => row.step);
  const start = {
    model,
    kappas,
    steps: [],
    outcomes: [],
    state: rest.standing,
    kept: [[0, rest.standing]] as const,
  };
  const journal = runJournal({ model, kappas, steps, previous: start });
  const { kept: _, ...since } = journal;
  const { stops } = stopsOf(reader.rows, journal, 0, rest.open.carried);
  const found = segments({ stops: [...rest.open.stops, ...stops], accuracy: accuracyOf({ setup }) });
  const own = new Map(reader.rows.map((row) => [row.step.entry_id, row.ways]));
  const tops = counted(topsOf(found, (id) => own.get(id) ?? rest.open.ways[id] ?? {}));
  let all: readonly Segment[] | null = null;
  return {
    ...{ setup, model, journal: since, rest },
    findings: [
      ...[...rest.checked, ...order.checked, ...rest.odd, ...order.odd],
      ...[...rest.read, ...reader.findings, ...rest.held, ...reader.judged(journal, rest.alarm)],
    ],
    get segments() {
      all ??= [...unpacked(rest.segments), ...found];
      return all;
    },
    since_full: found.at(-1) ?? rest.since_full,
    apart: [...reader.apart].map(([tank_id, litres_l]) => ({ tank_id, litres_l })),
    odometer_km: reader.odometer_km,
    mix: reader.mix,
    ways_km: reader.ways,
    full_tanks: summed(rest.tops, tops),
  };
}

function packed(list: readonly Segment[]): Packed {
  const figures = new Float64Array(5 * list.length);
  for (const [n, one] of list.entries()) {
    const { litres_l, litres_u_l, distance_km, l_per_100km, u } = one;
    figures.set([litres_l, litres_u_l, distance_km, l_per_100km, u], 5 * n);
  }
  return { ids: list.map((one) => `${one.from_id}\n${one.to_id}`).join("\n"), figures };
}

function unpacked({ ids, figures }: Packed): Segment[] {
  const names = ids.split("\n");
  return Array.from({ length: figures.length / 5 }, (_, n) => ({
    from_id: names[2 * n]!,
    to_id: names[2 * n + 1]!,
    litres_l: figures[5 * n]!,
    litres_u_l: figures[5 * n + 1]!,
    distance_km: figures[5 * n + 2]!,
    l_per_100km: figures[5 * n + 3]!,
    u: figures[5 * n + 4]!,
  }));
}

function summed(one: Readonly<Record<string, number>>, other: Readonly<Record<string, number>>) {
  const sums: Record<string, number> = { ...one };
  for (const [name, count] of Object.entries(other)) sums[name] = (sums[name] ?? 0) + count;
  return sums;
}
