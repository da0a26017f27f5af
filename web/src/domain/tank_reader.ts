/** What the entries of fuel and of water have in common: lines, levels and transfers as events of the filter. */
import {
  checkEntry,
  checkFits,
  checkPlace,
  type DipEntry,
  type Entry,
  type FillLine,
  TooMuch,
  type TransferEntry,
  tankOf,
} from "./entries";
import { DomainError, Duplicate } from "./errors";
import { type DomainEvent, type Fill, OVERFILL, type Start } from "./events";
import type { Settings } from "./filter";
import { DIP_U, drawnTanks, type TankSpec } from "./fuel";
import { HOLD, type Journal, type Outcome, type Step } from "./journal";
import { type Finding, finding, findingOf } from "./placing";

/** No level is known better than to a millilitre, whatever is typed (assumed). */
export const LEAST_U_L = 1e-3;

/** What a can or a store that is not drawn from holds, by its entries alone. */
export interface Apart {
  readonly tank_id: string;
  readonly litres_l: number;
}

/** A step in the making, with what segments and findings need of it; see the Python twin. */
export interface Row {
  step: Step;
  readonly at: number;
  readonly located: boolean;
  litres: number;
  variance: number;
  taken: number;
  full: boolean;
  missed: boolean;
  dip_of: string | null;
  shown: readonly [string, number | null];
  readonly ways: Readonly<Record<string, number>>;
}

/** A row as it begins: nothing put in, nothing read. */
export function rowOf({ step, at, located = true, ways = {} }: RowStart): Row {
  return {
    step,
    at,
    located,
    litres: 0,
    variance: 0,
    taken: 0,
    full: false,
    missed: false,
    dip_of: null,
    shown: ["", null],
    ways,
  };
}

type RowStart = Pick<Row, "step" | "at"> & Partial<Pick<Row, "located" | "ways">>;

/** The last row of a part that was read elsewhere: where, and whether it keeps later readings from being one with earlier. */
export interface Before {
  readonly at: number;
  readonly busy: boolean;
}

export interface Reading {
  readonly tanks: readonly TankSpec[];
  readonly settings: Settings;
  /** Two readings within this amount are one reading. */
  readonly near: number;
  readonly confirmed?: readonly string[];
  /** Entries that may be others over again, with the other's id. */
  readonly alike?: Readonly<Record<string, string>>;
  readonly unseen?: Before | null;
}

/** Turns what entries say into events. */
export class TankReader {
  readonly tanks: readonly TankSpec[];
  readonly settings: Settings;
  readonly near: number;
  readonly confirmed: readonly string[];
  readonly alike: Readonly<Record<string, string>>;
  readonly drawn: readonly string[];
  readonly apart = new Map<string, number>();
  readonly rows: Row[] = [];
  readonly findings: Finding[] = [];
  /** Rows as they were before a later one, the row `by`, repeated their reading. */
  readonly replaced: { readonly by: number; readonly n: number; readonly before: Row }[] = [];

  readonly unseen: Before | null;
  /** Whether a reading may be one with another that was read elsewhere. */
  unsure = false;

  constructor({ tanks, settings, near, confirmed = [], alike = {}, unseen = null }: Reading) {
    this.tanks = tanks;
    this.settings = settings;
    this.near = near;
    this.confirmed = confirmed;
    this.alike = alike;
    this.unseen = unseen;
    this.drawn = drawnTanks({ tanks }).map((tank) => tank.id);
    for (const tank of tanks) if (!(tank.drawn ?? true)) this.apart.set(tank.id, 0);
  }

  /** Entries that can be placed, and the ids of those whose figures are refused; an id counts once. */
  check<E extends Entry>(entries: readonly E[], latest_s: number | null = null): [E[], Set<string>] {
    const placeable: E[] = [];
    const refused = new Set<string>();
    const seen = new Set<string>();
    for (const entry of entries) {
      try {
        if (seen.has(entry.id)) throw new Duplicate("id", entry.id);
        checkPlace({ entry, latest_s });
        seen.add(entry.id);
        placeable.push(entry);
        checkEntry({ entry, tanks: this.tanks });
      } catch (error) {
        if (!(error instanceof DomainError)) throw error;
        this.findings.push(findingOf({ entry_id: entry.id, error }));
        refused.add(entry.id);
      }
    }
    return [placeable, refused];
  }

  /** Tanks that something was put into. */
  filledBy(events: readonly DomainEvent[]): string[] {
    const tank_ids: string[] = [];
    for (const event of events)
      if (event.kind === "fill" && !tank_ids.includes(event.tank_id)) tank_ids.push(event.tank_id);
    return tank_ids;
  }

  /** The next row. One that may be another over again is held, and opens no level: that one has said it. */
  add(row: Row): void {
    if (row.step.entry_id in this.alike) row.step = { ...row.step, doubt: "alike", tank_ids: [] };
    this.rows.push(row);
  }

  /**
   * Litres of one stop, each tank filled and then perhaps full. Without a place on the way a full tank is not read;
   * at the end of a log such a stop only sets the level of what is full, its other litres wait. A full tank is full
   * whether it was logged once or twice: of an entry that may be a double only the rest counts.
   */
  fill(row: Row, lines: readonly FillLine[], trailing: boolean): DomainEvent[] {
    const fills: Fill[] = [];
    const fulls = new Map<string, DomainEvent>();
    row.shown = ["litres_l", lines.reduce((sum, line) => sum + line.litres_l, 0)];
    const double = row.step.entry_id in this.alike;
    for (const { tank_id, litres_l, litres_u_l, full } of lines) {
      const held = this.apart.get(tank_id);
      if (double && (full || held !== undefined)) continue;
      if (held !== undefined) {
        this.apart.set(tank_id, held + litres_l);
        continue;
      }
      const putIn = this.#putIn(row, tank_id, litres_l, litres_u_l ?? null);
      if (row.located || !trailing) fills.push(putIn);
      if (full && row.located)
        fulls.set(tank_id, { kind: "full", tank_ids: [tank_id], litres_u_l: this.#ownFull(tank_id) });
      else if (full && trailing) {
        const tank = this.#tank(tank_id);
        const [litres, u] = [tank.capacity_l, tank.full_u_l ?? this.settings.full_u_l];
        fulls.set(tank_id, { kind: "start", tank_id, litres_l: litres, litres_u_l: u });
      }
    }
    return [...fills, ...fulls.values()];
  }

  /** A level read; without a place on the way it sets the level at the end of a log, and else says nothing. */
  dip(row: Row, entry: DipEntry, trailing: boolean): DomainEvent[] {
    const { tank_id } = entry;
    const capacity = this.#capacity(tank_id);
    const how = entry.how ?? "gauge";
    const usual = (how === "gauge" ? this.#tank(tank_id).gauge_u : null) ?? DIP_U[how]!;
    const level = entry.level ?? 0;
    const litres_l = entry.litres_l ?? null;
    if (this.apart.has(tank_id)) {
      this.apart.set(tank_id, litres_l ?? level * capacity);
      return [];
    }
    this.#oneReading(row, tank_id);
    let [event, setTo]: [DomainEvent, Start] = [] as never;
    if (litres_l !== null) {
      const litres_u_l = Math.max(entry.litres_u_l ?? usual * capacity, LEAST_U_L);
      row.shown = ["litres_l", litres_l];
      event = { kind: "level", tank_id, litres_l, litres_u_l };
      setTo = { kind: "start", tank_id, litres_l, litres_u_l };
    } else {
      const share = Math.max(entry.level_u ?? usual, LEAST_U_L / capacity);
      row.shown = ["level", level];
      event = { kind: "gauge", tank_id, fraction: level, fraction_u: share };
      setTo = { kind: "start", tank_id, litres_l: level * capacity, litres_u_l: share * capacity };
    }
    if (row.located) return [event];
    return trailing ? [setTo] : [];
  }

  /**
   * Between tanks, cans and the outside; what a can holds is counted by its entries. Without a u the litres are known as
   * those of a fill; more out of a can than a tank takes is `TooMuch`.
   */
  transfer(row: Row, entry: TransferEntry): DomainEvent[] {
    const tank_id = entry.from_tank_id;
    let into_id = entry.to_tank_id ?? null;
    if (entry.id in this.alike && [tank_id, into_id].some((one) => this.apart.has(one ?? ""))) return [];
    if (this.apart.has(tank_id)) return this.#fromApart(row, entry);
    const litres_l = entry.litres_l ?? null;
    if (litres_l === null) {
      row.missed = into_id === null; // how much left the tanks is not known: no segment over it
      return [{ kind: "pour", tank_id, into_id }];
    }
    const stored = into_id === null ? undefined : this.apart.get(into_id);
    if (into_id !== null && stored !== undefined) {
      this.apart.set(into_id, stored + litres_l);
      into_id = null;
    }
    const litres_u_l = this.#litresU(litres_l, entry.litres_u_l ?? null);
    if (into_id === null) {
      row.taken = litres_l;
      row.variance += litres_u_l ** 2;
    }
    return [{ kind: "transfer", tank_id, into_id, litres_l, litres_u_l }];
  }

  /** Tanks whose level is open after an entry that is refused; a fill whose tanks are not known opens all. */
  touched(entry: Entry): readonly string[] {
    if (entry.kind === "dip" || entry.kind === "change") return [];
    const named: readonly (string | null | undefined)[] =
      entry.kind === "fill"
        ? entry.lines.map((line) => line.tank_id)
        : entry.kind === "transfer"
          ? [entry.from_tank_id, entry.to_tank_id]
          : [entry.tank_id];
    const found = this.drawn.filter((tank_id) => named.includes(tank_id));
    return entry.kind === "fill" && found.length === 0 ? this.drawn : found;
  }

  /** What an entry says; null where its figures turn out not to be possible once it is known what came before. */
  possible(row: Row, entry: Entry, events: () => DomainEvent[]): DomainEvent[] | null {
    try {
      return events();
    } catch (error) {
      if (!(error instanceof TooMuch)) throw error;
      this.findings.push(findingOf({ entry_id: entry.id, error }));
      row.step = { ...row.step, refused: true, tank_ids: this.touched(entry) };
      return null;
    }
  }

  /** What the filter has to say: entries held, and the last change of rate that no `Change` has answered. */
  judged({ outcomes }: Pick<Journal, "outcomes">, before: Finding | null = null): Finding[] {
    const found: Finding[] = [];
    for (let n = 0; n < outcomes.length; n++)
      if (outcomes[n]!.held) found.push(this.#heldOnce(this.rows[n]!, outcomes[n]!));
    for (let n = outcomes.length - 1; n >= 0; n--) {
      const { entry_id, alarm } = outcomes[n]!;
      if (alarm && !this.confirmed.includes(entry_id))
        return [...found, finding({ entry_id, standing: "asked", field: "rate", code: `uses_${alarm}` })];
      if (hasChange(this.rows[n]!.step.events ?? [])) return found;
    }
    return before ? [...found, before] : found;
  }

  #heldOnce(row: Row, outcome: Outcome): Finding {
    const known = HELD.get(outcome);
    if (known?.row === row) return known.finding;
    const found = this.#held(row, outcome);
    HELD.set(outcome, { row, finding: found });
    return found;
  }

  /** Why an entry is held, and which value of what was typed would have fitted within 4 of its sd. */
  #held(row: Row, outcome: Outcome): Finding {
    const [field, value] = row.shown;
    const about = { entry_id: row.step.entry_id, standing: "held" } as const;
    if (outcome.held === "alike")
      return finding({ ...about, code: "alike", field: "id", value: this.alike[about.entry_id]! });
    if (outcome.held === "beyond_tank") {
      const way = (row.step.way ?? []).reduce((sum, part) => sum + part.amount, 0);
      const far = { code: "beyond_tank", field: "odometer_km", value: way, unit: "km" };
      return finding({ ...about, ...far, ...missing(outcome) });
    }
    if (outcome.held === "overfull" || value === null)
      return finding({ ...about, code: "overfull", field, value, unit: "L" });
    const off = outcome.readings.reduce((worst, one) => (Math.abs(one.z) > Math.abs(worst.z) ? one : worst));
    const per = row.dip_of && field === "level" ? this.#capacity(row.dip_of) : 1;
    // a level was read too high by nu; litres were typed too low by nu
    const middle = value + (row.dip_of ? -off.nu_l : off.nu_l) / per;
    const reach = (HOLD * Math.sqrt(off.s_l2)) / per;
    const filled = (row.step.tank_ids ?? []).reduce((sum, tank_id) => sum + this.#capacity(tank_id), 0);
    const most = field === "level" ? 1 : OVERFILL * (filled || this.#capacity(row.dip_of ?? ""));
    const within = (end: number) => Math.min(Math.max(end, 0), most);
    const [low, high, unit] = [within(middle - reach), within(middle + reach), field === "level" ? "" : "L"];
    const lacks = off.nu_l > 0 ? missing(outcome) : {};
    return finding({ ...about, code: "held", field, value, low, high, unit, ...lacks });
  }

  #fromApart(row: Row, entry: TransferEntry): DomainEvent[] {
    const have = this.apart.get(entry.from_tank_id)!;
    const litres = entry.litres_l ?? have;
    const drawn = this.drawn.find((tank_id) => tank_id === entry.to_tank_id);
    if (drawn !== undefined) checkFits({ litres_l: litres, tank: this.#tank(drawn) });
    if (litres > have && !this.confirmed.includes(entry.id)) {
      const about = { entry_id: entry.id, code: "can_short", standing: "asked", field: "litres_l" } as const;
      this.findings.push(finding({ ...about, value: litres, low: 0, high: have, unit: "L" }));
    }
    this.apart.set(entry.from_tank_id, Math.max(have - litres, 0));
    const into = entry.to_tank_id ?? null;
    if (into === null) return [];
    const stored = this.apart.get(into);
    if (stored === undefined) return [this.#putIn(row, into, litres, entry.litres_u_l ?? null)];
    this.apart.set(into, stored + litres);
    return [];
  }

  #putIn(row: Row, tank_id: string, litres_l: number, litres_u_l: number | null): Fill {
    row.litres += litres_l;
    row.variance += this.#litresU(litres_l, litres_u_l) ** 2;
    return { kind: "fill", tank_id, litres_l, litres_u_l };
  }

  #litresU(litres_l: number, stated: number | null): number {
    return stated ?? this.settings.fill_u * litres_l;
  }

  /** u of a tank's own shut-off; null where it is the usual one. */
  #ownFull(tank_id: string): number | null {
    const own = this.#tank(tank_id).full_u_l ?? null;
    return own === null ? null : Math.max(own, LEAST_U_L);
  }

  /** A reading repeated with nothing in between has the same error: only the last one counts. */
  #oneReading(row: Row, tank_id: string): void {
    let n = this.rows.length - 1;
    for (; n >= 0; n--) {
      const before = this.rows[n]!;
      const busy = (before.step.events?.length ?? 0) > 0 && before.dip_of === null;
      if (row.at - before.at > this.near || busy) break;
      if (before.dip_of !== tank_id) continue;
      this.replaced.push({ by: this.rows.length, n, before });
      this.rows[n] = { ...before, step: { ...before.step, events: [] } };
    }
    const { unseen } = this;
    if (n < 0 && unseen) this.unsure ||= !(unseen.busy || row.at - unseen.at > this.near);
    row.dip_of = tank_id;
  }

  #tank(tank_id: string): TankSpec {
    return tankOf({ tanks: this.tanks, tank_id });
  }

  #capacity(tank_id: string): number {
    return this.#tank(tank_id).capacity_l;
  }
}

/** Litres that a fill nobody entered would have to hold: what a reading lacks, with its u, or at least the way's. */
function missing({ readings, levels_l }: Outcome): Pick<Finding, "missing_l" | "missing_u_l"> {
  const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
  if (readings.length === 0) return { missing_l: Math.max(-sum(levels_l), 0), missing_u_l: null };
  const u = Math.sqrt(sum(readings.map((one) => one.s_l2)));
  return { missing_l: Math.max(sum(readings.map((one) => one.nu_l)), 0), missing_u_l: u };
}

/** What was found of outcomes that a continued log has again. */
const HELD = new WeakMap<Outcome, { readonly row: Row; readonly finding: Finding }>();

function hasChange(events: readonly DomainEvent[]): boolean {
  for (const event of events) if (event.kind === "change") return true;
  return false;
}
