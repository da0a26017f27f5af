/** Rows of a water log as entries: when, which tank, what was done and how much; and which are there already. */
import type { Body, Row } from "@/domain/book";
import { type Here, instantText, lateOf, momentOf, placeOf, typedOf, zoneOf } from "./moments";
import { needed } from "./needed";
import type { PlanLines } from "./plan_lines";
import type { Line, ListField, ReadRow, Settings } from "./spec";

export interface WaterBook {
  readonly waters: readonly Row[];
  /** The tank of a row that names none; null where that has to be said. */
  readonly tank_id: string | null;
}

/** What becomes of each row. An entry that the log has, or a row that the list has twice, is left out unless wanted. */
export function waterLines(
  rows: readonly ReadRow[],
  book: WaterBook,
  fields: readonly ListField[],
  columns: readonly (ListField | null)[],
  { left = {} }: Settings,
  here: Here,
): PlanLines {
  const need = needed(fields, columns);
  const known = new Map<string, Seen[]>();
  for (const { body } of book.waters) seen(known, body, true);
  const lines = rows.map(({ row, values, errors }): Line => {
    const at = momentOf(values, here);
    const late = lateOf(at, here, fields, columns, row.cells);
    const all = [...errors, ...need.errorsOf(values, errors), ...late];
    const body = {
      at: instantText(at),
      zone: zoneOf(values.zone, here.zone),
      tank_id: values.tank_id ?? book.tank_id,
      ...Object.fromEntries(KEPT.flatMap((name) => (values[name] == null ? [] : [[name, values[name]]]))),
      ...typedOf(values, "litres_l", "litres_u_l"),
      ...placeOf(values),
    };
    const there = all.length === 0 && seen(known, body, at?.timed ?? false);
    const fate = all.length > 0 ? "wrong" : there ? "there" : "new";
    const shown = { ...values, day: at?.shown };
    return { row, fate, body, values: shown, target: null, errors: all, left: left[row.number] ?? there };
  });
  return { lines, questions: need.questions() };
}

const KEPT = [
  "action",
  "litres_l",
  "litres_u_l",
  "measured",
  "full",
  "everything",
  "source",
  "drinkable",
  "note",
];

interface Seen {
  readonly at: number;
  readonly litres_l: number;
  readonly timed: boolean;
}

/** Alike: the same tank and deed, litres to 0.05, within a minute; where one of them has no time, within a day. */
const LITRES = 0.05;
const MINUTE_MS = 60_000;
const DAY_MS = 86_400_000;

/** Whether such an entry is known; from now on it is. */
function seen(known: Map<string, Seen[]>, { at, tank_id, action, litres_l }: Body, timed: boolean): boolean {
  const key = `${tank_id} ${action}`;
  const one = { at: Date.parse(at), litres_l, timed };
  const others = known.get(key) ?? [];
  known.set(key, others);
  const found = others.some((other) => {
    const within = other.timed && timed ? MINUTE_MS : DAY_MS;
    return Math.abs(other.at - one.at) < within && Math.abs(other.litres_l - litres_l) <= LITRES;
  });
  if (!found) others.push(one);
  return found;
}
