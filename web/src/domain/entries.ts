/** The entries of a log as plain numbers, and what is refused of one entry before anything is computed. */
import { checkFinite, checkRange, DomainError, NotKnown, OutOfRange, Unknown } from "./errors";
import { CHANGE_U, OVERFILL } from "./events";
import { DIP_U, mixOf, type TankSpec } from "./fuel";
import type { Mix } from "./remain";

interface Common {
  readonly id: string;
  readonly at_s: number;
  readonly sequence: number;
}

/** What a fuel entry tells of the way since the entry before; blank is as before. */
interface Travelled extends Common {
  readonly odometer_km?: number | null;
  readonly surface?: Mix | null;
  readonly towing?: boolean | null;
}

/** Litres into one tank or can, as typed; a blank u is the pump's. */
export interface FillLine {
  readonly tank_id: string;
  readonly litres_l: number;
  readonly full?: boolean;
  readonly litres_u_l?: number | null;
}

/** One stop. */
export interface FillEntry extends Travelled {
  readonly kind: "fill";
  readonly lines: readonly FillLine[];
  readonly missed_before?: boolean;
}

/** A level read, as a fraction or in litres; a blank u is that of how it was read. */
export interface DipEntry extends Travelled {
  readonly kind: "dip";
  readonly tank_id: string;
  readonly how?: string;
  readonly level?: number | null;
  readonly level_u?: number | null;
  readonly litres_l?: number | null;
  readonly litres_u_l?: number | null;
}

/** Litres from one tank or can to another, or out (no `to_tank_id`); or everything. */
export interface TransferEntry extends Travelled {
  readonly kind: "transfer";
  readonly from_tank_id: string;
  readonly to_tank_id?: string | null;
  readonly litres_l?: number | null;
  readonly litres_u_l?: number | null;
  readonly everything?: boolean;
}

/** Something that changes the rates; `ratio` is k_new / k_old if other tyres change the odometer. With a `rate_u` of 0 it only tells of the way. */
export interface ChangeEntry extends Travelled {
  readonly kind: "change";
  readonly rate_u?: number;
  readonly ratio?: number;
}

/** Water put in, drawn off for something else than the day's use, or dumped. */
export interface WaterEntry extends Common {
  readonly kind: "water";
  readonly tank_id: string;
  readonly action: string;
  readonly litres_l: number;
  readonly litres_u_l?: number | null;
  readonly full?: boolean;
  readonly drinkable?: string;
  /** All of it: the litres then say nothing. */
  readonly everything?: boolean;
  readonly odometer_km?: null;
}

export type FuelEntry = FillEntry | DipEntry | TransferEntry | ChangeEntry;
export type Entry = FuelEntry | WaterEntry;
export const ACTIONS: readonly string[] = ["fill", "draw", "dump"];
/** From the best to the worst. */
export const DRINKABLE: readonly string[] = ["yes", "unknown", "no"];

/** More than 1.1 capacities in one fill. */
export class TooMuch extends OutOfRange {
  override readonly name = "TooMuch";
  override readonly code = "fill_too_large";
}

export interface CheckPlace {
  readonly entry: Entry;
  readonly latest_s?: number | null;
}

/** Refuse an entry that cannot be placed: an instant that is no number or too late, an odometer below 0. */
export function checkPlace({ entry, latest_s = null }: CheckPlace): void {
  const high = latest_s === null ? null : checkFinite("latest_s", latest_s);
  checkRange("at_s", entry.at_s, { high, unit: "s" });
  checkFinite("sequence", entry.sequence);
  if (entry.odometer_km != null) checkRange("odometer_km", entry.odometer_km, { low: 0, unit: "km" });
}

export interface CheckEntry {
  readonly entry: Entry;
  readonly tanks: readonly TankSpec[];
}

/** Refuse what an entry says if it cannot be; litres above 1.1 capacities are `TooMuch`. */
export function checkEntry({ entry, tanks }: CheckEntry): void {
  if (entry.kind !== "water") checkSurface(entry.surface ?? null);
  if (entry.kind === "fill") {
    if (entry.lines.length === 0) throw new NotKnown("lines", "a fill");
    for (const line of entry.lines) checkFill(line, tanks);
  } else if (entry.kind === "dip") checkDip(entry, tanks);
  else if (entry.kind === "transfer") checkTransfer(entry, tanks);
  else if (entry.kind === "change") {
    checkRange("rate_u", entry.rate_u ?? CHANGE_U, { low: 0 });
    checkRange("ratio", entry.ratio ?? 1, { above: 0 });
  } else checkWater(entry, tanks);
}

export interface TankOf {
  readonly tanks: readonly TankSpec[];
  readonly tank_id: string;
}

/** The tank with this id; refuses one that is not there. */
export function tankOf({ tanks, tank_id }: TankOf): TankSpec {
  const found = tanks.find((tank) => tank.id === tank_id);
  if (!found)
    throw new Unknown(
      "tank_id",
      tank_id,
      tanks.map((tank) => tank.id),
    );
  checkRange("capacity_l", found.capacity_l, { above: 0, unit: "L" });
  return found;
}

export interface CheckFits {
  readonly litres_l: number;
  readonly tank: TankSpec;
}

/** Refuse litres that no tank of this capacity takes or gives at once: more than 1.1 of it are `TooMuch`. */
export function checkFits({ litres_l, tank }: CheckFits): void {
  const high = OVERFILL * tank.capacity_l;
  if (litres_l > high) throw new TooMuch("litres_l", litres_l, { low: 0, high, unit: "L" });
}

function checkFill(line: FillLine, tanks: readonly TankSpec[]): void {
  const tank = tankOf({ tanks, tank_id: line.tank_id });
  checkRange("litres_l", line.litres_l, { low: 0, unit: "L" });
  checkU("litres_u_l", line.litres_u_l);
  checkFits({ litres_l: line.litres_l, tank });
}

function checkDip(entry: DipEntry, tanks: readonly TankSpec[]): void {
  const { capacity_l } = tankOf({ tanks, tank_id: entry.tank_id });
  const { how = "gauge", level = null, litres_l = null } = entry;
  if (!(how in DIP_U)) throw new Unknown("how", how, Object.keys(DIP_U));
  if (level === null && litres_l === null) throw new NotKnown("level", "a level read");
  if (level !== null) checkRange("level", level, { low: 0, high: 1 });
  if (litres_l !== null) checkRange("litres_l", litres_l, { low: 0, high: OVERFILL * capacity_l, unit: "L" });
  checkU("level_u", entry.level_u);
  checkU("litres_u_l", entry.litres_u_l);
}

function checkTransfer(entry: TransferEntry, tanks: readonly TankSpec[]): void {
  const source = tankOf({ tanks, tank_id: entry.from_tank_id });
  const into = entry.to_tank_id == null ? null : tankOf({ tanks, tank_id: entry.to_tank_id });
  if (into === source) throw new DomainError("to_tank_id", entry.to_tank_id, "another tank");
  const litres_l = entry.litres_l ?? null;
  const counted = into !== null && !(into.drawn ?? true);
  // what a can holds is counted: from a drawn tank it must be said how much
  const open = (source.drawn ?? true) && counted;
  if (litres_l === null && (!entry.everything || open)) throw new NotKnown("litres_l", "a transfer");
  if (litres_l !== null) {
    checkRange("litres_l", litres_l, { low: 0, unit: "L" });
    for (const tank of [source, into]) if (tank) checkFits({ litres_l, tank });
  }
  checkU("litres_u_l", entry.litres_u_l);
}

function checkWater(entry: WaterEntry, tanks: readonly TankSpec[]): void {
  const { action, drinkable = "unknown" } = entry;
  if (!ACTIONS.includes(action)) throw new Unknown("action", action, ACTIONS);
  if (!DRINKABLE.includes(drinkable)) throw new Unknown("drinkable", drinkable, DRINKABLE);
  checkFill(entry, tanks);
}

function checkSurface(surface: Mix | null): void {
  if (surface !== null) mixOf({ surface });
}

function checkU(field: string, value: number | null | undefined): void {
  if (value != null) checkRange(field, value, { low: 0 });
}
