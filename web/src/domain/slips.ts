/**
 * Readings that do not agree: which one to take again, and which single slips would make the sum fit. A slip is a
 * question to the person who typed, never applied.
 */
import { type Bridge, canWeigh } from "./bridge";
import { belowZero, type Deck, deckSums, type ReadDeck, readDeck } from "./deck";
import { type Loads, valueKg } from "./statics";
import { axleKey, FRICTION_SHARE, mergeRepeats, type Reading, stateKey } from "./weighing";

export const POUND_KG = 0.45359237; // international agreement of 1959, NIST SP 811
export const EQUAL = 1e-6; // doubts nearer to each other than this share are the same but for rounding
export const APART_SD = 4; // repeats that differ by more standard deviations are not one figure (our choice)
export const SETS: readonly (readonly string[])[] = [["front"], ["rear"], ["front", "rear"]];
export const TOWED_SETS: readonly (readonly string[])[] = [
  ...SETS,
  ["front", "rear", "trailer_axles"],
  ["trailer_axles"],
  ["rear", "trailer_axles"],
];

/** One slip that would make the readings fit: what the reading would then be, and p of the sum check. */
export interface Slip {
  readonly reading_id: string;
  /** digits_swapped, wrong_axles, pounds, somebody_out (`part_id`) or uncoupled. */
  readonly kind: string;
  readonly value_kg: number;
  readonly axles: readonly string[];
  readonly part_id: string | null;
  readonly p: number | null;
}

/** The digits of a reading as typed, and how many kg one of its units is. */
export interface Typed {
  readonly digits: string;
  readonly unit_kg?: number;
}

export interface RepeatsApart {
  readonly readings: readonly Reading[];
  readonly bridge: Bridge;
}

/** Ids of repeats of one set in one state that rounding and friction alone cannot explain. */
export function repeatsApart({ readings, bridge }: RepeatsApart): string[] {
  const groups = new Map<string, Reading[]>();
  for (const one of readings) {
    const key = [axleKey(one), one.deck ?? "", one.approach ?? "", stateKey(one)].join("|");
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups.values()].flatMap((group) => {
    const values = group.map((one) => one.value_kg);
    const most = Math.max(...values);
    const sd = Math.sqrt(2 * (bridge.displayed_kg ** 2 / 12 + (FRICTION_SHARE * most) ** 2));
    return most - Math.min(...values) > APART_SD * sd ? group.map((one) => one.id) : [];
  });
}

export interface SlipsOf extends ReadDeck {
  readonly typed: Readonly<Record<string, Typed>>;
}

/** Every single slip that would make readings that disagree fit, the best fit first; repeats are not merged yet. */
export function slips(given: SlipsOf): Slip[] {
  const { readings, bridge, deck, typed } = given;
  const apart = repeatsApart({ readings, bridge });
  const out: Slip[] = [];
  for (const [k, reading] of readings.entries())
    for (const { kind, other, part_id } of changed(reading, deck, typed[reading.id] ?? null)) {
      if (!canWeigh({ bridge, value_kg: other.value_kg })) continue;
      const { fits, p } = check({ ...given, readings: readings.map((one, i) => (i === k ? other : one)) });
      if (fits && (p !== null || apart.includes(reading.id)))
        out.push({ reading_id: reading.id, kind, value_kg: other.value_kg, axles: other.axles, part_id, p });
    }
  return out.sort((a, b) => (b.p ?? 0) - (a.p ?? 0));
}

export interface ToRepeat extends ReadDeck {
  readonly planned: Loads | null;
}

/** Which reading to take again: the one that the others, or the plan, speak against most. */
export function toRepeat({ readings, bridge, setup = null, deck, planned }: ToRepeat): string | null {
  const apart = repeatsApart({ readings, bridge });
  if (apart.length > 0) return apart.at(-1) as string;
  const merged = mergeRepeats({ readings });
  const sums = deckSums({ readings: merged, deck });
  const found = readDeck({ readings: merged, bridge, setup, deck });
  const used = merged.filter((one) => sums.used.includes(one.id));
  if (!found || used.length === 0) return null;
  const first = (values: readonly number[]) => firstOf(used, values);
  if (found.dof > 1) return first(used.map((_, i) => found.z[i] ?? 0));
  if (planned && sums.names.every((name) => planned.rows.includes(name))) {
    const expected = sums.names.map((name) => valueKg(planned, name));
    return first(
      sums.values_kg.map((value, i) =>
        Math.abs(value - sums.rows[i]!.reduce((sum, c, k) => sum + c * expected[k]!, 0)),
      ),
    );
  }
  return first(used.map((one) => one.axles.length));
}

/** The reading of the greatest doubt; of equals to rounding the first. */
function firstOf(readings: readonly Reading[], doubts: readonly number[]): string {
  const most = Math.max(...doubts);
  return readings[doubts.findIndex((doubt) => doubt >= most - EQUAL * most)]!.id;
}

function check(given: ReadDeck): { readonly fits: boolean; readonly p: number | null } {
  if (repeatsApart(given).length > 0) return { fits: false, p: null };
  const found = readDeck({ ...given, readings: mergeRepeats(given) });
  const fits = !found || (found.agree && belowZero({ found }).length === 0);
  return { fits, p: found?.p ?? null };
}

interface Changed {
  readonly kind: string;
  readonly other: Reading;
  readonly part_id: string | null;
}

/** A reading with each slip undone: its kind, the reading as it would then be, and who was out. */
function* changed(reading: Reading, deck: Deck, typed: Typed | null): Iterable<Changed> {
  if (typed) {
    const { digits, unit_kg = 1 } = typed;
    for (const other of swappedDigits({ digits }))
      yield slip("digits_swapped", { ...reading, value_kg: Number(other) * unit_kg });
    if (unit_kg === 1) yield slip("pounds", { ...reading, value_kg: reading.value_kg * POUND_KG });
  }
  for (const axles of deck.towed && !reading.uncoupled ? TOWED_SETS : SETS)
    if (axles.length !== reading.axles.length || axles.some((axle) => !reading.axles.includes(axle)))
      yield slip("wrong_axles", { ...reading, axles, split: splits(axles) });
  const { without = [] } = reading;
  for (const { id } of deck.occupants ?? [])
    if (!without.includes(id)) yield slip("somebody_out", { ...reading, without: [...without, id] }, id);
  if (deck.towed && !reading.axles.some((axle) => axle === "trailer" || axle === "trailer_axles"))
    yield slip("uncoupled", { ...reading, uncoupled: !reading.uncoupled });
}

function slip(kind: string, other: Reading, part_id: string | null = null): Changed {
  return { kind, other, part_id };
}

/** All figures that two neighbouring digits swapped make of this one; a leading zero is none. */
export function swappedDigits({ digits }: { readonly digits: string }): string[] {
  const places = [...digits].flatMap((sign, i) => (sign >= "0" && sign <= "9" ? [i] : []));
  return places.slice(1).flatMap((j, k) => {
    const i = places[k]!;
    if (digits[i] === digits[j]) return [];
    const other = digits.slice(0, i) + digits[j] + digits.slice(i + 1, j) + digits[i] + digits.slice(j + 1);
    return other.startsWith("0") ? [] : [other];
  });
}

function splits(axles: readonly string[]): boolean {
  return !(axles.includes("front") && axles.includes("rear"));
}
