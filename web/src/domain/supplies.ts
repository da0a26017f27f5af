/** From a book's log to fuel and water: what the estimators are given, and the levels that a state takes from them. */
import type { Body, Book, Row } from "./book";
import type { DipEntry, FillEntry, FillLine, TransferEntry } from "./entries";
import { drawnTanks, type TankSpec } from "./fuel";
import { type FuelEntry, type FuelLog, readFuelLog } from "./fuel_log";
import { levelsNow } from "./journal";
import type { TankLevel } from "./state";
import type { Presence } from "./water";
import { waterAnswer } from "./water_answer";
import { readWaterLog, type WaterLog, type WaterLogEntry } from "./water_log";

export const SURFACES_AHEAD: readonly string[] = ["sealed", "gravel", "sand"];
export const ANIMAL_SHARE = 0.25; // of an adult's water, where the record leaves it blank (assumed)
export const APART_U = 0.05; // of a can or reserve that only its entries tell of (assumed)
/** Nobody logs each kilometre: a fuel level older than so many hours is known less well (assumed, shares). */
export const STALE_U: readonly (readonly [hours: number, u: number])[] = [
  [1, 0.02],
  [12, 0.05],
  [Infinity, 0.15],
];

/** A UTC instant of the contract as seconds since 1970. */
export function seconds(at: string): number {
  return Date.parse(at) / 1000;
}

export interface FuelLogOf {
  readonly book: Book;
  readonly until?: string | null;
}

/** The fuel log of a book, up to an instant; null without a tank that fuel is drawn from. */
export function fuelLogOf({ book, until = null }: FuelLogOf): FuelLog | null {
  const tanks = tanksOf(book, "fuel");
  if (!book.vehicle || drawnTanks({ tanks }).length === 0) return null;
  const ids = new Set(tanks.map((tank) => tank.id));
  const rows = upTo([...book.fills, ...book.dips, ...book.transfers], until);
  const entries = rows.flatMap((row) => fuelEntry(row, ids) ?? []);
  const { odometer_factor, odometer_factor_u } = book.vehicle.body;
  const setup = {
    tanks,
    factor: odometer_factor || 1,
    factor_u: odometer_factor_u || 0,
    ahead: SURFACES_AHEAD,
  };
  return readFuelLog({ setup, entries });
}

/** The water log of a book, up to an instant; null without a tank that water is drawn from. */
export function waterLogOf({
  book,
  until,
}: {
  readonly book: Book;
  readonly until: string;
}): WaterLog | null {
  const tanks = tanksOf(book, "water");
  if (drawnTanks({ tanks }).length === 0) return null;
  const ids = new Set(tanks.map((tank) => tank.id));
  const rows = upTo([...book.waters, ...book.dips, ...book.transfers], until);
  const entries = rows.flatMap((row) => waterEntry(row, ids) ?? []);
  const from_s = entries.length > 0 ? Math.min(...entries.map((one) => one.at_s)) : seconds(until);
  const setup = { tanks, presences: presences({ book, from_s }) };
  return readWaterLog({ setup, entries, now_s: seconds(until) });
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
    const changes = [{ at_s: from_s, aboard: Boolean(usual) }, ...changesOf(book, person.id)].sort(
      (a, b) => a.at_s - b.at_s,
    );
    const share = shareOf(person.body);
    return changes.flatMap(({ at_s, aboard }, i) => {
      const until_s = changes[i + 1]?.at_s ?? null;
      return aboard && until_s !== at_s ? [{ share, from_s: at_s, until_s }] : [];
    });
  });
}

/** Levels of the fuel and water tanks at an instant, by the log until then; tanks nobody logged are left out. */
export function levelsAt({ book, at }: { readonly book: Book; readonly at: string }): TankLevel[] {
  const logged = loggedTanks(book, at);
  return [...fuelLevels(book, at), ...waterLevels(book, at)].filter((one) => logged.has(one.tank_id));
}

function fuelLevels(book: Book, at: string): TankLevel[] {
  const log = fuelLogOf({ book, until: at });
  if (!log || log.journal.steps.length === 0) return [];
  const last = upTo([...book.fills, ...book.dips, ...book.transfers], at).at(-1)!;
  const stale = staleU((seconds(at) - seconds(last.body.at)) / 3600);
  const drawn = levelsNow({ state: log.journal.state }).map((one) => ({
    ...one,
    level_u: Math.hypot(one.level_u, stale),
  }));
  return [...drawn, ...log.apart.map((one) => apart(log.setup.tanks, one.tank_id, one.litres_l))];
}

function waterLevels(book: Book, at: string): TankLevel[] {
  const log = waterLogOf({ book, until: at });
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

function tanksOf(book: Book, holds: string): TankSpec[] {
  return book.tanks
    .filter(({ body }) => body.holds === holds && body.capacity_l && !body.trailer_id)
    .map(({ id, body }) => ({
      id,
      capacity_l: body.capacity_l,
      drain_order: body.drain_order || 99,
      drawn: !(body.can || body.emergency_reserve),
    }));
}

function upTo(rows: readonly Row[], until: string | null): Row[] {
  return rows
    .filter((row) => until === null || row.body.at <= until)
    .sort((a, b) => compare(a.body.at, b.body.at) || (a.order ?? 0) - (b.order ?? 0) || compare(a.id, b.id));
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** Tanks that some entry names: of the others nothing is known, which is not the same as empty. */
function loggedTanks(book: Book, until: string): Set<string> {
  const rows = upTo([...book.fills, ...book.dips, ...book.transfers, ...book.waters], until);
  return new Set(
    rows.flatMap(({ body }) => [
      ...(body.lines ?? []).map((line: FillLine) => line.tank_id),
      ...[body.tank_id, body.from_tank_id, body.to_tank_id].filter(Boolean),
    ]),
  );
}

function fuelEntry(row: Row, ids: ReadonlySet<string>): FuelEntry | null {
  if (row.kind !== "fill") return movedOrRead(row, ids);
  const { body } = row;
  const lines = body.lines.filter((line: FillLine) => ids.has(line.tank_id));
  if (lines.length === 0) return null;
  const fill: FillEntry = {
    kind: "fill",
    ...aboutOf(row),
    lines: lines.map((line: FillLine) => ({
      tank_id: line.tank_id,
      litres_l: line.litres_l,
      full: Boolean(line.full),
      litres_u_l: line.litres_u_l ?? null,
    })),
    missed_before: Boolean(body.missed_before),
    surface: body.surface ?? null,
    towing: body.towing ?? null,
  };
  return fill;
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
  if (row.kind !== "water") return movedOrRead(row, ids);
  const { body } = row;
  if (!ids.has(body.tank_id)) return null;
  const { tank_id, action, litres_l, litres_u_l = null, drinkable } = body;
  const { id, at_s, sequence } = aboutOf(row);
  const water = { tank_id, action, litres_l, litres_u_l, drinkable, full: Boolean(body.full) };
  return { kind: "water", id, at_s, sequence, ...water };
}

function aboutOf({ id, body, order = 0 }: Row) {
  return { id, at_s: seconds(body.at), sequence: order, odometer_km: body.odometer_km ?? null };
}

function changesOf(book: Book, person_id: string): { at_s: number; aboard: boolean }[] {
  return book.aboard
    .filter(({ body }) => body.subject_id === person_id)
    .flatMap(({ body }) => {
      const change = { at_s: seconds(body.at), aboard: Boolean(body.aboard) };
      return body.until ? [change, { at_s: seconds(body.until), aboard: !body.aboard }] : [change];
    });
}

function shareOf(body: Body): number {
  return body.water_share ?? (body.nature === "animal" ? ANIMAL_SHARE : 1);
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
