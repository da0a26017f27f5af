/** A book's lists as text for a file: the columns that come in again, units in the headings, ISO dates, decimal points. */
import type { Body, Row } from "@/domain/book";
import { type Cell, writeCsv } from "@/units/csv";
import { clockAt } from "@/units/dates";
import { BASE_UNIT, unitLabel } from "@/units/units";
import type { ListField } from "./spec";

/** The list of plan records, one row each. */
export function planCsv(records: readonly Row[], fields: readonly ListField[]): string {
  const told = fields.filter((one) => one.type !== "unit");
  return table(
    told,
    records.map((one) => one.body),
  );
}

/** The fuel log, one row for what went into one tank; what belongs to the whole stop stands in its first row. */
export function fillCsv(fills: readonly Row[], fields: readonly ListField[]): string {
  const rows = fills.flatMap(({ body }) =>
    body.lines.map((line: Body, i: number) => fillRow(body, line, i === 0)),
  );
  return table(fields, rows);
}

function fillRow({ at, zone, odometer_km, ...stop }: Body, line: Body, first: boolean): Body {
  const { price, surface, place, missed_before, towing, note } = stop;
  return {
    ...line,
    ...whenOf({ at, zone }),
    odometer_km,
    ...(first ? { missed_before, towing, note, ...surface, place: place?.name } : {}),
    ...(first ? { price: price?.amount, currency: price?.currency } : {}),
  };
}

/** Day and time on the clock of the place, and the moment itself. */
function whenOf({ at, zone }: Body): Body {
  const [day, time] = clockAt(Date.parse(at), zone).split("T");
  return { day, time, instant: at, zone };
}

/** The water log, one row an entry. */
export function waterCsv(waters: readonly Row[], fields: readonly ListField[]): string {
  return table(
    fields,
    waters.map(({ body }) => ({ ...body, ...whenOf(body), place: body.place?.name })),
  );
}

function table(fields: readonly ListField[], rows: readonly Body[]): string {
  return writeCsv([
    fields.map(headingOf),
    ...rows.map((row) => fields.map((one) => cellOf(one, row[one.name]))),
  ]);
}

/** Mass of one (kg) */
function headingOf(field: ListField): string {
  const unit = field.type === "number" ? unitLabel(BASE_UNIT[field.dimension]) : "";
  return unit ? `${field.label} (${unit.replace(" ", "")})` : field.label;
}

function cellOf(field: ListField, value: unknown): Cell {
  if (field.type === "choice") {
    const found = field.options.find(([one]) => one === (value ?? ""));
    if (found) return found[1];
  }
  if (value === undefined || value === null) return null;
  if (field.type === "yes_no") return value ? "yes" : "no";
  return typeof value === "number" ? value : String(value);
}

/** A file's name after the vehicle: "Wren items.csv". */
export function fileName(vehicle: string, list: string): string {
  const plain = vehicle.replace(/[\\/:*?"<>|\s\p{Cc}]+/gu, " ").replace(/^[\s.]+|[\s.]+$/g, "");
  return `${plain.slice(0, 80)} ${list.toLowerCase()}.csv`.trim();
}
