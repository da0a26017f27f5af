/** Rows of a water log as entries: when, which tank, what was done and how much; and which are there already. */
import type { Body, Row } from "@/domain/book";
import { type LogList, linesOfLog } from "./log_lines";
import { instantText, placeOf, typedOf, zoneOf } from "./moments";
import type { PlanLines } from "./plan_lines";

export interface WaterBook {
  readonly waters: readonly Row[];
  /** The tank of a row that names none; null where that has to be said. */
  readonly tank_id: string | null;
}

export function waterLines(list: LogList, book: WaterBook): PlanLines {
  const known = new Map<string, Seen[]>();
  for (const { body } of book.waters) seen(known, body, true);
  return linesOfLog(list, {
    bodyOf: (values, at) => ({
      at: instantText(at),
      zone: zoneOf(values.zone, list.here.zone),
      tank_id: values.tank_id ?? book.tank_id,
      ...Object.fromEntries(KEPT.flatMap((name) => (values[name] == null ? [] : [[name, values[name]]]))),
      ...typedOf(values, "litres_l", "litres_u_l"),
      ...placeOf(values),
    }),
    isKnown: (body, timed) => seen(known, body, timed),
  });
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
