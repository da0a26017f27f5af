/** Plates as their page shows them: what is in force, what each plate changed, what its tyres say, the what-if. */
import type { Book, Row } from "../domain/book";
import { compare } from "../domain/comparison";
import type { Judged } from "../domain/judge";
import { CONFIDENCE } from "../domain/limits";
import { axleCounts, type Change, changesBy, type Rating, ratingsOf } from "../domain/plates";
import { rejudged } from "../domain/rejudge";
import {
  DIAMETER_U_M,
  type Factor,
  type Fitted,
  fitted,
  highestReadingKmh,
  odometerFactor,
  revolutionsPerKm,
} from "../domain/tyres";

/** The odometer after a change of tyre size, as far as it read true before. */
export interface Resized extends Factor {
  readonly before: Row;
  /** What a speedometer shows at a true 100 km/h, and what UN R39 has it show at most. */
  readonly shown_kmh: number;
  readonly most_kmh: number;
}

export interface TyresTold extends Fitted {
  /** On one axle. */
  readonly tyres: number;
  readonly turns_per_km: number | null;
  readonly resized: Resized | null;
}

export interface PlateLine {
  readonly plate: Row;
  readonly planned: boolean;
  readonly changes: readonly Change[];
  readonly tyres: TyresTold | null;
  /** What the combination leaves for the trailer's axles with the vehicle full to its gross rating, kg. */
  readonly left_kg: readonly [before: number | null, after: number | null];
}

/** Every plate, those that are only planned first, then the newest; planned ones laid over the ratings of a day. */
export function plateLines(book: Book, day: string): PlateLine[] {
  return [...book.plates].sort(newestFirst).map((plate) => {
    const trailer_id: string | null = plate.body.trailer_id ?? null;
    const axles = axleCounts({ book, trailer_id });
    const changes = changesBy({ plates: book.plates, plate_id: plate.id, day, trailer_id, axles });
    const left_kg = [leftFor(changes, "before"), leftFor(changes, "after")] as const;
    return { plate, planned: isPlanned(plate), changes, tyres: tyresOf(book, plate), left_kg };
  });
}

function leftFor(changes: readonly Change[], when: "before" | "after"): number | null {
  const of = (rating: string) => changes.find((one) => one.rating === rating)?.[when].limit_kg ?? null;
  const [combination, gross] = [of("combination"), of("gross")];
  return combination === null || gross === null ? null : Math.max(0, combination - gross);
}

function tyresOf(book: Book, plate: Row): TyresTold | null {
  if (plate.body.of !== "tyres") return null;
  const found = fitted(plate.body);
  const { diameter_m } = found;
  return {
    ...found,
    tyres: plate.body.tyres_per_axle ?? 2,
    turns_per_km: diameter_m === null ? null : revolutionsPerKm({ diameter_m }),
    resized: diameter_m === null || ofTrailer(plate) ? null : resizedFrom(book, plate, diameter_m),
  };
}

/** Against the latest earlier tyres of the vehicle whose size can be read, where that was another. */
function resizedFrom(book: Book, plate: Row, diameter_m: number): Resized | null {
  const earlier = book.plates
    .filter((one) => one.body.of === "tyres" && !isPlanned(one) && !ofTrailer(one))
    .filter((one) => one.id !== plate.id && newestFirst(one, plate) > 0)
    .sort(newestFirst)
    .find((one) => fitted(one.body).diameter_m !== null);
  const from_diameter_m = earlier ? fitted(earlier.body).diameter_m! : diameter_m;
  if (!earlier || Math.abs(from_diameter_m - diameter_m) < SAME_SIZE_M) return null;
  const worn = { from_u_m: DIAMETER_U_M, to_u_m: DIAMETER_U_M };
  const factor = odometerFactor({ from_diameter_m, to_diameter_m: diameter_m, ...worn });
  const most_kmh = highestReadingKmh({ true_speed_kmh: SPEED_KMH });
  return { ...factor, before: earlier, shown_kmh: SPEED_KMH / factor.factor, most_kmh };
}

/** Less than a printed size tells apart (assumed). */
const SAME_SIZE_M = 0.0005;
const SPEED_KMH = 100;

/** The latest weighing under other ratings: the same values with the same u. */
export interface WhatIf {
  readonly at: string;
  readonly zone: string;
  readonly day: readonly Anew[];
  /** All full, all aboard: without a trailer, then with each. */
  readonly full: readonly { readonly trailer: string | null; readonly rows: readonly Anew[] }[];
}

export interface Anew {
  readonly now: Judged;
  readonly then: Judged;
}

/** The latest weighing's comparison judged under `ratings`, beside what those of `today` say; null if none. */
export function whatIf(book: Book, ratings: readonly Rating[], today: readonly Rating[]): WhatIf | null {
  const latest = book.weighings.at(-1);
  if (!latest) return null;
  const found = compare({ book, weighing_id: latest.id });
  const confidence: number = book.vehicle?.body.confidence ?? CONFIDENCE;
  const anew = (judged: readonly Judged[]) => {
    const now = rejudged({ judged, ratings: today, confidence });
    return rejudged({ judged, ratings, confidence }).map((then, k) => ({ now: now[k]!, then }));
  };
  const full = found.forecasts.map((one) => ({
    trailer: book.trailers.find(({ id }) => id === one.trailer_id)?.body.name ?? null,
    rows: anew(one.full),
  }));
  return { at: found.at, zone: latest.body.zone, day: anew(found.day), full };
}

function isPlanned(plate: Row): boolean {
  return plate.body.standing === "planned";
}

function ofTrailer(plate: Row): boolean {
  return Boolean(plate.body.trailer_id) || plate.body.tyre_axle === "trailer";
}

function newestFirst(a: Row, b: Row): number {
  if (isPlanned(a) !== isPlanned(b)) return isPlanned(a) ? -1 : 1;
  const [first, second] = [a.body.date_from ?? "", b.body.date_from ?? ""];
  if (first !== second) return first < second ? 1 : -1;
  return (b.order ?? 0) - (a.order ?? 0) || (a.id < b.id ? 1 : -1);
}

export type { Change, Judged, Rating };
export { ratingsOf };
