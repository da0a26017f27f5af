/** The rows of a book's log as the entries that the estimators read, and the tanks that they are about. */
import type { Body, Book, Row } from "./book";
import type { ChangeEntry, DipEntry, FillEntry, FillLine, TransferEntry } from "./entries";
import { CHANGE_U } from "./events";
import type { TankSpec } from "./fuel";
import type { FuelEntry } from "./fuel_log";
import { WATER_CHANGE_U } from "./water";
import type { WaterLogEntry } from "./water_log";

/** u of litres that no meter showed, as a share of them (assumed). */
export const ABOUT_U = 0.05;
/** Events of the fuel log, and of the water log; the others are in neither. */
export const FUEL_CHANGES: readonly string[] = ["tyres", "roof_load", "other", "surface"];
export const WATER_CHANGES: readonly string[] = ["heat", "company", "washing"];

/** A UTC instant of the contract as seconds since 1970. */
export function seconds(at: string): number {
  return Date.parse(at) / 1000;
}

export interface TanksOf {
  readonly book: Book;
  readonly holds: string;
  readonly trailers_on?: readonly string[];
}

/** The vehicle's tanks and cans that hold fuel or water and whose capacity is known; those of trailers that are on. */
export function tanksOf({ book, holds, trailers_on = [] }: TanksOf): TankSpec[] {
  return book.tanks
    .filter(({ body }) => body.holds === holds && body.capacity_l)
    .filter(({ body }) => !body.trailer_id || trailers_on.includes(body.trailer_id))
    .map(({ id, body }) => ({
      id,
      capacity_l: body.capacity_l,
      drain_order: body.drain_order || 99,
      drawn: !(body.can || body.emergency_reserve),
      full_u_l: body.full_u_l ?? null,
      gauge_u: body.gauge_u ?? null,
    }));
}

export interface EntriesOf {
  readonly book: Book;
  readonly until?: string | null;
  readonly trailers_on?: readonly string[];
}

/** Fills, levels read, transfers and changes of the fuel log, up to an instant, in order of time. */
export function fuelEntries({ book, until = null }: EntriesOf): FuelEntry[] {
  const ids = new Set(tanksOf({ book, holds: "fuel" }).map((tank) => tank.id));
  const of = [...ids].join();
  const rows = [...book.fills, ...book.dips, ...book.transfers, ...book.events];
  const entries: FuelEntry[] = [];
  for (const row of rowsUntil({ rows, until })) {
    const entry = madeOnce(FUEL, row, ids, of, fuelEntry);
    if (entry) entries.push(entry);
  }
  return entries;
}

/** Entries made of rows, and for which tanks. */
type Made<E> = WeakMap<Row, { readonly of: string; readonly entry: E | null }>;

const FUEL: Made<FuelEntry> = new WeakMap();
const WATER: Made<WaterLogEntry> = new WeakMap();

/** The same row gives the same entry again, so that a log knows what it has read. */
function madeOnce<E>(
  made: Made<E>,
  row: Row,
  ids: ReadonlySet<string>,
  of: string,
  make: (row: Row, ids: ReadonlySet<string>) => E | null,
): E | null {
  const known = made.get(row);
  if (known?.of === of) return known.entry;
  const entry = make(row, ids);
  made.set(row, { of, entry });
  return entry;
}

/** Fills, draws, levels read, transfers and changes of the water log, up to an instant, in order of time. */
export function waterEntries({ book, until = null, trailers_on = [] }: EntriesOf): WaterLogEntry[] {
  const ids = new Set(tanksOf({ book, holds: "water", trailers_on }).map((tank) => tank.id));
  const of = [...ids].join();
  const rows = [...book.waters, ...book.dips, ...book.transfers, ...book.events];
  return rowsUntil({ rows, until }).flatMap((row) => madeOnce(WATER, row, ids, of, waterEntry) ?? []);
}

export interface RowsUntil {
  readonly rows: readonly Row[];
  readonly until: string | null;
}

/** Rows up to an instant, in order of time. */
export function rowsUntil({ rows, until }: RowsUntil): Row[] {
  return rows
    .filter((row) => until === null || row.body.at <= until)
    .sort((a, b) => compare(a.body.at, b.body.at) || (a.order ?? 0) - (b.order ?? 0) || compare(a.id, b.id));
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

function fuelEntry(row: Row, ids: ReadonlySet<string>): FuelEntry | null {
  if (row.kind === "event") return FUEL_CHANGES.includes(row.body.what) ? changeOf(row) : null;
  if (row.kind !== "fill") return movedOrRead(row, ids);
  const { body } = row;
  const lines = body.lines.filter((line: FillLine) => ids.has(line.tank_id));
  if (lines.length === 0) return null;
  const fill: FillEntry = {
    kind: "fill",
    ...aboutOf(row),
    lines: lines.map((line: Body) => ({
      tank_id: line.tank_id,
      litres_l: line.litres_l,
      full: Boolean(line.full),
      litres_u_l: litresU(line),
    })),
    missed_before: Boolean(body.missed_before),
    surface: body.surface ?? null,
    towing: body.towing ?? null,
  };
  return fill;
}

function changeOf(row: Row): ChangeEntry {
  const { what, rate_u, factor_before, factor_after, surface = null, towing = null } = row.body;
  const ratio = factor_before && factor_after ? factor_after / factor_before : 1;
  const usual = what === "surface" ? 0 : CHANGE_U;
  return { kind: "change", ...aboutOf(row), rate_u: rate_u ?? usual, ratio, surface, towing };
}

function waterChangeOf(row: Row): ChangeEntry | null {
  const { what, water_rate_u } = row.body;
  if (!WATER_CHANGES.includes(what)) return null;
  return { kind: "change", ...aboutOf(row), odometer_km: null, rate_u: water_rate_u ?? WATER_CHANGE_U };
}

function movedOrRead(row: Row, ids: ReadonlySet<string>): DipEntry | TransferEntry | null {
  const { body } = row;
  if (row.kind === "dip" && ids.has(body.tank_id)) {
    const { tank_id, how, level = null, level_u = null, litres_l = null, litres_u_l = null } = body;
    const { surface = null, towing = null } = body;
    const read = { tank_id, how, level, level_u, litres_l, litres_u_l, surface, towing };
    return { kind: "dip", ...aboutOf(row), ...read };
  }
  if (row.kind === "transfer" && ids.has(body.from_tank_id)) {
    const { from_tank_id, to_tank_id = null, litres_l = null, litres_u_l = null } = body;
    const into = ids.has(to_tank_id) ? to_tank_id : null;
    const moved = { from_tank_id, to_tank_id: into, litres_l, litres_u_l };
    return { kind: "transfer", ...aboutOf(row), ...moved, everything: Boolean(body.everything) };
  }
  return null;
}

function waterEntry(row: Row, ids: ReadonlySet<string>): WaterLogEntry | null {
  if (row.kind === "event") return waterChangeOf(row);
  if (row.kind !== "water") return movedOrRead(row, ids);
  const { body } = row;
  if (!ids.has(body.tank_id)) return null;
  const { tank_id, action, litres_l, drinkable } = body;
  const litres_u_l = litresU(body);
  const { id, at_s, sequence } = aboutOf(row);
  const flags = { full: Boolean(body.full), everything: Boolean(body.everything) };
  const water = { tank_id, action, litres_l, litres_u_l, drinkable, ...flags };
  return { kind: "water", id, at_s, sequence, ...water };
}

function aboutOf({ id, body, order = 0 }: Row) {
  return { id, at_s: seconds(body.at), sequence: order, odometer_km: body.odometer_km ?? null };
}

/** The u of litres put in; where no meter showed them and nobody said, 5 % of them. */
function litresU({ litres_u_l = null, measured, litres_l }: Body): number | null {
  return litres_u_l === null && measured === false ? ABOUT_U * litres_l : litres_u_l;
}
