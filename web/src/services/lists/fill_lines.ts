/** Rows of a fuel log as entries: when, where on the odometer, how much into which tank; and which are there already. */
import type { Body, Row } from "@/domain/book";
import type { NewRecord } from "../records";
import { type LogList, linesOfLog } from "./log_lines";
import { instantText, type Moment, placeOf, typedOf, zoneOf } from "./moments";
import type { PlanLines } from "./plan_lines";
import type { Line } from "./spec";

export interface FillBook {
  readonly fills: readonly Row[];
  /** The tank of a row that names none; null where that has to be said. */
  readonly tank_id: string | null;
}

export function fillLines(list: LogList, book: FillBook): PlanLines {
  const known = new Known(book.fills);
  return linesOfLog(list, {
    bodyOf: (values, at) => bodyOf(values, at, book.tank_id, list.here.zone),
    isKnown: (body) => known.has(body),
  });
}

/** The entry of one row. Shares of the surface add up to 1, in whatever they were told. */
function bodyOf(values: Body, at: Moment | null, tank_id: string | null, zone: string): Body {
  const { litres_l, odometer_km, full, measured = true, note, price, currency } = values;
  const line = {
    ...{ tank_id: values.tank_id ?? tank_id, litres_l, measured, full },
    ...(values.litres_u_l === undefined ? {} : { litres_u_l: values.litres_u_l }),
    ...typedOf(values, "litres_l", "litres_u_l"),
  };
  const kept = ["missed_before", "towing"].filter((name) => values[name] !== undefined);
  return {
    at: instantText(at),
    zone: zoneOf(values.zone, zone),
    odometer_km: odometer_km ?? null,
    ...typedOf(values, "odometer_km"),
    lines: [line],
    ...Object.fromEntries(kept.map((name) => [name, values[name]])),
    ...surfaceOf(values),
    ...(price && currency ? { price: { amount: price, currency } } : {}),
    ...placeOf(values),
    ...(note ? { note } : {}),
  };
}

const SURFACES = ["sealed", "gravel", "sand"] as const;

function surfaceOf(values: Body): Body {
  const shares = SURFACES.map((name) => (values[name] ?? 0) as number);
  const total = shares.reduce((sum, one) => sum + one, 0);
  if (total <= 0) return {};
  const whole = Math.abs(total - 1) < 1e-9 ? 1 : total;
  return { surface: Object.fromEntries(SURFACES.map((name, i) => [name, shares[i]! / whole])) };
}

/** Alike: the same tank, litres to 0.05, and the odometer to half a kilometre; without one the same day. */
const LITRES = 0.05;
const KM = 0.5;
const DAY_MS = 86_400_000;

interface Stop {
  readonly at: number;
  readonly odometer_km: number | null;
  readonly tank_id: string;
  readonly litres_l: number;
}

class Known {
  /** By tenths of a litre: a list has thousands. */
  private readonly stops = new Map<number, Stop[]>();

  constructor(fills: readonly Row[]) {
    for (const { body } of fills) for (const stop of stopsOf(body)) this.near(stop, 0).push(stop);
  }

  private near({ litres_l }: Stop, step: number): Stop[] {
    const key = Math.round(litres_l * 10) + step;
    const found = this.stops.get(key) ?? [];
    this.stops.set(key, found);
    return found;
  }

  /** Whether an entry is known; from now on it is. */
  has(body: Body): boolean {
    const stop = stopsOf(body)[0]!;
    if ([-1, 0, 1].some((step) => this.near(stop, step).some((one) => alike(one, stop)))) return true;
    this.near(stop, 0).push(stop);
    return false;
  }
}

function stopsOf({ at, odometer_km, lines }: Body): Stop[] {
  const where = { at: Date.parse(at), odometer_km: odometer_km ?? null };
  return lines.map(({ tank_id, litres_l }: Body) => ({ ...where, tank_id, litres_l }));
}

function alike(one: Stop, other: Stop): boolean {
  if (one.tank_id !== other.tank_id || Math.abs(one.litres_l - other.litres_l) > LITRES) return false;
  if (one.odometer_km !== null && other.odometer_km !== null)
    return Math.abs(one.odometer_km - other.odometer_km) <= KM;
  return Math.abs(one.at - other.at) < DAY_MS;
}

/** The entries to write: rows of one moment and one odometer into several tanks are one stop with several lines. */
export function entriesOf(lines: readonly Line[]): NewRecord[] {
  const stops: Body[] = [];
  for (const { body, values } of lines) {
    const last = stops.at(-1);
    const timed = String(values.day).length > 10;
    if (last && timed && oneStop(last, body))
      stops[stops.length - 1] = { ...body, ...last, lines: [...last.lines, ...body.lines] };
    else stops.push(body);
  }
  return stops.map((body) => ({ kind: "fill", body }));
}

/** Nothing that the second row says is lost beside the first. */
function oneStop(first: Body, second: Body): boolean {
  const { lines, as_typed: _, ...said } = second;
  const taken = new Set(first.lines.map((line: Body) => line.tank_id));
  const agrees = ([name, value]: [string, unknown]) =>
    first[name] === undefined || JSON.stringify(first[name]) === JSON.stringify(value);
  const { at, odometer_km } = said;
  const same = at === first.at && odometer_km === first.odometer_km;
  return same && !taken.has(lines[0].tank_id) && Object.entries(said).every(agrees);
}
