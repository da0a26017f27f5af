/** The segments of a fuel log that may continue another, and the class that each of them counts for. */
import { allClasses } from "./fuel";
import { type Accuracy, type Segment, type Stop, segments } from "./fullfull";
import type { Journal } from "./journal";
import type { Row } from "./tank_reader";

/** Segments, and of each the class that has most of its way. */
export interface Closed {
  readonly segments: readonly Segment[];
  readonly tops: readonly string[];
}

export interface Closing {
  readonly rows: readonly Row[];
  readonly journal: Pick<Journal, "outcomes">;
  readonly accuracy: Accuracy;
}

/** What was closed of the rows that these ones continue. */
export interface ClosedBefore extends Omit<Closing, "accuracy"> {
  readonly closed: Closed;
}

/** Those of a reading that these rows continue are kept as long as nothing of them has changed. */
export function closedOf(given: Closing, before: ClosedBefore | null): Closed {
  const { rows, journal, accuracy } = given;
  const [count, from] = before ? keptOf(given, before) : [0, 0];
  const found = segments({ stops: stopsOf(rows, journal, from).stops, accuracy });
  let n = from;
  const tops = topsOf(found, (id) => {
    while (rows[n]!.step.entry_id !== id) n++;
    return rows[n]!.ways;
  });
  if (!before || count === 0) return { segments: found, tops };
  return {
    segments: [...before.closed.segments.slice(0, count), ...found],
    tops: [...before.closed.tops.slice(0, count), ...tops],
  };
}

/** How many segments stand as they were, and the row of the full tank that the next one begins at. */
function keptOf({ rows, journal }: Closing, before: ClosedBefore): [number, number] {
  const { rows: earlierRows, journal: earlier, closed } = before;
  const isSame = (n: number) => rows[n] === earlierRows[n] && journal.outcomes[n] === earlier.outcomes[n];
  let same = 0;
  while (same < Math.min(rows.length, earlierRows.length) && isSame(same)) same++;
  let n = same - 1;
  for (let count = closed.segments.length; count > 0; count--) {
    const { to_id } = closed.segments[count - 1]!;
    while (n >= 0 && rows[n]!.step.entry_id !== to_id) n--;
    if (n < 0) n = same - 1;
    else if (rows[n]!.full && isAlone(rows, n, same)) return [count, n];
  }
  return [0, 0];
}

/** Whether a stop on the way stands apart from the stops before and after it. */
function isAlone(rows: readonly Row[], n: number, end: number): boolean {
  let [before, after] = [n - 1, n + 1];
  while (before >= 0 && !rows[before]!.located) before--;
  while (after < end && !rows[after]!.located) after++;
  const { at } = rows[n]!;
  return after < end && rows[after]!.at > at && (before < 0 || rows[before]!.at < at);
}

/** What belongs to the next stop with an odometer reading. */
export interface Carried {
  readonly litres: number;
  readonly variance: number;
  readonly taken: number;
  readonly missed: boolean;
}

const NOTHING: Carried = { litres: 0, variance: 0, taken: 0, missed: false };

/** What the segments are made of; litres of an entry without odometer belong to the next one with it. */
export function stopsOf(
  rows: readonly Row[],
  journal: Closing["journal"],
  from: number,
  before: Carried = NOTHING,
): { readonly stops: Stop[]; readonly carried: Carried } {
  const stops: Stop[] = [];
  let { litres, variance, taken, missed } = before;
  for (let n = from; n < rows.length; n++) {
    const row = rows[n]!;
    const { entry_id, tank_ids = [], refused = false } = row.step;
    const unused = refused || journal.outcomes[n]!.held !== null;
    missed = missed || row.missed || (unused && tank_ids.length > 0);
    if (!unused) {
      litres += row.litres;
      variance += row.variance;
      taken += row.taken;
    }
    if (!row.located) continue;
    stops.push({
      id: entry_id,
      odometer_km: row.at,
      litres_l: litres,
      full: row.full && !unused,
      missed_before: missed,
      litres_u_l: Math.sqrt(variance),
      taken_l: taken,
    });
    ({ litres, variance, taken, missed } = NOTHING);
  }
  return { stops, carried: { litres, variance, taken, missed } };
}

/** Of each segment the class that has most of its way, by the ways up to an entry. */
export function topsOf(
  closed: readonly Segment[],
  waysAt: (id: string) => Readonly<Record<string, number>>,
): string[] {
  return closed.map(({ from_id, to_id }) => {
    const [before, after] = [waysAt(from_id), waysAt(to_id)];
    const gained = (name: string) => (after[name] ?? 0) - (before[name] ?? 0);
    return CLASSES.reduce((best, name) => (gained(name) > gained(best) ? name : best));
  });
}

const CLASSES = allClasses();

/** How often each name occurs. */
export function counted(names: readonly string[]): Record<string, number> {
  const counts: Record<string, number> = {};
  for (const name of names) counts[name] = (counts[name] ?? 0) + 1;
  return counts;
}
