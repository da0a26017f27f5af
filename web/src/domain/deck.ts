/**
 * What stood on the deck: each reading as a sum of the visit's unknown loads, in the state of the visit. Uncoupled, the
 * vehicle stands without its coupling load and the trailer with it; who was out is a mass that the state knows.
 */
import { type FixedSums, fixedSums } from "./agreement";
import { coefficient, type Geometry, line, SINGLES, WHEELS } from "./axles";
import type { Bridge } from "./bridge";
import type { Part } from "./statics";
import { type Reading, readingCovariance, type SplitSetup } from "./weighing";

export const ENDS: readonly string[] = ["front", "rear"];
export const IMPOSSIBLE_SD = 3; // below zero by so many u is no chance of the scale (our choice)

/** How the loads of a visit hang together; `geometry` is null where the wheelbase is not known. */
export interface Deck {
  readonly geometry?: Geometry | null;
  /** A trailer was coupled in the state of the visit. */
  readonly towed?: boolean;
  readonly occupants?: readonly Part[];
}

/** Readings as sums: `rows` over `names`, what a reading has beyond them, and which readings can be used. */
export interface Sums {
  readonly names: readonly string[];
  readonly rows: readonly (readonly number[])[];
  readonly values_kg: readonly number[];
  readonly extra_kg2: readonly number[];
  readonly used: readonly string[];
  readonly wanted: Readonly<Record<string, readonly number[]>>;
}

export interface DeckSums {
  readonly readings: readonly Reading[];
  readonly deck: Deck;
}

/** The readings of one visit as sums of its loads; one that needs a length that is not known is left out. */
export function deckSums({ readings, deck }: DeckSums): Sums {
  const split = splitEnds(readings);
  const found = readings.flatMap((reading) => {
    const one = termsOf(reading, deck, split);
    return one ? [{ reading, ...one }] : [];
  });
  const used = found.map((one) => one.reading);
  const out = new Set(used.flatMap((reading) => [...(reading.without ?? [])]));
  const masses = (deck.occupants ?? []).filter((part) => out.has(part.id));
  const names = [...new Set(found.flatMap((one) => [...one.terms.keys()]))];
  return {
    names,
    rows: [
      ...found.map((one) => names.map((name) => one.terms.get(name) ?? 0)),
      ...masses.map((part) => names.map((name) => (name === part.id ? 1 : 0))),
    ],
    values_kg: [
      ...found.map((one) => one.reading.value_kg - one.offset),
      ...masses.map((part) => part.mass_kg),
    ],
    extra_kg2: [
      ...used.map((reading) => placeKg2(reading, deck)),
      ...masses.map((part) => part.mass_u_kg ** 2),
    ],
    used: used.map((reading) => reading.id),
    wanted: wantedOf(names, split, deck.towed ?? false),
  };
}

export interface ReadDeck extends DeckSums {
  readonly bridge: Bridge;
  readonly setup?: SplitSetup | null;
}

/** The loads that the readings fix without any plan, and whether they agree; null without a usable reading. */
export function readDeck({ readings, bridge, setup = null, deck }: ReadDeck): FixedSums | null {
  const sums = deckSums({ readings, deck });
  const used = readings.filter((reading) => sums.used.includes(reading.id));
  if (used.length === 0) return null;
  const own = readingCovariance({ readings: used, bridge, setup });
  const covariance = sums.extra_kg2.map((extra, i) =>
    sums.extra_kg2.map((_, j) => (own[i]?.[j] ?? 0) + (i === j ? extra : 0)),
  );
  return fixedSums({ sums: sums.rows, values_kg: sums.values_kg, covariance, wanted: sums.wanted });
}

/** Rows that stand on wheels and came out below zero by more than three u: no readings of one vehicle give that. */
export function belowZero({ found }: { readonly found: FixedSums }): string[] {
  return found.rows.filter(
    (row, k) => row !== "coupling" && found.mean_kg[k]! < -IMPOSSIBLE_SD * Math.sqrt(found.cov_kg2[k]![k]!),
  );
}

type Split = ReadonlyMap<string, readonly string[]>;

/** Each end of the vehicle and the loads that it is made of on this visit. */
function splitEnds(readings: readonly Reading[]): Split {
  const read = new Set(readings.flatMap((reading) => [...reading.axles]));
  return new Map(
    ENDS.map((end) => {
      const wheels = WHEELS.filter((wheel) => wheel.startsWith(end));
      if (wheels.some((wheel) => read.has(wheel))) return [end, wheels];
      const singles = end === "rear" ? SINGLES : [];
      return [end, singles.some((axle) => read.has(axle)) ? singles : [end]];
    }),
  );
}

interface Terms {
  readonly terms: ReadonlyMap<string, number>;
  readonly offset: number;
}

/** Coefficients of one reading and what it has beyond them, kg. */
function termsOf(reading: Reading, deck: Deck, split: Split): Terms | null {
  const { geometry = null, towed = false, occupants = [] } = deck;
  const terms = new Map<string, number>();
  let offset = 0;
  for (const name of reading.axles.flatMap((axle) => split.get(axle) ?? [axle]))
    if (name !== "trailer" || !towed) terms.set(name, (terms.get(name) ?? 0) + 1);
  if ((reading.without ?? []).some((name) => !occupants.some((part) => part.id === name))) return null;
  if (reading.uncoupled && towed) {
    const apart = uncoupled(reading, geometry, split);
    if (!apart) return null;
    offset = apart.offset;
    if (reading.axles.includes("trailer")) terms.set("trailer_axles", 1);
    if (apart.share) terms.set("coupling", apart.share);
  }
  for (const part of occupants.filter((one) => reading.without?.includes(one.id))) {
    const felt = feltBy(reading, part, geometry, split);
    if (felt === null) return null;
    terms.set(part.id, -felt);
  }
  return { terms, offset };
}

/** Share of the coupling load in a reading taken uncoupled, and what a levelling hitch's moment adds. */
function uncoupled(
  reading: Reading,
  geometry: Geometry | null,
  split: Split,
): { readonly share: number; readonly offset: number } | null {
  let share = reading.axles.includes("trailer") ? 1 : 0;
  let offset = 0;
  const ends = vehicleAxles(reading);
  if (ends.length === 0) return { share, offset };
  if (whole(ends, split)) return { share: share - 1, offset };
  if (geometry?.coupling_x_m == null || ends.some((end) => ![...ENDS, ...SINGLES].includes(end))) return null;
  if (!ends.every((end) => known(end, geometry))) return null;
  const tau = geometry.trailer?.hitch_moment_kgm ?? 0;
  for (const end of ends) {
    const [c0, c1] = line({ row: end, geometry });
    share -= c0 + c1 * geometry.coupling_x_m;
    offset += c1 * tau;
  }
  return { share, offset };
}

/** Which share of somebody's mass the axles on the deck would feel. */
function feltBy(reading: Reading, part: Part, geometry: Geometry | null, split: Split): number | null {
  const ends = vehicleAxles(reading);
  if (ends.length === 0) return 0;
  if (whole(ends, split)) return 1;
  if (!geometry || !ends.every((axle) => known(axle, geometry))) return null;
  return ends.reduce(
    (sum, row) => sum + coefficient({ row, geometry, x_m: part.x_m, y_m: part.y_m ?? 0 }).share,
    0,
  );
}

function vehicleAxles(reading: Reading): string[] {
  return reading.axles.filter((axle) => axle !== "trailer" && axle !== "trailer_axles");
}

/** Whether all of the vehicle stands on them. */
function whole(axles: readonly string[], split: Split): boolean {
  return [...split].every(([end, parts]) => axles.includes(end) || parts.every((one) => axles.includes(one)));
}

function known(axle: string, geometry: Geometry): boolean {
  if (SINGLES.includes(axle)) return geometry.spread_m != null;
  return !WHEELS.includes(axle) || (geometry.front_track_m != null && geometry.rear_track_m != null);
}

/** Variance from where the people sit who were out, (m^2 + u^2) (c1 u_x)^2. */
function placeKg2(reading: Reading, { geometry = null, occupants = [] }: Deck): number {
  const ends = reading.axles.filter((axle) => ENDS.includes(axle));
  if (!geometry || ends.length !== 1) return 0;
  const [, c1] = line({ row: ends[0] as string, geometry });
  return occupants
    .filter((part) => reading.without?.includes(part.id))
    .reduce(
      (sum, part) => sum + (part.mass_kg ** 2 + part.mass_u_kg ** 2) * (c1 * (part.x_u_m ?? 0)) ** 2,
      0,
    );
}

/** Every row that the unknown loads add up to. */
function wantedOf(names: readonly string[], split: Split, towed: boolean): Record<string, number[]> {
  const gross = [...split.values()].flat();
  const rows: Record<string, readonly string[]> = {
    front: split.get("front") ?? [],
    rear: split.get("rear") ?? [],
    gross,
  };
  for (const [end, parts] of split) for (const name of parts) if (name !== end) rows[name] = [name];
  if (towed) {
    rows.trailer_axles = ["trailer_axles"];
    rows.coupling = ["coupling"];
    rows.trailer = ["trailer_axles", "coupling"];
    rows.combination = [...gross, "trailer_axles"];
  } else rows.trailer = ["trailer"];
  return Object.fromEntries(
    Object.entries(rows)
      .filter(([, parts]) => parts.every((name) => names.includes(name)))
      .map(([row, parts]) => [row, names.map((name) => (parts.includes(name) ? 1 : 0))]),
  );
}
