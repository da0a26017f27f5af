/** The walk through a fuel log's entries, which can begin where an earlier one stood. */
import type { FuelEntry } from "./entries";
import { CHANGE_U, type DomainEvent } from "./events";
import { mixOf } from "./fuel";
import type { FuelSetup } from "./fuel_log";
import type { Order } from "./fuel_order";
import { EVERY, type Part } from "./journal";
import { finding } from "./placing";
import type { Mix } from "./remain";
import { type Before, type Row, rowOf, TankReader } from "./tank_reader";

/** Two readings of one level within this way are one reading (the odometer's step). */
export const NEAR_KM = 1;

/** Where a reader stood after `n` entries: what the next one needs of those before. */
export interface Mark {
  readonly n: number;
  readonly rows: number;
  readonly findings: number;
  readonly odometer_km: number | null;
  readonly at: number;
  readonly surface: Mix;
  readonly towing: boolean;
  readonly mix: Mix;
  readonly ways: Readonly<Record<string, number>>;
  readonly weight: number;
  readonly apart: ReadonlyMap<string, number>;
  readonly fullAt: ReadonlyMap<string, number>;
}

/** Walks the placed entries once; the way since the entry before belongs to each. */
export class FuelReader extends TankReader {
  readonly setup: Required<FuelSetup>;
  odometer_km: number | null = null;
  at = 0;
  surface: Mix = { sealed: 1 };
  towing = false;
  mix: Mix = { sealed: 1 };
  ways: Readonly<Record<string, number>> = {};
  /** Indicated km of then times this are indicated km of today. */
  readonly firstWeight: number;
  weight: number;
  readonly fullAt = new Map<string, number>();

  readonly marks: Mark[] = [];
  #read = 0;

  /** At the beginning, or at a mark of a reader that has read the same so far, or of one that is not at hand. */
  constructor(
    setup: Required<FuelSetup>,
    firstWeight: number,
    before: FuelReader | null,
    mark: Mark | null,
    unseen: Before | null = null,
  ) {
    super({ ...setup, near: NEAR_KM, unseen });
    this.setup = setup;
    this.firstWeight = firstWeight;
    this.weight = firstWeight;
    if (!mark) return;
    ({ at: this.at, surface: this.surface, towing: this.towing, mix: this.mix, ways: this.ways } = mark);
    ({ odometer_km: this.odometer_km, weight: this.weight } = mark);
    for (const [tank_id, litres] of mark.apart) this.apart.set(tank_id, litres);
    for (const [tank_id, at] of mark.fullAt) this.fullAt.set(tank_id, at);
    if (!before) return;
    this.#read = mark.n;
    this.rows.push(...before.rows.slice(0, mark.rows));
    for (const one of [...before.replaced].reverse())
      if (one.by < mark.rows) this.replaced.unshift(one);
      else if (one.n < mark.rows) this.rows[one.n] = one.before;
    this.findings.push(...before.findings.slice(0, mark.findings));
    this.marks.push(...before.marks.filter((one) => one === mark || (one.n < mark.n && one.n % EVERY === 0)));
  }

  /** Read what follows the mark, or what was read before, up to an entry. */
  read({ placed, refused }: Pick<Order, "placed" | "refused">, until = placed.length): void {
    const last = placed.findLastIndex((entry) => entry.odometer_km != null);
    for (let n = this.#read; n < Math.min(until, placed.length); n++) {
      const entry = placed[n]!;
      if (refused.has(entry.id)) this.#leftOut(entry);
      else if (!this.#twiceFull(entry)) this.#counts(entry, n > last);
      this.#read = n + 1;
      if (this.#read % EVERY === 0 || n + 2 >= placed.length) this.marks.push(this.#mark(this.#read));
    }
  }

  #mark(n: number): Mark {
    const { odometer_km, at, surface, towing, mix, ways, weight } = this;
    const [apart, fullAt] = [new Map(this.apart), new Map(this.fullAt)];
    const counts = { n, rows: this.rows.length, findings: this.findings.length };
    return { ...counts, odometer_km, at, surface, towing, mix, ways, weight, apart, fullAt };
  }

  #leftOut(entry: FuelEntry): void {
    const row = this.#row(entry);
    row.missed = entry.kind === "fill";
    row.step = { ...row.step, refused: true, tank_ids: this.touched(entry) };
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
    const events = this.possible(row, entry, () => this.#events(entry, row, trailing));
    if (!events) {
      this.rows.push(row);
      return;
    }
    // before its way is known, a fill seems more than the tank holds
    const confirmed = this.setup.confirmed.includes(entry.id) || !row.located;
    const { entry_id, way = [] } = row.step;
    row.step = { entry_id, way, events, tank_ids: this.filledBy(events), confirmed };
    this.add(row);
  }

  #row(entry: FuelEntry): Row {
    const odometer_km = entry.odometer_km ?? null;
    const way = this.#way(odometer_km);
    const step = { entry_id: entry.id, way };
    return rowOf({ step, at: this.at, located: odometer_km !== null, ways: this.ways });
  }

  #way(odometer_km: number | null): Part[] {
    const mix = mixOf({ surface: this.surface, towing: this.towing });
    this.mix = mix;
    if (odometer_km === null) return [];
    const amount = this.odometer_km === null ? 0 : odometer_km - this.odometer_km;
    this.odometer_km = odometer_km;
    this.at += amount * this.weight;
    if (amount === 0) return [];
    const ways = { ...this.ways };
    const way: Part[] = [];
    for (const [class_id, share] of Object.entries(mix)) {
      ways[class_id] = (ways[class_id] ?? 0) + share * amount * this.weight * this.setup.factor;
      way.push({ class_id, amount: share * amount });
    }
    this.ways = ways;
    return way;
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
      const change: DomainEvent[] = rate_u > 0 ? [{ kind: "change", rate_u }] : [];
      return ratio === 1 ? change : [...change, { kind: "rescale", ratio }];
    }
    row.missed = entry.missed_before ?? false;
    row.full = this.drawn.every((tank_id) => this.fullAt.get(tank_id) === (entry.odometer_km ?? null));
    const missed = row.missed ? this.drawn.map((tank_id): DomainEvent => ({ kind: "missed", tank_id })) : [];
    return [...missed, ...this.fill(row, entry.lines, trailing)];
  }
}
