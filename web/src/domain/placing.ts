/** Where an entry of a log belongs: by its odometer where that is known, else by when it happened. */
import { type DomainError, OutOfRange } from "./errors";

/** What an entry needs to be placed: id, UTC second, order of recording, and the odometer if it is known. */
export interface Placed {
  readonly id: string;
  readonly at_s: number;
  readonly sequence: number;
  readonly odometer_km?: number | null;
}

/** Something to say about one entry; refused: not used, held: only in the other answer, asked and noted: used. */
export interface Finding {
  readonly entry_id: string;
  readonly code: string;
  readonly standing: "refused" | "held" | "asked" | "noted";
  readonly field: string;
  readonly value: number | string | null;
  readonly low: number | null;
  readonly high: number | null;
  readonly unit: string;
  /** Litres of a fill that may be missing before it, with u; without a u at least so many. */
  readonly missing_l: number | null;
  readonly missing_u_l: number | null;
}

/** Ids in the order in which they happened, and what is to be said about the places. */
export interface Places {
  readonly ids: readonly string[];
  readonly findings: readonly Finding[];
}

type Given = Pick<Finding, "entry_id" | "code" | "standing" | "field"> & Partial<Finding>;

/** A finding with what is not said left blank. */
export function finding(given: Given): Finding {
  const blank = { value: null, low: null, high: null, unit: "", missing_l: null, missing_u_l: null };
  return { ...blank, ...given };
}

export interface FindingOf {
  readonly entry_id: string;
  readonly error: DomainError;
  readonly code?: string | null;
}

/** A refusal of the domain as a finding about the entry that caused it. */
export function findingOf({ entry_id, error, code }: FindingOf): Finding {
  const plain = typeof error.value === "number" || typeof error.value === "string";
  const value = plain ? (error.value as number | string) : null;
  const about: Given = { entry_id, code: code ?? error.code, standing: "refused", field: error.field, value };
  if (!(error instanceof OutOfRange)) return finding(about);
  return finding({ ...about, low: error.low ?? error.above, high: error.high, unit: error.unit });
}

export interface Place {
  readonly entries: readonly Placed[];
}

/** Put entries in order and find those whose odometer goes backwards; a late one takes its place by odometer. */
export function place({ entries }: Place): Places {
  const known = entries.filter((one) => one.odometer_km != null).sort(byTime);
  const steady = longestRise({ values: known.map(odometer) });
  const run = steady.map((i) => known[i]!);
  const keys = new Map<string, Key>(run.map((one) => [one.id, { at: odometer(one), blank: 0, one }]));
  const onRun = new Set(steady);
  const findings: Finding[] = [];
  for (const [n, one] of known.entries()) {
    if (onRun.has(n)) continue;
    const late = isLate(one, run);
    findings.push(late ? lateFinding(one) : backwards(one, run));
    if (late) keys.set(one.id, { at: odometer(one), blank: 0, one });
  }
  for (const one of entries) {
    if (one.odometer_km != null) continue;
    const n = firstAfter(run, (other) => other.at_s > one.at_s);
    keys.set(one.id, { at: n > 0 ? odometer(run[n - 1]!) : Number.NEGATIVE_INFINITY, blank: 1, one });
  }
  return { ids: [...keys.values()].sort(byKey).map((key) => key.one.id), findings };
}

export interface LongestRise {
  readonly values: readonly number[];
}

/** Indices of the longest subsequence that never falls; where several are longest, one that ends early. */
export function longestRise({ values }: LongestRise): number[] {
  const tops: number[] = [];
  const piles: number[][] = [];
  for (const [i, value] of values.entries()) {
    const pile = firstAfter(tops, (top) => top > value);
    tops[pile] = value;
    if (piles[pile]) piles[pile].push(i);
    else piles.push([i]);
  }
  const rise: number[] = [];
  for (let n = piles.length - 1; n >= 0; n--) {
    const after = rise.at(-1);
    const pile = piles[n]!;
    rise.push(after === undefined ? pile[0]! : pile.find((i) => i < after && values[i]! <= values[after]!)!);
  }
  return rise.reverse();
}

interface Key {
  readonly at: number;
  readonly blank: number;
  readonly one: Placed;
}

function byKey(a: Key, b: Key): number {
  if (a.at !== b.at) return a.at < b.at ? -1 : 1;
  return a.blank - b.blank || byTime(a.one, b.one);
}

/** In order of time, then of recording. */
export function byTime(a: Placed, b: Placed): number {
  return a.at_s - b.at_s || a.sequence - b.sequence || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0);
}

function odometer(one: Placed): number {
  return one.odometer_km ?? 0;
}

/** Index of the first element for which `after` holds, in a list where it holds from some element on. */
function firstAfter<T>(list: readonly T[], after: (one: T) => boolean): number {
  let [low, high] = [0, list.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (after(list[middle]!)) high = middle;
    else low = middle + 1;
  }
  return low;
}

function isLate(one: Placed, run: readonly Placed[]): boolean {
  const n = firstAfter(run, (other) => odometer(other) > odometer(one));
  return n > 0 && n < run.length && one.sequence > run[n]!.sequence;
}

function lateFinding(one: Placed): Finding {
  const about = { entry_id: one.id, code: "late", standing: "noted", field: "odometer_km" } as const;
  return finding({ ...about, value: odometer(one), unit: "km" });
}

function backwards(one: Placed, run: readonly Placed[]): Finding {
  const n = firstAfter(run, (other) => byTime(other, one) > 0);
  return finding({
    entry_id: one.id,
    code: "odometer_backwards",
    standing: "refused",
    field: "odometer_km",
    value: odometer(one),
    low: n > 0 ? odometer(run[n - 1]!) : null,
    high: n < run.length ? odometer(run[n]!) : null,
    unit: "km",
  });
}
