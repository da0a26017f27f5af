/** The entries of a fuel log in their places; what follows an ordered log in every respect is put at its end. */
import type { FuelEntry } from "./entries";
import { byTime, type Finding, type Placed, place } from "./placing";
import type { TankReader } from "./tank_reader";

/** Entries checked and placed; `findings` are of the checks, then of the places. */
export interface Order {
  readonly entries: readonly FuelEntry[];
  /** One whose odometer cannot be has none here, and stands where its time puts it. */
  readonly placed: readonly FuelEntry[];
  readonly refused: ReadonlySet<string>;
  readonly checked: readonly Finding[];
  readonly odd: readonly Finding[];
  readonly end: End | null;
}

/** What an entry must lie beyond to be placed at the end whatever came before; null where that cannot be said. */
export interface End {
  readonly at_s: number;
  readonly sequence: number;
  readonly odometer_km: number;
}

export interface OrderOf {
  readonly reader: TankReader;
  readonly entries: readonly FuelEntry[];
  readonly before: Order | null;
}

/** Check and place the entries; of an order that they continue only what is new. */
export function orderOf({ reader, entries, before }: OrderOf): Order {
  return (before && continued(reader, entries, before)) ?? anew(reader, entries, null);
}

export interface OrderAfter extends Omit<OrderOf, "before"> {
  readonly last: Placed;
}

/** Check and place entries that all lie beyond others, of which this is the last with an odometer reading. */
export function orderAfter({ reader, entries, last }: OrderAfter): Order {
  return anew(reader, entries, last);
}

/** A ratio after those of the changes among these entries, so that indicated km of all times are km of today. */
export function ratioAfter(
  ratio: number,
  placed: readonly FuelEntry[],
  refused: ReadonlySet<string>,
): number {
  let now = ratio;
  for (const entry of placed) if (entry.kind === "change" && !refused.has(entry.id)) now /= entry.ratio ?? 1;
  return now;
}

/** How many of the placed entries are the same, and say the same, in both. */
export function sameUntil(before: Order, after: Order, changed: ReadonlySet<string>): number {
  const same = (n: number) => {
    const one = after.placed[n]!;
    return (
      one === before.placed[n] &&
      before.refused.has(one.id) === after.refused.has(one.id) &&
      !changed.has(one.id)
    );
  };
  let n = 0;
  while (n < Math.min(before.placed.length, after.placed.length) && same(n)) n++;
  // what stands behind the last place on the way is read otherwise than what stands before it
  const last = (order: Order) => order.placed.findLastIndex((one) => one.odometer_km != null);
  const [was, now] = [last(before), last(after)];
  return was === now ? n : Math.min(n, Math.min(was, now) + 1);
}

function continued(reader: TankReader, entries: readonly FuelEntry[], before: Order): Order | null {
  const count = before.entries.length;
  if (entries.length < count || before.entries.some((one, n) => one !== entries[n])) return null;
  const more = entries.slice(count);
  let { end } = before;
  for (const one of more) {
    end = end && beyond(one, end);
    if (!end || before.entries.some((other) => other.id === one.id)) return null;
  }
  const [placeable, refused] = reader.check(more);
  if (placeable.length < more.length) return null;
  return {
    entries,
    placed: [...before.placed, ...placeable],
    refused: new Set([...before.refused, ...refused]),
    checked: [...before.checked, ...reader.findings.splice(0)],
    odd: before.odd,
    end,
  };
}

function anew(reader: TankReader, entries: readonly FuelEntry[], last: Placed | null): Order {
  const before = last ? [last] : [];
  const [placeable, refused] = reader.check(entries);
  const checked = reader.findings.splice(0);
  const { ids, findings: odd } = place({ entries: [...before, ...placeable] });
  const wrong = new Set(odd.filter((one) => one.standing === "refused").map((one) => one.entry_id));
  for (const id of wrong) refused.add(id);
  const told = placeable.map((one) => (wrong.has(one.id) ? withoutOdometer(one) : one));
  const byId = new Map(told.map((entry) => [entry.id, entry]));
  const places = wrong.size > 0 ? place({ entries: [...before, ...told] }).ids : ids;
  const placed = places.flatMap((id) => byId.get(id) ?? []);
  return { entries, placed, refused, checked, odd, end: endOf(placeable, odd) };
}

/** Made once, so that the same entry is the same again. */
function withoutOdometer(entry: FuelEntry): FuelEntry {
  const told = TOLD.get(entry) ?? { ...entry, odometer_km: null };
  TOLD.set(entry, told);
  return told;
}

const TOLD = new WeakMap<FuelEntry, FuelEntry>();

/** What lies beyond all of these; null where the last odometer reading does not fit. */
export function endOf(entries: readonly FuelEntry[], odd: readonly Finding[]): End | null {
  const off = new Set(odd.map((one) => one.entry_id));
  const latest = entries.reduce<FuelEntry | null>(
    (last, one) => (one.odometer_km != null && (!last || byTime(one, last) > 0) ? one : last),
    null,
  );
  // an odometer that does not fit at the very end may fit once another follows
  if (!latest || off.has(latest.id)) return null;
  return {
    at_s: entries.reduce((most, one) => Math.max(most, one.at_s), latest.at_s),
    sequence: entries.reduce((most, one) => Math.max(most, one.sequence), latest.sequence),
    odometer_km: latest.odometer_km!,
  };
}

/** The end after an entry beyond it, or null. */
export function beyond({ at_s, sequence, odometer_km }: FuelEntry, end: End): End | null {
  const later = at_s > end.at_s && sequence > end.sequence;
  if (!later || (odometer_km != null && !(odometer_km > end.odometer_km))) return null;
  return { at_s, sequence, odometer_km: odometer_km ?? end.odometer_km };
}
