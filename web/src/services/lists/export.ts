/** A book's lists as text for a file: the columns that come in again, units in the headings, ISO dates. */
import type { Body, Row } from "@/domain/book";
import { type Cell, writeCsv } from "@/units/csv";
import { clockAt } from "@/units/dates";
import { BASE_UNIT, type Dimension, toBase, unitLabel } from "@/units/units";
import { slotsText } from "./slots";
import type { ListField } from "./spec";

/** How a list is written: the units of its figures, the base unit where none is named, and the decimal mark. */
export interface Written {
  readonly units: Readonly<Partial<Record<Dimension, string>>>;
  readonly mark: "." | ",";
}

export const PLAIN: Written = { units: {}, mark: "." };

/** The list of plan records, one row each. */
export function planCsv(records: readonly Row[], fields: readonly ListField[], how: Written = PLAIN): string {
  const told = fields.filter((one) => one.type !== "unit");
  return table(
    told,
    records.map((one) => one.body),
    how,
  );
}

/** The fuel log, one row for what went into one tank; what belongs to the whole stop stands in its first row. */
export function fillCsv(fills: readonly Row[], fields: readonly ListField[], how: Written = PLAIN): string {
  const rows = fills.flatMap(({ body }) =>
    body.lines.map((line: Body, i: number) => fillRow(body, line, i === 0)),
  );
  return table(fields, rows, how);
}

function fillRow({ at, zone, odometer_km, ...stop }: Body, line: Body, first: boolean): Body {
  const { price, surface, missed_before, towing, note } = stop;
  return {
    ...line,
    ...whenOf({ at, zone }),
    odometer_km,
    as_typed: { ...line.as_typed, ...stop.as_typed },
    ...(first ? { missed_before, towing, note, ...surface, ...whereOf(stop) } : {}),
    ...(first ? { price: price?.amount, currency: price?.currency } : {}),
  };
}

/** Day and time on the clock of the place, and the moment itself. */
function whenOf({ at, zone }: Body): Body {
  const [day, time] = clockAt(Date.parse(at), zone).split("T");
  return { day, time, instant: at, zone };
}

function whereOf({ place }: Body): Body {
  const { name, latitude_deg, longitude_deg } = place ?? {};
  return { place: name, latitude_deg, longitude_deg };
}

/** The water log, one row an entry. */
export function waterCsv(waters: readonly Row[], fields: readonly ListField[], how: Written = PLAIN): string {
  const rows = waters.map(({ body }) => ({ ...body, ...whenOf(body), ...whereOf(body) }));
  return table(fields, rows, how);
}

function table(fields: readonly ListField[], rows: readonly Body[], how: Written): string {
  const records = [
    fields.map((one) => headingOf(one, how)),
    ...rows.map((row) => fields.map((one) => cellOf(one, row, how))),
  ];
  return writeCsv(records, how);
}

/** Mass of one (kg) */
function headingOf(field: ListField, how: Written): string {
  const unit = field.type === "number" ? unitLabel(unitOf(field.dimension, how)) : "";
  return unit ? `${field.label} (${unit.replace(" ", "")})` : field.label;
}

function unitOf(dimension: Dimension, { units }: Written): string {
  return units[dimension] ?? BASE_UNIT[dimension];
}

function cellOf(field: ListField, row: Body, how: Written): Cell {
  const value: unknown = row[field.name];
  if (field.type === "choice") {
    const found = field.options.find(([one]) => one === (value ?? ""));
    if (found) return found[1];
  }
  if (value === undefined || value === null) return null;
  if (field.type === "yes_no") return value ? "yes" : "no";
  if (field.type === "slots") return slotsText(value as Body[], field.trailers);
  if (field.type === "amount") return { digits: value as string };
  if (field.type !== "number" || typeof value !== "number")
    return typeof value === "number" ? value : String(value);
  const unit = unitOf(field.dimension, how);
  const [digits, typed] = row.as_typed?.[field.name] ?? [];
  return typed === unit ? { digits } : inUnit(value, unit);
}

/** A base value in another unit, so that it comes back as the same number; where none does, not beyond it. */
function inUnit(value: number, unit: string): number {
  const about = value / toBase("1", unit);
  const near = [0, 1, -1, 2, -2].map((step) => about * (1 + step * Number.EPSILON));
  const back = (one: number) => toBase(String(one), unit);
  return (
    near.find((one) => back(one) === value) ??
    near.find((one) => Math.abs(back(one)) <= Math.abs(value)) ??
    about
  );
}

/** A file's name after the vehicle: "Wren items.csv". */
export function fileName(vehicle: string, list: string): string {
  const plain = vehicle.replace(/[\\/:*?"<>|\s\p{Cc}]+/gu, " ").replace(/^[\s.]+|[\s.]+$/g, "");
  return `${plain.slice(0, 80)} ${list.toLowerCase()}.csv`.trim();
}
