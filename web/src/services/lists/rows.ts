/** The rows of a list read: values as they will be kept, what is wrong cell by cell, what has to be asked. */
import { parseNumber } from "@/units/parse";
import { type Mark, readListed } from "@/units/typed";
import { readCell, type Ways } from "./cells";
import { cellsOf, markIn } from "./layout";
import type { CellError, Column, Layout, ListField, Question, ReadRow, Settings } from "./spec";

export interface ReadList {
  readonly rows: readonly ReadRow[];
  readonly questions: readonly Question[];
}

interface Reader {
  readonly column: Column;
  readonly field: ListField;
  readonly ways: Ways;
}

/** Reads all rows; a cell of a column that is asked about is not yet kept and no error. */
export function readRows(layout: Layout, fields: readonly ListField[], said: Settings): ReadList {
  const readers = layout.columns.flatMap((column) => {
    if (!column.field) return [];
    const field = column.field;
    const mark = said.decimal ?? said.marks?.[field.name] ?? markIn(column, layout.rows);
    return [{ column, field, ways: { unit: column.unit, mark, dates: layout.dates } }];
  });
  const by_unit = readers.find(({ field }) => field.type === "unit") ?? null;
  const constants = constantsOf(layout, fields, said);
  return {
    rows: layout.rows.map((row) => readRow(row, readers, by_unit, constants)),
    questions: readers.flatMap((reader) => questionOf(reader, layout)),
  };
}

/** What was said to hold for all rows, of fields that the list has no column for. */
function constantsOf(
  { columns }: Layout,
  fields: readonly ListField[],
  { all = {} }: Settings,
): Record<string, unknown> {
  const free = fields.filter(({ name }) => all[name] && !columns.some(({ field }) => field?.name === name));
  const ways = { unit: "", mark: null, dates: null };
  return Object.fromEntries(
    free.flatMap((field) => {
      const read = readCell(all[field.name]!, field, ways);
      return read.kind === "ok" ? [[field.name, read.value]] : [];
    }),
  );
}

function readRow(
  row: ReadRow["row"],
  readers: readonly Reader[],
  by_unit: Reader | null,
  constants: Readonly<Record<string, unknown>>,
): ReadRow {
  const values: Record<string, unknown> = { ...constants };
  const typed: Record<string, readonly [string, string]> = {};
  const errors: CellError[] = [];
  const unit = by_unit ? readCell(row.cells[by_unit.column.index] ?? "", by_unit.field, by_unit.ways) : null;
  for (const { column, field, ways } of readers) {
    const text = row.cells[column.index] ?? "";
    if (text === "") continue;
    const own =
      field.name === "mass_kg" && unit?.kind === "ok" ? { ...ways, unit: unit.value as string } : ways;
    const read = readCell(text, field, own);
    if (read.kind === "wrong")
      errors.push({ field, column: column.index, text, why: read.why, message: read.message ?? null });
    if (read.kind !== "ok" || field.type === "unit") continue;
    values[field.name] = read.value;
    if (read.as_typed) typed[field.name] = read.as_typed;
  }
  if (Object.keys(typed).length > 0) values.as_typed = typed;
  return { row, values, errors };
}

/** The one question of a column, if it has one: its unit, or how its first doubtful cell is meant. */
function questionOf({ column, field, ways }: Reader, { rows }: Layout): Question[] {
  const cells = cellsOf(column, rows);
  if (field.type === "number" && column.unit === "" && cells.some(nameless)) return [{ kind: "unit", field }];
  const text = cells.find((cell) => cell !== "" && readCell(cell, field, ways).kind === "ask");
  if (text === undefined) return [];
  if (field.type === "day") return [{ kind: "days", field, text }];
  return [{ kind: "figures", field, text, readings: { ".": meant(text, "."), ",": meant(text, ",") } }];
}

/** A figure without a unit of its own, or in gallons of no country. */
function nameless(cell: string): boolean {
  const parsed = parseNumber(cell);
  return "rest" in parsed && /^$|^gal/i.test(parsed.rest);
}

function meant(text: string, mark: Mark): string {
  const wanted = { dimension: "fraction", low: -Infinity, high: Infinity, name: "" } as const;
  const read = readListed({ text: text.replace(/[^\d.,-]/g, ""), unit: "1" }, wanted, mark);
  return read.kind === "ok" ? String(read.base) : text;
}
