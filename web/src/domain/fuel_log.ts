/** From the entries of a fuel log to its journal, its segments, and what is the matter with which entry. */
import type { ChangeEntry, DipEntry, FillEntry, TransferEntry } from "./entries";
import { CHANGE_U, type DomainEvent } from "./events";
import { MOST_STATES, type Model, type Settings } from "./filter";
import { allClasses, BASE_RATE, classOf, FUEL, FUEL_KAPPAS, fuelModel, type TankSpec } from "./fuel";
import { type Accuracy, type Segment, type Stop, segments } from "./fullfull";
import { type Journal, type Part, runJournal } from "./journal";
import { type Finding, finding, place } from "./placing";
import type { Mix } from "./remain";
import { type Apart, type Row, rowOf, TankReader } from "./tank_reader";

/** Two readings of one level within this way are one reading (the odometer's step). */
export const NEAR_KM = 1;
export type FuelEntry = FillEntry | DipEntry | TransferEntry | ChangeEntry;

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

/** Read a whole log; with `previous` only what is new or changed is run through the filter again. */
export function readFuelLog({ setup: given, entries, previous = null }: ReadFuelLog): FuelLog {
  const setup = filled(given);
  const reader = new FuelReader(setup);
  reader.read(entries);
  const { tanks, base_rate, rates, settings, kappas } = setup;
  const factor = setup.factor * reader.firstWeight;
  const class_ids = classesOf(setup, reader);
  const model = fuelModel({ tanks, class_ids, base_rate, rates, factor, settings });
  const steps = reader.rows.map((row) => row.step);
  const journal = runJournal({ model, kappas, steps, previous: previous?.journal ?? null });
  reader.judge(journal);
  const closed = segments({ stops: stopsOf(reader.rows, journal), accuracy: accuracyOf({ setup }) });
  return {
    setup,
    model,
    journal,
    findings: reader.findings,
    segments: closed,
    apart: [...reader.apart].map(([tank_id, litres_l]) => ({ tank_id, litres_l })),
    odometer_km: reader.odometer_km,
    mix: reader.mix,
    ways_km: reader.ways,
    full_tanks: fullTanks(reader.rows, closed),
  };
}

/** What the segments of a log take for exact: pump, shut-off, odometer and its factor. */
export function accuracyOf({ setup }: { readonly setup: FuelSetup }): Accuracy {
  const { settings, factor, factor_u } = filled(setup);
  return { pump_u: settings.fill_u, full_u_l: settings.full_u_l, factor, factor_u };
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
    confirmed: [],
    alike: {},
    ...given,
  };
}

/** Walks the placed entries once; the way since the entry before belongs to each. */
class FuelReader extends TankReader {
  readonly setup: Required<FuelSetup>;
  odometer_km: number | null = null;
  at = 0;
  surface: Mix = { sealed: 1 };
  towing = false;
  mix: Mix = { sealed: 1 };
  ways: Readonly<Record<string, number>> = {};
  /** Indicated km of then times this are indicated km of today. */
  firstWeight = 1;
  weight = 1;
  readonly fullAt = new Map<string, number>();

  constructor(setup: Required<FuelSetup>) {
    super({ ...setup, near: NEAR_KM });
    this.setup = setup;
  }

  read(entries: readonly FuelEntry[]): void {
    const [placeable, refused] = this.check(entries);
    const ordered = this.#inOrder(placeable, refused);
    for (const entry of ordered)
      if (entry.kind === "change" && !refused.has(entry.id)) this.firstWeight /= entry.ratio ?? 1;
    this.weight = this.firstWeight;
    const last = ordered.findLastIndex((entry) => entry.odometer_km != null);
    for (const [n, entry] of ordered.entries()) {
      if (refused.has(entry.id)) this.#leftOut(entry);
      else if (!this.#twiceFull(entry)) this.#counts(entry, n > last);
    }
  }

  /** In their places; one whose odometer cannot be is refused, and stands where its time puts it. */
  #inOrder(placeable: readonly FuelEntry[], refused: Set<string>): FuelEntry[] {
    const places = place({ entries: placeable });
    this.findings.push(...places.findings);
    const wrong = new Set(
      places.findings.filter((one) => one.standing === "refused").map((one) => one.entry_id),
    );
    for (const id of wrong) refused.add(id);
    const told = placeable.map((one) => (wrong.has(one.id) ? { ...one, odometer_km: null } : one));
    const { ids } = wrong.size > 0 ? place({ entries: told }) : places;
    const byId = new Map(told.map((entry) => [entry.id, entry]));
    return ids.map((id) => byId.get(id)!);
  }

  #leftOut(entry: FuelEntry): void {
    const row = this.#row(entry);
    row.step = { ...row.step, refused: true };
    if (entry.kind === "fill") {
      const named = new Set(entry.lines.map((line) => line.tank_id));
      const tank_ids = this.drawn.filter((tank_id) => named.has(tank_id));
      row.missed = true;
      row.step = { ...row.step, tank_ids: tank_ids.length > 0 ? tank_ids : this.drawn };
    }
    this.rows.push(row);
  }

  #counts(entry: FuelEntry, trailing: boolean): void {
    this.surface = entry.surface ?? this.surface;
    this.towing = entry.towing ?? this.towing;
    const row = this.#row(entry);
    if (!row.located && entry.kind !== "change") {
      const about = { entry_id: entry.id, code: "no_odometer", standing: "noted" } as const;
      this.findings.push(finding({ ...about, field: "odometer_km", unit: "km" }));
    }
    const events = this.#events(entry, row, trailing);
    const tank_ids = [...new Set(events.flatMap((event) => (event.kind === "fill" ? [event.tank_id] : [])))];
    // before its way is known, a fill seems more than the tank holds
    const confirmed = this.setup.confirmed.includes(entry.id) || !row.located;
    row.step = { ...row.step, events, tank_ids, confirmed };
    this.add(row);
  }

  #row(entry: FuelEntry): Row {
    const odometer_km = entry.odometer_km ?? null;
    const way = this.#way(odometer_km);
    const step = { entry_id: entry.id, way };
    return rowOf({ step, at: this.at, located: odometer_km !== null, ways: this.ways });
  }

  #way(odometer_km: number | null): Part[] {
    const shares = Object.entries(this.surface).filter(([, share]) => share > 0);
    const named = shares.map(
      ([surface, share]) => [classOf({ surface, towing: this.towing }), share] as const,
    );
    this.mix = Object.fromEntries(named);
    if (odometer_km === null) return [];
    const amount = this.odometer_km === null ? 0 : odometer_km - this.odometer_km;
    this.odometer_km = odometer_km;
    this.at += amount * this.weight;
    if (amount === 0) return [];
    const ways = { ...this.ways };
    for (const [name, share] of named)
      ways[name] = (ways[name] ?? 0) + share * amount * this.weight * this.setup.factor;
    this.ways = ways;
    return named.map(([class_id, share]) => ({ class_id, amount: share * amount }));
  }

  /** Two full fills of one tank at one odometer value: the second is left out until somebody says otherwise. */
  #twiceFull(entry: FuelEntry): boolean {
    if (entry.kind !== "fill" || entry.odometer_km == null) return false;
    const value = entry.odometer_km;
    const full = entry.lines.filter((line) => line.full).map((line) => line.tank_id);
    const asked = this.confirmed.includes(entry.id) || entry.id in this.alike;
    if (!asked && full.some((tank_id) => this.fullAt.get(tank_id) === value)) {
      const about = { entry_id: entry.id, code: "twice_full", standing: "refused" } as const;
      this.findings.push(finding({ ...about, field: "odometer_km", value, unit: "km" }));
      return true;
    }
    for (const tank_id of full) this.fullAt.set(tank_id, value);
    return false;
  }

  #events(entry: FuelEntry, row: Row, trailing: boolean): DomainEvent[] {
    if (entry.kind === "dip") return this.dip(row, entry, trailing);
    if (entry.kind === "transfer") return this.transfer(row, entry);
    if (entry.kind === "change") {
      const { rate_u = CHANGE_U, ratio = 1 } = entry;
      this.weight *= ratio;
      const change: DomainEvent = { kind: "change", rate_u };
      return ratio === 1 ? [change] : [change, { kind: "rescale", ratio }];
    }
    row.missed = entry.missed_before ?? false;
    row.full = this.drawn.every((tank_id) => this.fullAt.get(tank_id) === (entry.odometer_km ?? null));
    const missed = row.missed ? this.drawn.map((tank_id): DomainEvent => ({ kind: "missed", tank_id })) : [];
    return [...missed, ...this.fill(row, entry.lines, trailing)];
  }
}

/** Classes that occur, then those asked about as far as the filter has room. */
function classesOf(setup: Required<FuelSetup>, reader: FuelReader): string[] {
  const occur = new Set(reader.rows.flatMap((row) => (row.step.way ?? []).map((part) => part.class_id)));
  const room = MOST_STATES - reader.drawn.length;
  const wanted = [...[...occur].sort(), ...setup.ahead.filter((name) => !occur.has(name))];
  const chosen = wanted.slice(0, Math.max(room, occur.size));
  return chosen.length > 0 ? chosen : ["sealed"];
}

/** What the segments are made of; litres of an entry without odometer belong to the next one with it. */
function stopsOf(rows: readonly Row[], journal: Journal): Stop[] {
  const stops: Stop[] = [];
  let [litres, variance, taken, missed] = [0, 0, 0, false];
  for (const [n, row] of rows.entries()) {
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

/** Segments by the class that has most of their way. */
function fullTanks(rows: readonly Row[], closed: readonly Segment[]): Record<string, number> {
  const ways = new Map(rows.map((row) => [row.step.entry_id, row.ways]));
  const counts: Record<string, number> = {};
  for (const one of closed) {
    const [before, after] = [ways.get(one.from_id) ?? {}, ways.get(one.to_id) ?? {}];
    const gained = (name: string) => (after[name] ?? 0) - (before[name] ?? 0);
    const most = allClasses().reduce((best, name) => (gained(name) > gained(best) ? name : best));
    counts[most] = (counts[most] ?? 0) + 1;
  }
  return counts;
}
