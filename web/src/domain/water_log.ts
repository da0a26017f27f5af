/** From the entries of a water log to its journal, and which water may be drunk. */
import { type ChangeEntry, type DipEntry, DRINKABLE, type TransferEntry, type WaterEntry } from "./entries";
import { CHANGE_U, type DomainEvent } from "./events";
import type { Model, Settings } from "./filter";
import type { TankSpec } from "./fuel";
import { type Journal, type Part, runJournal } from "./journal";
import { byTime, type Finding } from "./placing";
import { type Apart, type Row, rowOf, TankReader } from "./tank_reader";
import {
  CLASS,
  DAY_S,
  type Presence,
  personDays,
  WATER,
  WATER_KAPPAS,
  WATER_RATE,
  waterModel,
} from "./water";

/** Two readings of one level within so many person-days are one reading (assumed). */
export const NEAR = 0.05;
/** A mean level at or below this share of the capacity counts as empty (assumed). */
export const EMPTY = 0.02;
const UNKNOWN = "unknown";
export type WaterLogEntry = WaterEntry | DipEntry | TransferEntry | ChangeEntry;

/** Tanks and people as a water log needs them; `confirmed` entries are never held. */
export interface WaterSetup {
  readonly tanks: readonly TankSpec[];
  readonly presences?: readonly Presence[];
  readonly rate?: number;
  readonly settings?: Settings;
  readonly kappas?: readonly number[];
  readonly reserve_l?: number | null;
  readonly confirmed?: readonly string[];
  readonly alike?: Readonly<Record<string, string>>;
}

/** Whether the water of a tank may be drunk: yes, no or unknown. */
export interface Quality {
  readonly tank_id: string;
  readonly drinkable: string;
}

/** A water log that has been read, up to its last entry. */
export interface WaterLog {
  readonly setup: Required<WaterSetup>;
  readonly model: Model;
  readonly journal: Journal;
  readonly findings: readonly Finding[];
  readonly apart: readonly Apart[];
  readonly qualities: readonly Quality[];
  readonly until_s: number | null;
}

export interface ReadWaterLog {
  readonly setup: WaterSetup;
  readonly entries: readonly WaterLogEntry[];
  readonly now_s?: number | null;
  readonly previous?: WaterLog | null;
}

/** Read a whole log in order of time; with `previous` only what is new or changed is run again. */
export function readWaterLog({
  setup: given,
  entries,
  now_s = null,
  previous = null,
}: ReadWaterLog): WaterLog {
  const setup = filled(given);
  const { tanks, rate, settings, kappas } = setup;
  const model = waterModel({ tanks, rate, settings });
  const reader = new WaterReader(setup);
  reader.read(entries, now_s === null ? null : now_s + DAY_S);
  const steps = reader.rows.map((row) => row.step);
  const journal = runJournal({ model, kappas, steps, previous: previous?.journal ?? null });
  return {
    setup,
    model,
    journal,
    findings: [...reader.findings, ...reader.judged(journal)],
    apart: [...reader.apart].map(([tank_id, litres_l]) => ({ tank_id, litres_l })),
    qualities: qualitiesOf(reader, journal),
    until_s: reader.until_s,
  };
}

function filled(given: WaterSetup): Required<WaterSetup> {
  const usual = {
    presences: [],
    rate: WATER_RATE,
    settings: WATER,
    kappas: WATER_KAPPAS,
    reserve_l: null,
    confirmed: [],
    alike: {},
  };
  return { ...usual, ...given };
}

/** What an entry puts where: water of a quality, or the water of another tank. */
interface Content {
  readonly into: string;
  readonly drinkable: string | null;
  readonly source: string | null;
}

/** Walks the entries once, in order of time. */
class WaterReader extends TankReader {
  readonly setup: Required<WaterSetup>;
  until_s: number | null = null;
  at = 0;
  readonly contents: (Content | null)[] = [];
  readonly apartAfter: ReadonlyMap<string, number>[] = [];

  constructor(setup: Required<WaterSetup>) {
    super({ ...setup, near: NEAR });
    this.setup = setup;
  }

  read(entries: readonly WaterLogEntry[], latest_s: number | null): void {
    const [placeable, refused] = this.check(entries, latest_s);
    for (const entry of placeable.sort(byTime)) {
      // before the log begins there is nothing that it could have changed
      if (entry.kind === "change" && this.until_s === null) continue;
      const way = this.#way(entry.at_s);
      const row = rowOf({ step: { entry_id: entry.id, way }, at: this.at });
      if (refused.has(entry.id)) {
        row.step = { ...row.step, refused: true, tank_ids: this.touched(entry) };
      } else {
        const events = this.possible(row, entry, () => this.#events(entry, row));
        const confirmed = this.setup.confirmed.includes(entry.id);
        if (events) row.step = { ...row.step, events, tank_ids: this.filledBy(events), confirmed };
      }
      this.contents.push(row.step.refused ? null : contentOf(entry));
      this.add(row);
      this.apartAfter.push(new Map(this.apart));
    }
  }

  #way(at_s: number): Part[] {
    const from_s = this.until_s;
    this.until_s = at_s;
    if (from_s === null) return [];
    const amount = personDays({ presences: this.setup.presences, from_s, until_s: at_s });
    this.at += amount;
    return amount > 0 ? [{ class_id: CLASS, amount }] : [];
  }

  #events(entry: WaterLogEntry, row: Row): DomainEvent[] {
    if (entry.kind === "dip") return this.dip(row, entry, true);
    if (entry.kind === "transfer") return this.transfer(row, entry);
    if (entry.kind === "change") {
      const { rate_u = CHANGE_U } = entry;
      return rate_u > 0 ? [{ kind: "change", rate_u }] : [];
    }
    const { tank_id, litres_l } = entry;
    if (entry.action === "fill") return this.fill(row, [entry], true);
    const held = this.apart.get(tank_id);
    if (held !== undefined) {
      if (entry.id in this.alike) return [];
      this.apart.set(tank_id, entry.everything ? 0 : Math.max(held - litres_l, 0));
      return [];
    }
    if (entry.everything) return [{ kind: "pour", tank_id, into_id: null }];
    row.shown = ["litres_l", litres_l];
    const litres_u_l = entry.litres_u_l ?? this.settings.fill_u * litres_l;
    return [{ kind: "transfer", tank_id, into_id: null, litres_l, litres_u_l }];
  }
}

function contentOf(entry: WaterLogEntry): Content | null {
  if (entry.kind === "water" && entry.action === "fill" && entry.litres_l > 0)
    return { into: entry.tank_id, drinkable: entry.drinkable ?? UNKNOWN, source: null };
  if (entry.kind === "transfer" && entry.to_tank_id != null)
    return { into: entry.to_tank_id, drinkable: null, source: entry.from_tank_id };
  return null;
}

/** A tank is as drinkable as the worst put in since it was empty; before anything was, it is unknown. */
function qualitiesOf(reader: WaterReader, journal: Journal): Quality[] {
  const quality = new Map<string, string | null>(reader.tanks.map((tank) => [tank.id, null]));
  let empty = new Set(reader.tanks.map((tank) => tank.id));
  for (const [n, content] of reader.contents.entries()) {
    if (content !== null) {
      const putIn = content.drinkable ?? quality.get(content.source ?? "") ?? UNKNOWN;
      const before = empty.has(content.into) ? null : (quality.get(content.into) ?? null);
      quality.set(content.into, worse(before, putIn));
    }
    const levels = new Map(reader.drawn.map((tank_id, t) => [tank_id, journal.outcomes[n]!.levels_l[t]!]));
    const litres = (tank_id: string) => levels.get(tank_id) ?? reader.apartAfter[n]!.get(tank_id) ?? 0;
    const drained = reader.tanks.filter((tank) => litres(tank.id) <= EMPTY * tank.capacity_l);
    empty = new Set(drained.map((tank) => tank.id));
  }
  return [...quality].map(([tank_id, word]) => ({ tank_id, drinkable: word ?? UNKNOWN }));
}

function worse(one: string | null, other: string): string {
  if (one === null) return other;
  return DRINKABLE.indexOf(other) > DRINKABLE.indexOf(one) ? other : one;
}
