/** Rows of a list beside the plan's records: what is new, what changes one that is there, what says nothing new. */
import type { Body, Row } from "@/domain/book";
import type { Local } from "@/units/dates";
import { needed } from "./needed";
import { slotsText } from "./slots";
import type { CellError, Fate, Line, ListField, Question, ReadRow, Settings } from "./spec";

/** Far below what anybody types: two figures that are the same but for the rounding of a unit. */
const RELATIVE = 1e-9;

export interface PlanLines {
  readonly lines: readonly Line[];
  /** What new records need and the list has no column for: asked once for all rows, not told of each. */
  readonly questions: readonly Question[];
}

/** What becomes of each row. A name that is there pairs with its first record not yet paired, case and blanks ignored. */
export function planLines(
  rows: readonly ReadRow[],
  records: readonly Row[],
  fields: readonly ListField[],
  columns: readonly (ListField | null)[],
  { left = {} }: Settings,
): PlanLines {
  const free = new Map<string, Row[]>();
  for (const row of records) free.set(key(row.body), [...(free.get(key(row.body)) ?? []), row]);
  const need = needed(fields, columns);
  const days = fields.filter((one) => one.type === "day").map((one) => one.name);
  const lines = rows.map(({ row, values: read, errors }): Line => {
    const values = dated(read, days);
    const target = free.get(key(values))?.shift() ?? null;
    const body = target ? changeOf(target.body, values) : withoutNulls(values);
    const all = [...errors, ...(target ? [] : need.errorsOf(values, errors))];
    const fate = fateOf(all, target, body);
    return { row, fate, body, values: body, target, errors: all, left: left[row.number] ?? false };
  });
  return { lines, questions: need.questions() };
}

/** Days as a plan record has them: 2026-03-04. */
function dated(values: Body, days: readonly string[]): Body {
  const told = days.filter((name) => values[name]?.local);
  const text = ({ year, month, day }: Local) =>
    new Date(Date.UTC(year, month - 1, day)).toISOString().slice(0, 10);
  return { ...values, ...Object.fromEntries(told.map((name) => [name, text(values[name].local)])) };
}

function fateOf(errors: readonly CellError[], target: Row | null, body: Body): Fate {
  if (errors.length > 0) return "wrong";
  if (!target) return "new";
  return Object.keys(body).length > 0 ? "change" : "same";
}

function key({ name }: Body): string {
  return typeof name === "string" ? name.trim().toLowerCase().replace(/\s+/g, " ") : "";
}

/** The fields that differ from the record; a blank cell is not in the values and so changes nothing. */
function changeOf(before: Body, values: Body): Body {
  const changed = Object.entries(values).filter(
    ([name, value]) => name !== "as_typed" && name !== "name" && !alike(before[name] ?? null, value),
  );
  const typed = Object.entries(values.as_typed ?? {}).filter(([name]) =>
    changed.some(([one]) => one === name),
  );
  return Object.fromEntries([
    ...changed,
    ...(typed.length > 0 ? [["as_typed", Object.fromEntries(typed)]] : []),
  ]);
}

function alike(before: unknown, value: unknown): boolean {
  if (Array.isArray(before) && Array.isArray(value)) return slotsText(before, []) === slotsText(value, []);
  if (typeof before !== "number" || typeof value !== "number") return before === value;
  return Math.abs(before - value) <= RELATIVE * Math.max(Math.abs(before), Math.abs(value));
}

function withoutNulls(values: Body): Body {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== null));
}
