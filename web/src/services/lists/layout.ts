/** A list laid out: its rows, and which column is which field in which unit; recognised, unless a person said so. */
import { delimiterOf, parseCsv, unharmed } from "@/units/csv";
import { type DayOrder, dayOrderOf } from "@/units/dates";
import { type Mark, markOf } from "@/units/typed";
import { BASE_UNIT } from "@/units/units";
import { guessFields, hasHeader, unitIn } from "./guess";
import type { Column, Layout, ListField, ListRow, Settings } from "./spec";

/** A list's rows and columns under what a person has said of them. */
export function layOut(text: string, fields: readonly ListField[], said: Settings): Layout {
  const delimiter = said.delimiter ?? delimiterOf(text);
  const { records, unclosed } = parseCsv(text, delimiter);
  const all = records
    .map((cells, i): ListRow => ({ number: i + 1, cells: cells.map((cell) => unharmed(cell.trim())) }))
    .filter(({ cells }) => cells.some((cell) => cell !== ""));
  const header =
    said.header ??
    hasHeader(
      all.map((one) => one.cells),
      fields,
    );
  const rows = mended(header ? all.slice(1) : all, said.cells ?? {});
  const columns = columnsOf({ titles: header ? (all[0]?.cells ?? []) : [], rows, fields, said });
  return {
    ...{ delimiter, header, columns, rows, unclosed },
    decimal: said.decimal ?? decimalOf(columns, rows),
    dates: said.dates ?? datesOf(columns, rows),
  };
}

/** The rows with the cells that were put right by hand. */
function mended(rows: readonly ListRow[], cells: Readonly<Record<string, string>>): ListRow[] {
  const by = new Map<number, [number, string][]>();
  for (const [key, text] of Object.entries(cells)) {
    const [row = 0, column = 0] = key.split(":").map(Number);
    by.set(row, [...(by.get(row) ?? []), [column, text.trim()]]);
  }
  return rows.map((row) => {
    const put = by.get(row.number);
    if (!put) return row;
    const changed = [...row.cells];
    for (const [column, text] of put) changed[column] = text;
    return { ...row, cells: changed };
  });
}

interface Columns {
  readonly titles: readonly string[];
  readonly rows: readonly ListRow[];
  readonly fields: readonly ListField[];
  readonly said: Settings;
}

function columnsOf({ titles, rows, fields, said }: Columns): Column[] {
  const width = rows.reduce((most, { cells }) => Math.max(most, cells.length), titles.length);
  const guessed = guessFields(titles, fields);
  const chosen = Object.values(said.fields ?? {});
  return Array.from({ length: width }, (_, index) => {
    const title = titles[index] ?? "";
    const own = said.fields?.[index];
    const guess = guessed[index] ?? null;
    // a field that was chosen for another column is no longer guessed for this one
    const free = guess && chosen.includes(guess.name) ? null : guess;
    const field = own === undefined ? free : (fields.find((one) => one.name === own) ?? null);
    const filled = rows.map(({ cells }) => cells[index] ?? "").filter(Boolean);
    return { index, title, field, samples: filled.slice(0, 3), unit: unitOf(title, field, said) };
  });
}

function unitOf(title: string, field: ListField | null, said: Settings): string {
  if (field?.type !== "number") return "";
  const found = said.units?.[field.name] ?? unitIn(title, field) ?? BASE_UNIT[field.dimension];
  return found === "gal" ? "" : found;
}

/** All cells of a column. */
export function cellsOf({ index }: Column, rows: readonly ListRow[]): string[] {
  return rows.map(({ cells }) => cells[index] ?? "");
}

/** The decimal mark that the figures of a column show; null where none does, or they differ. */
export function markIn(column: Column, rows: readonly ListRow[]): Mark | null {
  const marks = new Set(cellsOf(column, rows).map(markOf));
  const clear = ([".", ","] as const).filter((mark) => marks.has(mark));
  return clear.length === 1 ? clear[0]! : null;
}

function decimalOf(columns: readonly Column[], rows: readonly ListRow[]): Mark | null {
  const found = columns.filter((one) => one.field?.type === "number").map((one) => markIn(one, rows));
  const clear = new Set(found.filter((one) => one !== null));
  return clear.size === 1 ? [...clear][0]! : null;
}

function datesOf(columns: readonly Column[], rows: readonly ListRow[]): DayOrder | null {
  const column = columns.find((one) => one.field?.type === "day");
  return column ? dayOrderOf(cellsOf(column, rows)) : null;
}
