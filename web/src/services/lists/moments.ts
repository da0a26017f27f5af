/** When an entry of a listed log happened: by an instant, or by a day and a time on some clock. */
import type { Body } from "@/domain/book";
import { clockAt, instantOf, type ReadDay, type readTime } from "@/units/dates";
import type { CellError, ListField } from "./spec";

/** When and where the list is read. */
export interface Here {
  readonly now: string;
  readonly zone: string;
}

export interface Moment {
  readonly ms: number;
  /** As the list has it, where that is an instant already. */
  readonly text: string | null;
  /** On the clock of its place, the time where that was told. */
  readonly shown: string;
  readonly timed: boolean;
}

/** The moment of a row; null where it tells none. */
export function momentOf({ instant, day, time, zone }: Body, here: Here): Moment | null {
  if (instant) {
    const ms = Date.parse(instant);
    const shown = clockAt(ms, zoneOf(zone, here.zone)).replace("T", " ").slice(0, 16);
    return { ms, text: instant, shown, timed: true };
  }
  const read = day as Extract<ReadDay, { kind: "ok" }> | undefined;
  if (!read) return null;
  const clock = time as ReturnType<typeof readTime>;
  const where = read.utc || clock?.utc ? "UTC" : zoneOf(zone, here.zone);
  const local = { ...read.local, ...clock?.at };
  const text = new Date(instantOf(local, "UTC")).toISOString().replace("T", " ");
  const timed = read.timed || clock !== undefined;
  return { ms: instantOf(local, where), text: null, shown: text.slice(0, timed ? 16 : 10), timed };
}

/** The instant as it is kept. */
export function instantText(at: Moment | null): string {
  return at ? (at.text ?? new Date(at.ms).toISOString()) : "";
}

/** Entries later than now are a slip of the list. */
export function lateOf(
  at: Moment | null,
  here: Here,
  fields: readonly ListField[],
  columns: readonly (ListField | null)[],
  cells: readonly string[],
): CellError[] {
  if (at === null || at.ms <= Date.parse(here.now)) return [];
  const column = columns.findIndex((one, i) => cells[i] && (one?.type === "instant" || one?.type === "day"));
  const field = columns[column] ?? fields[0]!;
  return [{ field, column, text: cells[column] ?? "", message: null, why: "late" }];
}

const ZONE = /^[A-Za-z][A-Za-z0-9_+-]{0,30}(\/[A-Za-z0-9_+-]{1,30}){0,2}$/;

export function zoneOf(said: unknown, otherwise: string): string {
  return typeof said === "string" && ZONE.test(said) ? said : otherwise;
}

/** Of the digits typed in a row, those of the figures that the record holds itself. */
export function typedOf({ as_typed = {} }: Body, ...names: readonly string[]): Body {
  const there = names.filter((name) => as_typed[name]);
  return there.length > 0
    ? { as_typed: Object.fromEntries(there.map((name) => [name, as_typed[name]])) }
    : {};
}

/** A place by its name and, where the list has them, its coordinates. */
export function placeOf({ place, latitude_deg, longitude_deg }: Body): Body {
  const told = {
    ...(place ? { name: place } : {}),
    ...(latitude_deg === undefined ? {} : { latitude_deg }),
    ...(longitude_deg === undefined ? {} : { longitude_deg }),
  };
  return Object.keys(told).length > 0 ? { place: told } : {};
}
